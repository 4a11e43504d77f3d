/** Every row as it would be written; what is wrong stands under it and is mended in its cell. */
import { Mark } from '../../../parts/index.ts';
import type { BroughtRow } from './brought-row.ts';
import type { Filled } from './mapping.ts';
import './preview-table.css';

export function PreviewTable({
  rows,
  columns,
  nameOf,
  samples,
  isTaken,
  onTake,
  onMend,
}: {
  rows: readonly BroughtRow[];
  columns: readonly Filled[];
  nameOf: (column: Filled) => string;
  samples: readonly string[];
  isTaken: (row: BroughtRow) => boolean;
  onTake: (line: number, take: boolean) => void;
  onMend: (line: number, column: string, typed: string) => void;
}) {
  const width = columns.length + 2;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard
    <section className="ruled-scroll" tabIndex={0} aria-label="Rows as they would be written">
      <table className="ruled preview">
        <caption>As they would be written</caption>
        <thead>
          <tr>
            <th scope="col">line</th>
            <th scope="col">take</th>
            {columns.map((column) => (
              <th key={column} scope="col">
                {nameOf(column)}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => {
            const faults = Object.entries(row.faults);
            const words = [
              ...(row.known === null ? [] : [`${row.known}; it is left out unless you take it.`]),
              ...row.doubts,
              ...faults.map(
                ([column, fault]) =>
                  `${nameOf(column as Filled)}: found ${fault!.found === '' ? 'nothing' : `“${fault!.found}”`}; expected ${fault!.expected}. ${fault!.fix}`,
              ),
            ];
            return [
              <tr key={row.line} className={isTaken(row) ? undefined : 'left-out'} data-line={row.line}>
                <th scope="row">{row.line}</th>
                <td>
                  <input
                    type="checkbox"
                    aria-label={`Take line ${row.line}`}
                    checked={isTaken(row)}
                    onChange={(event) => onTake(row.line, event.target.checked)}
                  />
                </td>
                {columns.map((column) => (
                  <td key={column}>
                    {row.faults[column] === undefined ? (
                      (row.cells[column] ?? '')
                    ) : (
                      <input
                        aria-label={`${nameOf(column)}, line ${row.line}`}
                        aria-invalid="true"
                        title={`${row.faults[column].fix} Correct it here; what the laboratory wrote stays in its file.`}
                        defaultValue={row.cells[column] ?? ''}
                        list={column === 'sample' ? 'samples-here' : undefined}
                        onBlur={(event) => {
                          if (event.target.value !== (row.cells[column] ?? '')) {
                            onMend(row.line, column, event.target.value.trim());
                          }
                        }}
                        onKeyDown={(event) => {
                          if (event.key === 'Enter') event.currentTarget.blur();
                        }}
                      />
                    )}
                  </td>
                ))}
              </tr>,
              words.length === 0 ? null : (
                <tr key={`${row.line} faults`} className={faults.length > 0 ? 'faults' : 'faults doubtful'}>
                  <td />
                  <td colSpan={width - 1}>
                    {words.map((text) => (
                      <p key={text}>
                        <Mark
                          name={faults.length > 0 ? 'stop' : row.doubts.length > 0 ? 'close' : 'note'}
                          size={16}
                        />{' '}
                        {text}
                      </p>
                    ))}
                  </td>
                </tr>
              ),
            ];
          })}
        </tbody>
      </table>
      <datalist id="samples-here">
        {samples.map((sample) => (
          <option key={sample} value={sample} />
        ))}
      </datalist>
    </section>
  );
}

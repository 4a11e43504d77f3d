/** The lines of a tide table: date, time and height as typed, what comes of them, and below a line what is odd in it. */
import {
  TABLE_ENTRIES,
  type TableCells,
  type TableEntry,
  type TableRead,
  tableCellsIn,
} from '../../../../days/index.ts';
import { GridCell, Mark, signed } from '../../../../parts/index.ts';
import type { WaterLine } from './table-lines.ts';

const HELP: Readonly<Record<TableEntry, string>> = {
  date: 'Year-month-day; empty: that of the line above, or the next day where the time has run back',
  time: 'By the clock of the table, as printed',
  height: 'Above the zero of the table, with ft for feet; HW or LW may follow',
};

export function TableGrid({
  lines,
  read,
  zero_m,
  datum,
  saysId,
  readOnly,
  onType,
  onPaste,
}: {
  lines: readonly WaterLine[];
  read: TableRead;
  /** Elevation of the table's zero; null where it is not known. */
  zero_m: number | null;
  datum: string;
  /** Begins the identity of what is said of a line. */
  saysId: string;
  readOnly: boolean;
  onType: (line: WaterLine, cells: Partial<TableCells>) => void;
  onPaste: (from: WaterLine, block: readonly TableCells[]) => void;
}) {
  return (
    <div className="grid-scroll">
      <table className="cell-grid">
        <thead>
          <tr>
            {TABLE_ENTRIES.map((entry) => (
              <th key={entry} scope="col" className={entry === 'height' ? 'number' : undefined}>
                {entry}
              </th>
            ))}
            <th scope="col" className="number">
              m above {datum === '' || datum === 'as stated' ? 'datum' : datum}
            </th>
          </tr>
        </thead>
        <tbody>
          {lines.map((line, i) => {
            const water = read.waters.find((each) => each.line === i);
            const says = read.says.filter((each) => each.line === i);
            return [
              <tr key={line.key} data-state={line.recorded === null ? 'new' : 'written'}>
                {TABLE_ENTRIES.map((entry) => (
                  <td key={entry} data-entry={entry}>
                    <GridCell
                      name={`${entry} of water ${i + 1}`}
                      help={HELP[entry]}
                      head={entry}
                      value={line.cells[entry]}
                      className={entry === 'height' ? 'number' : undefined}
                      saysId={says.some((each) => each.entry === entry) ? `${saysId}-${i}` : undefined}
                      isWrong={says.some((each) => each.entry === entry && each.severity === 'error')}
                      readOnly={readOnly}
                      onType={(text) => onType(line, { [entry]: text })}
                      onPaste={(text) => {
                        const block = tableCellsIn(text);
                        const isBlock = block.length > 0 && /[\n\t]|\d\s+\d/.test(text.trim());
                        if (isBlock) onPaste(line, block);
                        return isBlock;
                      }}
                    />
                  </td>
                ))}
                <td className="number">
                  {water === undefined
                    ? ''
                    : water.kind === null
                      ? ''
                      : water.kind === 'high'
                        ? 'HW '
                        : 'LW '}
                  {water === undefined || zero_m === null ? '' : signed(water.height_m + zero_m, 2)}
                </td>
              </tr>,
              says.length === 0 ? null : (
                <tr key={`${line.key} says`} className="cell-says">
                  <td colSpan={4} id={`${saysId}-${i}`}>
                    {says.map(({ entry, severity, words }) => (
                      <p key={`${entry} ${words}`} data-severity={severity}>
                        <Mark name={severity === 'error' ? 'stop' : 'help'} size={16} />
                        <span>
                          Line {i + 1}, {entry}: {words}
                        </span>
                      </p>
                    ))}
                  </td>
                </tr>
              ),
            ];
          })}
        </tbody>
      </table>
    </div>
  );
}

/** Which of their columns fills what, in which unit, with what stands in it: closed while nothing in it is doubtful. */

import {
  type MappedColumn,
  type Mapping,
  placeOf,
  TABLE_OF,
  type Target,
  type TheirSheet,
  targetsOf,
} from '@stillstand/campaign/import';
import { capital, columnName, type TableName } from '@stillstand/campaign/tables';

const UNITS = ['m', 'cm', 'mm', 'dm', 'ft', 'in', 'yr', 'kyr', '%', '‰'];

export function TheirColumns({
  sheet,
  mapping,
  onDecide,
}: {
  sheet: TheirSheet;
  mapping: Mapping;
  onDecide: (where: string, word: string) => void;
}) {
  const columns = mapping.columns.filter(({ heading }) => heading !== '');
  const used = columns.filter(({ to }) => to !== null).length;
  const targets = [...targetsOf(mapping.as).values()];
  const body = sheet.lines.filter(({ line }) => line > mapping.begin_below);
  return (
    <details className="import-columns" open={used === 0}>
      <summary>
        Their columns: {used} of {columns.length} used
        {mapping.keep_rest && used < columns.length ? ', the others go into the note' : ''}
      </summary>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard */}
      <div className="ruled-scroll" tabIndex={0}>
        <table className="ruled">
          <caption className="unseen">Their columns</caption>
          <thead>
            <tr>
              <th scope="col">column</th>
              <th scope="col">first values</th>
              <th scope="col">fills</th>
              <th scope="col">unit</th>
            </tr>
          </thead>
          <tbody>
            {columns.map((column) => (
              <tr key={column.column}>
                <th scope="row">{column.heading}</th>
                <td className="quiet">{firstValues(body, placeOf(column.column))}</td>
                <td>
                  <select
                    aria-label={`What ${column.heading} fills`}
                    title={targets.find(({ to }) => to === column.to)?.about ?? 'Goes into the note'}
                    value={column.to ?? ''}
                    onChange={(event) => onDecide(`columns.${column.column}.to`, event.target.value)}
                  >
                    <option value="">{mapping.keep_rest ? 'the note' : 'not used'}</option>
                    {targets.map((target) => (
                      <option key={target.to} value={target.to}>
                        {targetWords(TABLE_OF[mapping.as], target)}
                      </option>
                    ))}
                  </select>
                </td>
                <td>
                  <UnitChoice column={column} targets={targets} onDecide={onDecide} />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </details>
  );
}

function UnitChoice({
  column: { column, heading, to, unit },
  targets,
  onDecide,
}: {
  column: MappedColumn;
  targets: readonly Target[];
  onDecide: (where: string, word: string) => void;
}) {
  const target = targets.find((each) => each.to === to);
  if (target === undefined || (target.column.kind !== 'length' && target.column.kind !== 'number'))
    return null;
  const units = unit === null || UNITS.includes(unit) ? UNITS : [unit, ...UNITS];
  return (
    <select
      aria-label={`Unit of ${heading}`}
      title="The unit of its numbers that carry none"
      value={unit ?? ''}
      onChange={(event) => onDecide(`columns.${column}.unit`, event.target.value)}
    >
      <option value="">none</option>
      {units.map((each) => (
        <option key={each} value={each}>
          {each}
        </option>
      ))}
    </select>
  );
}

const firstValues = (body: TheirSheet['lines'], at: number): string =>
  body
    .map(({ cells }) => (cells[at] ?? '').trim())
    .filter((cell) => cell !== '')
    .slice(0, 3)
    .join(', ');

/** A column of ours by its name in the app; a way of saying where something lies in its own words. */
const targetWords = (table: TableName, { to, way }: Target): string =>
  capital(way === 'own' ? columnName(table, to) : to.replaceAll('_', ' '));

/** The rows as they would be added, table by table; rows that are made because others name them first. */
import type { Proposal, ProposedRow } from '@stillstand/campaign/import';
import {
  capital,
  choiceName,
  columnName,
  countedRows,
  isChoice,
  schemas,
  type TableName,
} from '@stillstand/campaign/tables';
import { useState } from 'react';
import { Button } from '../parts/index.ts';

/** The first rows say how the others are read. */
const FIRST = 12;
/** Shown more at a press. */
const MORE = 200;

export function RowsToAdd({ proposal: { rows, found } }: { proposal: Proposal }) {
  const tables = [...Map.groupBy(rows, ({ table }) => table)];
  const byDepth = found.filter(({ how }) => how === 'depth');
  return (
    <section className="import-rows" aria-label="Rows to add">
      {byDepth.length === 0 ? null : (
        <p>
          {byDepth.length} found by core and depth: {firstFew(byDepth.map(({ sample }) => sample))}.
        </p>
      )}
      {tables.map(([table, own]) => (
        <OneTable key={table} table={table} rows={own} />
      ))}
    </section>
  );
}

function OneTable({ table, rows }: { table: TableName; rows: readonly ProposedRow[] }) {
  const [shown, setShown] = useState(FIRST);
  const made = rows.filter((row) => row.made);
  const columns = Object.keys(schemas[table].columns).filter((column) =>
    rows.some(({ cells }) => (cells[column] ?? '') !== ''),
  );
  return (
    <>
      <h3>
        {countedRows(table, rows.length)} to add
        {made.length === 0 ? null : (
          <span className="quiet">
            {' '}
            {made.length === rows.length ? 'all' : made.length} made because other rows name them:{' '}
            {firstFew(made.map(({ cells }) => Object.values(cells)[0] ?? ''))}
          </span>
        )}
      </h3>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard */}
      <div className="ruled-scroll" tabIndex={0}>
        <table className="ruled">
          <caption className="unseen">{countedRows(table, rows.length)} as they would be added</caption>
          <thead>
            <tr>
              <th scope="col">line</th>
              {columns.map((column) => (
                <th key={column} scope="col">
                  {capital(columnName(table, column))}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {rows.slice(0, shown).map((row, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: the list is drawn whole
              <tr key={i}>
                <th scope="row">{row.line}</th>
                {columns.map((column) => (
                  <td key={column}>{cellWords(table, column, row.cells[column] ?? '')}</td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {rows.length > shown ? (
        <p className="acts">
          <span className="quiet">and {rows.length - shown} more like these</span>
          <Button onClick={() => setShown(shown + MORE)}>Show more rows</Button>
        </p>
      ) : null}
    </>
  );
}

const firstFew = (labels: readonly string[]): string => {
  const different = [...new Set(labels)];
  return different.length <= 8
    ? different.join(', ')
    : `${different.slice(0, 8).join(', ')} and ${different.length - 8} more`;
};

const cellWords = (table: TableName, column: string, cell: string): string =>
  isChoice(table, column) ? choiceName(cell) : cell;

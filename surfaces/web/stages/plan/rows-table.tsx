/** The rows of one table, the cells that matter most; a row opens whole, and a new one is written below them. */

import { readingOf } from '@stillstand/campaign/document';
import { choiceName, columnName, countedRows, schemas, type TableName } from '@stillstand/campaign/tables';
import { useState } from 'react';
import { Button, columnHelp, Mark, Table, UnsavedMark } from '../../parts/index.ts';
import { useOpenRow } from '../../shell/index.ts';
import { useStore } from '../../store/index.ts';
import { AddLine, askedFirst } from './add-row.tsx';
import './rows-table.css';

export function RowsTable({
  table,
  caption,
  columns,
  add,
  prefill = {},
  fold,
  foot,
}: {
  table: TableName;
  caption: string;
  /** Shown, the first opens the row. */
  columns: readonly string[];
  /** Verb and noun of the button: "Add a bench mark". */
  add: string;
  prefill?: Readonly<Record<string, string>>;
  /** So many rows are shown of a table that is longer by half, until all are asked for. */
  fold?: number;
  foot?: React.ReactNode;
}) {
  const store = useStore();
  const openRow = useOpenRow();
  const [isAdding, setAdding] = useState(false);
  const [isWhole, setWhole] = useState(false);
  const rows = store.rows(table);
  const isFolded = fold !== undefined && !isWhole && rows.length > 1.5 * fold;
  const shown = isFolded ? rows.slice(0, fold) : rows;
  const isReadings = schemas[table].readings;
  const described: Readonly<Record<string, { kind: string }>> = schemas[table].columns;
  const isNumber = (column: string): boolean => /^(?:number|length)$/.test(described[column]?.kind ?? '');
  return (
    <section className="rows">
      {rows.length === 0 ? (
        <h2>{caption}</h2>
      ) : (
        <Table
          caption={caption}
          columns={columns.map((column) => {
            const { unit } = columnHelp(table, column);
            return {
              name: columnName(table, column),
              number: isNumber(column),
              ...(unit === '' ? {} : { unit }),
            };
          })}
        >
          {shown.map((row) => {
            const reading = isReadings ? readingOf(table, rows, row.row_id) : null;
            const isDisputed = reading?.state === 'conflict';
            const isStruck = reading !== null && !isDisputed && reading.now?.row_id !== row.row_id;
            const isWithdrawal = row.cells['amend_kind']?.trim() === 'withdraw';
            if (isWithdrawal) return null;
            return (
              <tr key={row.row_id} className={isStruck ? 'struck' : undefined}>
                {columns.map((column, i) => {
                  const typed = row.cells[column] ?? '';
                  const cell = described[column]?.kind === 'choice' ? choiceName(typed) : typed;
                  return i === 0 ? (
                    <th key={column} scope="row">
                      <button
                        type="button"
                        className="row-name"
                        onClick={() => openRow({ table, row_id: row.row_id })}
                      >
                        {isDisputed ? <Mark name="close" size={16} label="amendments differ" /> : null}
                        {(row.cells['amends'] ?? '') === '' ? null : (
                          <Mark name="amended" size={16} label="amended" />
                        )}
                        {cell === '' ? 'not named' : cell}
                        {store.unsaved.has(row.row_id) ? <UnsavedMark saved={store.saved} /> : null}
                      </button>
                    </th>
                  ) : (
                    <td key={column} className={isNumber(column) ? 'number' : undefined}>
                      {isStruck ? <s>{cell}</s> : isNumber(column) ? cell.replace(/^-/, '−') : cell}
                    </td>
                  );
                })}
              </tr>
            );
          })}
        </Table>
      )}
      {isFolded ? (
        <Button onClick={() => setWhole(true)}>Show all {countedRows(table, rows.length)}</Button>
      ) : null}
      {foot}
      {store.readOnly ? null : isAdding ? (
        <AddLine
          table={table}
          title={add}
          prefill={prefill}
          first={askedFirst(table, columns)}
          more="All columns"
          onClose={() => setAdding(false)}
        />
      ) : (
        <Button mark="plus" onClick={() => setAdding(true)}>
          {add}
        </Button>
      )}
    </section>
  );
}

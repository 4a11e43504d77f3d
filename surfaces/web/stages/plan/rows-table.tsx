/** The rows of one table, the cells that matter most; a row opens whole, and a new one is written in a dialog. */

import { readingOf } from '@stillstand/campaign/document';
import {
  capital,
  choiceName,
  columnName,
  countedRows,
  labelColumn,
  schemas,
  type TableName,
} from '@stillstand/campaign/tables';
import { useState } from 'react';
import {
  Button,
  ColumnField,
  columnHelp,
  FormDialog,
  labelsFor,
  Mark,
  PositionField,
  Table,
  UnsavedMark,
} from '../../parts/index.ts';
import { otherPositions, positionPart } from '../../positions/index.ts';
import { addWithNamed, newRows, newRowWords, useOpenRow } from '../../shell/index.ts';
import { useStore } from '../../store/index.ts';
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
      {store.readOnly ? null : (
        <Button mark="plus" onClick={() => setAdding(true)}>
          {add}
        </Button>
      )}
      {isAdding ? (
        <AddRow table={table} title={add} prefill={prefill} onClose={() => setAdding(false)} />
      ) : null}
    </section>
  );
}

const FILLED_BY_ITSELF = new Set(['row_id', 'seq', 'time', 'by', 'device', 'amends', 'amend_kind']);

export function AddRow({
  table,
  title,
  prefill,
  first,
  more = '',
  onClose,
}: {
  table: TableName;
  title: string;
  prefill: Readonly<Record<string, string>>;
  /** Columns asked for at once; the others wait behind `more`. All of them, where it is not given. */
  first?: readonly string[];
  more?: string;
  onClose: () => void;
}) {
  const store = useStore();
  const [cells, setCells] = useState<Readonly<Record<string, string>>>(prefill);
  const { columns } = schemas[table];
  const names = Object.keys(columns).filter((column) => !FILLED_BY_ITSELF.has(column));
  const described: Readonly<Record<string, { required: boolean }>> = columns;
  const missing = names.filter(
    (column) => described[column]?.required && (cells[column] ?? '').trim() === '',
  );
  const label = labelColumn(table);
  const isTaken =
    label !== null &&
    schemas[table].scope.length === 0 &&
    store
      .rows(table)
      .some((row) => row.cells[label]?.trim() === cells[label]?.trim() && cells[label] !== undefined);
  const unit = store.setting('length_unit');
  const type = (column: string, typed: string): void =>
    setCells((before) => ({ ...before, [column]: typed }));
  const add = (): void => {
    if (missing.length > 0 || isTaken) return;
    if (addWithNamed(store, table, [cells])) onClose();
  };
  const field = (column: string) => {
    const part = positionPart(table, column);
    if (part === 'other') return null;
    if (part === 'first')
      return (
        <PositionField
          key={column}
          cells={cells}
          others={otherPositions(store.rows, null)}
          grid={store.setting('position_grid') ?? ''}
          onType={(position) => setCells((before) => ({ ...before, ...position }))}
          onCommit={(position) => setCells((before) => ({ ...before, ...position }))}
        />
      );
    const labels = labelsFor(table, column, store.rows);
    return (
      <ColumnField
        key={column}
        table={table}
        column={column}
        value={cells[column] ?? ''}
        onCommit={(typed) => type(column, typed)}
        onType={(typed) => type(column, typed)}
        name={`${capital(columnName(table, column))}${described[column]?.required ? ' (needed)' : ''}`}
        lengthUnit={unit === 'm' || unit === 'cm' || unit === 'ft' ? unit : null}
        {...(labels === undefined ? {} : { labels })}
      />
    );
  };
  return (
    <FormDialog
      title={title}
      action="Write it down"
      isReady={missing.length === 0 && !isTaken}
      says={
        <>
          {isTaken ? <p className="says-why">{cells[label!]} is there already.</p> : null}
          {newRows(table, [cells], store.rows).map((named) => (
            <p key={`${named.table} ${named.label}`} className="says-why">
              {newRowWords(named)}
            </p>
          ))}
          {missing.length > 0 ? (
            <p className="says-why">
              Needed: {missing.map((column) => columnName(table, column)).join(', ')}.
            </p>
          ) : null}
        </>
      }
      onSubmit={add}
      onClose={onClose}
    >
      {(first ?? names).map(field)}
      {first === undefined ? null : (
        <details className="more">
          <summary>{more}</summary>
          <div className="fields">{names.filter((column) => !first.includes(column)).map(field)}</div>
        </details>
      )}
    </FormDialog>
  );
}

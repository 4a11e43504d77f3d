/** One row of any table, cell by cell: read, edit, amend or withdraw it. Where a problem or a trace leads. */
import { isTableName, schemas, type TableName } from '@stillstand/campaign/tables';
import { createContext, useContext, useState } from 'react';
import { Button, ColumnField, columnWords, Dialog, labelsFor, Mark } from '../parts/index.ts';
import { amending, type DocRow, type Store, useStore } from '../store/index.ts';
import { PLACES } from './places.ts';
import './row-dialog.css';

export interface RowPlace {
  table: TableName;
  row_id: string;
}

export const OpenRowContext = createContext<(place: RowPlace) => void>(() => undefined);

/** Opens one row in a dialog, whatever its table. */
export const useOpenRow = (): ((place: RowPlace) => void) => useContext(OpenRowContext);

const HIDDEN = new Set(['row_id', 'amends', 'amend_kind']);

export function RowDialog({
  place,
  stage,
  onClose,
}: {
  place: RowPlace;
  /** Opens the stage the row is worked in; null where it is not there. */
  stage: (() => void) | null;
  onClose: () => void;
}) {
  const store = useStore();
  const { table, row_id } = place;
  const rows = store.rows(table);
  const row = rows.find((r) => r.row_id === row_id);
  const title = `${columnWords(table)}${row === undefined ? '' : `, line ${row.line}`}`;
  const foot =
    stage === null ? undefined : (
      <Button mark="on" onClick={stage}>
        Open in {PLACES[table]}
      </Button>
    );
  return (
    <Dialog title={title} onClose={onClose} foot={foot}>
      {row === undefined ? (
        <p>This row is no longer there: it was taken out, or its file was replaced.</p>
      ) : schemas[table].readings ? (
        <ReadingCells store={store} table={table} row={row} />
      ) : (
        <EditableCells store={store} table={table} row={row} onRemoved={onClose} />
      )}
    </Dialog>
  );
}

function EditableCells({
  store,
  table,
  row,
  onRemoved,
}: {
  store: Store;
  table: TableName;
  row: DocRow;
  onRemoved: () => void;
}) {
  const [added, setAdded] = useState<string | null>(null);
  // A datum that is nowhere written would set the whole row aside.
  const edit = (column: string, typed: string): void =>
    store.together(() => {
      const datum = typed.trim();
      if (
        datum !== '' &&
        namesDatum(table, column) &&
        !labelsFor(table, column, store.rows)?.includes(datum)
      ) {
        store.addRow('datums', { datum, kind: 'local' });
        setAdded(datum);
      }
      store.editRow(table, row.row_id, { [column]: typed });
    });
  return (
    <>
      {added === null ? null : (
        <p className="row-state" role="status">
          {added} is new: added to Zeros of heights; say there how it relates to the others.
        </p>
      )}
      <div className="fields">
        {columnsOf(table, row).map((column) => (
          <Cell
            key={column}
            store={store}
            table={table}
            column={column}
            value={row.cells[column] ?? ''}
            onCommit={(typed) => edit(column, typed)}
          />
        ))}
      </div>
      {store.readOnly ? null : (
        <p className="row-acts">
          <Button
            kind="danger"
            mark="remove"
            onClick={() => {
              store.removeRow(table, row.row_id);
              onRemoved();
            }}
          >
            Take this row out
          </Button>
          <span className="quiet">Undo brings it back.</span>
        </p>
      )}
    </>
  );
}

function ReadingCells({ store, table, row }: { store: Store; table: TableName; row: DocRow }) {
  const [isAmending, setAmending] = useState(false);
  const [draft, setDraft] = useState<Record<string, string>>({});
  const rows = store.rows(table);
  const standing = amending(rows).standing(row.row_id);
  const others = rows.filter((r) => r.cells['amends']?.trim() === row.row_id);
  const isAmendment = (row.cells['amends'] ?? '') !== '';
  return (
    <>
      <p className="row-state">
        {standing === null ? (
          <>
            <Mark name="rejected" size={20} /> Withdrawn; it stays in the book and counts for nothing.
          </>
        ) : standing.row_id !== row.row_id ? (
          <>
            <Mark name="amended" size={20} /> Amended by line {standing.line}; both stay.
          </>
        ) : isAmendment ? (
          <>
            <Mark name="amended" size={20} /> Stands for an earlier reading.
          </>
        ) : (
          <>
            <Mark name="reading" size={20} /> A reading, as it was written down.
          </>
        )}
      </p>
      {others.length === 0 ? null : (
        <ul className="row-others">
          {others.map((other) => (
            <li key={other.row_id}>
              {other.cells['amend_kind']?.trim() === 'withdraw' ? 'withdrawn' : 'replaced'} in line{' '}
              {other.line}
              {other.cells['time'] ? `, ${other.cells['time']}` : ''}
              {other.cells['by'] ? `, by ${other.cells['by']}` : ''}
            </li>
          ))}
        </ul>
      )}
      <div className="fields">
        {columnsOf(table, row).map((column) => (
          <Cell
            key={column}
            store={store}
            table={table}
            column={column}
            value={draft[column] ?? standing?.cells[column] ?? row.cells[column] ?? ''}
            disabled={!isAmending}
            onCommit={(typed) => setDraft({ ...draft, [column]: typed })}
          />
        ))}
      </div>
      {store.readOnly || standing === null ? null : isAmending ? (
        <p className="row-acts">
          <Button
            kind="main"
            mark="amended"
            disabled={Object.keys(draft).length === 0}
            onClick={() => {
              store.amend(table, row.row_id, draft);
              setDraft({});
              setAmending(false);
            }}
          >
            Write the amendment
          </Button>
          <Button
            onClick={() => {
              setDraft({});
              setAmending(false);
            }}
          >
            Cancel
          </Button>
        </p>
      ) : (
        <p className="row-acts">
          <Button mark="amended" onClick={() => setAmending(true)}>
            Amend
          </Button>
          <Button kind="danger" mark="rejected" onClick={() => store.withdraw(table, row.row_id)}>
            Withdraw
          </Button>
          <span className="quiet">Nothing is ever deleted: the earlier words stay, struck through.</span>
        </p>
      )}
    </>
  );
}

function Cell({
  store,
  table,
  column,
  value,
  onCommit,
  disabled = false,
}: {
  store: Store;
  table: TableName;
  column: string;
  value: string;
  onCommit: (typed: string) => void;
  disabled?: boolean;
}) {
  const labels = labelsFor(table, column, store.rows);
  const unit = store.setting('length_unit');
  return (
    <ColumnField
      table={table}
      column={column}
      value={value}
      disabled={disabled || store.readOnly}
      onCommit={onCommit}
      lengthUnit={unit === 'm' || unit === 'cm' || unit === 'ft' ? unit : null}
      {...(labels === undefined ? {} : { labels })}
    />
  );
}

function namesDatum(table: TableName, column: string): boolean {
  const columns: Readonly<Record<string, { kind: string; to?: string }>> = schemas[table].columns;
  return columns[column]?.to === 'datums';
}

/** Columns of ours in their order, then the campaign's own. */
function columnsOf(table: TableName, row: DocRow): string[] {
  const ours = Object.keys(schemas[table].columns).filter((column) => !HIDDEN.has(column));
  const own = Object.keys(row.cells).filter((column) => !ours.includes(column) && !HIDDEN.has(column));
  return [...ours, ...own];
}

export const rowPlace = (table: string, row_id: string | null): RowPlace | null =>
  isTableName(table) && row_id !== null ? { table, row_id } : null;

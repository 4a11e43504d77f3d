/** What an act did, row by row: cells struck and set, readings as they were written; each row opens. */
import {
  capital,
  columnName,
  rowAsTyped,
  rowName,
  schemas,
  type TableName,
} from '@stillstand/campaign/tables';
import { useState } from 'react';
import { Button, Mark } from '../parts/index.ts';
import { type Act, type ActChange, amendedCells, type Store, useStore } from '../store/index.ts';
import { restoreRow } from './restore.ts';
import './act-rows.css';

type Cells = Readonly<Record<string, string>>;

/** A row to be opened; a reading with the cells it is to be amended to. */
export type OpenRow = (place: { table: TableName; row_id: string; amend?: Cells }) => void;

/** So many rows are shown until asked for the rest. */
const SHOWN = 12;

export interface CellChange {
  readonly column: string;
  readonly before: string;
  readonly after: string;
}

export function ActRows({ acts, onOpen }: { acts: readonly Act[]; onOpen: OpenRow }) {
  const [isWhole, setWhole] = useState(false);
  const changes = acts.flatMap((act) => act.changes.map((change) => ({ act, change })));
  const shown = isWhole ? changes : changes.slice(0, SHOWN);
  return (
    <>
      <ul className="act-rows">
        {shown.map(({ act, change }) => (
          <li key={`${act.id} ${change.table} ${change.row_id}`}>
            <ChangedRow act={act} change={change} onOpen={onOpen} />
          </li>
        ))}
      </ul>
      {shown.length < changes.length ? (
        <Button onClick={() => setWhole(true)}>Show {changes.length - shown.length} more rows</Button>
      ) : null}
    </>
  );
}

function ChangedRow({ act, change, onOpen }: { act: Act; change: ActChange; onOpen: OpenRow }) {
  const store = useStore();
  const { table, row_id } = change;
  const cells = cellsOfChange(change, store);
  const conflicts = new Set(
    store
      .conflicts()
      .filter((each) => each.table === table && each.row_id === row_id)
      .filter(({ between }) => between.some((side) => side.act.id === act.id))
      .map(({ column }) => column),
  );
  return (
    <>
      <RowHead
        verb={verbOf(change, store)}
        table={table}
        row_id={row_id}
        isOpen={conflicts.size > 0}
        onOpen={onOpen}
      />
      {cells.length > 0 ? (
        <CellChanges table={table} cells={cells} conflicts={conflicts} />
      ) : (
        <p className="as-typed">{typedWords(store, table, row_id)}</p>
      )}
      <Restore
        table={table}
        row_id={row_id}
        isGone={change.kind === 'delete'}
        was={Object.fromEntries(cells.map(({ column, before }) => [column, before]))}
        onOpen={onOpen}
      />
    </>
  );
}

/** The row by its name, which opens it. */
export function RowHead({
  verb,
  table,
  row_id,
  isOpen = false,
  onOpen,
}: {
  verb: string;
  table: TableName;
  row_id: string;
  /** A cell of it is in an open conflict. */
  isOpen?: boolean;
  onOpen: OpenRow;
}) {
  const store = useStore();
  const cells = store.cellsOf(table, row_id);
  const isReading = schemas[table].readings;
  const isThere = store.rows(table).some((row) => row.row_id === row_id);
  const amends = cells['amends'] ?? '';
  const name = capital(rowName(table, amends === '' ? cells : store.cellsOf(table, amends)));
  return (
    <p className="row-head">
      <button type="button" onClick={() => onOpen({ table, row_id })} disabled={!isThere}>
        <Mark name={isReading ? 'reading' : 'on'} size={16} />
        <b>{name}</b>
      </button>
      <span className="quiet">{isThere ? verb : `${verb}, no longer there`}</span>
      {isOpen ? (
        <span className="open-conflict">
          <Mark name="close" size={18} /> Open conflict
        </span>
      ) : null}
    </p>
  );
}

export function CellChanges({
  table,
  cells,
  conflicts = new Set(),
}: {
  table: TableName;
  cells: readonly CellChange[];
  conflicts?: ReadonlySet<string>;
}) {
  return (
    <dl className="cell-changes">
      {cells.map(({ column, before, after }) => (
        <div key={column} className={conflicts.has(column) ? 'in-conflict' : undefined}>
          <dt>{columnName(table, column)}</dt>
          <dd>
            {before === '' ? <span className="quiet">empty</span> : <del>{before}</del>}{' '}
            {after === '' ? <span className="quiet">emptied</span> : <ins>{after}</ins>}
          </dd>
        </div>
      ))}
    </dl>
  );
}

/** Sets an interpretation back, or opens the form that amends a reading to what it said. */
export function Restore({
  table,
  row_id,
  isGone,
  was,
  onOpen,
}: {
  table: TableName;
  row_id: string;
  isGone: boolean;
  /** Cells as they were. */
  was: Cells;
  onOpen: OpenRow;
}) {
  const store = useStore();
  if (store.readOnly) return null;
  const now = store.rows(table).find((row) => row.row_id === row_id);
  const isAsItWas =
    now !== undefined && Object.entries(was).every(([column, cell]) => (now.cells[column] ?? '') === cell);
  if (schemas[table].readings) {
    return Object.keys(was).length === 0 || now === undefined ? null : (
      <Button mark="amended" onClick={() => onOpen({ table, row_id, amend: was })}>
        Amend to earlier values
      </Button>
    );
  }
  if (isGone ? now !== undefined : Object.keys(was).length === 0 || now === undefined || isAsItWas)
    return null;
  return (
    <Button mark="undo" onClick={() => restoreRow(store, table, row_id, was)}>
      Restore row
    </Button>
  );
}

/** Of an edit its cells; of an amendment those that differ from the reading that it amends. */
export function cellsOfChange(change: ActChange, { cellsOf }: Store): CellChange[] {
  const { kind, table, row_id } = change;
  if (kind === 'edit') return Object.entries(change.cells).map(([column, cell]) => ({ column, ...cell }));
  const isAmendment = kind === 'add' && cellsOf(table, row_id)['amend_kind']?.trim() === 'replace';
  return isAmendment ? amendedCells(table, row_id, cellsOf) : [];
}

const AMENDED: Readonly<Record<string, string>> = {
  replace: 'amended',
  withdraw: 'withdrawn',
  move: 'moved',
};

function verbOf({ kind, table, row_id }: ActChange, store: Store): string {
  if (kind === 'edit') return 'edited';
  if (kind === 'delete') return 'deleted';
  return AMENDED[store.cellsOf(table, row_id)['amend_kind']?.trim() ?? ''] ?? 'added';
}

/** The cells of a row without its name, which stands above them. */
function typedWords(store: Store, table: TableName, row_id: string): string {
  const words = rowAsTyped(table, store.cellsOf(table, row_id), []);
  return capital(words.slice(words.indexOf(': ') + 2));
}

/** One row of any table, cell by cell: read, edit, amend or withdraw it. Where a problem or a trace leads. */
import type { Reading } from '@stillstand/campaign/document';
import { choicesOf, readingOf } from '@stillstand/campaign/document';
import {
  capital,
  clockOf,
  columnName,
  dateOf,
  placeName,
  schemas,
  type TableName,
} from '@stillstand/campaign/tables';
import { createContext, useContext, useState } from 'react';
import {
  AmendmentChoice,
  Button,
  ColumnField,
  Dialog,
  labelsFor,
  Mark,
  type MarkName,
  PositionField,
  UnsavedMark,
  useUnsaved,
} from '../../parts/index.ts';
import { otherPositions, positionPart } from '../../positions/index.ts';
import { type DocRow, type Store, useStore } from '../../store/index.ts';
import { MoveReading, PlaceWords } from './move-reading.tsx';
import { addNamed, type NewRow, newRows, newRowWords } from './new-rows.ts';
import { PLACES, type RowPlace } from './places.ts';
import './row-dialog.css';
import { StoreNews } from '../frame/store-news.tsx';

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
  const title = capital(
    placeName(
      table,
      row?.cells ?? {},
      rows.map(({ cells }) => cells),
    ),
  );
  const foot =
    stage === null ? undefined : (
      <Button mark="on" onClick={stage}>
        Open in {PLACES[table]}
      </Button>
    );
  return (
    <Dialog title={title} onClose={onClose} foot={foot}>
      <StoreNews />
      {store.unsaved.has(row_id) ? (
        <p className="row-state">
          <UnsavedMark saved={store.saved} />
        </p>
      ) : null}
      {row === undefined ? (
        <p>This row no longer exists: it was deleted, or its file was replaced.</p>
      ) : schemas[table].readings ? (
        <ReadingCells store={store} table={table} row={row} amend={place.amend} />
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
  const [added, setAdded] = useState<readonly NewRow[]>([]);
  const kept = store.whyKept(table, row.row_id);
  const edit = (column: string, typed: string): boolean =>
    store.together(() => {
      const named = newRows(table, [{ [column]: typed }], store.rows);
      addNamed(store, named);
      if (named.length > 0) setAdded(named);
      store.editRow(table, row.row_id, { [column]: typed });
    });
  return (
    <>
      {added.map((named) => (
        <p key={named.label} className="row-state" role="status">
          {newRowWords(named)}
        </p>
      ))}
      <div className="fields">
        {columnsOf(table, row).map((column) => {
          const part = positionPart(table, column);
          if (part === 'other') return null;
          if (part === 'first')
            return (
              <PositionField
                key={column}
                cells={row.cells}
                others={otherPositions(store.rows, row.row_id)}
                grid={store.setting('position_grid') ?? ''}
                disabled={store.readOnly}
                onCommit={(position) => store.editRow(table, row.row_id, position)}
              />
            );
          return (
            <Cell
              key={column}
              store={store}
              table={table}
              column={column}
              value={row.cells[column] ?? ''}
              onCommit={(typed) => edit(column, typed)}
            />
          );
        })}
      </div>
      {store.readOnly ? null : (
        <p className="row-acts">
          <Button
            kind="danger"
            mark="remove"
            disabled={kept !== null}
            onClick={() => {
              if (store.removeRow(table, row.row_id)) onRemoved();
            }}
          >
            Delete row
          </Button>
          <span className="quiet">{kept ?? 'Undo restores it.'}</span>
        </p>
      )}
    </>
  );
}

function ReadingCells({
  store,
  table,
  row,
  amend,
}: {
  store: Store;
  table: TableName;
  row: DocRow;
  /** What the form of an amendment begins with. */
  amend: RowPlace['amend'];
}) {
  const [act, setAct] = useState<'amend' | 'move' | null>(amend === undefined ? null : 'amend');
  const isAmending = act === 'amend';
  const [draft, setDraft] = useState<Readonly<Record<string, string>>>(amend ?? {});
  const reading = readingOf(table, store.rows(table), row.row_id);
  const shown = reading?.now ?? row;
  const changed = Object.entries(draft).filter(([column, typed]) => (shown.cells[column] ?? '') !== typed);
  useUnsaved(changed.length > 0);
  const leave = (): void => {
    setDraft({});
    setAct(null);
  };
  return (
    <>
      <ReadingState reading={reading} row={row} />
      {reading === null || reading.now === null ? null : <PlaceWords {...reading} />}
      {reading === null ? null : <Others rows={reading.rows.filter((other) => other !== row)} />}
      {reading?.state === 'conflict' ? (
        <AmendmentChoice
          choices={choicesOf(table, reading)}
          disabled={store.readOnly}
          onChoose={(choice) => store.decide(table, row.row_id, choice)}
        />
      ) : null}
      <div className="fields">
        {columnsOf(table, row).map((column) => (
          <Cell
            key={column}
            store={store}
            table={table}
            column={column}
            value={draft[column] ?? shown.cells[column] ?? ''}
            disabled={!isAmending}
            onCommit={(typed) => {
              setDraft({ ...draft, [column]: typed });
              return true;
            }}
          />
        ))}
      </div>
      {store.readOnly ||
      reading === null ||
      reading.state === 'conflict' ||
      reading.state === 'astray' ? null : act === 'move' ? (
        <MoveReading {...{ store, table, reading }} onLeave={leave} />
      ) : (
        <p className="row-acts">
          {reading.state === 'withdrawn' ? (
            <>
              <Button mark="undo" onClick={() => store.restore(table, row.row_id)}>
                Restore reading
              </Button>
              <span className="quiet">Both the reading and its withdrawal stay in the record.</span>
            </>
          ) : isAmending ? (
            <>
              <Button
                kind="main"
                mark="amended"
                disabled={changed.length === 0}
                onClick={() => {
                  // Where it is refused what was typed stays, with the reason.
                  if (store.amend(table, row.row_id, Object.fromEntries(changed)) !== null) leave();
                }}
              >
                Save amendment
              </Button>
              <Button onClick={leave}>Cancel</Button>
              {changed.length === 0 ? <span className="quiet">Nothing is changed yet.</span> : null}
            </>
          ) : (
            <>
              <Button mark="amended" onClick={() => setAct('amend')}>
                Amend
              </Button>
              <Button onClick={() => setAct('move')}>Move before or after…</Button>
              <Button kind="danger" mark="rejected" onClick={() => store.withdraw(table, row.row_id)}>
                Withdraw
              </Button>
              <span className="quiet">
                Nothing is ever deleted: the original entry stays, struck through.
              </span>
            </>
          )}
        </p>
      )}
    </>
  );
}

function ReadingState({ reading, row }: { reading: Reading<DocRow> | null; row: DocRow }) {
  const [mark, words] = ((): [MarkName, string] => {
    if (reading?.place.rows.includes(row)) return ['amended', 'Moves a reading, or withdraws such a move.'];
    switch (reading?.state) {
      case 'withdrawn':
        return ['rejected', 'Withdrawn: kept in the record, not used.'];
      case 'conflict':
        return ['close', 'In the record, not used: see below.'];
      case 'replaced':
        return reading.now === row
          ? ['amended', 'Replaces an earlier reading.']
          : ['amended', 'Amended by a later entry; both stay.'];
      case 'written':
        return reading.now === row
          ? ['reading', 'Original reading.']
          : ['rejected', 'An amendment that was withdrawn.'];
      default:
        return ['stop', 'It amends no reading there is, and is not used.'];
    }
  })();
  return (
    <p className="row-state">
      <Mark name={mark} size={20} /> {words}
    </p>
  );
}

/** The other rows of the reading: what was written first, and who changed it when. */
function Others({ rows }: { rows: readonly DocRow[] }) {
  if (rows.length === 0) return null;
  return (
    <ul className="row-others">
      {rows.map(({ row_id, cells }) => (
        <li key={row_id}>
          {otherWords(cells)}
          {cells['time'] ? ` of ${`${dateOf(cells['time'])} ${clockOf(cells['time'])}`}` : ''}
          {cells['by'] ? `, by ${cells['by']}` : ''}
        </li>
      ))}
    </ul>
  );
}

function otherWords({ amend_kind = '', seq = '' }: DocRow['cells']): string {
  switch (amend_kind.trim()) {
    case 'replace':
      return 'Amendment';
    case 'withdraw':
      return 'Withdrawal';
    case 'move':
      return `Move to number ${seq}`;
    default:
      return 'Original';
  }
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
  onCommit: (typed: string) => boolean;
  disabled?: boolean;
}) {
  const labels = labelsFor(table, column, store.rows);
  return (
    <ColumnField
      table={table}
      column={column}
      name={capital(columnName(table, column))}
      value={value}
      disabled={disabled || store.readOnly}
      onCommit={onCommit}
      lengthUnit={store.setting('length_unit')}
      {...(labels === undefined ? {} : { labels })}
    />
  );
}

/** Columns of ours in their order, then the campaign's own. */
function columnsOf(table: TableName, row: DocRow): string[] {
  const ours = Object.keys(schemas[table].columns).filter((column) => !HIDDEN.has(column));
  const own = Object.keys(row.cells).filter((column) => !ours.includes(column) && !HIDDEN.has(column));
  return [...ours, ...own];
}

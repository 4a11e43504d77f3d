/**
 * A campaign as it was right after one of its acts, made of what the acts say: cells have the value of the last act until
 * then, rows that were added later are not there, and rows that were deleted later are. What no later act touched is as it
 * is now, so that after the last act the campaign is the campaign. The package is that of today: no act tells of it.
 */
import type { CampaignDocument, DocumentRow, DocumentTable } from '@stillstand/campaign/document';
import {
  type ActChange,
  actsOf,
  columnCalled,
  type DocRow,
  headsOf,
  readDocument,
  readTable,
  type TableRead,
} from '@stillstand/campaign/replica';
import { isTableName } from '@stillstand/campaign/tables';
import type * as Y from 'yjs';

/**
 * `act`: the id of an act in the order of the list; null for the state before the first that is known.
 * @throws RangeError for an act that the history has not (any more)
 */
export function documentAfter(doc: Y.Doc, act: string | null): CampaignDocument {
  const acts = actsOf(doc, true).all();
  const until = acts.findIndex(({ id }) => id === act) + 1;
  if (act !== null && until === 0) throw new RangeError(`the history has no act ${act}`);
  const tables = new Map<string, Map<string, RowThen>>();
  for (const [i, { id, changes }] of acts.entries()) {
    for (const change of changes) {
      const rows = tables.get(change.table) ?? new Map<string, RowThen>();
      tables.set(change.table, rows);
      const row = rows.get(change.row_id) ?? { before: null, after: null, cells: new Map() };
      rows.set(change.row_id, row);
      noteChange(row, change, id, i < until);
    }
  }
  const read = new Map<string, TableRead | null>();
  const now = readDocument(doc, (name) => {
    const found = readTable(doc, name, { layout: '', rows: new WeakMap() });
    read.set(name, found);
    return found;
  });
  return {
    ...now,
    tables: new Map(
      [...now.tables].map(([name, table]): [string, DocumentTable] => {
        const rows = tables.get(name);
        return [
          name,
          rows === undefined || !isTableName(name) ? table : tableThen(name, read.get(name)!, rows),
        ];
      }),
    ),
  };
}

/** What the acts say of one row: the last that told whether it is there until then, and the first after. */
interface RowThen {
  before: ActChange['kind'] | null;
  after: ActChange['kind'] | null;
  cells: Map<string, CellThen>;
}

interface CellThen {
  /** What it said before the first act that set it. */
  first: string;
  /** What acts until then set it to, by act, but for those that a later one of them knew. */
  said: Map<string, string>;
  isSetLater: boolean;
}

function noteChange(row: RowThen, change: ActChange, act: string, isUntil: boolean): void {
  if (isUntil) row.before = change.kind;
  else row.after ??= change.kind;
  if (change.kind !== 'edit') return;
  for (const [column, { before, after, known }] of Object.entries(change.cells)) {
    const cell = row.cells.get(column) ?? { first: before, said: new Map(), isSetLater: false };
    row.cells.set(column, cell);
    if (!isUntil) cell.isSetLater = true;
    else {
      for (const id of known) cell.said.delete(id);
      cell.said.set(act, after);
    }
  }
}

/** An edited row is there, whoever deleted it before. */
const wasThere = ({ before, after }: RowThen): boolean =>
  before === null ? after !== 'add' : before !== 'delete';

/** Of two acts in conflict the value that is in force now, where it is one of theirs; else the later of the list. */
function saidThen({ first, said, isSetLater }: CellThen, now: string): string {
  if (!isSetLater) return now;
  const values = [...said.values()];
  return values.length > 1 && values.includes(now) ? now : (values.at(-1) ?? first);
}

function tableThen(
  name: string,
  { table, rows, places, deleted }: TableRead,
  acts: ReadonlyMap<string, RowThen>,
): DocumentTable {
  if (![...acts.values()].some(({ after }) => after !== null)) return table;
  const heads = headsOf(name, table.columns).map(([id]) => id);
  const all: Placed[] = [
    ...rows.map((row, i) => ({ row, place: places[i]!, isThere: true, as: table.rows[i]!.cells })),
    ...deleted.map(({ row, place }) => ({
      row,
      place,
      isThere: false,
      as: heads.map((id) => row.cells[id] ?? ''),
    })),
  ].sort((a, b) => a.place - b.place);
  const seen = new Set<string>();
  const then = all.flatMap(({ row, isThere, as }): (readonly string[])[] => {
    // Of rows that share an identity the first is meant.
    const acted = seen.has(row.row_id) ? undefined : acts.get(row.row_id);
    seen.add(row.row_id);
    if (acted === undefined || acted.after === null) return isThere ? [as] : [];
    return wasThere(acted) ? [cellsThen(name, heads, row, as, acted)] : [];
  });
  return { ...table, rows: then.map((cells, i): DocumentRow => ({ cells, line: i + 2 })) };
}

interface Placed {
  row: DocRow;
  place: number;
  isThere: boolean;
  as: readonly string[];
}

function cellsThen(
  name: string,
  heads: readonly string[],
  { cells: now }: DocRow,
  as: readonly string[],
  { cells }: RowThen,
): readonly string[] {
  const then = new Map(
    [...cells].map(([column, cell]) => {
      const id = columnCalled(name, column);
      return [id, saidThen(cell, now[id] ?? '')];
    }),
  );
  return [...heads.map((id, i) => then.get(id) ?? as[i] ?? ''), ...as.slice(heads.length)];
}

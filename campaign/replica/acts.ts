/**
 * What was done to a campaign, by whom, when and on which device: one plain record an act in the list `acts` of the Yjs
 * document, written in the transaction of the act itself. So the history travels with the document and merges with it.
 * The order of the list never puts an act before one that its writer knew; times are as the devices' clocks had them.
 *
 * Of every edited cell an act says what stood there, what it says now, and which acts had set it until then. Two acts on
 * one cell of which neither knew the other, and that say different things, are a conflict of that cell: Yjs puts one of
 * them in force, the same on every device, and it stays visible until an act that knew both settles it.
 */
import { isTableName, type TableName } from '@stillstand/campaign/tables';
import type * as Y from 'yjs';
import type { Change } from './changes.ts';
import type { Writer } from './new-reading.ts';

/**
 * How an act came about. `repaired`: what devices or windows did by halves, put right by the one that saw both; `outside`:
 * tables were edited in a spreadsheet or by the command line; `merged`: a copy was merged by its rows, without a history in
 * common; `settled`: a conflict was decided.
 */
const HOWS = ['done', 'undone', 'redone', 'repaired', 'outside', 'merged', 'settled'] as const;
export type How = (typeof HOWS)[number];

/** A cell that an act set. */
export interface SetCell {
  readonly before: string;
  readonly after: string;
  /** The acts that had set it last, as far as the writer knew: none where it is as first written, two where it was in conflict. */
  readonly known: readonly string[];
}

export type ActChange =
  | { readonly kind: 'add' | 'delete'; readonly table: TableName; readonly row_id: string }
  | {
      readonly kind: 'edit';
      readonly table: TableName;
      readonly row_id: string;
      readonly cells: Readonly<Record<string, SetCell>>;
    };

export interface Act {
  /** Opaque and random. */
  readonly id: string;
  /** ISO 8601 with offset, by the clock of the device: information, never the order. Empty where nobody knows. */
  readonly time: string;
  /** Empty where nobody said. */
  readonly by: string;
  readonly device: string;
  readonly how: How;
  readonly changes: readonly ActChange[];
}

/** As it lies in the list: short names, as there are thousands. */
interface StoredAct {
  i: string;
  t: string;
  b?: string;
  d?: string;
  h?: How;
  /** Rows added and deleted, by table. */
  a?: Record<string, string[]>;
  x?: Record<string, string[]>;
  /** Cells set: table, row, column, before, after, and the acts that had set it. */
  e?: StoredCell[];
}

type StoredCell = [
  table: string,
  row_id: string,
  column: string,
  before: string,
  after: string,
  ...known: string[],
];

/** A cell with two or more acts in force that say different things. */
export interface CellConflict {
  readonly table: TableName;
  readonly row_id: string;
  readonly column: string;
  /** In the order of the list. */
  readonly between: readonly { readonly act: Act; readonly before: string; readonly after: string }[];
}

/** The history of an open document, kept up with it. */
export interface Acts {
  /** In the order of the list; the same object until one is added. */
  all(): readonly Act[];
  /** Acts that set a cell and that no later one knew; none where it is as first written. */
  last(table: TableName, row_id: string, column: string): readonly string[];
  conflicts(): readonly CellConflict[];
  /** Acts that were not made here since the document was opened: they came from another device, window or copy. */
  arrived(): ReadonlySet<string>;
}

/** Acts as they lie in the document. */
export const listOf = (doc: Y.Doc): Y.Array<StoredAct> => doc.getArray<StoredAct>('acts');

/** Whether a record that came from outside is an act. */
export function isStoredAct(value: unknown): value is StoredAct {
  if (typeof value !== 'object' || value === null) return false;
  const { i, t, b = '', d = '', h = 'done', a = {}, x = {}, e = [] } = value as Record<string, unknown>;
  const areTexts = (list: unknown): boolean =>
    Array.isArray(list) && list.every((each) => typeof each === 'string');
  const isByTable = (rows: unknown): boolean =>
    typeof rows === 'object' && rows !== null && Object.values(rows).every(areTexts);
  return (
    areTexts([i, t, b, d]) &&
    HOWS.includes(h as How) &&
    isByTable(a) &&
    isByTable(x) &&
    Array.isArray(e) &&
    e.every((cell) => areTexts(cell) && (cell as string[]).length >= 5)
  );
}

/** Writes an act down; the caller makes the transaction, and the changes with it. Nothing for no change. */
export function note(
  doc: Y.Doc,
  acts: Pick<Acts, 'last'>,
  changes: readonly Change[],
  how: How,
  writer: Writer,
): void {
  if (changes.length === 0) return;
  const { by, device } = writer.crew();
  const stored: StoredAct = { i: writer.newRowId(), t: writer.time() };
  if (by !== '') stored.b = by;
  if (device !== '') stored.d = device;
  if (how !== 'done') stored.h = how;
  const added = changes.filter(({ kind }) => kind === 'add');
  const deleted = changes.filter(({ kind }) => kind === 'delete');
  const set = changes.flatMap((change) => (change.kind === 'edit' ? setCells(change, acts) : []));
  if (added.length > 0) stored.a = rowsByTable(added);
  if (deleted.length > 0) stored.x = rowsByTable(deleted);
  if (set.length > 0) stored.e = set;
  listOf(doc).push([stored]);
}

const rowsByTable = (changes: readonly Change[]): Record<string, string[]> =>
  Object.fromEntries(
    [...Map.groupBy(changes, ({ table }) => table)].map(([table, of]) => [
      table,
      of.map(({ row_id }) => row_id),
    ]),
  );

const setCells = (
  { table, row_id, before, after }: Extract<Change, { kind: 'edit' }>,
  acts: Pick<Acts, 'last'>,
): StoredCell[] =>
  Object.entries(after).map(([column, cell]) => [
    table,
    row_id,
    column,
    before[column] ?? '',
    cell,
    ...acts.last(table, row_id, column),
  ]);

/** The history of a document. It goes on listening as long as the document lives, unless it is `asItIs`: read once. */
export function actsOf(doc: Y.Doc, asItIs = false): Acts {
  const list = listOf(doc);
  let all: Act[] | null = null;
  let cells = new Map<string, Cell>();
  let conflicts: { of: readonly Act[]; found: readonly CellConflict[] } | null = null;
  let arrived: ReadonlySet<string> = new Set();
  const know = (): Act[] => {
    if (all === null) {
      cells = new Map();
      all = list.map(actFrom);
      for (const act of all) noteCells(act, cells);
    }
    return all;
  };
  const follow = ({ changes: { delta } }: Y.YArrayEvent<StoredAct>, { local }: Y.Transaction): void => {
    const inserted = delta.flatMap(({ insert }) => (Array.isArray(insert) ? (insert as StoredAct[]) : []));
    const foreign = inserted.filter(({ h }) => !local || h === 'merged' || h === 'outside');
    if (foreign.length > 0) arrived = new Set([...arrived, ...foreign.map(({ i }) => i)]);
    if (all === null) return;
    const [first, second] = delta;
    const isAppended =
      delta.length === (all.length === 0 ? 1 : 2) &&
      (all.length === 0 || first?.retain === all.length) &&
      Array.isArray((second ?? first)?.insert);
    if (!isAppended) {
      all = null;
      return;
    }
    const added = inserted.map(actFrom);
    for (const act of added) noteCells(act, cells);
    all = [...all, ...added];
  };
  if (!asItIs) list.observe(follow);
  return {
    all: know,
    last: (table, row_id, column) => {
      know();
      return lastOf(cells.get(keyOf(table, row_id, column)));
    },
    conflicts: () => {
      const of = know();
      if (conflicts?.of !== of) conflicts = { of, found: [...cells.values()].flatMap(conflictOf) };
      return conflicts.found;
    },
    arrived: () => arrived,
  };
}

interface Cell {
  table: TableName;
  row_id: string;
  column: string;
  acts: Map<string, CellConflict['between'][number]>;
  /** Acts that a later one knew. */
  known: Set<string>;
}

const keyOf = (table: string, row_id: string, column: string): string =>
  `${table}\u0000${row_id}\u0000${column}`;

const lastOf = (cell: Cell | undefined): string[] =>
  cell === undefined ? [] : [...cell.acts.keys()].filter((id) => !cell.known.has(id));

function conflictOf(cell: Cell): CellConflict[] {
  if (cell.acts.size < 2) return [];
  const last = new Set(lastOf(cell));
  const between = [...cell.acts.values()].filter(({ act }) => last.has(act.id));
  const { table, row_id, column } = cell;
  return new Set(between.map(({ after }) => after.trim())).size < 2
    ? []
    : [{ table, row_id, column, between }];
}

/** Set by the same acts to the same: a label, and the rows that name it. One choice settles them all. */
const isLike = (a: CellConflict, b: CellConflict): boolean =>
  a.between.length === b.between.length &&
  a.between.every(
    ({ act, after }, i) => act.id === b.between[i]!.act.id && after.trim() === b.between[i]!.after.trim(),
  );

/** Conflicts that one choice settles, together: in the order of the first of each. */
export function alike(conflicts: readonly CellConflict[]): CellConflict[][] {
  const groups: CellConflict[][] = [];
  for (const conflict of conflicts) {
    const group = groups.find(([first]) => isLike(first!, conflict));
    if (group === undefined) groups.push([conflict]);
    else group.push(conflict);
  }
  return groups;
}

function noteCells(act: Act, cells: Map<string, Cell>): void {
  for (const change of act.changes) {
    if (change.kind !== 'edit') continue;
    const { table, row_id } = change;
    for (const [column, { before, after, known }] of Object.entries(change.cells)) {
      const key = keyOf(table, row_id, column);
      const cell = cells.get(key) ?? { table, row_id, column, acts: new Map(), known: new Set() };
      cells.set(key, cell);
      cell.acts.set(act.id, { act, before, after });
      for (const id of known) cell.known.add(id);
    }
  }
}

function actFrom({ i, t, b = '', d = '', h = 'done', a = {}, x = {}, e = [] }: StoredAct): Act {
  const rows = (kind: 'add' | 'delete', by: Record<string, string[]>): ActChange[] =>
    Object.entries(by).flatMap(([table, row_ids]) =>
      isTableName(table) ? row_ids.map((row_id) => ({ kind, table, row_id })) : [],
    );
  const edits = new Map<string, { table: TableName; row_id: string; cells: Record<string, SetCell> }>();
  for (const [table, row_id, column, before, after, ...known] of e) {
    // A newer Stillstand may know more tables.
    if (!isTableName(table)) continue;
    const key = `${table}\u0000${row_id}`;
    const edit = edits.get(key) ?? { table, row_id, cells: {} };
    edits.set(key, edit);
    // One act may set a cell twice.
    edit.cells[column] = { before: edit.cells[column]?.before ?? before, after, known };
  }
  return {
    id: i,
    time: t,
    by: b,
    device: d,
    how: h,
    changes: [
      ...rows('add', a),
      ...[...edits.values()].map((edit): ActChange => ({ kind: 'edit', ...edit })),
      ...rows('delete', x),
    ],
  };
}

/**
 * What a person does to a campaign as a list of changes to rows, so that it can be looked at before it is done, taken
 * back, and named. All of a list happens or none of it.
 */
import { columnName, countedRows, rowName, type TableName } from '@stillstand/campaign/tables';
import type { DocRow } from './layout.ts';

type CellsOf = Readonly<Record<string, string>>;

export type Change =
  | {
      readonly kind: 'add' | 'delete';
      readonly table: TableName;
      readonly row_id: string;
      readonly cells: CellsOf;
    }
  | {
      readonly kind: 'edit';
      readonly table: TableName;
      readonly row_id: string;
      /** The cells that change, as they were and as they are then. */
      readonly before: CellsOf;
      readonly after: CellsOf;
    };

/** What takes the changes back, the last first. */
export const inverse = (changes: readonly Change[]): Change[] =>
  changes.toReversed().map((change): Change => {
    if (change.kind === 'edit') return { ...change, before: change.after, after: change.before };
    return { ...change, kind: change.kind === 'add' ? 'delete' : 'add' };
  });

/** The rows as they are once the changes are made. */
export function changed(
  rows: readonly DocRow[],
  table: TableName,
  changes: readonly Change[],
): readonly DocRow[] {
  const own = changes.filter((change) => change.table === table);
  if (own.length === 0) return rows;
  const now = following(rows);
  for (const change of own) now.make(change);
  return now.rows();
}

/** A table while changes are made to it one after the other; each takes as long in a long table as in a short one. */
function following(rows: readonly DocRow[]) {
  const now: (DocRow | null)[] = [...rows];
  const places = Map.groupBy(now.keys(), (at) => rows[at]!.row_id);
  let count = rows.length;
  return {
    row: (row_id: string): DocRow | null => now[places.get(row_id)?.[0] ?? -1] ?? null,
    make: (change: Change): void => {
      const { row_id } = change;
      const at = places.get(row_id) ?? [];
      if (change.kind === 'edit') {
        for (const place of at) {
          const row = now[place]!;
          now[place] = { ...row, cells: { ...row.cells, ...change.after } };
        }
      } else if (change.kind === 'delete') {
        for (const place of at) now[place] = null;
        count -= at.length;
        places.delete(row_id);
      } else {
        places.set(row_id, [...at, now.length]);
        now.push({ row_id, cells: change.cells, line: count + 2 });
        count++;
      }
    },
    rows: (): readonly DocRow[] => now.filter((row) => row !== null),
  };
}

/** Each table is computed when it is asked for first: the changes are all there by then. */
export function tablesAfter(rows: (table: TableName) => readonly DocRow[], changes: readonly Change[]) {
  const known = new Map<TableName, readonly DocRow[]>();
  return (table: TableName): readonly DocRow[] => {
    const now = known.get(table) ?? changed(rows(table), table, changes);
    known.set(table, now);
    return now;
  };
}

/**
 * Whether a row is not as the changes found it: somebody else has changed it since, in another window or on another
 * device, and taking the changes back would leave a value nobody chose.
 */
export function isChangedSince(
  rows: (table: TableName) => readonly DocRow[],
  changes: readonly Change[],
): boolean {
  const tables = new Map<TableName, ReturnType<typeof following>>();
  for (const change of changes) {
    const now = tables.get(change.table) ?? following(rows(change.table));
    tables.set(change.table, now);
    const row = now.row(change.row_id);
    const isAsFound =
      change.kind === 'add'
        ? row === null
        : row !== null &&
          isSame(row.cells, change.kind === 'edit' ? change.before : change.cells, change.kind);
    if (!isAsFound) return true;
    now.make(change);
  }
  return false;
}

/** Of an edit the cells that it changed, of a whole row every cell. */
function isSame(now: CellsOf, then: CellsOf, kind: 'edit' | 'delete' | 'add'): boolean {
  const columns =
    kind === 'edit' ? Object.keys(then) : [...new Set([...Object.keys(now), ...Object.keys(then)])];
  return columns.every((column) => column === 'row_id' || (now[column] ?? '') === (then[column] ?? ''));
}

/** "add hole H3", "edit unit 4 of T1 (top, bottom)", "add 12 dates", "delete unit 3 of T1 and 2 more changes". */
export function changeWords(changes: readonly Change[], cellsOf: (change: Change) => CellsOf): string {
  const [first] = changes;
  if (first === undefined) return '';
  const alike = changes.filter(({ kind, table }) => kind === first.kind && table === first.table);
  if (alike.length === changes.length && changes.length > 1) {
    return `${first.kind} ${countedRows(first.table, new Set(changes.map(({ row_id }) => row_id)).size)}`;
  }
  const what = `${first.kind} ${rowName(first.table, cellsOf(first))}`;
  if (changes.length > 1) {
    const more = changes.length - 1;
    return `${what} and ${more} more ${more === 1 ? 'change' : 'changes'}`;
  }
  const columns = first.kind === 'edit' ? Object.keys(first.after) : [];
  const words = columns.slice(0, 3).map((column) => columnName(first.table, column));
  if (columns.length > 3) words.push('…');
  return words.length === 0 ? what : `${what} (${words.join(', ')})`;
}

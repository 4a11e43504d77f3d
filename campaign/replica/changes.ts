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
  let now = rows;
  for (const change of changes) {
    if (change.table !== table) continue;
    const { row_id } = change;
    if (change.kind === 'edit') {
      const { after } = change;
      now = now.map((row) => (row.row_id === row_id ? { ...row, cells: { ...row.cells, ...after } } : row));
    } else if (change.kind === 'delete') now = now.filter((row) => row.row_id !== row_id);
    else now = [...now, { row_id, cells: change.cells, line: now.length + 2 }];
  }
  return now;
}

export const tablesAfter =
  (rows: (table: TableName) => readonly DocRow[], changes: readonly Change[]) =>
  (table: TableName): readonly DocRow[] =>
    changed(rows(table), table, changes);

/**
 * Whether a row is not as the changes found it: somebody else has changed it since, in another window or on another
 * device, and taking the changes back would leave a value nobody chose.
 */
export function isChangedSince(
  rows: (table: TableName) => readonly DocRow[],
  changes: readonly Change[],
): boolean {
  let before: readonly Change[] = [];
  for (const change of changes) {
    const now = changed(rows(change.table), change.table, before);
    const row = now.find(({ row_id }) => row_id === change.row_id);
    const isAsFound =
      change.kind === 'add'
        ? row === undefined
        : row !== undefined &&
          isSame(row.cells, change.kind === 'edit' ? change.before : change.cells, change.kind);
    if (!isAsFound) return true;
    before = [...before, change];
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

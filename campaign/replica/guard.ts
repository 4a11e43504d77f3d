/**
 * No change takes a row away from under those that name it: it is refused, and says what depends on the row. A label
 * that is changed is changed in every row that names it, except in readings, which are never rewritten.
 */
import {
  dependents,
  type RowRef,
  readingOf,
  type TypedTables,
  unresolved,
} from '@stillstand/campaign/document';
import {
  capital,
  countedTables,
  isTableName,
  linksOf,
  namedColumns,
  rowName,
  schemas,
  type TableName,
} from '@stillstand/campaign/tables';
import { type Change, tablesAfter } from './changes.ts';
import type { DocRow } from './layout.ts';
import type { TableRead } from './read.ts';
import { isMeant } from './repair.ts';

type Rows = (table: TableName) => readonly DocRow[];

/** The changes as they may be made, those that follow from them included; or why they may not. */
export type Guarded = { readonly changes: readonly Change[] } | { readonly refused: string };

/** `isUndo`: the changes restore what was; what they restore must name rows that are there, too. */
export function guarded(
  rows: Rows,
  read: (table: TableName) => TableRead | null,
  asked: readonly Change[],
  isUndo: boolean,
): Guarded {
  const followed = relabelled(rows, asked);
  if ('refused' in followed) return followed;
  const { changes } = followed;
  const after = tablesAfter(rows, changes);
  for (const change of changes) {
    if (change.kind !== 'delete' || namedColumns(change.table).size === 0) continue;
    const { table, row_id, cells } = change;
    const needed = dependents(withRow(after, { row_id, cells, line: 0 }, table), table, row_id);
    if (needed.length > 0)
      return {
        refused: `${depended(after, table, cells, needed)}, so it ${VERB[isUndo ? 'undo' : 'delete']}`,
      };
  }
  const lost = newlyLost(rows, read, after, changes, isUndo);
  return lost === null ? followed : { refused: lost };
}

const VERB = {
  delete: 'cannot be deleted.',
  undo: 'stays.',
  rename: 'cannot be renamed.',
  withdraw: 'stays as it is. Withdraw or change them first.',
};

/** "Hole H3 has 12 readings and 4 units": a reading counts once, however often it was amended. */
function depended(
  tables: TypedTables,
  table: TableName,
  cells: Readonly<Record<string, string>>,
  refs: readonly RowRef[],
): string {
  const rows = new Map(
    refs.map((ref) => {
      const reading = schemas[ref.table].readings
        ? readingOf(ref.table, tables(ref.table), ref.row_id)
        : null;
      return [`${ref.table} ${reading?.first.row_id ?? ref.row_id}`, ref.table];
    }),
  );
  return `${capital(rowName(table, cells))} has ${countedTables([...rows.values()])}`;
}

const withRow =
  (tables: TypedTables, row: DocRow, into: TableName): TypedTables =>
  (table) =>
    table === into ? [...tables(table), row] : tables(table);

/** Carries new labels into the rows that name the old ones. */
function relabelled(rows: Rows, asked: readonly Change[]): Guarded {
  const changes = [...asked];
  for (let i = 0; i < changes.length; i++) {
    const change = changes[i]!;
    if (change.kind !== 'edit') continue;
    const named = namedColumns(change.table);
    const columns = Object.keys(change.after).filter(
      (column) =>
        named.has(column) && (change.before[column] ?? '').trim() !== (change.after[column] ?? '').trim(),
    );
    if (columns.length === 0) continue;
    const after = tablesAfter(rows, changes);
    const now = after(change.table).find((row) => row.row_id === change.row_id);
    if (now === undefined) continue;
    // The row under its old name, among everything else as it will be.
    const old: DocRow = { row_id: change.row_id, cells: { ...now.cells, ...change.before }, line: 0 };
    const among: TypedTables = (table) =>
      table === change.table
        ? [
            ...after(table).map((row) => (row.row_id === old.row_id ? { ...row, row_id: ' renamed' } : row)),
            old,
          ]
        : after(table);
    const needed = dependents(among, change.table, change.row_id);
    if (needed.length === 0) continue;
    const [column] = columns;
    const isReading = needed.some(({ table }) => schemas[table].readings);
    if (isReading || columns.length > 1 || column === undefined) {
      return { refused: `${depended(after, change.table, old.cells, needed)}, so it ${VERB.rename}` };
    }
    for (const ref of needed) {
      const cells = after(ref.table).find((row) => row.row_id === ref.row_id)!.cells;
      changes.push({
        kind: 'edit',
        table: ref.table,
        row_id: ref.row_id,
        before: { [ref.column]: cells[ref.column] ?? '' },
        after: { [ref.column]: change.after[column]! },
      });
    }
  }
  return { changes };
}

/** What names nothing after the changes and named something before, in words; null where there is no such thing. */
function newlyLost(
  rows: Rows,
  read: (table: TableName) => TableRead | null,
  after: (table: TableName) => readonly DocRow[],
  changes: readonly Change[],
  isUndo: boolean,
): string | null {
  if (!isUndo && !changes.some((change) => mayLose(change, rows))) return null;
  const key = (ref: RowRef): string => `${ref.table} ${ref.row_id} ${ref.column}`;
  const before = new Set(unresolved(rows).map(key));
  const own = new Set(changes.map(({ row_id }) => row_id));
  const lost = unresolved(after).filter(
    (ref) => !before.has(key(ref)) && !(own.has(ref.row_id) && isMeant(after, read, ref)),
  );
  const [first] = lost;
  if (first === undefined) return null;
  const what = after(first.table).find((row) => row.row_id === first.row_id)?.cells[first.column] ?? '';
  const taken = changes.find(({ table, row_id }) => table === first.to && row_id !== first.row_id);
  if (taken === undefined)
    return `There is no ${rowName(first.to, {})} ${what} in use: add or restore it first.`;
  return `${depended(after, first.to, amended(taken, rows)?.cells ?? {}, lost)}, so it ${VERB.withdraw}`;
}

/** A row that amends a reading in what it names or in what it is named by. */
function mayLose(change: Change, rows: Rows): boolean {
  const target = amended(change, rows);
  if (change.kind !== 'add' || target === undefined) return false;
  if (change.cells['amend_kind'] === 'move') return false;
  if (change.cells['amend_kind'] !== 'replace') return true;
  const columns = new Set(namedColumns(change.table));
  for (const cells of [change.cells, target.cells]) {
    for (const { column } of linksOf(change.table, (name) => cells[name]?.trim() ?? '')) columns.add(column);
  }
  return [...columns].some((name) => (change.cells[name] ?? '').trim() !== (target.cells[name] ?? '').trim());
}

function amended(change: Change, rows: Rows): DocRow | undefined {
  const id = change.kind === 'add' ? (change.cells['amends'] ?? '') : '';
  return id === '' ? undefined : rows(change.table).find(({ row_id }) => row_id === id);
}

/** Why the row cannot be deleted, in words; null where it can. */
export function whyKept(
  rows: Rows,
  read: (table: TableName) => TableRead | null,
  table: string,
  row_id: string,
): string | null {
  if (!isTableName(table)) return null;
  const row = rows(table).find((each) => each.row_id === row_id);
  const found =
    row === undefined
      ? null
      : guarded(rows, read, [{ kind: 'delete', table, row_id, cells: row.cells }], false);
  return found !== null && 'refused' in found ? found.refused : null;
}

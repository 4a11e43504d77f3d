/** What one copy has and the other has not, counted by table and by hole. */
import { rowName, schemas, type TableName } from '@stillstand/campaign/tables';
import type { Copy } from './copy.ts';
import type { TableCount } from './shape.ts';

const TABLES = Object.keys(schemas) as TableName[];
/** So many names of each count are listed. */
const NAMED = 5;

type Cells = Readonly<Record<string, string>>;

/** From `old` to `now`, in the order of the tables. */
export const countsBetween = (old: Copy, now: Copy): TableCount[] =>
  TABLES.flatMap((table) => {
    const counts = new Map<string | null, { -readonly [K in keyof TableCount]: TableCount[K] }>();
    const names = new Map<string | null, Set<string>>();
    const count = (cells: Cells, what: 'added' | 'changed' | 'deleted'): void => {
      const hole = cells['hole']?.trim() || null;
      const of = counts.get(hole) ?? { table, hole, added: 0, changed: 0, deleted: 0, names: [] };
      counts.set(hole, of);
      of[what]++;
      const named = names.get(hole) ?? new Set();
      names.set(hole, named);
      if (named.size < NAMED) named.add(rowName(table, cells));
    };
    const [before, after] = [old.rows(table), now.rows(table)];
    if (before.length === 0 && after.length === 0) return [];
    /** Readings with new amendments: each is one change, however many rows it took. */
    const amended = new Map<string, Cells>();
    for (const { row_id, cells } of after) {
      const was = old.row(table, row_id);
      if (was !== undefined) {
        if (!sayTheSame(was.cells, cells)) count(cells, 'changed');
        continue;
      }
      const first = amendedFirst(now, table, cells);
      if (first === null) count(cells, 'added');
      else if (old.row(table, first.row_id) !== undefined) amended.set(first.row_id, first.cells);
    }
    for (const cells of amended.values()) count(cells, 'changed');
    for (const { row_id, cells } of before) if (now.row(table, row_id) === undefined) count(cells, 'deleted');
    return [...counts.values()].map((of) => ({ ...of, names: [...names.get(of.hole)!] }));
  });

/** Rows of both copies that say the same. */
export const sameRows = (a: Copy, b: Copy): number =>
  TABLES.reduce(
    (sum, table) =>
      sum +
      a.rows(table).filter(({ row_id, cells }) => {
        const other = b.row(table, row_id);
        return other !== undefined && sayTheSame(cells, other.cells);
      }).length,
    0,
  );

/** The reading that a row amends, through amendments of amendments; null for a row that amends nothing that is there. */
function amendedFirst(
  { row }: Copy,
  table: TableName,
  cells: Cells,
): { row_id: string; cells: Cells } | null {
  let first: { row_id: string; cells: Cells } | null = null;
  const seen = new Set<string>();
  for (let at = cells; ; ) {
    const target = at['amends']?.trim() ?? '';
    const next = target === '' || seen.has(target) ? undefined : row(table, target);
    if (next === undefined) return first;
    seen.add(target);
    first = next;
    at = next.cells;
  }
}

/** Blanks around a cell say nothing, nor does a column that one of them has not got. */
export function sayTheSame(a: Cells, b: Cells): boolean {
  if (a === b) return true;
  for (const column in a) if (a[column] !== b[column] && typed(a, column) !== typed(b, column)) return false;
  for (const column in b) if (!(column in a) && typed(b, column) !== '') return false;
  return true;
}

const typed = (cells: Cells, column: string): string => cells[column]?.trim() ?? '';

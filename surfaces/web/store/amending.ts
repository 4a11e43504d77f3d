/** Which row stands for a reading after its amendments: the screens' side of what parsing does with them. */
import type { DocRow } from './content.ts';

export interface Amending {
  /** The row that stands for a reading: itself, or the last replacement; null where it was withdrawn. */
  standing(row_id: string): DocRow | null;
  /** Rows to withdraw, the last first, so that nothing of `row_id` and its replacements stands. */
  toWithdraw(row_id: string): DocRow[];
}

export function amending(rows: readonly DocRow[]): Amending {
  const byId = new Map(rows.map((row) => [row.row_id, row]));
  const amendedBy = Map.groupBy(
    rows.filter((row) => (row.cells['amends'] ?? '') !== ''),
    (row) => row.cells['amends']!.trim(),
  );
  const isWithdrawal = (row: DocRow): boolean => row.cells['amend_kind']?.trim() === 'withdraw';
  /** The amendment in force; of several, which is a conflict, the last. */
  const inForce = (row_id: string, seen: ReadonlySet<string> = new Set()): DocRow | null => {
    if (seen.has(row_id)) return null;
    const deeper = new Set(seen).add(row_id);
    const found = (amendedBy.get(row_id) ?? []).filter((row) => !isUndone(row, deeper));
    return found.at(-1) ?? null;
  };
  const isUndone = (row: DocRow, seen: ReadonlySet<string>): boolean => {
    const by = inForce(row.row_id, seen);
    return by !== null && isWithdrawal(by);
  };
  const chain = (row_id: string): DocRow[] => {
    const links: DocRow[] = [];
    for (let row = byId.get(row_id) ?? null; row !== null; row = inForce(row.row_id)) {
      if (links.includes(row)) break;
      links.push(row);
    }
    return links;
  };
  return {
    standing: (row_id) => {
      const last = chain(row_id).at(-1) ?? null;
      return last === null || (isWithdrawal(last) && last.row_id !== row_id) ? null : last;
    },
    toWithdraw: (row_id) => chain(row_id).reverse(),
  };
}

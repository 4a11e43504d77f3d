/** References that never come to an end. */
import { columnName, type Fault, type TableName } from '@stillstand/campaign/tables';
import { type Draft, refuse, rowLabel } from './draft.ts';

/** A sample cannot be part of its own part, a hole cannot replace the hole that replaced it. */
export function refuseCircles(
  standing: readonly Draft[],
  index: ReadonlyMap<TableName, ReadonlyMap<string, Draft[]>>,
): void {
  for (const [table, column] of [
    ['samples', 'parent'],
    ['holes', 'replaces'],
  ] as const) {
    const rows = index.get(table);
    if (rows === undefined) continue;
    const seen = new Set<Draft>();
    for (const start of standing) {
      if (start.table !== table) continue;
      const path = new Set<Draft>();
      let at: Draft | undefined = start;
      while (at !== undefined && !seen.has(at)) {
        seen.add(at);
        path.add(at);
        const parent: unknown = at.values[column];
        at = typeof parent === 'string' ? rows.get(parent)?.[0] : undefined;
      }
      if (at === undefined || !path.has(at)) continue;
      const fault: Fault = {
        code: 'reference-circle',
        found: String(at.values[column]),
        expected: 'references that lead to an end',
        fix: `Correct the ${columnName(table, column)}: following it comes back to ${rowLabel(at)}.`,
      };
      if (column === 'parent') refuse(at, column, fault);
      else {
        // Which hole another replaces is a detail: the hole itself is as good as before.
        at.faults.push({ ...fault, severity: 'error', column });
        at.values[column] = null;
      }
    }
  }
}

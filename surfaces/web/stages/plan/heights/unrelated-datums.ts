/** Local datums that no datum shift relates to another yet. */
import type { Store } from '../../../store/index.ts';

/** Local datums that heights of holes refer to and no shift leads from or to; not the one that was chosen for the campaign. */
export function unrelatedDatums(rows: Store['rows'], chosen: string): string[] {
  const related = new Set(
    rows('datum_shifts').flatMap(({ cells }) => [cells['from']?.trim(), cells['to']?.trim()]),
  );
  const local = rows('datums').flatMap(({ cells }) =>
    cells['kind']?.trim() === 'local' ? [cells['datum']?.trim()] : [],
  );
  const used = rows('holes').map(({ cells }) => cells['reference_datum']?.trim() ?? '');
  return [...new Set(used)].filter(
    (label) => label !== chosen && local.includes(label) && !related.has(label),
  );
}

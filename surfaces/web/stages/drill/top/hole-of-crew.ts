/** The hole under the crew's hands, where the address names none. */
import { type HoleOfCrew, workingHole } from '@stillstand/campaign/holes';
import type { Store } from '../../../store/index.ts';
import { BOOK_TABLES } from '../book/book.ts';

/** The hole of a row that was asked for from elsewhere. */
export function holeOfRow(store: Store, row_id: string | undefined): string | null {
  if (row_id === undefined) return null;
  for (const table of [...BOOK_TABLES, 'holes', 'sections'] as const) {
    const row = store.rows(table).find((r) => r.row_id === row_id);
    if (row !== undefined) return row.cells['hole'] ?? null;
  }
  return null;
}

export const stillThere = (store: Store, hole: string | null): string | null =>
  hole !== null && store.rows('holes').some((h) => h.cells['hole']?.trim() === hole) ? hole : null;

/** The hole the crew is at; by the newest reading where more than one could be meant. */
export function holeOfCrew(store: Store): string | null {
  const holes = store.rows('holes').flatMap(({ cells }): HoleOfCrew[] => {
    const { hole = '', state = '', method = '', replaces = '' } = cells;
    const known = (cell: string): string | null => (cell.trim() === '' ? null : cell.trim());
    return hole.trim() === ''
      ? []
      : [{ hole: hole.trim(), state: known(state), method: known(method), replaces: known(replaces) }];
  });
  const newest = { time: Number.NEGATIVE_INFINITY, hole: null as string | null };
  for (const table of BOOK_TABLES) {
    for (const { cells } of store.rows(table)) {
      const time = Date.parse(cells['time'] ?? '');
      const hole = cells['hole']?.trim() ?? '';
      if (hole !== '' && time > newest.time) Object.assign(newest, { time, hole });
    }
  }
  return workingHole(holes, newest.hole);
}

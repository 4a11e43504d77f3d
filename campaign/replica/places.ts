/**
 * Where rows lie in the Yjs list of their table while changes are made to it. No row ever leaves the list and none comes
 * between others, so that the table need not be read again for each of thousands of changes.
 */
import type { TableRead } from './read.ts';

export interface Places {
  /** Of a row that is there; −1 where there is none of that identity. */
  of(row_id: string): number;
  /** Of a row that was deleted and can be restored; null where there is none. */
  ofDeleted(row_id: string): number | null;
  appended(row_id: string): void;
  deleted(row_id: string): void;
  restored(row_id: string): void;
}

export function placesIn(table: TableRead | null): Places {
  const there = new Map<string, number>();
  const gone = new Map<string, number>();
  const first = (places: Map<string, number>, row_id: string, place: number): void => {
    if (!places.has(row_id)) places.set(row_id, place);
  };
  for (const [i, { row_id }] of (table?.rows ?? []).entries()) first(there, row_id, table!.places[i]!);
  for (const { row, place } of table?.deleted ?? []) first(gone, row.row_id, place);
  let next = (table?.rows.length ?? 0) + (table?.deleted.length ?? 0);
  const move = (row_id: string, from: Map<string, number>, to: Map<string, number>): void => {
    const place = from.get(row_id);
    if (place !== undefined) to.set(row_id, place);
    from.delete(row_id);
  };
  return {
    of: (row_id) => there.get(row_id) ?? -1,
    ofDeleted: (row_id) => gone.get(row_id) ?? null,
    appended: (row_id) => first(there, row_id, next++),
    deleted: (row_id) => move(row_id, there, gone),
    restored: (row_id) => move(row_id, gone, there),
  };
}

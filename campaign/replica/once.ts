/**
 * Two devices that both took in the rows of a third, without a history in common with it, entered each of them once: when
 * the two meet, the row lies in the list twice. Of such rows the first in the list counts, the same on every device. What
 * was set in another since is set in the first; the others are marked as deleted, which no device undoes by what it does
 * to the first. Readings that lie there twice in the same words are read once (`read.ts`).
 */
import { schemas, type TableName } from '@stillstand/campaign/tables';
import type { Acts } from './acts.ts';
import type { Change } from './changes.ts';
import { isReadings } from './layout.ts';
import { type MadeIn, make } from './make.ts';
import type { TableRead } from './read.ts';
import { remove } from './write.ts';

const TABLES = (Object.keys(schemas) as TableName[]).filter((table) => !isReadings(table));

type Made = MadeIn & { acts: Acts };

/** In transactions of `origin`; nothing where every row lies there once. */
export function rowsOnce(made: Made, origin: unknown): void {
  for (const table of TABLES) {
    const read = made.read(table);
    const again = read === null ? [] : laterPlaces(read);
    if (read === null || again.length === 0) continue;
    const changes = again.flatMap((at) => carried(made, table, read, at));
    made.doc.transact(() => {
      for (const at of again) remove(made.doc, table, read.places[at]!);
      made.forget(table);
      if (changes.length > 0) make(made, changes, 'repaired', origin);
    }, origin);
  }
}

/** Of the rows that share an identity all but the first. */
function laterPlaces({ rows }: TableRead): number[] {
  const seen = new Set<string>();
  return [...rows.keys()].filter((at) => {
    const { row_id } = rows[at]!;
    const isAgain = row_id !== '' && seen.has(row_id);
    seen.add(row_id);
    return isAgain;
  });
}

/** Cells of the other that were set last by an act, or that nobody set and the first has not got. */
function carried({ acts }: Made, table: TableName, { rows }: TableRead, at: number): Change[] {
  const { row_id, cells } = rows[at]!;
  const first = rows.find((row) => row.row_id === row_id)!.cells;
  const columns = Object.keys(cells).filter((column) => {
    const [here, there] = [first[column]?.trim() ?? '', cells[column]?.trim() ?? ''];
    if (here === there) return false;
    const set = lastSet(acts, table, row_id, column);
    // In conflict the first counts until that is settled.
    return set.size === 0 ? here === '' : set.size === 1 && set.has(there);
  });
  const of = (row: Readonly<Record<string, string>>) =>
    Object.fromEntries(columns.map((column) => [column, row[column] ?? '']));
  return columns.length === 0 ? [] : [{ kind: 'edit', table, row_id, before: of(first), after: of(cells) }];
}

function lastSet(acts: Acts, table: TableName, row_id: string, column: string): Set<string> {
  const last = new Set(acts.last(table, row_id, column));
  const of = acts.all().filter(({ id }) => last.has(id));
  return new Set(
    of.flatMap(({ changes }) =>
      changes.flatMap((change) =>
        change.kind === 'edit' && change.table === table && change.row_id === row_id
          ? (change.cells[column]?.after.trim() ?? [])
          : [],
      ),
    ),
  );
}

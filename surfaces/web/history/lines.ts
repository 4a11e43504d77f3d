/**
 * Acts as the lines of a list: the newest day first, within a day each writer's own, and a run of readings of one hole as
 * one line.
 */
import { dateOf, schemas, type TableName } from '@stillstand/campaign/tables';
import type { Act, ActChange, CellsOf } from '../store/index.ts';

export type Line =
  /** ISO 8601; empty where the act says none. */
  | { readonly kind: 'day'; readonly date: string; readonly time: string }
  | { readonly kind: 'writer'; readonly act: Act }
  /** One act, or a run of readings: the newest first. */
  | { readonly kind: 'acts'; readonly acts: readonly Act[]; readonly hole: string | null };

/** `acts` in the order of the history. */
export function linesOf(acts: readonly Act[], cellsOf: CellsOf): Line[] {
  const days = [...Map.groupBy(acts.toReversed(), ({ time }) => dateOf(time) ?? '')];
  days.sort(([a], [b]) => (a < b ? 1 : a > b ? -1 : 0));
  return days.flatMap(([date, ofDay]): Line[] => [
    { kind: 'day', date, time: ofDay[0]!.time },
    ...[...Map.groupBy(ofDay, writerOf).values()].flatMap((ofWriter): Line[] => [
      { kind: 'writer', act: ofWriter[0]! },
      ...runsOf(ofWriter, cellsOf),
    ]),
  ]);
}

export const writerOf = ({ by, device }: Act): string => JSON.stringify([by, device]);

function runsOf(acts: readonly Act[], cellsOf: CellsOf): Line[] {
  const runs: { acts: Act[]; hole: string | null }[] = [];
  for (const act of acts) {
    const hole = holeOfReadings(act, cellsOf);
    const run = runs.at(-1);
    if (hole !== null && run?.hole === hole) run.acts.push(act);
    else runs.push({ acts: [act], hole });
  }
  return runs.map((run) => ({ kind: 'acts', ...run }));
}

/** The hole of an act that only wrote readings of it down; null for any other. */
function holeOfReadings({ how, changes }: Act, cellsOf: CellsOf): string | null {
  if (how !== 'done' || changes.length === 0) return null;
  const holes = new Set(
    changes.map(({ kind, table, row_id }) => {
      const { hole = '', amends = '' } = cellsOf(table, row_id);
      return kind === 'add' && schemas[table].readings && amends === '' ? hole.trim() : '';
    }),
  );
  const [hole = ''] = holes;
  return holes.size === 1 && hole !== '' ? hole : null;
}

/** The hole a row is of, or is; an amendment's is that of the reading it amends. Empty where it has none. */
function holeOf({ table, row_id }: Pick<ActChange, 'table' | 'row_id'>, cellsOf: CellsOf): string {
  const { hole = '', amends = '' } = cellsOf(table, row_id);
  return (hole === '' && amends !== '' ? (cellsOf(table, amends)['hole'] ?? '') : hole).trim();
}

/** What is asked for; empty is everything. */
export interface Wanted {
  readonly by: string;
  readonly device: string;
  /** "hole T1" or "table units". */
  readonly where: string;
  readonly others: boolean;
}

export const EVERYTHING: Wanted = { by: '', device: '', where: '', others: false };

/** `isOther`: whether somebody else did it. */
export function wantedActs(
  acts: readonly Act[],
  { by, device, where, others }: Wanted,
  cellsOf: CellsOf,
  isOther: (act: Act) => boolean,
): readonly Act[] {
  const isThere = (change: ActChange): boolean =>
    where === `table ${change.table}` || (where !== '' && where === `hole ${holeOf(change, cellsOf)}`);
  return acts.filter(
    (act) =>
      (by === '' || act.by === by) &&
      (device === '' || act.device === device) &&
      (where === '' || act.changes.some(isThere)) &&
      (!others || isOther(act)),
  );
}

/** What the acts can be asked for. */
export interface Choices {
  readonly by: readonly string[];
  readonly device: readonly string[];
  readonly holes: readonly string[];
  readonly tables: readonly TableName[];
}

export function choicesOf(acts: readonly Act[], cellsOf: CellsOf): Choices {
  const changes = acts.flatMap((act) => act.changes);
  const sorted = (words: readonly string[]): string[] =>
    [...new Set(words)]
      .filter((word) => word !== '')
      .sort((a, b) => a.localeCompare(b, 'en', { numeric: true }));
  const tables = new Set(changes.map(({ table }) => table));
  return {
    by: sorted(acts.map((act) => act.by)),
    device: sorted(acts.map((act) => act.device)),
    holes: sorted(changes.map((change) => holeOf(change, cellsOf))),
    tables: (Object.keys(schemas) as TableName[]).filter((table) => tables.has(table)),
  };
}

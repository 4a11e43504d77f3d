/** Which day a reading is of, and a campaign as it stood at the end of a day. */
import type { Campaign } from '@stillstand/campaign/document';
import { dateOf } from '@stillstand/campaign/tables';
import { RIG_TABLES } from '../rig-readings.ts';

/** A reading of work at a hole, whatever table it is in. */
export interface Work {
  row_id: string;
  hole: string;
  seq: number;
  by: string | null;
  time: string | null;
}

const WORK_TABLES = [...RIG_TABLES, 'pushes', 'pieces'] as const;

/** Everything read at the holes that is work, table by table. */
const workIn = ({ rows }: Pick<Campaign, 'rows'>): Work[] =>
  WORK_TABLES.flatMap((table): readonly Work[] => rows[table]);

/** All of it at one hole, in the order of the log. */
export const workAt = (campaign: Pick<Campaign, 'rows'>, hole: string): Work[] =>
  workIn(campaign)
    .filter((r) => r.hole === hole)
    .sort((a, b) => a.seq - b.seq);

/** The days between which a reading was made, ISO 8601; null where nothing dated is on that side of it. */
export interface DaySpan {
  from: string | null;
  to: string | null;
}

/** The day, where it is known. */
export const dayOf = (span: DaySpan | undefined): string | null =>
  span !== undefined && span.from === span.to ? span.from : null;

/**
 * `row_id` to the days of every reading of work at a hole, set aside or not. One without a time was made between the
 * dated ones next to it in the order of the log: on their day where they share one, else on a day that nobody knows.
 */
export function daysOfReadings(
  campaign: Pick<Campaign, 'rows' | 'skipped_rows'>,
): ReadonlyMap<string, DaySpan> {
  const days = new Map<string, DaySpan>();
  const readings = [...workIn(campaign), ...setAside(campaign)];
  for (const of of Map.groupBy(readings, ({ hole }) => hole).values()) {
    of.sort((a, b) => a.seq - b.seq);
    const dates = of.map(({ time }) => dateOf(time));
    const before = nearest(dates);
    const after = nearest(dates.toReversed()).toReversed();
    of.forEach(({ row_id }, i) => {
      days.set(row_id, inOrder(before[i]!, after[i]!));
    });
  }
  return days;
}

/** Of each place the date there, else the last one before it. */
function nearest(dates: readonly (string | null)[]): (string | null)[] {
  let last: string | null = null;
  return dates.map((date) => {
    last = date ?? last;
    return last;
  });
}

/** A clock that was set back puts the later day first. */
const inOrder = (a: string | null, b: string | null): DaySpan =>
  a !== null && b !== null && a > b ? { from: b, to: a } : { from: a, to: b };

/** Readings that nothing uses, but that happened. */
const setAside = ({
  skipped_rows,
}: Pick<Campaign, 'skipped_rows'>): Pick<Work, 'row_id' | 'hole' | 'seq' | 'time'>[] =>
  skipped_rows.flatMap(({ table, row_id, hole, seq }) =>
    hole === null || seq === null || !(WORK_TABLES as readonly string[]).includes(table)
      ? []
      : [{ row_id, hole, seq, time: null }],
  );

/**
 * The campaign with the readings up to the end of `date`; those that may be of that day or before it are kept. A hole that
 * ended later goes on. What could not be read is kept too: it makes unknown what depends on it.
 */
export function atEndOf<C extends Pick<Campaign, 'rows' | 'skipped_rows' | 'lines'>>(
  campaign: C,
  date: string,
  days: ReadonlyMap<string, DaySpan>,
): C {
  const { rows } = campaign;
  const until = <T extends { row_id: string }>(table: readonly T[]): T[] =>
    table.filter(({ row_id }) => (days.get(row_id)?.from ?? date) <= date);
  return {
    ...campaign,
    rows: {
      ...rows,
      ...Object.fromEntries(
        WORK_TABLES.map((table) => [table, until(rows[table] as readonly { row_id: string }[])]),
      ),
      holes: rows.holes.map((hole) =>
        (dateOf(hole.ended_at) ?? lastDay(rows, hole.hole, days) ?? date) > date
          ? { ...hole, state: 'open' as const }
          : hole,
      ),
    },
  };
}

/** The last day that anything was read at a hole. */
export function lastDay(
  rows: Campaign['rows'],
  hole: string,
  days: ReadonlyMap<string, DaySpan>,
): string | null {
  let last: string | null = null;
  for (const table of WORK_TABLES)
    for (const row of rows[table]) {
      const day = row.hole === hole ? dayOf(days.get(row.row_id)) : null;
      if (day !== null && (last === null || day > last)) last = day;
    }
  return last;
}

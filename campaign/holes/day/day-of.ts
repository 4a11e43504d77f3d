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

/**
 * `row_id` to date of every reading of work at a hole. One without a time is of the day that the readings before and
 * after it share, where they do; else of none.
 */
export function daysOfReadings(campaign: Pick<Campaign, 'rows'>): ReadonlyMap<string, string | null> {
  const days = new Map<string, string | null>();
  for (const readings of Map.groupBy(workIn(campaign), ({ hole }) => hole).values()) {
    readings.sort((a, b) => a.seq - b.seq);
    const after: (string | null)[] = [];
    let next: string | null = null;
    for (let i = readings.length - 1; i >= 0; i--) {
      next = dateOf(readings[i]!.time) ?? next;
      after[i] = next;
    }
    let before: string | null = null;
    for (const [i, { row_id, time }] of readings.entries()) {
      const own = dateOf(time);
      before = own ?? before;
      days.set(row_id, own ?? (before === after[i] ? before : null));
    }
  }
  return days;
}

/**
 * The campaign with the readings up to the end of `date`; those of no day are kept. A hole that ended later goes on. What
 * could not be read is kept too: it makes unknown what depends on it.
 */
export function atEndOf<C extends Pick<Campaign, 'rows' | 'skipped_rows' | 'lines'>>(
  campaign: C,
  date: string,
  days: ReadonlyMap<string, string | null>,
): C {
  const { rows } = campaign;
  const until = <T extends { row_id: string }>(table: readonly T[]): T[] =>
    table.filter(({ row_id }) => (days.get(row_id) ?? date) <= date);
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
  days: ReadonlyMap<string, string | null>,
): string | null {
  let last: string | null = null;
  for (const table of WORK_TABLES)
    for (const row of rows[table]) {
      const day = row.hole === hole ? (days.get(row.row_id) ?? null) : null;
      if (day !== null && (last === null || day > last)) last = day;
    }
  return last;
}

/** Pipe reconciled at the end of a day: what went in, what came out and how, and what stays in which string. */
import type { Campaign } from '@stillstand/campaign/document';
import { type DaySpan, dayOf, daysOfReadings } from './day/day-of.ts';
import { conditionsOf, emptyTally, fateOf, type PipeTally, type TallyItem, tallyItem } from './pipe-tally.ts';
import { holeState } from './state.ts';

type Tables = Pick<Campaign, 'rows' | 'skipped_rows'>;

export interface DayPipe extends PipeTally {
  /** ISO 8601. */
  date: string;
  /** Went into a string on that day. The other lists are of that day too, but for `inString` and `unaccounted`. */
  wentIn: TallyItem[];
  /** Went in or came out on a day that nobody knows, which this one may be. */
  undated: TallyItem[];
}

/** Days on which pipe went in or came out, in order, ISO 8601. */
export function pipeDays(campaign: Tables): string[] {
  const days = movesOf(campaign).flatMap(({ inOn, outOn }) => [dayOf(inOn), dayOf(outOn)]);
  return [...new Set(days.filter((day) => day !== null))].sort();
}

/**
 * The pipe of one day (`date`, ISO 8601): what went in, what came out and how, and what was in which string when the day
 * ended. A day is the date of the clock as it was written; what is known of a reading without one: `daysOfReadings`. An
 * item that may have gone in by then, and is not known to be out, is in the string. Of a hole that has ended, what was
 * never accounted for is `unaccounted` from the day of its last reading on. Pure, nothing throws.
 */
export function reconcileDay(campaign: Tables, date: string): DayPipe {
  const day: DayPipe = { ...emptyTally(), date, wentIn: [], undated: [] };
  for (const { item, fate, inOn, outOn, lastOn } of movesOf(campaign)) {
    if (mayBe(inOn, date) || mayBe(outOn, date)) day.undated.push(item);
    if (dayOf(inOn) === date) day.wentIn.push(item);
    const from = inOn.from ?? inOn.to;
    if (from === null || from > date) continue;
    if (outOn === undefined) day[date < (lastOn ?? '') ? 'inString' : fate].push(item);
    else if (dayOf(outOn) === date) day[fate].push(item);
    else if (outOn.to === null || outOn.to > date) day.inString.push(item);
  }
  return day;
}

/** It was not on a known day, and can have been on this one. */
const mayBe = (span: DaySpan | undefined, date: string): boolean =>
  span !== undefined &&
  dayOf(span) === null &&
  (span.from === null || span.from <= date) &&
  (span.to === null || span.to >= date);

interface Move {
  item: TallyItem;
  fate: keyof PipeTally;
  /** Between which days it went in. */
  inOn: DaySpan;
  /** And came out, or was said to be left or lost; absent where nobody said so. */
  outOn: DaySpan | undefined;
  /** Day of the last reading of its hole. */
  lastOn: string | null;
}

function movesOf(campaign: Tables): Move[] {
  const days = daysOfReadings(campaign);
  const conditions = conditionsOf(campaign);
  return campaign.rows.holes.flatMap(({ hole }) => {
    const now = holeState(campaign, hole);
    if (now === null || now.fold.account.length === 0) return [];
    const spanOf = (row_id: string): DaySpan => days.get(row_id) ?? { from: null, to: null };
    const last = now.entries.at(-1);
    const lastOn = last === undefined ? null : spanOf(last.reading.row_id);
    return now.fold.account.map((added) => ({
      item: tallyItem(hole, added),
      fate: fateOf(added, conditions),
      inOn: spanOf(added.row_id),
      outOn: added.fate_row_id === null ? undefined : spanOf(added.fate_row_id),
      lastOn: lastOn?.to ?? lastOn?.from ?? null,
    }));
  });
}

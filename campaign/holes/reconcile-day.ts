/** Pipe reconciled at the end of a day: what went in, what came out and how, and what stays in which string. */
import type { Campaign } from '@stillstand/campaign/document';
import { dateOf } from '@stillstand/campaign/tables';
import { conditionsOf, emptyTally, fateOf, type PipeTally, type TallyItem, tallyItem } from './pipe-tally.ts';
import { hasEnded } from './rig-readings.ts';
import { type HoleState, holeState } from './state.ts';

type Tables = Pick<Campaign, 'rows' | 'skipped_rows'>;

export interface DayPipe extends PipeTally {
  /** ISO 8601. */
  date: string;
  /** Went into a string on that day. The other lists are of that day too, but for `inString` and `unaccounted`. */
  wentIn: TallyItem[];
  /** Of holes whose rows have no date at all: on which day they went in is not known. */
  undated: TallyItem[];
}

/** Days on which pipe went in or came out, in order, ISO 8601. */
export function pipeDays(campaign: Tables): string[] {
  const days = campaign.rows.holes
    .flatMap(({ hole }) => movesOf(campaign, hole))
    .flatMap(({ inOn, outOn }) => [inOn, outOn]);
  return [...new Set(days.filter((day) => day !== null))].sort();
}

/**
 * The pipe of one day (`date`, ISO 8601): what went in, what came out and how, and what was in which string when the day
 * ended. A day is the date of the clock as it was written. A reading without a time is of the day of the reading before
 * it in its hole, else of the one after. Of a hole that has ended, what was never accounted for is `unaccounted` from the
 * day of its last reading on. Pure, nothing throws.
 */
export function reconcileDay(campaign: Tables, date: string): DayPipe {
  const day: DayPipe = { ...emptyTally(), date, wentIn: [], undated: [] };
  for (const { hole } of campaign.rows.holes) {
    for (const { item, fate, inOn, outOn, lastOn } of movesOf(campaign, hole)) {
      if (inOn === null) {
        day.undated.push(item);
        continue;
      }
      if (inOn > date) continue;
      if (inOn === date) day.wentIn.push(item);
      if (fate === 'inString' || fate === 'unaccounted')
        day[date < (lastOn ?? '') ? 'inString' : fate].push(item);
      else if (outOn === date) day[fate].push(item);
      else if (outOn !== null && outOn > date) day.inString.push(item);
    }
  }
  return day;
}

interface Move {
  item: TallyItem;
  fate: keyof PipeTally;
  /** Days it went in and came out, or was said to be left or lost; null where that is not known. */
  inOn: string | null;
  outOn: string | null;
  /** Day of the last reading of its hole. */
  lastOn: string | null;
}

function movesOf(campaign: Tables, hole: string): Move[] {
  const now = holeState(campaign, hole);
  if (now === null || now.fold.account.length === 0) return [];
  const conditions = conditionsOf(campaign);
  const days = daysOf(now);
  const lastOn = [...days.values()].at(-1) ?? null;
  return now.fold.account.map((added) => ({
    item: tallyItem(hole, added),
    fate: fateOf(added, conditions, hasEnded(now.row.state)),
    inOn: days.get(added.row_id) ?? null,
    outOn: added.fate_row_id === null ? null : (days.get(added.fate_row_id) ?? null),
    lastOn,
  }));
}

/** The day of each reading, by row_id, in their order; without any time in the hole there is none. */
function daysOf({ entries }: Pick<HoleState, 'entries'>): ReadonlyMap<string, string> {
  const written = entries.map(({ time }) => dateOf(time));
  const days = new Map<string, string>();
  let day = written.find((d) => d !== null) ?? null;
  entries.forEach(({ reading }, i) => {
    day = written[i] ?? day;
    if (day !== null) days.set(reading.row_id, day);
  });
  return days;
}

/**
 * How old the readings are that a number of the rig rests on. A reading ages by the clock and by what was done since: it
 * is *fresh*, then *old* (shown lighter, with its age), then *not read*, and no number is made from it.
 *
 * The limits are common practice, no source. Water: old after half an hour; after three hours the sea has gone through
 * half its range (rule of twelfths, 1 + 2 + 3 of 12), so the level outside is not read. Plug and clearance: old after
 * an hour and half an hour; after four hours of standing the plug may have settled or sand come in, so neither is read.
 * Stick-up: old after four hours, as a string settles or rebounds while it stands; it is all there is, and is never taken
 * away.
 */
import { momentOf } from '@stillstand/campaign/tables';
import { isSounded } from '@stillstand/science/rig';
import type { HoleState } from './state.ts';

export interface ReadingAge {
  weight: 'fresh' | 'old' | 'not read';
  /** Whole minutes since it was read; null where it has no time, or one that lies ahead of the clock. */
  age_min: number | null;
  /** When it was read, as written; null without a time. */
  time: string | null;
  /** What has moved it since: the first thing that did. */
  moved_by: 'drive' | 'run' | 'string' | null;
}

/** Of each number that matters; null where it was never read. */
export interface HoleAges {
  stick_up: ReadingAge | null;
  sediment: ReadingAge | null;
  /** Of the older of the two levels. */
  head: ReadingAge | null;
  /** Of the cable, while a sampler is in the string. */
  cable: ReadingAge | null;
}

/** Minutes after which a reading is old, and not read any more. */
const LIMITS = {
  stick_up: [240, Number.POSITIVE_INFINITY],
  sediment: [60, 240],
  head: [30, 180],
  cable: [30, 240],
} as const;

/** Clocks of two devices differ: so far ahead a time is still taken as now. */
const CLOCK_SLACK_MIN = 5;

/** The ages at a moment, ms since 1970. Pure. */
export function agesOf(now: HoleState, at_ms: number): HoleAges {
  const times = new Map(now.entries.map((e) => [e.reading.row_id, e.time]));
  const age = (
    of: keyof typeof LIMITS,
    row_id: string | undefined,
    moved_by: ReadingAge['moved_by'] = null,
  ): ReadingAge | null => {
    if (row_id === undefined) return null;
    const time = times.get(row_id) ?? null;
    const age_min = ageOf(time, at_ms);
    return { weight: weightOf(age_min, LIMITS[of], moved_by), age_min, time, moved_by };
  };
  const { inside, outside } = now.water;
  const levels = [age('head', inside?.row_id, inside?.moved_by ?? null), age('head', outside?.row_id)];
  return {
    stick_up: age('stick_up', now.readings.findLast(isStickUp)?.row_id),
    sediment: age('sediment', plugRead(now)?.row_id, plugMovedBy(now)),
    head: levels.includes(null) ? null : older(levels[0]!, levels[1]!),
    cable: age('cable', now.run?.row_id, now.run_moved_by),
  };
}

/** Minutes; a time slightly ahead of the clock is now. */
function ageOf(time: string | null, at_ms: number): number | null {
  const moment = time === null ? null : momentOf(time);
  if (moment === null) return null;
  const minutes = Math.floor((at_ms - moment) / 60_000);
  return minutes < -CLOCK_SLACK_MIN ? null : Math.max(0, minutes);
}

/** Without a time nobody knows how old it is: old. */
function weightOf(
  age_min: number | null,
  [old, gone]: readonly [number, number],
  moved_by: ReadingAge['moved_by'],
): ReadingAge['weight'] {
  if (moved_by !== null) return 'not read';
  if (age_min === null) return 'old';
  return age_min >= gone ? 'not read' : age_min >= old ? 'old' : 'fresh';
}

const RANK = { fresh: 0, old: 1, 'not read': 2 } as const;

/** The one to trust less. */
function older(a: ReadingAge, b: ReadingAge): ReadingAge {
  if (RANK[a.weight] !== RANK[b.weight]) return RANK[a.weight] > RANK[b.weight] ? a : b;
  if (a.age_min === null || b.age_min === null) return a.age_min === null ? a : b;
  return a.age_min >= b.age_min ? a : b;
}

const isStickUp = (r: HoleState['readings'][number]): boolean =>
  (r.kind === 'drive' && r.stick_up_end_m !== null) || (r.kind === 'sounding' && r.stick_up_m !== null);

/** What the plug is known from: the last sounding, or the run that took some of what was sounded. */
function plugRead({ readings }: HoleState): HoleState['readings'][number] | undefined {
  return readings.findLast((r) => r.kind === 'run' || isSounded(r));
}

/** A drive makes the plug unknown; a joint or a run changes it by what is known of them. */
function plugMovedBy(now: HoleState): ReadingAge['moved_by'] {
  const at = now.readings.findLastIndex(isSounded);
  return now.readings.slice(at + 1).some((r) => r.kind === 'drive') ? 'drive' : null;
}

/** "35 min", "6 h 59 min", "3 days": since a reading. */
export function ageText(age_min: number): string {
  if (age_min < 60) return `${age_min} min`;
  const hours = Math.floor(age_min / 60);
  if (hours < 24) return age_min % 60 === 0 ? `${hours} h` : `${hours} h ${age_min % 60} min`;
  const days = Math.floor(hours / 24);
  return `${days} ${days === 1 ? 'day' : 'days'}`;
}

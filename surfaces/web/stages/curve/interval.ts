/** The interval whose rate is looked at: ends on ages the curve reports, kept in the address and, if wanted, in the settings. */
import type { CurveResult } from '@stillstand/science/curve';

export interface Interval {
  older_cal_bp: number;
  younger_cal_bp: number;
}

export const isSame = (a: Interval, b: Interval): boolean =>
  a.older_cal_bp === b.older_cal_bp && a.younger_cal_bp === b.younger_cal_bp;

/** "8000-7000", as in the address and the setting `intervals`. */
export const written = (interval: Interval): string => `${interval.older_cal_bp}-${interval.younger_cal_bp}`;

/** Reads "8000-7000"; null for anything else. */
export function readInterval(text: string): Interval | null {
  const ends = /^\s*(-?[\d.]+)\s*[-–]\s*(-?[\d.]+)\s*$/.exec(text);
  const older_cal_bp = Number(ends?.[1]);
  const younger_cal_bp = Number(ends?.[2]);
  return older_cal_bp > younger_cal_bp ? { older_cal_bp, younger_cal_bp } : null;
}

export const readIntervals = (setting: string | null): Interval[] =>
  (setting ?? '').split(';').flatMap((word) => readInterval(word) ?? []);

/** The nearest age the curve reports. */
function nearestAge(curve: CurveResult, age: number): number {
  let best = curve.ages_cal_bp[0] ?? 0;
  for (const each of curve.ages_cal_bp) if (Math.abs(each - age) < Math.abs(best - age)) best = each;
  return best;
}

/** From one age to another, on reported ages and never empty; null where the curve has a single age. */
export function between(curve: CurveResult, a: number, b: number): Interval | null {
  const ages = Float64Array.from(curve.ages_cal_bp).sort();
  if (ages.length < 2) return null;
  const [low, high] = [nearestAge(curve, Math.min(a, b)), nearestAge(curve, Math.max(a, b))];
  if (low !== high) return { older_cal_bp: high, younger_cal_bp: low };
  const at = ages.indexOf(low);
  return at + 1 < ages.length
    ? { older_cal_bp: ages[at + 1]!, younger_cal_bp: low }
    : { older_cal_bp: low, younger_cal_bp: ages[at - 1]! };
}

/** One reported age older (1) or younger (−1), `steps` times, staying inside. */
export function stepped(curve: CurveResult, age: number, steps: number): number {
  const ages = Float64Array.from(curve.ages_cal_bp).sort();
  const at = ages.indexOf(nearestAge(curve, age)) + steps;
  return ages[Math.min(ages.length - 1, Math.max(0, at))]!;
}

/** What was asked for, else the first of the report, else the last whole thousand years of the curve. */
export function firstInterval(
  curve: CurveResult,
  asked: Interval | null,
  kept: readonly Interval[],
): Interval | null {
  const first = asked ?? kept[0] ?? curve.intervals[0] ?? null;
  const oldest = Math.max(...curve.ages_cal_bp);
  return first === null
    ? between(curve, oldest, oldest - 1000)
    : between(curve, first.older_cal_bp, first.younger_cal_bp);
}

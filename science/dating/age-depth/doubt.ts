/** Which horizons' ages are rather redrawn: those that the warm-up found neither surely in place nor surely out of it. */
import type { RandomStream } from '@stillstand/science/base';
import { outOfPlaceAt } from './date-likelihood.ts';
import type { History } from './history.ts';
import type { Hole } from './hole.ts';

export interface Doubt {
  /** By horizon, together 1. */
  share: Float64Array;
  /** How many runs of horizons a sweep redraws, and for each horizon of a run among how many ages. */
  runs: number;
  ages: number;
  /** In the warm-up: what was seen so far, and the probability last seen to be out of place. */
  seen: Float64Array;
  out: Float64Array;
}

/** Of all runs so many are of any horizon: what a warm-up saw is little. */
const ANY = 0.3;
/** A horizon that was surely in place counts so much. */
const SURE = 0.002;
const RUNS = { at_first: 8, least: 2, most: 16, for_each_in_doubt: 60 };

/** So much is no doubt of a horizon: p(1 − p) of a date that fits. */
const FITS = 0.05;
/** A date that is out of place may be so instead of another. */
const OUT = 0.15;
const AGES = { least: 2, most: 8, for_each_in_doubt: 30 };

export const doubtOf = ({ dates: { length: n } }: Hole): Doubt => ({
  share: new Float64Array(n).fill(1 / n),
  runs: RUNS.at_first,
  ages: AGES.least,
  seen: new Float64Array(n),
  out: new Float64Array(n).fill(-1),
});

/** After a sweep of the warm-up. */
export function see({ seen, out }: Doubt, { hole, bare_cal_bp, gaps_yr }: History): void {
  for (let i = 0; i < seen.length; i++) {
    const now = outOfPlaceAt(hole.dates[i]!, bare_cal_bp[i]! + gaps_yr[i]!);
    const change = out[i]! < 0 ? 0 : Math.abs(now - out[i]!);
    seen[i] = seen[i]! + now * (1 - now + OUT) + 0.25 * change;
    out[i] = now;
  }
}

/** Shares and runs stay as they are from here on. */
export function endSeeing(doubt: Doubt, sweeps: number): void {
  const { share, seen } = doubt;
  const n = share.length;
  let sum = 0;
  let doubted = 0;
  for (const s of seen) {
    sum += s / sweeps + SURE;
    doubted += Math.max(0, s / sweeps - FITS);
  }
  doubt.ages = Math.min(AGES.most, Math.round(AGES.least + AGES.for_each_in_doubt * doubted));
  for (let i = 0; i < n; i++) share[i] = ANY / n + ((1 - ANY) * (seen[i]! / sweeps + SURE)) / sum;
  doubt.runs = Math.min(RUNS.most, Math.round(RUNS.least + RUNS.for_each_in_doubt * doubted));
}

/** Number of a horizon, by the shares. */
export function drawDoubtful({ share }: Doubt, stream: RandomStream): number {
  let lot = stream.uniform();
  let i = 0;
  while (i < share.length - 1 && lot >= share[i]!) lot -= share[i++]!;
  return i;
}

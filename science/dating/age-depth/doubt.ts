/** Which horizons' ages are rather redrawn: those that the warm-up found neither surely in place nor surely out of it. */
import type { RandomStream } from '@stillstand/science/base';
import { outOfPlaceAt } from './date-likelihood.ts';
import type { History } from './history.ts';
import type { Hole } from './hole.ts';

export interface Doubt {
  /** By horizon, together 1. */
  share: Float64Array;
  /** How many runs of horizons a sweep redraws. */
  runs: number;
  /** In the warm-up: what was seen so far, and the probability last seen to be out of place. */
  seen: Float64Array;
  out: Float64Array;
}

/** Of all runs so many are of any horizon: what a warm-up saw is little. */
const ANY = 0.3;
/** A horizon that was surely in place counts so much. */
const SURE = 0.002;
const RUNS = { at_first: 8, least: 3, most: 24, for_each_in_doubt: 60 };

export const doubtOf = ({ dates: { length: n } }: Hole): Doubt => ({
  share: new Float64Array(n).fill(1 / n),
  runs: RUNS.at_first,
  seen: new Float64Array(n),
  out: new Float64Array(n).fill(-1),
});

/** After a sweep of the warm-up. */
export function see({ seen, out }: Doubt, { hole, bare_cal_bp, gaps_yr }: History): void {
  for (let i = 0; i < seen.length; i++) {
    const now = outOfPlaceAt(hole.dates[i]!, bare_cal_bp[i]! + gaps_yr[i]!);
    const change = out[i]! < 0 ? 0 : Math.abs(now - out[i]!);
    seen[i] = seen[i]! + now * (1 - now) + 0.25 * change;
    out[i] = now;
  }
}

/** Shares and runs stay as they are from here on. */
export function endSeeing(doubt: Doubt, sweeps: number): void {
  const { share, seen } = doubt;
  const n = share.length;
  let sum = 0;
  for (const s of seen) sum += s / sweeps + SURE;
  for (let i = 0; i < n; i++) share[i] = ANY / n + ((1 - ANY) * (seen[i]! / sweeps + SURE)) / sum;
  doubt.runs = Math.min(RUNS.most, Math.round(RUNS.least + RUNS.for_each_in_doubt * sum));
}

/** Number of a horizon, by the shares. */
export function drawDoubtful({ share }: Doubt, stream: RandomStream): number {
  let lot = stream.uniform();
  let i = 0;
  while (i < share.length - 1 && lot >= share[i]!) lot -= share[i++]!;
  return i;
}

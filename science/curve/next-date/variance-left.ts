/**
 * How much of a rate's variance some dates together would leave, each of which may fail.
 *
 * Of all rules that learn a rate g from readings y, the best straight one leaves V − c′Σ⁻¹c, c = Cov(g, y), Σ = Var y: for a
 * normal posterior what is left, for another a bound from above (Rasmussen & Williams 2006, eq. 2.24–2.26). Where each
 * date tells something with a probability of its own, what is left is the mean over all ways in which they succeed and fail:
 * two of them for one date, four for two.
 */
import { cholesky, solveCholesky } from '@stillstand/science/base';
import type { Moments } from './readings.ts';

/** A date that may be taken. */
export interface Dating {
  /** Index of its age among those of the readings, in equally probable cases; one case where the age is certain. */
  at: readonly number[];
  /** Of its height's error, m², > 0. */
  height_variance_m2: number;
  /** Probability that it gives a result, and that the result is no outlier. */
  succeeds: number;
}

/** Expected share of the rate's variance that is left, 0–1. Several dates meet case by case. */
export function varianceLeft(moments: Moments, dates: readonly Dating[]): number {
  const cases = Math.max(...dates.map(({ at }) => at.length));
  let left = 0;
  for (let s = 0; s < cases; s++) left += leftInCase(moments, dates, s) / cases;
  return left;
}

/** The mean over which of the dates succeed. */
function leftInCase(moments: Moments, dates: readonly Dating[], s: number): number {
  let left = 0;
  for (let outcome = 0; outcome < 1 << dates.length; outcome++) {
    let p = 1;
    const sound: Dating[] = [];
    dates.forEach((date, k) => {
      const succeeds = (outcome & (1 << k)) !== 0;
      p *= succeeds ? date.succeeds : 1 - date.succeeds;
      if (succeeds) sound.push(date);
    });
    if (p > 0) left += p * (1 - explained(moments, sound, s));
  }
  return left;
}

/** Share of the rate's variance that these readings explain, all of them sound. */
function explained(moments: Moments, sound: readonly Dating[], s: number): number {
  const k = sound.length;
  if (k === 0 || !(moments.rate > 0)) return 0;
  const n = moments.within.length;
  const at = sound.map((date) => date.at[s % date.at.length]!);
  const own = (i: number): number =>
    moments.readings[at[i]! * n + at[i]!]! + moments.within[at[i]!]! + sound[i]!.height_variance_m2;
  const c = (i: number): number => moments.with[at[i]!]!;
  if (k === 1) return within01((c(0) * c(0)) / (own(0) * moments.rate));
  if (k === 2) {
    const both = moments.readings[at[0]! * n + at[1]!]!;
    const [a, b] = [own(0), own(1)];
    return within01(
      (c(0) * c(0) * b - 2 * c(0) * c(1) * both + c(1) * c(1) * a) / ((a * b - both * both) * moments.rate),
    );
  }
  const variance = new Float64Array(k * k);
  for (let i = 0; i < k; i++)
    for (let j = 0; j < k; j++)
      variance[i * k + j] = i === j ? own(i) : moments.readings[at[i]! * n + at[j]!]!;
  const l = cholesky(variance, k);
  if (l === null) return 0;
  const rates = Float64Array.from(sound, (_, i) => c(i));
  const x = solveCholesky(l, rates, k);
  return within01(x.reduce((sum, xi, i) => sum + xi * rates[i]!, 0) / moments.rate);
}

const within01 = (share: number): number => Math.max(0, Math.min(1, share));

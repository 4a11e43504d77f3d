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
  const cases = dates.reduce((most, { at }) => Math.max(most, at.length), 1);
  let left = 0;
  for (let s = 0; s < cases; s++) left += leftInCase(moments, dates, s) / cases;
  return left;
}

/** The mean over which of the dates succeed. One and two are by far the most often asked, and allocate nothing. */
function leftInCase(moments: Moments, dates: readonly Dating[], s: number): number {
  const [a, b] = dates;
  if (a === undefined || !(moments.rate > 0)) return 1;
  if (b === undefined) return 1 - a.succeeds * byOne(moments, a, s);
  if (dates.length === 2)
    return (
      1 -
      a.succeeds * b.succeeds * byTwo(moments, a, b, s) -
      a.succeeds * (1 - b.succeeds) * byOne(moments, a, s) -
      (1 - a.succeeds) * b.succeeds * byOne(moments, b, s)
    );
  let left = 0;
  for (let outcome = 0; outcome < 1 << dates.length; outcome++) {
    let p = 1;
    const sound = dates.filter(({ succeeds }, k) => {
      const isSound = (outcome & (1 << k)) !== 0;
      p *= isSound ? succeeds : 1 - succeeds;
      return isSound;
    });
    if (p > 0) left += p * (1 - bySeveral(moments, sound, s));
  }
  return left;
}

const ageOf = ({ at }: Dating, s: number): number => at[s % at.length]!;

/** Variance of a reading, m². */
function ownVariance({ readings, within }: Moments, date: Dating, s: number): number {
  const i = ageOf(date, s);
  return readings[i * within.length + i]! + within[i]! + date.height_variance_m2;
}

/** Covariance of two readings, m²: also of two at one age, whose errors are each its own. */
const shared = ({ readings, within }: Moments, a: Dating, b: Dating, s: number): number =>
  readings[ageOf(a, s) * within.length + ageOf(b, s)]!;

/** Shares of the rate's variance that sound readings explain: of one, of two, of any number. */
function byOne(moments: Moments, date: Dating, s: number): number {
  const c = moments.with[ageOf(date, s)]!;
  return within01((c * c) / (ownVariance(moments, date, s) * moments.rate));
}

function byTwo(moments: Moments, first: Dating, second: Dating, s: number): number {
  const [a, b] = [ownVariance(moments, first, s), ownVariance(moments, second, s)];
  const both = shared(moments, first, second, s);
  const ca = moments.with[ageOf(first, s)]!;
  const cb = moments.with[ageOf(second, s)]!;
  return within01((ca * ca * b - 2 * ca * cb * both + cb * cb * a) / ((a * b - both * both) * moments.rate));
}

function bySeveral(moments: Moments, sound: readonly Dating[], s: number): number {
  const k = sound.length;
  if (k === 0) return 0;
  const variance = new Float64Array(k * k);
  for (let i = 0; i < k; i++)
    for (let j = 0; j < k; j++)
      variance[i * k + j] =
        i === j ? ownVariance(moments, sound[i]!, s) : shared(moments, sound[i]!, sound[j]!, s);
  const l = cholesky(variance, k);
  if (l === null) return 0;
  const rates = Float64Array.from(sound, (date) => moments.with[ageOf(date, s)]!);
  const x = solveCholesky(l, rates, k);
  return within01(x.reduce((sum, xi, i) => sum + xi * rates[i]!, 0) / moments.rate);
}

const within01 = (share: number): number => Math.max(0, Math.min(1, share));

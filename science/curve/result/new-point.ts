/**
 * What one more dated index point would do to a rate, before anybody has dated it: how much of the rate's sd would be
 * left. From the draws already kept, without computing the curve anew.
 *
 * The point would read y = f(T) + error, T its true age, known to the laboratory's error. Of all rules that learn a rate
 * g from y, a straight one leaves the variance V(1 − c²/(V·Var y)), c = Cov(g, y), all over the draws; for a normal
 * posterior that is what is left (Rasmussen & Williams 2006, eq. 2.24–2.26), for another it is an upper bound. T is taken
 * out by Gauss–Hermite quadrature of the moments of f. A layer not yet dated has the ages at which the curve passes its
 * height, each as probable as the draws make it there.
 */
import { exp, mean, median, square } from '@stillstand/science/base';
import type { IntervalRate } from './interval-rate.ts';
import type { CurveResult } from './result.ts';

/** A date and a height not yet measured: 1 sigma each. */
export interface NewPoint {
  /** All of its height's errors together, m, > 0. */
  height_sigma_m: number;
  /** Of the calendar age, yr, ≥ 0. */
  age_sd_yr: number;
}

export interface RateWith {
  /** Share of the rate's sd that would be left, 0–1, on average. */
  left: number;
  /** Where it would be expected. */
  age_cal_bp: { mean: number; sd: number };
  level_m: { mean: number; sd: number };
}

/**
 * A point as good as half of the index points there are: medians of their own height errors and of the sd of their ages.
 * Errors that points share move all of them alike and hardly touch a rate. Null without an index point.
 */
function usualNewPoint(curve: CurveResult): NewPoint | null {
  const index = curve.points.filter(({ kind }) => kind === 'index');
  if (index.length === 0) return null;
  return {
    height_sigma_m: median(index.map((p) => p.own_sigma_m)),
    age_sd_yr: median(index.map((p) => p.prior_age_cal_bp.sd)),
  };
}

/** A claim on the sea that nobody has dated: the height it would show, m, 1 sigma. */
interface Undated {
  point: string;
  rsl_m: number;
  rsl_sigma_m: number;
}

export interface CandidateDates {
  usual: NewPoint;
  /** With a usual new point at each reported age, in their order; and the best of them. */
  through: RateWith[];
  best: RateWith;
  /** With each claim dated, the one that would tell most first; those the curve comes nowhere near are left out. */
  layers: { point: string; with: RateWith }[];
}

/** What one more date would do to a rate, wherever it may be taken. Null without an index point to be usual. */
export function rankCandidateDates(
  curve: CurveResult,
  rate: IntervalRate,
  undated: readonly Undated[],
): CandidateDates | null {
  const usual = usualNewPoint(curve);
  if (usual === null) return null;
  const moments = momentsWith(curve, rate);
  const through = pointsThrough(moments, usual);
  const layers = undated.flatMap(({ point, rsl_m, rsl_sigma_m }) => {
    const layer = withLayer(curve, moments, rsl_m, { ...usual, height_sigma_m: rsl_sigma_m });
    return layer === null ? [] : [{ point, with: layer }];
  });
  return {
    usual,
    through,
    best: through.reduce((a, b) => (b.left < a.left ? b : a)),
    layers: layers.sort((a, b) => a.with.left - b.with.left),
  };
}

/** Less of a rate's sd is not worth a date, nor told from the noise of the draws. */
export const isWorthDating = ({ left }: RateWith): boolean => left < 1 - 0.02;

/** What would be left with such a point at each reported age, in their order. */
export const rateWithPointAt = (curve: CurveResult, rate: IntervalRate, point: NewPoint): RateWith[] =>
  pointsThrough(momentsWith(curve, rate), point);

/**
 * What would be left if a layer that shows the sea at `height_m`, not yet dated, were dated; averaged over the ages it may
 * have. Null where the curve comes nowhere near that height.
 */
export const rateWithLayer = (
  curve: CurveResult,
  rate: IntervalRate,
  height_m: number,
  point: NewPoint,
): RateWith | null => withLayer(curve, momentsWith(curve, rate), height_m, point);

const pointsThrough = (moments: Moments, point: NewPoint): RateWith[] =>
  Array.from(moments.ages_cal_bp, (age, i) => ({
    left: Math.sqrt(varianceLeft(moments, age, point)),
    age_cal_bp: { mean: age, sd: 0 },
    level_m: { mean: moments.level[i]!, sd: Math.sqrt(moments.variance[i]!) },
  }));

function withLayer(curve: CurveResult, moments: Moments, height_m: number, point: NewPoint): RateWith | null {
  const ages = curve.ages_cal_bp;
  const weight = agesOf(curve, height_m, point.height_sigma_m);
  const total = weight.reduce((sum, w) => sum + w, 0);
  if (!(total > LEAST_DENSITY * ages.length)) return null;
  let left = 0;
  let age = 0;
  let ages2 = 0;
  let level = 0;
  let levels = 0;
  for (let i = 0; i < ages.length; i++) {
    const p = weight[i]! / total;
    left += p * varianceLeft(moments, ages[i]!, point);
    age += p * ages[i]!;
    ages2 += p * square(ages[i]!);
    level += p * moments.level[i]!;
    levels += p * (moments.variance[i]! + square(moments.level[i]!));
  }
  return {
    left: Math.sqrt(left),
    age_cal_bp: { mean: age, sd: Math.sqrt(Math.max(0, ages2 - square(age))) },
    level_m: { mean: level, sd: Math.sqrt(Math.max(0, levels - square(level))) },
  };
}

/** Of a height's normal law at its middle: farther off than this nothing can be said. */
const LEAST_DENSITY = 1e-6;

/** How probable each reported age is for a height, uniform beforehand in time; the mean over draws, unnormalised. */
function agesOf(curve: CurveResult, height_m: number, sigma_m: number): Float64Array {
  const n = curve.ages_cal_bp.length;
  const { level_m } = curve.draws;
  const weight = new Float64Array(n);
  for (let d = 0; d < level_m.length; d += n) {
    for (let i = 0; i < n; i++) {
      const z = (height_m - level_m[d + i]!) / sigma_m;
      weight[i] = weight[i]! + exp(-0.5 * z * z);
    }
  }
  for (let i = 0; i < n; i++) weight[i] = (weight[i]! * n) / level_m.length;
  return weight;
}

interface Moments {
  ages_cal_bp: Float64Array;
  /** Mean and variance of the level at each reported age, and its covariance with the rate. */
  level: Float64Array;
  variance: Float64Array;
  covariance: Float64Array;
  rateVariance: number;
}

function momentsWith(curve: CurveResult, { draws }: IntervalRate): Moments {
  const n = curve.ages_cal_bp.length;
  const { level_m } = curve.draws;
  const centre = mean(draws);
  const level = new Float64Array(n);
  const variance = new Float64Array(n);
  const covariance = new Float64Array(n);
  for (let d = 0; d < draws.length; d++) {
    for (let i = 0; i < n; i++) level[i] = level[i]! + level_m[d * n + i]! / draws.length;
  }
  let rateVariance = 0;
  for (let d = 0; d < draws.length; d++) {
    const g = draws[d]! - centre;
    rateVariance += (g * g) / draws.length;
    for (let i = 0; i < n; i++) {
      const f = level_m[d * n + i]! - level[i]!;
      variance[i] = variance[i]! + (f * f) / draws.length;
      covariance[i] = covariance[i]! + (f * g) / draws.length;
    }
  }
  return { ages_cal_bp: curve.ages_cal_bp, level, variance, covariance, rateVariance };
}

/** Gauss–Hermite, five points, for a standard normal (Abramowitz & Stegun 1964, table 25.10, times √2 and over √π). */
const PLACES: readonly (readonly [number, number])[] = [
  [-2.8569700138728056, 0.011257411327720693],
  [-1.355626179974266, 0.22207592200561266],
  [0, 0.5333333333333333],
  [1.355626179974266, 0.22207592200561266],
  [2.8569700138728056, 0.011257411327720693],
];

/** Share of the rate's variance left with a point dated to `age_cal_bp`. */
function varianceLeft(moments: Moments, age_cal_bp: number, { height_sigma_m, age_sd_yr }: NewPoint): number {
  let level = 0;
  let level2 = 0;
  let variance = 0;
  let covariance = 0;
  for (const [place, weight] of PLACES) {
    const at = interpolated(moments, age_cal_bp + place * age_sd_yr);
    level += weight * at.level;
    level2 += weight * square(at.level);
    variance += weight * at.variance;
    covariance += weight * at.covariance;
  }
  const read = variance + Math.max(0, level2 - square(level)) + square(height_sigma_m);
  return Math.max(0, 1 - square(covariance) / (moments.rateVariance * read));
}

/** Straight between the reported ages; beyond them as at the last. */
function interpolated(
  moments: Moments,
  age: number,
): { level: number; variance: number; covariance: number } {
  const { ages_cal_bp: ages, level, variance, covariance } = moments;
  let i = 0;
  while (i < ages.length - 2 && ages[i + 1]! <= age) i++;
  const [a, b] = [ages[i]!, ages[i + 1] ?? ages[i]!];
  const t = b > a ? Math.max(0, Math.min(1, (age - a) / (b - a))) : 0;
  const j = Math.min(i + 1, ages.length - 1);
  const between = (of: Float64Array): number => of[i]! + t * (of[j]! - of[i]!);
  return { level: between(level), variance: between(variance), covariance: between(covariance) };
}

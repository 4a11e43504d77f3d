/** What may be dated: a new index point at any age, and each layer that is sampled and waits for a date. */
import { exp, median, randomStream, square } from '@stillstand/science/base';
import type { CurveResult } from '../result/result.ts';
import type { Readings } from './readings.ts';
import type { Dating } from './variance-left.ts';

/** A date and a height not yet measured: 1 sigma each. */
export interface NewPoint {
  /** All of its height's errors together, m, > 0. */
  height_sigma_m: number;
  /** Of the calendar age, yr, ≥ 0. */
  age_sd_yr: number;
}

/** A claim on the sea that nobody has dated: the height it would show, m, 1 sigma. */
export interface Layer {
  point: string;
  rsl_m: number;
  rsl_sigma_m: number;
  /** Of its date; null: as every date. */
  price: number | null;
}

/** What dates cost and how they go. */
export interface DatePlan {
  /** Probability that a date gives no result (too little carbon, lost on the way), 0 to 0.95. */
  fails: number;
  /** Price of one date, > 0, in any unit; 1 where dates are counted. */
  date_price: number;
  /** Price of the core that a new point is taken from, ≥ 0, in the same unit. */
  core_price: number;
  /** What may be spent, > 0, in the same unit; null: not said. */
  budget: number | null;
}

/** One date in twenty gives no result: common practice, no source. Each date counts one, a core nothing. */
export const DEFAULT_DATE_PLAN: DatePlan = { fails: 0.05, date_price: 1, core_price: 0, budget: null };

/** @throws RangeError where a plan is none. */
export function demandPlan({ fails, date_price, core_price, budget }: DatePlan): void {
  const demand = (fine: boolean, came: string, expected: string): void => {
    if (!fine) throw new RangeError(`whatToDate: ${came}; expected ${expected}`);
  };
  demand(fails >= 0 && fails <= 0.95, `fails = ${fails}`, '0 to 0.95');
  demand(date_price > 0 && date_price < Infinity, `date_price = ${date_price}`, 'a number above 0');
  demand(core_price >= 0 && core_price < Infinity, `core_price = ${core_price}`, '0 or more');
  demand(budget === null || (budget > 0 && budget < Infinity), `budget = ${budget}`, 'above 0, or null');
}

/**
 * A point as good as half of the index points there are: medians of their own height errors and of the sd of their ages.
 * Errors that points share move all of them alike and hardly touch a rate. Null without an index point.
 */
export function usualNewPoint(curve: CurveResult): NewPoint | null {
  const index = curve.points.filter(({ kind }) => kind === 'index');
  if (index.length === 0) return null;
  return {
    height_sigma_m: median(index.map((p) => p.own_sigma_m)),
    age_sd_yr: median(index.map((p) => p.prior_age_cal_bp.sd)),
  };
}

/** Mean square of what index points scatter beyond their errors, m²; 0 where that is not in the model. */
export const scatterVariance = ({ scatter_m }: CurveResult): number =>
  scatter_m === null ? 0 : square(scatter_m.mean) + square(scatter_m.sd);

/** A date gives a result and neither it nor its height is an outlier, by the priors of the curve. */
export const succeeds = ({ settings: { outliers } }: CurveResult, fails: number): number =>
  (1 - fails) * (1 - (outliers?.age_probability ?? 0)) * (1 - (outliers?.height_probability ?? 0));

export interface Candidate {
  /** Null: a new point. */
  point: string | null;
  dating: Dating;
  price: number;
  age_cal_bp: { mean: number; sd: number };
  level_m: { mean: number; sd: number };
}

/** A new point at each age of the readings, in their order. */
export function newPoints(
  curve: CurveResult,
  readings: Readings,
  usual: NewPoint,
  { fails, date_price, core_price }: DatePlan,
): Candidate[] {
  const height_variance_m2 = square(usual.height_sigma_m) + scatterVariance(curve);
  return Array.from(readings.ages_cal_bp, (age, i) => ({
    point: null,
    dating: { at: [i], height_variance_m2, succeeds: succeeds(curve, fails) },
    price: date_price + core_price,
    age_cal_bp: { mean: age, sd: 0 },
    level_m: readings.level_m[i]!,
  }));
}

/** Of a height's normal law at its middle: farther off than this nothing can be said. */
const LEAST_DENSITY = 1e-6;

/** Equally probable ages of a layer whose date is not known. */
const CASES = 32;

/**
 * A layer at the ages at which the curve passes its height, each as probable as the draws make it there, even in time
 * beforehand. Null where the curve comes nowhere near.
 */
export function layerOf(
  curve: CurveResult,
  readings: Readings,
  { point, rsl_m, rsl_sigma_m, price }: Layer,
  { fails, date_price }: DatePlan,
): Candidate | null {
  const height_variance_m2 = square(rsl_sigma_m) + scatterVariance(curve);
  const ages = readings.ages_cal_bp;
  const weight = agesOf(curve, readings.reported, rsl_m, Math.sqrt(height_variance_m2));
  const total = weight.reduce((sum, w) => sum + w, 0);
  if (!(total > LEAST_DENSITY * ages.length)) return null;
  const share = weight.map((w) => w / total);
  const middle = (of: (i: number) => number): number => share.reduce((sum, p, i) => sum + p * of(i), 0);
  const age = middle((i) => ages[i]!);
  const level = middle((i) => readings.level_m[i]!.mean);
  return {
    point,
    dating: { at: casesOf(share, point), height_variance_m2, succeeds: succeeds(curve, fails) },
    price: price ?? date_price,
    age_cal_bp: { mean: age, sd: Math.sqrt(middle((i) => square(ages[i]! - age))) },
    level_m: {
      mean: level,
      sd: Math.sqrt(
        middle((i) => square(readings.level_m[i]!.sd) + square(readings.level_m[i]!.mean - level)),
      ),
    },
  };
}

/** How probable each age is for a height, uniform beforehand in time; the mean over draws, unnormalised. */
function agesOf(
  curve: CurveResult,
  reported: readonly number[],
  height_m: number,
  sigma_m: number,
): Float64Array {
  const of = curve.ages_cal_bp.length;
  const { level_m } = curve.draws;
  const weight = new Float64Array(reported.length);
  for (let d = 0; d < level_m.length; d += of)
    for (let k = 0; k < reported.length; k++) {
      const z = (height_m - level_m[d + reported[k]!]!) / sigma_m;
      weight[k] = weight[k]! + exp(-0.5 * z * z);
    }
  return weight.map((w) => (w * of) / level_m.length);
}

/** Middles of equal shares, in an order of the layer's own, so that two layers meet at ages of all kinds. */
function casesOf(share: Float64Array, point: string): number[] {
  const at: number[] = [];
  let i = 0;
  let below = 0;
  for (let s = 0; s < CASES; s++) {
    while (i < share.length - 1 && below + share[i]! < (s + 0.5) / CASES) below += share[i++]!;
    at.push(i);
  }
  const stream = randomStream(1).split(point);
  for (let s = CASES - 1; s > 0; s--) {
    const other = stream.integer(s + 1);
    [at[s], at[other]] = [at[other]!, at[s]!];
  }
  return at;
}

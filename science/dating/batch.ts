/** Many ages at once: medians, moments and one highest-density set each, in columns; no distribution is kept and
 * nothing is allocated for a date. */
import { highestDensityLevel } from '@stillstand/science/base';
import {
  calibrate,
  calibrationSets,
  hasMonths,
  isUsable,
  type RadiocarbonAge,
  shareBeyond,
} from './calibration.ts';
import { fillWindow, type Window, windowOf } from './window.ts';
import type { YearlyCurve } from './yearly-curve.ts';

export interface CalibratedColumns {
  /** One entry per age; NaN where `calibrate` would give no distribution. */
  median_cal_bp: Float64Array;
  mean_cal_bp: Float64Array;
  sd_yr: Float64Array;
  truncated: Float64Array;
  /** Intervals of age i are those from `first_interval[i]` to `first_interval[i + 1]` − 1, oldest first. */
  first_interval: Uint32Array;
  older_cal_bp: Float64Array;
  younger_cal_bp: Float64Array;
  probability: Float64Array;
}

/** What lies farther off the curve is 6e-7 of a normal law: medians move by thousandths of a year. */
const BATCH_REACH_SD = 5;

/** The same numbers as `calibrate` and `calibrationSets(…, mass)`: medians and means within 0.02 yr, sd within 0.1 % (what
 * is left out at the ends differs), ends of intervals the same but for ties. */
export function calibrateMany(
  ages: readonly RadiocarbonAge[],
  curve: YearlyCurve,
  mass: number,
): CalibratedColumns {
  if (hasMonths(curve)) return oneByOne(ages, curve, mass);
  const n = ages.length;
  const window = windowOf(curve);
  const columns: CalibratedColumns = {
    median_cal_bp: new Float64Array(n).fill(NaN),
    mean_cal_bp: new Float64Array(n).fill(NaN),
    sd_yr: new Float64Array(n).fill(NaN),
    truncated: new Float64Array(n).fill(NaN),
    first_interval: new Uint32Array(n + 1),
    older_cal_bp: new Float64Array(4 * n + 16),
    younger_cal_bp: new Float64Array(4 * n + 16),
    probability: new Float64Array(4 * n + 16),
  };
  let intervals = 0;
  for (let k = 0; k < n; k++) {
    const age = ages[k]!;
    if (isUsable(age)) {
      const variance = age.error_yr * age.error_yr + age.offset_sd_yr * age.offset_sd_yr;
      fillWindow(window, age.c14_age - age.offset_yr, variance, BATCH_REACH_SD);
      const truncated = shareBeyond(window, age.c14_age - age.offset_yr, variance);
      columns.truncated[k] = truncated;
      if (truncated <= 0.5) {
        if (intervals + window.length > columns.older_cal_bp.length) lengthen(columns, window.length);
        summarise(window, columns, k);
        intervals = appendSet(window, columns, intervals, mass);
      }
    }
    columns.first_interval[k + 1] = intervals;
  }
  columns.older_cal_bp = columns.older_cal_bp.slice(0, intervals);
  columns.younger_cal_bp = columns.younger_cal_bp.slice(0, intervals);
  columns.probability = columns.probability.slice(0, intervals);
  return columns;
}

/** The same columns from `calibrate` itself: dates of the bomb years are never many. */
function oneByOne(ages: readonly RadiocarbonAge[], curve: YearlyCurve, mass: number): CalibratedColumns {
  const dates = ages.map((age) => calibrate(age, curve));
  const sets = dates.map((date) => (date.kind === 'calibrated' ? calibrationSets(date, mass) : []));
  const intervals = sets.flat();
  const column = (of: 'median_cal_bp' | 'mean_cal_bp' | 'sd_yr' | 'truncated'): Float64Array =>
    Float64Array.from(dates, (date) => (date.kind === 'calibrated' ? date[of] : NaN));
  const first_interval = new Uint32Array(ages.length + 1);
  for (const [i, set] of sets.entries()) first_interval[i + 1] = first_interval[i]! + set.length;
  return {
    median_cal_bp: column('median_cal_bp'),
    mean_cal_bp: column('mean_cal_bp'),
    sd_yr: column('sd_yr'),
    truncated: column('truncated'),
    first_interval,
    older_cal_bp: Float64Array.from(intervals, (s) => s.older_cal_bp),
    younger_cal_bp: Float64Array.from(intervals, (s) => s.younger_cal_bp),
    probability: Float64Array.from(intervals, (s) => s.probability),
  };
}

function summarise(window: Window, columns: CalibratedColumns, k: number): void {
  const { density, length, total } = window;
  const half = 0.5 * total;
  let below = 0;
  let i = -1;
  while (below < half && i < length - 1) below += density[++i]!;
  const mean = window.first / total;
  columns.median_cal_bp[k] = window.first_cal_bp + i + 0.5 - (below - half) / density[i]!;
  columns.mean_cal_bp[k] = window.first_cal_bp + mean;
  columns.sd_yr[k] = Math.sqrt(Math.max(0, window.second / total - mean * mean));
}

/** Adds the set of the date in the window, oldest first; gives the number of intervals so far. */
function appendSet(window: Window, columns: CalibratedColumns, intervals: number, mass: number): number {
  const { density, length, total, first_cal_bp } = window;
  const level = highestDensityLevel(density, 0, length, mass * total * (1 - 1e-13));
  let at = intervals;
  let i = length - 1;
  for (;;) {
    while (i >= 0 && density[i]! < level) i--;
    if (i < 0) return at;
    columns.older_cal_bp[at] = first_cal_bp + i;
    let sum = 0;
    while (i >= 0 && density[i]! >= level) sum += density[i--]!;
    columns.younger_cal_bp[at] = first_cal_bp + i + 1;
    columns.probability[at] = sum / total;
    at++;
  }
}

function lengthen(columns: CalibratedColumns, more: number): void {
  const grown = (old: Float64Array): Float64Array => {
    const longer = new Float64Array(2 * old.length + more);
    longer.set(old);
    return longer;
  };
  columns.older_cal_bp = grown(columns.older_cal_bp);
  columns.younger_cal_bp = grown(columns.younger_cal_bp);
  columns.probability = grown(columns.probability);
}

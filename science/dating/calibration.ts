/** One laboratory result to its distribution over calendar years, and that distribution's highest-density sets. */
import { gridMoments, highestDensitySets, normalCdf, normalDensity } from '@stillstand/science/base';
import { type BombCurve, bombYears } from './bomb-years.ts';
import { f14cFromAge } from './f14c.ts';
import { fillWindow, REACH_SD, type Window, windowOf } from './window.ts';
import type { YearlyCurve } from './yearly-curve.ts';

/** A conventional radiocarbon age and the reservoir offset ΔR that applies to it. */
export interface RadiocarbonAge {
  /** 14C yr BP, fractionation corrected. */
  c14_age: number;
  /** 1 sigma of the laboratory, > 0. */
  error_yr: number;
  /** ΔR: added to the curve, 14C yr; 0 for none. Its 1 sigma ≥ 0. */
  offset_yr: number;
  offset_sd_yr: number;
}

/** An age as a distribution over calendar years. */
export interface Calibration {
  kind: 'calibrated';
  /** cal BP of the first entry. */
  from_cal_bp: number;
  /** Yearly, sums to 1; ends below 1e-8 of the highest value are trimmed. */
  density: Float64Array;
  median_cal_bp: number;
  mean_cal_bp: number;
  sd_yr: number;
  /** Estimated share of the whole distribution that lies beyond the curve's ends and is missing here. */
  truncated: number;
}

/** Why there is no distribution. */
export interface NotCalibrated {
  kind: 'beyond_curve' | 'not_a_number' | 'nothing_remains';
  /** In words: what came, what was expected. */
  reason: string;
}

export interface AgeInterval {
  older_cal_bp: number;
  younger_cal_bp: number;
  probability: number;
}

/** Parts of the peak below which the ends of a distribution are left off. */
const NEGLIGIBLE = 1e-8;
/** With more than this share missing a median would be an invention. */
const LARGEST_TRUNCATED = 0.5;

/**
 * Calibrates one age: uniform prior over the years of the curve, normal likelihood with variance laboratory² + offset²
 * + curve(t)², 1/σ kept. An age of which more than half lies beyond the curve gets `beyond_curve`, one that is not a
 * number or has no positive error `not_a_number`.
 * `truncated` continues the curve beyond its ends, for a warning, not for a result (see `shareBeyond`).
 * On a curve with months all of it is done in F14C (see `bombYears`).
 */
export function calibrate(age: RadiocarbonAge, curve: YearlyCurve): Calibration | NotCalibrated {
  if (!isUsable(age)) {
    return {
      kind: 'not_a_number',
      reason: `age ${age.c14_age} ± ${age.error_yr}, offset ${age.offset_yr} ± ${age.offset_sd_yr}; expected finite numbers, an error above 0 and an offset error of 0 or more`,
    };
  }
  if (hasMonths(curve)) {
    const { c14_age, error_yr, offset_yr, offset_sd_yr } = age;
    const years = bombYears(c14_age, error_yr, offset_yr, offset_sd_yr, curve);
    if (!(years.truncated <= LARGEST_TRUNCATED)) return offTheBombYears(age, curve);
    return trimmed(years.density, years.first_cal_bp, years.truncated);
  }
  const window = windowOf(curve);
  const seen = age.c14_age - age.offset_yr;
  const variance = age.error_yr * age.error_yr + age.offset_sd_yr * age.offset_sd_yr;
  fillWindow(window, seen, variance, REACH_SD);
  const truncated = shareBeyond(window, seen, variance);
  if (!(truncated <= LARGEST_TRUNCATED)) return beyondCurve(age, curve);
  return trimmed(window.density.subarray(0, window.length), window.first_cal_bp, truncated);
}

/** The smallest set of years that holds `mass` (0.683, 0.954 …), oldest interval first; ends are whole years, both
 * included. */
export function calibrationSets(calibration: Calibration, mass: number): AgeInterval[] {
  return highestDensitySets({ from: calibration.from_cal_bp, step: 1, density: calibration.density }, mass)
    .map((set) => ({ older_cal_bp: set.high, younger_cal_bp: set.low, probability: set.probability }))
    .reverse();
}

/** An unnormalised yearly density as a Calibration, its negligible ends left off. */
export function trimmed(density: Float64Array, first_cal_bp: number, truncated: number): Calibration {
  let peak = 0;
  for (let i = 0; i < density.length; i++) peak = Math.max(peak, density[i]!);
  let start = 0;
  let end = density.length;
  while (start < end && density[start]! < NEGLIGIBLE * peak) start++;
  while (end > start && density[end - 1]! < NEGLIGIBLE * peak) end--;
  let total = 0;
  for (let i = start; i < end; i++) total += density[i]!;
  const kept = density.slice(start, end);
  for (let i = 0; i < kept.length; i++) kept[i] = kept[i]! / total;
  const from_cal_bp = first_cal_bp + start;
  const moments = gridMoments({ from: from_cal_bp, step: 1, density: kept });
  return {
    kind: 'calibrated',
    from_cal_bp,
    density: kept,
    median_cal_bp: moments.median,
    mean_cal_bp: moments.mean,
    sd_yr: moments.sd,
    truncated,
  };
}

export function isUsable(age: RadiocarbonAge): boolean {
  return (
    Number.isFinite(age.c14_age) &&
    Number.isFinite(age.offset_yr) &&
    age.error_yr > 0 &&
    age.error_yr < Infinity &&
    age.offset_sd_yr >= 0 &&
    age.offset_sd_yr < Infinity
  );
}

/**
 * Share of the distribution beyond both ends, the curve continued roughly: at the old end by one 14C year per year; at
 * the young end by the same where it lies before 1950 CE, otherwise by a few years at the same age and then the fall of the bomb years (air: some 200
 * 14C yr a year, Hua et al. 2022, Radiocarbon 64:723–745; slower in the sea, so a smaller figure, to be on the warning
 * side). NaN without any mass at all.
 */
export function shareBeyond(window: Window, age: number, variance: number): number {
  const { curve } = window;
  const last = curve.c14_age.length - 1;
  const youngSd = Math.sqrt(variance + window.variance[0]!);
  const young = (curve.c14_age[0]! - age) / youngSd;
  // A curve that ends before 1950 goes on at its young end as at its old one.
  const younger =
    curve.from_cal_bp > 0
      ? normalCdf(young)
      : (LEVEL_YEARS * normalDensity(young)) / youngSd + normalCdf(young) / FALL_PER_YEAR;
  const older = normalCdf((age - curve.c14_age[last]!) / Math.sqrt(variance + window.variance[last]!));
  const beyond = (younger + older) * ROOT_2PI;
  return beyond / (beyond + window.total);
}

/** Years after 1950 CE at about its 14C age, then 14C years lost in a year. */
const LEVEL_YEARS = 4;
const FALL_PER_YEAR = 50;
/** ∫ e^(−x²/2σ²)/σ dx: the window leaves this factor of the normal density out. */
const ROOT_2PI = 2.5066282746310002;

export const hasMonths = (curve: YearlyCurve): curve is BombCurve => curve.months !== undefined;

function offTheBombYears({ c14_age, error_yr }: RadiocarbonAge, { name, months }: BombCurve): NotCalibrated {
  const { f14c } = f14cFromAge(c14_age, error_yr);
  const most = Math.max(...months.f14c);
  const end = months.year_ce.at(-1)!.toFixed(1);
  const why =
    f14c > most
      ? `is more than the air of ${name} ever had (${most.toFixed(3)})`
      : `fits the years after ${end} CE, where ${name} ends, better than all before`;
  return {
    kind: 'beyond_curve',
    reason: `F14C ${f14c.toFixed(4)} (age ${Math.round(c14_age)} ± ${error_yr.toFixed(0)}) ${why}`,
  };
}

function beyondCurve(age: RadiocarbonAge, curve: YearlyCurve): NotCalibrated {
  const seen = age.c14_age - age.offset_yr;
  const last = curve.c14_age.length - 1;
  const oldest = curve.from_cal_bp + last;
  const side = seen > curve.c14_age[last >> 1]! ? 'older' : 'younger';
  return {
    kind: 'beyond_curve',
    reason: `age ${age.c14_age} ± ${age.error_yr}${age.offset_yr === 0 ? '' : ` less offset ${age.offset_yr}`} is ${side} than ${curve.name}, which runs from ${curve.from_cal_bp} to ${oldest} cal BP (${Math.round(curve.c14_age[0]!)} to ${Math.round(curve.c14_age[last]!)} 14C yr)`,
  };
}

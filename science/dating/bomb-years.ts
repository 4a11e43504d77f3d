/**
 * Calibration where the curve runs on through the bomb years: in F14C (Reimer, Brown & Reimer 2004, Radiocarbon
 * 46:1299–1304), month by month, and given to the year. A law that is normal in age is not in F14C, and within one year
 * of the 1960s the air changed by more than any result's error, so neither ages nor yearly values would do.
 */
import { exp, normalCdf, square } from '@stillstand/science/base';
import { f14cFromAge, LIBBY_MEAN_LIFE_YR } from './f14c.ts';
import type { CurveMonths, YearlyCurve } from './yearly-curve.ts';

/** A curve that has months, as it is calibrated on. */
export type BombCurve = YearlyCurve & { months: CurveMonths };

export interface BombYears {
  /** cal BP of the first entry: the last year the months reach. */
  first_cal_bp: number;
  /** Unnormalised, yearly, each the mean over the months of its calendar year. */
  density: Float64Array;
  /** Estimated share of the whole that lies after the last month. */
  truncated: number;
}

/** As `REACH_SD`: what is farther off is at most 1.5e-8 of the highest possible value. */
const REACH_SD = 6;
const ROOT_2PI = 2.5066282746310002;
const MONTHS = 12;
/** Years over which the fall of the air's F14C is taken, to say what may lie after the last month; at least so much. */
const FALL_YEARS = 10;
const LEAST_FALL = 1e-4;

/**
 * @param c14_age conventional age, 14C yr BP, negative after 1950, with its 1 sigma > 0
 * @param offset_yr added to the curve, 14C yr, with its 1 sigma ≥ 0
 */
export function bombYears(
  c14_age: number,
  error_yr: number,
  offset_yr: number,
  offset_sd_yr: number,
  curve: BombCurve,
): BombYears {
  const fine = inF14C(curve);
  const { months } = curve;
  // an offset of the age is a factor of F14C
  const { f14c: factor, f14c_sigma: factorSd } = f14cFromAge(offset_yr, offset_sd_yr);
  const { f14c, f14c_sigma } = f14cFromAge(c14_age, error_yr);
  const variance = (mu: number, sigma: number): number =>
    square(f14c_sigma) + square(sigma * factor) + square(mu * factorSd);
  const likelihood = (mu: number, sigma: number): number => {
    const d = f14c - mu * factor;
    const v = variance(mu, sigma);
    return d * d > REACH_SD * REACH_SD * v ? 0 : exp((-0.5 * d * d) / v) / Math.sqrt(v);
  };
  const density = new Float64Array(fine.bombYears + fine.f14c.length);
  for (let m = fine.fromMonth; m < months.f14c.length; m++) {
    const at = fine.lastYear - Math.floor(months.year_ce[m]!);
    density[at] = density[at]! + likelihood(months.f14c[m]!, months.f14c_sigma[m]!) / MONTHS;
  }
  for (let i = 0; i < fine.f14c.length; i++) {
    density[fine.bombYears + i] = likelihood(fine.f14c[i]!, fine.f14c_sigma[i]!);
  }
  let total = 0;
  for (let i = 0; i < density.length; i++) total += density[i]!;
  const end = (fine.endF14C * factor - f14c) / Math.sqrt(variance(fine.endF14C, fine.endSigma));
  const beyond = (ROOT_2PI * normalCdf(end)) / (fine.fallPerYear * factor);
  return { first_cal_bp: 1950 - fine.lastYear, density, truncated: beyond / (beyond + total) };
}

/** Of a curve: its years before the months in F14C, youngest first, and how its months lie in calendar years. */
interface Fine {
  f14c: Float64Array;
  f14c_sigma: Float64Array;
  /** First month of the first whole calendar year; calendar years from there to the last, CE. */
  fromMonth: number;
  bombYears: number;
  lastYear: number;
  /** Mean of the last twelve months, its sigma, and what the air lost a year before them. */
  endF14C: number;
  endSigma: number;
  fallPerYear: number;
}

const known = new WeakMap<YearlyCurve, Fine>();

function inF14C(curve: BombCurve): Fine {
  const fine = known.get(curve) ?? prepare(curve);
  known.set(curve, fine);
  return fine;
}

function prepare({ from_cal_bp, c14_age, sigma_yr, months }: BombCurve): Fine {
  const { year_ce } = months;
  const firstWhole = Math.ceil(year_ce[0]! - 1 / MONTHS);
  const lastYear = Math.floor(year_ce.at(-1)!);
  // cal BP t is the calendar year 1950 − t
  const before = Math.max(0, 1950 - firstWhole + 1 - from_cal_bp);
  const f14c = c14_age.slice(before);
  const f14c_sigma = sigma_yr.slice(before);
  for (let i = 0; i < f14c.length; i++) {
    f14c[i] = exp(-f14c[i]! / LIBBY_MEAN_LIFE_YR);
    f14c_sigma[i] = (f14c[i]! * f14c_sigma[i]!) / LIBBY_MEAN_LIFE_YR;
  }
  const meanOfYear = (end: number): number => {
    let sum = 0;
    for (let m = end - MONTHS; m < end; m++) sum += months.f14c[m]!;
    return sum / MONTHS;
  };
  const endF14C = meanOfYear(year_ce.length);
  return {
    f14c,
    f14c_sigma,
    fromMonth: year_ce.findIndex((year) => year >= firstWhole),
    bombYears: lastYear - firstWhole + 1,
    lastYear,
    endF14C,
    endSigma: months.f14c_sigma.at(-1)!,
    fallPerYear: Math.max(
      LEAST_FALL,
      (meanOfYear(year_ce.length - MONTHS * FALL_YEARS) - endF14C) / FALL_YEARS,
    ),
  };
}

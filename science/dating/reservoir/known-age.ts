/** ΔR of one shell: its measured age less the marine curve at its calendar age (Stuiver, Pearson & Braziunas 1986). */
import { square } from '@stillstand/science/base';
import { type Calibration, calibrate, type NotCalibrated } from '../calibration.ts';
import { atYear, type YearlyCurve } from '../yearly-curve.ts';

/** A conventional radiocarbon age, 14C yr BP, with the laboratory's 1 sigma > 0. */
export interface Measured {
  c14_age: number;
  error_yr: number;
}

/** ΔR, 14C yr, 1 sigma: without the error of the marine curve, which enters once, when a date is calibrated on it. */
export interface ReservoirOffset {
  kind: 'offset';
  offset_yr: number;
  error_yr: number;
  /** The calendar age it belongs to, cal BP: as known, or the mean of the date it was paired with. */
  cal_bp: number;
}

/**
 * Of a shell collected alive in a known year (cal BP, a fraction allowed). Its error is the laboratory's alone. After 1950 CE the sea
 * holds bomb carbon and the marine curve ends: `beyond_curve`.
 */
export function offsetOfKnownAge(
  shell: Measured,
  known_cal_bp: number,
  marine: YearlyCurve,
): ReservoirOffset | NotCalibrated {
  if (!isMeasured(shell) || !Number.isFinite(known_cal_bp))
    return notANumber(shell, `known age ${known_cal_bp}`);
  const expected = atYear(marine, known_cal_bp);
  if (expected === null) {
    const last = marine.from_cal_bp + marine.c14_age.length - 1;
    const bomb = known_cal_bp < 0 ? ': it may hold bomb carbon' : '';
    return {
      kind: 'beyond_curve',
      reason: `collected in ${yearCe(known_cal_bp)} CE (${known_cal_bp} cal BP); ${marine.name} runs from ${marine.from_cal_bp} to ${last} cal BP${bomb}`,
    };
  }
  return {
    kind: 'offset',
    offset_yr: shell.c14_age - expected.c14_age,
    error_yr: shell.error_yr,
    cal_bp: known_cal_bp,
  };
}

/**
 * Of a marine and a terrestrial sample of one time (a shell with charcoal): the terrestrial date is calibrated, and the
 * marine age less the marine curve is taken over its years. Mean and sd of that: sd² = error² + variance of the curve
 * over those years. The atmosphere's error is in it, the marine curve's is not.
 */
export function offsetOfPair(
  marine_sample: Measured,
  terrestrial: Measured,
  marine: YearlyCurve,
  atmosphere: YearlyCurve,
): ReservoirOffset | NotCalibrated {
  if (!isMeasured(marine_sample)) return notANumber(marine_sample, 'marine sample');
  const date = calibrate({ ...terrestrial, offset_yr: 0, offset_sd_yr: 0 }, atmosphere);
  if (date.kind !== 'calibrated') return date;
  const seen = marineOver(date, marine);
  if (seen.covered < 0.99) {
    return {
      kind: 'beyond_curve',
      reason: `the terrestrial date of about ${Math.round(date.median_cal_bp)} cal BP has ${Math.round(100 * seen.covered)} % of its years on ${marine.name}; 99 % are needed`,
    };
  }
  return {
    kind: 'offset',
    offset_yr: marine_sample.c14_age - seen.mean,
    error_yr: Math.sqrt(square(marine_sample.error_yr) + seen.variance),
    cal_bp: date.mean_cal_bp,
  };
}

/** The marine curve over the years of a date, weighted by them; the share of the date that it covers. */
function marineOver({ from_cal_bp, density }: Calibration, marine: YearlyCurve) {
  let covered = 0;
  let sum = 0;
  let squares = 0;
  for (const [i, p] of density.entries()) {
    const age = marine.c14_age[from_cal_bp + i - marine.from_cal_bp];
    if (age === undefined) continue;
    covered += p;
    sum += p * age;
    squares += p * age * age;
  }
  const mean = sum / covered;
  return { covered, mean, variance: Math.max(0, squares / covered - mean * mean) };
}

const isMeasured = ({ c14_age, error_yr }: Measured): boolean =>
  Number.isFinite(c14_age) && error_yr > 0 && error_yr < Infinity;

const notANumber = ({ c14_age, error_yr }: Measured, what: string): NotCalibrated => ({
  kind: 'not_a_number',
  reason: `age ${c14_age} ± ${error_yr}, ${what}; expected finite numbers and an error above 0`,
});

const yearCe = (cal_bp: number): number => Math.floor(1950 - cal_bp);

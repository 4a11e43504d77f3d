/** An age known by draws of it, as a distribution over calendar years. */
import { exp, log, mean as meanOf, quantileSorted, standardDeviation } from '@stillstand/science/base';
import { type Calibration, type NotCalibrated, trimmed } from './calibration.ts';

/**
 * Smoothed over years by a triangle as wide as draws of a normal law ask for (1.06 sd n^−1/5 is its sd: Silverman 1986,
 * Density Estimation, eq. 3.28); median, mean and sd are those of the draws. cal BP. `not_a_number` for no draws, or one
 * that is no number.
 */
export function ageOfDraws(draws_cal_bp: Float64Array): Calibration | NotCalibrated {
  const n = draws_cal_bp.length;
  if (n === 0 || !draws_cal_bp.every(Number.isFinite))
    return { kind: 'not_a_number', reason: `${n} draws of an age; expected some, each a number` };
  const mean = meanOf(draws_cal_bp);
  const sd = n > 1 ? standardDeviation(draws_cal_bp) : 0;
  const sorted = draws_cal_bp.toSorted();
  // The sd of a triangle is its half width over √6.
  const half = Math.max(1, Math.round(1.06 * sd * exp(-0.2 * log(n)) * Math.sqrt(6)));
  const first = Math.round(sorted[0]!) - half;
  const years = Math.round(sorted[n - 1]!) + half - first + 1;
  const density = new Float64Array(years);
  for (const age of sorted) {
    const at = Math.round(age) - first;
    for (let k = 1 - half; k < half; k++) density[at + k] = density[at + k]! + half - Math.abs(k);
  }
  return {
    ...trimmed(density, first, 0),
    median_cal_bp: quantileSorted(sorted, 0.5),
    mean_cal_bp: mean,
    sd_yr: sd,
  };
}

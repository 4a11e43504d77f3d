/** Calendar ages of other methods (luminescence, uranium series, dated markers): a normal law over calendar years. */
import { normalCdf } from '@stillstand/science/base';
import { type Calibration, type NotCalibrated, trimmed } from './calibration.ts';

/** Years beyond this many sd are left off. */
const REACH_SD = 6;

/**
 * N(value, error²) in years before 1950 CE on the yearly grid; each year holds the probability of its whole cell, so an
 * error of a month, or 0, still sums to 1. A year CE y is 1950 − y. `not_a_number` for anything not finite or an error
 * below 0 or above 100,000 yr.
 */
export function normalAge(value_before_1950: number, error_yr: number): Calibration | NotCalibrated {
  if (!(Number.isFinite(value_before_1950) && error_yr >= 0 && error_yr <= 100_000)) {
    return {
      kind: 'not_a_number',
      reason: `age ${value_before_1950} ± ${error_yr}; expected a finite age and an error from 0 to 100,000 yr`,
    };
  }
  const first = Math.round(value_before_1950 - REACH_SD * error_yr);
  const last = Math.max(first, Math.round(value_before_1950 + REACH_SD * error_yr));
  const density = new Float64Array(last - first + 1);
  if (density.length === 1) density[0] = 1;
  else {
    for (let i = 0; i < density.length; i++) {
      // On the side of the mean where both terms are small: their difference keeps its digits.
      const low = (first + i - 0.5 - value_before_1950) / error_yr;
      const high = low + 1 / error_yr;
      density[i] = low > 0 ? normalCdf(-low) - normalCdf(-high) : normalCdf(high) - normalCdf(low);
    }
  }
  const calibration = trimmed(density, first, 0);
  // The law is known exactly; the grid's own moments would add a cell's width to a small error.
  return {
    ...calibration,
    median_cal_bp: value_before_1950,
    mean_cal_bp: value_before_1950,
    sd_yr: error_yr,
  };
}

/** Years before 1950 CE of an age that counts back from another year CE, as from that of the measurement; null: from 1950. */
export const before1950 = (age_yr: number, counted_from_ce: number | null): number =>
  age_yr + (counted_from_ce === null ? 0 : 1950 - counted_from_ce);

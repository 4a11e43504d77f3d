/** A calibration curve as a member of a sequence meets it: averaged over its rings, by the year of the first member. */
import type { YearlyCurve } from '../yearly-curve.ts';

/** Where a member lies: years after the first member to the middle of its block, and how many years that spans. */
export interface Place {
  after_first_yr: number;
  block_yr: number;
}

/**
 * Years of the first member, cal BP, for which the curve has all years of the block; last before first where there are none.
 * @throws RangeError for a block that is not a whole number of years from 1 on.
 */
export function blockYears(curve: YearlyCurve, { after_first_yr, block_yr }: Place) {
  if (!(Number.isInteger(block_yr) && block_yr >= 1 && Number.isFinite(after_first_yr))) {
    throw new RangeError(
      `blockYears: ${block_yr} years, ${after_first_yr} after the first; expected whole years from 1 on`,
    );
  }
  const towards = towardsYoungest({ after_first_yr, block_yr });
  const oldest = curve.from_cal_bp + curve.c14_age.length - 1;
  return {
    first: Math.ceil(curve.from_cal_bp - towards),
    last: Math.floor(oldest - towards - (block_yr - 1)),
  };
}

/**
 * Mean of the curve, and of its 1 sigma, over the block, for each of `years` years of the first member from `first` on, all within
 * `blockYears`. The errors of neighbouring years go together, so their mean is not reduced.
 */
export function blockCurve(curve: YearlyCurve, place: Place, first: number, years: number) {
  const { block_yr } = place;
  const start = first + towardsYoungest(place) - curve.from_cal_bp;
  const whole = Math.floor(start);
  const part = start - whole;
  const averaged = (of: Float64Array): Float64Array => {
    const means = new Float64Array(years + 1);
    let sum = 0;
    for (let i = 0; i < block_yr; i++) sum += of[whole + i]!;
    for (let t = 0; t <= years; t++) {
      means[t] = sum / block_yr;
      sum += (of[whole + t + block_yr] ?? 0) - of[whole + t]!;
    }
    for (let t = 0; t < years; t++) if (part > 0) means[t] = (1 - part) * means[t]! + part * means[t + 1]!;
    return means.subarray(0, years);
  };
  return { c14_age: averaged(curve.c14_age), sigma_yr: averaged(curve.sigma_yr) };
}

/** From the year of the first member to the youngest of the block. */
const towardsYoungest = ({ after_first_yr, block_yr }: Place): number => -after_first_yr - (block_yr - 1) / 2;

/** A calibration curve as a member of a sequence meets it: averaged over its rings, by the year of the first member. */
import type { YearlyCurve } from '../yearly-curve.ts';

/**
 * Entry at year t: mean of the curve, and of its 1 sigma, over `block_yr` years whose middle lies `after_first_yr` after t. The errors
 * of neighbouring years go together, so their mean is not reduced. Null where the curve is shorter than that.
 * @throws RangeError for a block that is not a whole number of years from 1 on.
 */
export function blockCurve(curve: YearlyCurve, after_first_yr: number, block_yr: number): YearlyCurve | null {
  if (!(Number.isInteger(block_yr) && block_yr >= 1 && Number.isFinite(after_first_yr))) {
    throw new RangeError(
      `blockCurve: ${block_yr} years, ${after_first_yr} after the first; expected whole years from 1 on`,
    );
  }
  // Youngest year of the block of year t: t + towards.
  const towards = -after_first_yr - (block_yr - 1) / 2;
  const from_cal_bp = Math.ceil(curve.from_cal_bp - towards);
  const part = from_cal_bp + towards - curve.from_cal_bp;
  const years = curve.c14_age.length - block_yr + 1 - (part > 0 ? 1 : 0);
  if (years < 2) return null;
  const averaged = (of: Float64Array): Float64Array => {
    const sums = new Float64Array(of.length + 1);
    for (let i = 0; i < of.length; i++) sums[i + 1] = sums[i]! + of[i]!;
    const mean = (i: number): number => (sums[i + block_yr]! - sums[i]!) / block_yr;
    return Float64Array.from({ length: years }, (_, i) =>
      part > 0 ? (1 - part) * mean(i) + part * mean(i + 1) : mean(i),
    );
  };
  return {
    name: curve.name,
    from_cal_bp,
    c14_age: averaged(curve.c14_age),
    sigma_yr: averaged(curve.sigma_yr),
  };
}

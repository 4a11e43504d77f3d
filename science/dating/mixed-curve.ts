/** A curve for carbon that is partly marine (common practice, no source; see docs/methods/dating.md). */
import { square } from '@stillstand/science/base';
import type { YearlyCurve } from './yearly-curve.ts';

/**
 * μ = (1 − q)·atmosphere + q·(marine + ΔR), variance (1 − q)²σ_atm² + q²(σ_marine² + σ_ΔR²) + σ_q²(marine + ΔR −
 * atmosphere)², over the years both curves have. The offset is in the curve: calibrate on it with offset 0.
 * @param share marine share of the carbon, q, 0 … 1, with its 1 sigma
 * @param offset_yr ΔR of the marine part, 14C yr, with its 1 sigma
 * @throws RangeError for a share outside 0 … 1, or curves without a year in common.
 */
export function mixedCurve(
  atmosphere: YearlyCurve,
  marine: YearlyCurve,
  share: number,
  share_sd: number,
  offset_yr: number,
  offset_sd_yr: number,
): YearlyCurve {
  const first = Math.max(atmosphere.from_cal_bp, marine.from_cal_bp);
  const end = Math.min(
    atmosphere.from_cal_bp + atmosphere.c14_age.length,
    marine.from_cal_bp + marine.c14_age.length,
  );
  if (!(share >= 0 && share <= 1 && share_sd >= 0 && offset_sd_yr >= 0 && end > first)) {
    throw new RangeError(
      `mixedCurve: share ${share} ± ${share_sd}, offset ${offset_yr} ± ${offset_sd_yr}, years ${first} to ${end - 1}; expected a share from 0 to 1, errors of 0 or more and years in common`,
    );
  }
  const c14_age = new Float64Array(end - first);
  const sigma_yr = new Float64Array(end - first);
  for (let i = 0; i < c14_age.length; i++) {
    const a = first + i - atmosphere.from_cal_bp;
    const m = first + i - marine.from_cal_bp;
    const air = atmosphere.c14_age[a]!;
    const sea = marine.c14_age[m]! + offset_yr;
    const airSd = (1 - share) * atmosphere.sigma_yr[a]!;
    const seaVariance = square(share) * (square(marine.sigma_yr[m]!) + square(offset_sd_yr));
    c14_age[i] = (1 - share) * air + share * sea;
    sigma_yr[i] = Math.sqrt(square(airSd) + seaVariance + square(share_sd * (sea - air)));
  }
  const name = `${atmosphere.name} with ${Math.round(100 * share)} % ${marine.name}`;
  return { name, from_cal_bp: first, c14_age, sigma_yr };
}

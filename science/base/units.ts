/** International foot and inch in metres, exact by definition (international yard and pound agreement, 1959). */
export const FOOT_M = 0.3048;
export const INCH_M = 0.0254;

/** No table in years ends so young, but for one of the last decades, which has years after 1950 CE as well. */
const OLDEST_IN_KA = 60;

/** Whether ages look like thousands of years, where years before 1950 CE as far as `oldest_cal_bp` were expected. */
export function lookLikeKa(ages: readonly number[], oldest_cal_bp: number): boolean {
  const oldest = Math.max(...ages);
  return Math.min(...ages) >= 0 && oldest > 0 && oldest <= OLDEST_IN_KA && oldest_cal_bp > 10 * oldest;
}

/** Whether the data reach an interval or an age at all: both are computed for any, but without points nothing is measured. */
import type { CurveResult } from '@stillstand/science/curve';

/** Ends of an interval. */
interface Interval {
  older_cal_bp: number;
  younger_cal_bp: number;
}

/** With a rate whose interval holds no index point. */
export const UNREACHED = 'No index point within it: the prior and its neighbours alone';

/** With a level older than every index point. */
export const BEYOND = 'No index point is so old: the prior and the limits alone';

/** Whether the age of any index point, 95 % as the curve has it, overlaps the interval. */
export const isReached = (
  { points }: Pick<CurveResult, 'points'>,
  { older_cal_bp, younger_cal_bp }: Interval,
): boolean =>
  points.some(
    ({ kind, age_cal_bp: { lower95, upper95 } }) =>
      kind === 'index' && lower95 <= older_cal_bp && upper95 >= younger_cal_bp,
  );

/** Whether a reported age lies beyond the 95 % of the oldest index point, by more than one reported age. */
export function isBeyond(
  { points, ages_cal_bp }: Pick<CurveResult, 'points' | 'ages_cal_bp'>,
  age_cal_bp: number,
): boolean {
  const before = ages_cal_bp.reduce(
    (most, age) => (age < age_cal_bp ? Math.max(most, age) : most),
    -Infinity,
  );
  return !points.some(({ kind, age_cal_bp: { upper95 } }) => kind === 'index' && upper95 >= before);
}

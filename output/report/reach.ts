/** Whether the data reach an interval at all: a rate is computed for any, but one without points is not measured. */
import type { CurveResult } from '@stillstand/science/curve';

/** Ends of an interval. */
interface Interval {
  older_cal_bp: number;
  younger_cal_bp: number;
}

/** Beside a rate whose interval holds no index point. */
export const UNREACHED = 'No index point within it: the prior and its neighbours alone';

/** Whether the age of any index point, 95 % as the curve has it, overlaps the interval. */
export const isReached = (
  { points }: Pick<CurveResult, 'points'>,
  { older_cal_bp, younger_cal_bp }: Interval,
): boolean =>
  points.some(
    ({ kind, age_cal_bp: { lower95, upper95 } }) =>
      kind === 'index' && lower95 <= older_cal_bp && upper95 >= younger_cal_bp,
  );

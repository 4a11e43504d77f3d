/** What a date says of an age, an error that it shares with others being known. */

/** The date shares b of its sds: what the laboratory found is `loading_yr`·b above what it would have been. */
interface Sharing {
  /** Dates of one group share one error. */
  group: string;
  /** 1 sigma of that error, of a reservoir 14C yr. */
  loading_yr: number;
  /** Log of what the density sums to over the years, whatever the shared error is: its mean over that. */
  log_mass: number;
}

/** A calendar age, its error shared in part: found age ~ N(age + loading·b, 1/precision). */
export interface NormalSharing extends Sharing {
  kind: 'normal';
  mean_cal_bp: number;
  precision: number;
  log_precision: number;
}

/** A radiocarbon age whose reservoir error is shared: c14 age ~ N(expected + loading·b, 1/precision) in each year from the first. */
export interface OffsetSharing extends Sharing {
  kind: 'offset';
  from_cal_bp: number;
  c14_age: number;
  expected_yr: Float64Array;
  precision: Float64Array;
  log_precision: Float64Array;
}

/** Plain data. */
export type DateSharing = NormalSharing | OffsetSharing;

/** Log density of an age (cal BP) by the date, up to a constant, the error that it shares being `shift` of its sds. */
export function logDateGiven(date: DateSharing, age_cal_bp: number, shift: number): number {
  if (date.kind === 'normal') {
    const miss = date.mean_cal_bp - age_cal_bp - date.loading_yr * shift;
    return 0.5 * (date.log_precision - miss * miss * date.precision);
  }
  const cell = Math.round(age_cal_bp - date.from_cal_bp);
  if (!(cell >= 0 && cell < date.expected_yr.length)) return -Infinity;
  const miss = date.c14_age - date.expected_yr[cell]! - date.loading_yr * shift;
  return 0.5 * (date.log_precision[cell]! - miss * miss * date.precision[cell]!);
}

/** What a date shows of the error it shares: how far the laboratory's finding is from what the age alone would give, yr, and 1/variance of that. */
export function shownBy(date: DateSharing, age_cal_bp: number): { miss_yr: number; precision: number } {
  if (date.kind === 'normal') return { miss_yr: date.mean_cal_bp - age_cal_bp, precision: date.precision };
  const cell = Math.round(age_cal_bp - date.from_cal_bp);
  return { miss_yr: date.c14_age - date.expected_yr[cell]!, precision: date.precision[cell]! };
}

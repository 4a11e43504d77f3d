/** What one clock says of an age, with the errors it shares with others. Ages cal BP (yr before 1950 CE). */
import type { YearlyCurve } from '@stillstand/science/dating';

export type AgeConstraint =
  | {
      kind: 'normal';
      mean_cal_bp: number;
      /** 1 sigma, the whole. */
      sd_yr: number;
      /** The part of it that ages of one group share, 1 sigma, in `sd_yr`: one error for all of them, as of doses measured together. */
      systematic?: { group: string; sd_yr: number };
    }
  | {
      kind: 'radiocarbon';
      c14_age: number;
      /** 1 sigma, laboratory. */
      error_yr: number;
      curve: YearlyCurve;
      /** ΔR added to the curve, and its 1 sigma. */
      offset_yr: number;
      offset_sd_yr: number;
      /** Ages of one group share the error of one reservoir offset; null: the error is this age's own. */
      delta_r_group: string | null;
    }
  /** Any other distribution, on a yearly grid: `density[i]` at `from_cal_bp + i`, need not be normalised. */
  | { kind: 'density'; from_cal_bp: number; density: Float64Array };

/** The error that an age shares with those of its group, 1 sigma, yr (of a reservoir 14C yr); null for none. */
export function sharedErrorOf(age: AgeConstraint): { group: string; sd_yr: number } | null {
  if (age.kind === 'radiocarbon')
    return age.delta_r_group !== null && age.offset_sd_yr > 0
      ? { group: age.delta_r_group, sd_yr: age.offset_sd_yr }
      : null;
  return age.kind === 'normal' && age.systematic !== undefined && age.systematic.sd_yr > 0
    ? age.systematic
    : null;
}

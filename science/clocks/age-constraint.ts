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

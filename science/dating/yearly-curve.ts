/** A calibration curve on a yearly grid from `from_cal_bp`; linear between years. */
export interface YearlyCurve {
  name: string;
  /** cal BP of the first entry; entry i stands at `from_cal_bp + i`. */
  from_cal_bp: number;
  /** Radiocarbon age, 14C yr BP. */
  c14_age: Float64Array;
  /** 1 sigma of the curve, 14C yr. */
  sigma_yr: Float64Array;
}

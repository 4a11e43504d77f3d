/** A calibration curve on a yearly grid from `from_cal_bp`; linear between years. */
export interface YearlyCurve {
  name: string;
  /** cal BP of the first entry; entry i stands at `from_cal_bp + i`. */
  from_cal_bp: number;
  /** Radiocarbon age, 14C yr BP. */
  c14_age: Float64Array;
  /** 1 sigma of the curve, 14C yr. */
  sigma_yr: Float64Array;
  /** The bomb years that follow, where the curve has them; from their first whole year on they stand for the curve. */
  months?: CurveMonths;
}

/** Months in which the air's 14C changes too fast for years: F14C and its 1 sigma. */
export interface CurveMonths {
  /** Decimal year CE of the middle of each month, ascending, without gaps. */
  year_ce: Float64Array;
  f14c: Float64Array;
  f14c_sigma: Float64Array;
}

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

/** Rows of a curve: cal BP ascending, no two alike; 14C age and 1 sigma in 14C yr. */
export interface CurveRows {
  cal_bp: ArrayLike<number>;
  c14_age: ArrayLike<number>;
  sigma_yr: ArrayLike<number>;
}

/**
 * The curve on whole years, linear between rows; at a row of a whole year exactly that row.
 * @throws RangeError for fewer than two rows, rows out of order, or fewer than two whole years between first and last.
 */
export function onWholeYears(
  name: string,
  { cal_bp, c14_age: ages, sigma_yr: sigmas }: CurveRows,
): YearlyCurve {
  const rows = cal_bp.length;
  const first = Math.ceil(cal_bp[0] ?? Number.NaN);
  const years = Math.floor(cal_bp[rows - 1] ?? Number.NaN) - first + 1;
  if (!(rows >= 2 && years >= 2)) {
    throw new RangeError(`onWholeYears: ${name} has ${rows} rows; expected two or more, years apart`);
  }
  const c14_age = new Float64Array(years);
  const sigma_yr = new Float64Array(years);
  for (let i = 0; i + 1 < rows; i++) {
    const step = cal_bp[i + 1]! - cal_bp[i]!;
    if (!(step > 0))
      throw new RangeError(`onWholeYears: ${name}: ${cal_bp[i + 1]} follows ${cal_bp[i]} cal BP`);
    for (let year = Math.ceil(cal_bp[i]!); year <= cal_bp[i + 1]!; year++) {
      const k = year - cal_bp[i]!;
      c14_age[year - first] = ages[i]! + ((ages[i + 1]! - ages[i]!) * k) / step;
      sigma_yr[year - first] = sigmas[i]! + ((sigmas[i + 1]! - sigmas[i]!) * k) / step;
    }
  }
  return { name, from_cal_bp: first, c14_age, sigma_yr };
}

/** Months in which the air's 14C changes too fast for years: F14C and its 1 sigma. */
export interface CurveMonths {
  /** Decimal year CE of the middle of each month, ascending, without gaps. */
  year_ce: Float64Array;
  f14c: Float64Array;
  f14c_sigma: Float64Array;
}

/** The curve at a calendar age, cal BP, straight between its years; null beyond its ends. */
export function atYear(curve: YearlyCurve, cal_bp: number): { c14_age: number; sigma_yr: number } | null {
  const place = cal_bp - curve.from_cal_bp;
  const i = Math.floor(place);
  if (!(i >= 0 && place <= curve.c14_age.length - 1)) return null;
  const k = place - i;
  const between = (of: Float64Array): number => (k === 0 ? of[i]! : of[i]! + k * (of[i + 1]! - of[i]!));
  return { c14_age: between(curve.c14_age), sigma_yr: between(curve.sigma_yr) };
}

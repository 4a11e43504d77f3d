/** Calendar ages of which only the ends are known, as of an event that records date to a span: every year between is as probable. */
import { type Calibration, type NotCalibrated, trimmed } from './calibration.ts';

/**
 * Even from value − half range to value + half range, in years before 1950 CE, on the yearly grid; each year holds the part of
 * its cell that lies between, and half a year at least is taken as the range, so that a known year sums to 1 too. `not_a_number`
 * for anything not finite or a half range below 0 or above 100,000 yr.
 */
export function evenAge(value_before_1950: number, half_range_yr: number): Calibration | NotCalibrated {
  if (!(Number.isFinite(value_before_1950) && half_range_yr >= 0 && half_range_yr <= 100_000)) {
    return {
      kind: 'not_a_number',
      reason: `age ${value_before_1950} ± ${half_range_yr}; expected a finite age and half a range from 0 to 100,000 yr`,
    };
  }
  const half = Math.max(0.5, half_range_yr);
  const [youngest, oldest] = [value_before_1950 - half, value_before_1950 + half];
  const first = Math.round(youngest);
  const density = Float64Array.from({ length: Math.round(oldest) - first + 1 }, (_, i) =>
    Math.max(0, Math.min(first + i + 0.5, oldest) - Math.max(first + i - 0.5, youngest)),
  );
  return {
    ...trimmed(
      density.map((year) => year / (2 * half)),
      first,
      0,
    ),
    median_cal_bp: value_before_1950,
    mean_cal_bp: value_before_1950,
    sd_yr: half_range_yr / Math.sqrt(3),
  };
}

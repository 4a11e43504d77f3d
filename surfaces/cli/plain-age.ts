/** The age in a row of a plain table, radiocarbon or calendar, as the row states it and as calendar years. */
import { CURVES, loadCurve } from '@stillstand/published/curves';
import type { AgeConstraint } from '@stillstand/science/clocks';
import { type Calibration, calibrate, type NotCalibrated, normalAge } from '@stillstand/science/dating';
import type { PlainRow } from './plain-table.ts';

/** A density is in calendar years already, and no plain table states one. */
type StatedAge = Exclude<AgeConstraint, { kind: 'density' }>;

/**
 * The age of a row: `c14_age`, `c14_error`, `curve` and, if wanted, `offset` and `offset_sd`; or `age_cal_bp` and
 * `age_sigma_yr`, with `age_systematic_group` and `age_systematic_yr` for the part it shares. Errors are 1 sigma. Null, with a problem, where the row does not say one.
 */
export async function plainAge(row: PlainRow): Promise<StatedAge | null> {
  if (row.text('c14_age') === '') {
    const mean_cal_bp = row.needed('age_cal_bp');
    const sd_yr = row.needed('age_sigma_yr', { above: 0 });
    if (mean_cal_bp === null || sd_yr === null) return null;
    const group = row.text('age_systematic_group');
    if (group === '') return { kind: 'normal', mean_cal_bp, sd_yr };
    const part = row.needed('age_systematic_yr', { min: 0, max: sd_yr });
    return part === null ? null : { kind: 'normal', mean_cal_bp, sd_yr, systematic: { group, sd_yr: part } };
  }
  const c14_age = row.needed('c14_age');
  const error_yr = row.needed('c14_error', { above: 0 });
  const offset_yr = row.number('offset') ?? 0;
  const offset_sd_yr = row.number('offset_sd', { min: 0 }) ?? 0;
  const name = row.text('curve').toLowerCase();
  if (!Object.hasOwn(CURVES, name)) {
    const expected = Object.keys(CURVES).join(', ');
    row.problem('curve', row.text('curve'), expected, 'Name a published curve; the row is left out.');
    return null;
  }
  if (c14_age === null || error_yr === null) return null;
  const loaded = await loadCurve(name as keyof typeof CURVES);
  return {
    kind: 'radiocarbon',
    c14_age,
    error_yr,
    curve: loaded,
    offset_yr,
    offset_sd_yr,
    delta_r_group: row.text('delta_r_group') || null,
  };
}

/** In calendar years. */
export function calendarAge(age: StatedAge): Calibration | NotCalibrated {
  return age.kind === 'normal' ? normalAge(age.mean_cal_bp, age.sd_yr) : calibrate(age, age.curve);
}

/**
 * Sea-level points of the literature, brought to the datum of the campaign and to calendar years. They are drawn and
 * listed with the campaign's own; no curve is made of them, since what they share with each other is not known.
 */
import type { Campaign } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import { type PublishedPointResult, traceId } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import { square } from '@stillstand/science/base';
import { calibrate, calibrationSets, type YearlyCurve } from '@stillstand/science/dating';
import { type Complain, complaints } from '../complaint.ts';
import type { Heights } from '../heights/heights.ts';
import type { Runner } from '../runner/runner.ts';
import { type Known, step } from '../runner/step.ts';
import { tellPublishedPoint } from '../words/points.ts';

type PublishedRow = Row<'compiled_points'>;
type Age = PublishedPointResult['age'];

const calendarAge = step(
  'age of a published point',
  ({
    c14_age,
    error_yr,
    offset_yr,
    offset_sd_yr,
    curve,
  }: {
    c14_age: number;
    error_yr: number;
    offset_yr: number;
    offset_sd_yr: number;
    curve: YearlyCurve;
  }): Age | null => {
    const found = calibrate({ c14_age, error_yr, offset_yr, offset_sd_yr }, curve);
    if (found.kind !== 'calibrated') return null;
    const set = calibrationSets(found, 0.954);
    return {
      median_cal_bp: found.median_cal_bp,
      older95_cal_bp: Math.max(...set.map((part) => part.older_cal_bp)),
      younger95_cal_bp: Math.min(...set.map((part) => part.younger_cal_bp)),
    };
  },
);

/** `curveOf`: a calibration curve by the name a row gives it; null where it is not known. */
export function publishedPoints(
  run: Runner,
  campaign: Campaign,
  heights: Heights,
  curveOf: (name: string) => Known<YearlyCurve> | null,
): { made: PublishedPointResult[]; problems: Problem[] } {
  const { problems, complain } = complaints<PublishedRow>(campaign, 'compiled_points', ({ point }) => point);
  const made = campaign.rows.compiled_points.flatMap((row): PublishedPointResult[] => {
    const age = ageOf(run, row, curveOf, complain);
    const to = heights.shift(row.datum);
    if (to === null)
      complain(
        row,
        'no-datum-shift',
        'datum',
        row.datum ?? '',
        `a datum shift from ${row.datum} to ${heights.datum.label}`,
        'Add the shift between the two datums with its sigma. The point is not drawn until then.',
      );
    if (age === null || to === null) return [];
    const shifts = to.value.shifts.reduce((sum, { sigma_m }) => sum + square(sigma_m), 0);
    const result: PublishedPointResult = {
      row_id: row.row_id,
      point: row.point,
      site: row.site,
      source: row.source,
      latitude_deg: row.latitude_deg,
      longitude_deg: row.longitude_deg,
      kind: row.kind,
      rsl_m: row.rsl_m + to.value.shift_m,
      rsl_sigma_m: Math.sqrt(square(row.rsl_2sigma_m / 2) + shifts),
      ...age.told,
    };
    run.part(traceId.publishedPoint(row.point), result, tellPublishedPoint(result), [
      run.row('compiled_points', row, `published point ${row.point}`),
      to,
      ...(age.curve === null ? [] : [age.curve]),
    ]);
    return [result];
  });
  return { made, problems };
}

interface AgeOfPoint {
  told: Pick<PublishedPointResult, 'age_from' | 'calibration_curve' | 'age'>;
  curve: Known<YearlyCurve> | null;
}

/** Null, and a problem, where the row states no age that can be used. */
function ageOf(
  run: Runner,
  row: PublishedRow,
  curveOf: (name: string) => Known<YearlyCurve> | null,
  complain: Complain<PublishedRow>,
): AgeOfPoint | null {
  const { age_cal_bp: calendar, c14_age, c14_error } = row;
  if (calendar !== null) {
    if (row.age_2sigma_yr === null)
      complain(
        row,
        'no-error-stated',
        'age_2sigma_yr',
        '',
        '2 sigma of the age',
        'Enter it as the publication states it. The age is drawn as exact until then.',
        'warning',
      );
    if (c14_age !== null)
      complain(
        row,
        'two-ages',
        'c14_age',
        `${c14_age} 14C yr BP and ${calendar} cal BP`,
        'one of the two',
        'Leave the one the point is to be drawn at. The calendar age is used until then.',
        'warning',
      );
    const half = row.age_2sigma_yr ?? 0;
    const age = {
      median_cal_bp: calendar,
      older95_cal_bp: calendar + half,
      younger95_cal_bp: calendar - half,
    };
    return { told: { age_from: 'calendar', calibration_curve: null, age }, curve: null };
  }
  const leftOut = 'The point is not drawn until then.';
  if (c14_age === null) {
    complain(row, 'no-age', 'age_cal_bp', '', 'a calendar or a radiocarbon age', `Enter one. ${leftOut}`);
    return null;
  }
  if (c14_error === null || c14_error <= 0) {
    const found = c14_error === null ? '' : String(c14_error);
    complain(row, 'no-error-stated', 'c14_error', found, '1 sigma above 0', `Enter it. ${leftOut}`);
    return null;
  }
  const name = row.calibration_curve?.trim() ?? '';
  const curve = name === '' ? null : curveOf(name);
  if (curve === null) {
    complain(
      row,
      'no-calibration-curve',
      'calibration_curve',
      name,
      'the calibration curve of its radiocarbon age',
      `Name the curve: northern or southern atmosphere. ${leftOut}`,
    );
    return null;
  }
  if (name.toLowerCase() === 'marine20' && row.delta_r === null) {
    complain(
      row,
      'no-local-offset',
      'delta_r',
      '',
      'the local reservoir offset ΔR for Marine20, with its 1 sigma',
      `Enter it (an offset stated for an older curve is not one for Marine20), or the calendar age and its 2 sigma. ${leftOut}`,
    );
    return null;
  }
  if (row.delta_r !== null && row.delta_r_error === null)
    complain(
      row,
      'no-error-stated',
      'delta_r_error',
      '',
      '1 sigma of ΔR',
      'Enter it as the publication states it. ΔR is taken as exact until then.',
      'warning',
    );
  const { value: age } = run.untold(calendarAge, {
    c14_age: run.plain(c14_age),
    error_yr: run.plain(c14_error),
    offset_yr: run.plain(row.delta_r ?? 0),
    offset_sd_yr: run.plain(row.delta_r === null ? 0 : (row.delta_r_error ?? 0)),
    curve,
  });
  if (age === null) {
    complain(
      row,
      'age-beyond-curve',
      'c14_age',
      `${c14_age} ± ${c14_error}`,
      `an age within ${curve.value.name}`,
      `Check age, error and curve. ${leftOut}`,
    );
    return null;
  }
  return { told: { age_from: 'radiocarbon', calibration_curve: curve.value.name, age }, curve };
}

/**
 * The fields of the community protocol (Hijma et al. 2015; Khan et al. 2019), one column for every part of the error
 * that any point has, and what the curve made of the point.
 */
import {
  curveLookedAt,
  curveOf,
  type DateResult,
  fromEachCurve,
  type HoleResult,
  isAssumed,
  type PointResult,
  type Results,
  resultsShape,
} from '@stillstand/campaign/results';
import { type CurveResult, disagreeing, probabilityAmongOthers } from '@stillstand/science/curve';
import { partSigma2, pointSigma2, protocolSigma2 } from '../point-error.ts';
import { type Column, numberColumn, textColumn, yesNoColumn } from './column.ts';
import { isMarine, isRadiocarbon } from './dates.ts';
import { atTwoSigma, columnsOf, type Field, members, several, shownAs, someOf } from './described.ts';
import { itself, table } from './table.ts';
import { decimalsWith } from './units.ts';

const { holes, dates, points, curves } = resultsShape.fields;
const { curve: curveShape } = curves.of.fields;
const inCurveShape = curveShape.fields.points.of;
type PointInCurve = CurveResult['points'][number];

export const POINTS = table({
  file: 'points.csv',
  entry: 'points[]',
  about: `${points.of.about}, with its date and what the curve made of it`,
  shape: points.of,
  rows: (results) => results.points,
  read: itself<PointResult>,
  plan: (results) => ({
    shown: {
      latitude_deg: shownAs('latitude_deg_wgs84'),
      longitude_deg: shownAs('longitude_deg_wgs84'),
      age: members(points.of.fields.age, {
        shown: {
          older95_cal_bp: shownAs('age_older_2sigma_cal_bp'),
          younger95_cal_bp: shownAs('age_younger_2sigma_cal_bp'),
        },
      }),
      elevation_m: shownAs('sample_elevation_m', { decimals }),
      reference_water_level_m: shownAs('reference_water_level_m', { decimals }),
      indicative_range_m: shownAs('indicative_range_m_full_width', { decimals }),
      components: (field) => errorColumns(field, partsOf(results)),
      tidal_range: members(points.of.fields.tidal_range, {
        shown: {
          factor: shownAs('tidal_range_factor', { decimals: 3 }),
          factor_sigma: atTwoSigma('tidal_range_factor_2sigma', 3),
          age_sigma: atTwoSigma('tidal_range_factor_2sigma_of_age', 3),
          lever_m: shownAs('tide_level_above_mean_m', { decimals }),
        },
      }),
      rsl_m: shownAs('rsl_m', { decimals }),
      rsl_sigma_m: several(
        () => [
          numberColumn(
            {
              heading: 'rsl_error_m_2sigma_of_protocol',
              about:
                'all parts of the error as the protocol counts them, half the width of an even range as 2 sigma; m',
            },
            decimals,
            protocolSigma2,
          ),
        ],
        atTwoSigma('rsl_error_m_2sigma', decimals),
      ),
    },
    after: {
      site: 'point',
      hole: 'site',
      sample: 'hole',
      position: 'indicator',
      lab_code: 'position',
      age: 'lab_code',
      components: 'indicative_range_m',
      status: 'rsl_sigma_m',
      reason: 'status',
    },
    followedBy: {
      position: methods(results),
      lab_code: dated(results),
      reason: inCurve(results),
    },
  }),
});

const decimals = (point: PointResult): number => decimalsWith(pointSigma2(point), 'm');

const partsOf = (results: Results | null): string[] =>
  results === null
    ? ['PART']
    : [...new Set(results.points.flatMap((point) => point.components.map((part) => part.component)))];

function errorColumns(
  { field, about }: Pick<Field<unknown, PointResult>, 'field' | 'about'>,
  parts: readonly string[],
): Column<PointResult>[] {
  return [
    ...parts.map((part) =>
      numberColumn<PointResult>(
        {
          heading: `error_${part}_m_2sigma`,
          about: `${about}: this one at 2 sigma; m`,
          field,
        },
        3,
        (point) => {
          const own = point.components.filter((each) => each.component === part);
          return own.length === 0 ? null : partSigma2(...own);
        },
      ),
    ),
    textColumn(
      { heading: 'errors_shared_with', about: `${about}: shared ones, each with its group`, field },
      (point) =>
        point.components
          .filter((part) => part.shared_group !== null)
          .map((part) => `${part.component}: ${part.shared_group}`)
          .join('; '),
    ),
    textColumn(
      { heading: 'errors_assumed', about: `${about}: those neither measured nor declared`, field },
      (point) =>
        point.components
          .filter(isAssumed)
          .map((part) => part.component)
          .join('; '),
    ),
  ];
}

function dateOf(results: Results | null): (point: PointResult) => DateResult | null {
  const byCode = new Map(results?.dates.map((date) => [date.lab_code, date]));
  return (point) => byCode.get(point.lab_code ?? '') ?? null;
}

/** Of its hole and its date: how it was sampled and dated. */
function methods(results: Results | null): Column<PointResult>[] {
  const byName = new Map(results?.holes.map((hole) => [hole.hole, hole]));
  const hole = (point: PointResult): HoleResult | null => byName.get(point.hole ?? '') ?? null;
  return ofOthers([
    columnsOf(someOf(holes.of, ['method']), hole, { shown: { method: shownAs('sampling_method') } }),
    columnsOf(someOf(dates.of, ['method']), dateOf(results), { shown: { method: shownAs('dating_method') } }),
  ]);
}

/** Of its date: what the laboratory measured; of the sea's reservoir only where one was used. */
function dated(results: Results | null): Column<PointResult>[] {
  const date = dateOf(results);
  const where = (holds: (date: DateResult) => boolean) => (point: PointResult) => {
    const own = date(point);
    return own !== null && holds(own) ? own : null;
  };
  const marine = (own: DateResult): boolean => isRadiocarbon(own) && isMarine(own);
  return ofOthers([
    columnsOf(someOf(dates.of, ['material']), date, { shown: { material: shownAs('material_dated') } }),
    columnsOf(someOf(dates.of, ['value', 'error', 'curve']), where(isRadiocarbon), {
      shown: {
        value: shownAs('c14_age_bp'),
        error: shownAs('c14_age_error_yr_1sigma'),
        curve: shownAs('calibration_curve'),
      },
    }),
    columnsOf(someOf(dates.of, ['delta_r', 'delta_r_error']), where(marine), {
      shown: { delta_r_error: shownAs('delta_r_c14_yr_1sigma') },
    }),
  ]);
}

/** Everything a curve says of a point. Without a curve, or for a point that is not in it, empty. */
function inCurve(results: Results | null): Column<PointResult>[] {
  const byId = new Map<string, { name: string; curve: CurveResult; point: PointInCurve; isOdd: boolean }>();
  for (const seen of results === null ? [] : fromEachCurve(results)) {
    const curve = curveOf(seen);
    const odd = new Set(curve === null ? [] : disagreeing(curve).map(({ id }) => id));
    // A point of two curves shows what that of the report made of it, which comes first.
    for (const point of curve?.points ?? [])
      if (!byId.has(point.id))
        byId.set(point.id, { name: curveLookedAt(seen)!, curve: curve!, point, isOdd: odd.has(point.id) });
  }
  const isThere = results?.curves.some(({ curve }) => curve !== null) ?? false;
  const of = (point: PointResult) => byId.get(point.point) ?? null;
  const found = (point: PointResult): PointInCurve | null => of(point)?.point ?? null;
  return ofOthers([
    [
      yesNoColumn<PointResult>(
        { heading: 'in_curve', about: 'whether it is among the points of a curve; empty without any' },
        (point) => (isThere ? found(point) !== null : null),
      ),
      textColumn<PointResult>(
        {
          heading: 'curve',
          about: 'name of that curve; main is that of the report, which goes before others',
        },
        (point) => of(point)?.name ?? null,
      ),
    ],
    columnsOf(inCurveShape, found, {
      shown: {
        age_cal_bp: members(
          inCurveShape.fields.age_cal_bp,
          {
            shown: {
              median: shownAs('age_in_curve_median_cal_bp'),
              lower95: shownAs('age_in_curve_lower_95_cal_bp'),
              upper95: shownAs('age_in_curve_upper_95_cal_bp'),
            },
            leftOut: {
              mean: MEDIAN,
              sd: MEDIAN,
              lower68: MEDIAN,
              upper68: MEDIAN,
              mcse: DIAGNOSTIC,
              rhat: DIAGNOSTIC,
              ess_bulk: DIAGNOSTIC,
              ess_tail: DIAGNOSTIC,
            },
            decimals: 0,
          },
          'age_in_curve',
        ),
        age_shift_sd: shownAs('age_shift_prior_sd', { decimals: 2 }),
        // What lies between a limit and the sea is no misfit.
        residual_m: shownAs('residual_m', {
          value: (residual, point) => (point.kind === 'index' ? residual : null),
          decimals,
        }),
        influence: shownAs('increase_in_2sigma_of_first_rate_without_it_percent', {
          value: (share) => 100 * share,
          decimals: 0,
        }),
        others_level_m: members(inCurveShape.fields.others_level_m, {
          shown: {
            mean: shownAs('rsl_by_other_points_m', { decimals }),
            sd: atTwoSigma('rsl_by_other_points_m_2sigma', decimals),
          },
        }),
        predictive_p: shownAs('p_among_other_points', {
          value: (_, point) => probabilityAmongOthers(found(point)!),
          decimals: 4,
        }),
      },
      after: { residual_m: 'age_shift_sd', predictive_p: 'others_level_m' },
      leftOut: {
        id: 'the point',
        kind: 'the point’s own',
        height_m: 'the point’s own',
        own_sigma_m: 'the parts of the error and what each is shared with are shown',
        prior_age_cal_bp: 'of the date: dates.csv',
        others_by: 'how it was computed: in results.json',
        score: 'to compare models of the same points: in results.json',
        score_mcse: 'of the score: in results.json',
        score_k: 'of the score: in results.json',
      },
    }),
    [
      yesNoColumn<PointResult>(
        { heading: 'disagrees', about: 'whether it disagrees with all other points, or with its own date' },
        (point) => of(point)?.isOdd ?? null,
      ),
    ],
    columnsOf(
      someOf(curveShape.fields.diagnostics, ['converged']),
      (point: PointResult) => of(point)?.curve.diagnostics ?? null,
      { shown: { converged: shownAs('curve_converged') } },
    ),
  ]);
}

const MEDIAN = 'the median and the 95 % are shown';
const DIAGNOSTIC = 'whether the curve has converged is shown';

/** Columns that are not of the point itself. */
const ofOthers = (columns: readonly (readonly Column<PointResult>[])[]): Column<PointResult>[] =>
  columns.flat().map((column) => ({ ...column, field: null }));

/**
 * Results as CSV tables, one a subject, for a paper's supplement and for databases. Units and sigma level stand in the
 * headings; decimals follow the uncertainty (heights never coarser than a centimetre). Past 250 lines because it is one
 * list of columns.
 */

import { bySeverity } from '@stillstand/campaign/problems';
import {
  type AgeInterval,
  curveOf,
  type DateResult,
  type ErrorComponent,
  type Estimate,
  type HoleHistory,
  type HoleResult,
  type PointResult,
  type Results,
} from '@stillstand/campaign/results';
import { decimalsFor, isReached, written } from '@stillstand/output/words';
import type { Band } from '@stillstand/science/base';
import { type CurveResult, disagreeing, probabilityAmongOthers } from '@stillstand/science/curve';
import { protocolError } from '@stillstand/science/points';
import { type CsvColumn, csv, noFormula } from './csv.ts';

/** File name to CSV text. Every table is there, with its headings even where it has no rows. */
export function resultTables(results: Results): Map<string, string> {
  return new Map([
    ['holes.csv', csv(HOLES, results.holes)],
    [
      'runs.csv',
      csv(
        RUNS,
        inHoles(results, (hole) => hole.runs),
      ),
    ],
    [
      'units.csv',
      csv(
        UNITS,
        inHoles(results, (hole) => hole.units),
      ),
    ],
    ['samples.csv', csv(SAMPLES, results.samples)],
    ['dates.csv', csv(DATES, results.dates)],
    ['age_depth.csv', csv(AGE_DEPTH, results.histories.flatMap(depthRows))],
    ['points.csv', csv(pointColumns(results), results.points)],
    ['curve.csv', csv(curveColumns(curveOf(results)), curveRows(results))],
    ['intervals.csv', csv(intervalColumns(curveOf(results)), curveOf(results)?.intervals ?? [])],
    ['problems.csv', csv(PROBLEMS, bySeverity(results.problems))],
    ['settings.csv', csv(SETTINGS, results.settings)],
    [
      'account.csv',
      csv(
        ACCOUNT,
        inHoles(results, (hole) => hole.account),
      ),
    ],
  ]);
}

const CENTIMETRES = 2;

const text = <Row>(heading: string, value: (row: Row) => string | null): CsvColumn<Row> => ({
  heading,
  cell: (row) => noFormula(value(row) ?? ''),
});
const number = <Row>(
  heading: string,
  decimals: number | ((row: Row) => number),
  value: (row: Row) => number | null,
): CsvColumn<Row> => ({
  heading,
  cell: (row) => written(value(row), typeof decimals === 'number' ? decimals : decimals(row)),
});
/** The best value and its 2 sigma. */
const estimate = <Row>(name: string, value: (row: Row) => Estimate | null): CsvColumn<Row>[] => [
  number(
    name,
    (row) => heightDecimals(value(row)),
    (row) => value(row)?.value ?? null,
  ),
  number(
    `${name}_2sigma`,
    (row) => heightDecimals(value(row)),
    (row) => twice(value(row)?.sigma),
  ),
];
/** The best value and its central 95 %. */
const spread = <Row>(name: string, value: (row: Row) => Estimate | null): CsvColumn<Row>[] => [
  number(
    name,
    (row) => heightDecimals(value(row)),
    (row) => value(row)?.value ?? null,
  ),
  number(
    `${name}_lower_95`,
    (row) => heightDecimals(value(row)),
    (row) => value(row)?.lower95 ?? null,
  ),
  number(
    `${name}_upper_95`,
    (row) => heightDecimals(value(row)),
    (row) => value(row)?.upper95 ?? null,
  ),
];

const heightDecimals = (value: Estimate | null) => decimalsFor(2 * (value?.sigma ?? Number.NaN), CENTIMETRES);
const twice = (sigma: number | undefined) => (sigma === undefined ? null : 2 * sigma);

type InHole<Row> = Row & { in_hole: string };
const inHoles = <Row>(results: Results, rows: (hole: HoleResult) => readonly Row[]): InHole<Row>[] =>
  results.holes.flatMap((hole) => rows(hole).map((row) => ({ ...row, in_hole: hole.hole })));

const HOLES: CsvColumn<HoleResult>[] = [
  text('hole', (hole) => hole.hole),
  text('site', (hole) => hole.site),
  text('site_name', (hole) => hole.site_name),
  text('method', (hole) => hole.method),
  text('state', (hole) => hole.state),
  text('end_reason', (hole) => hole.end_reason),
  text('replaces', (hole) => hole.replaces),
  number('latitude_deg_wgs84', 6, (hole) => hole.latitude_deg),
  number('longitude_deg_wgs84', 6, (hole) => hole.longitude_deg),
  number('along_section_m', 1, (hole) => hole.section_m),
  ...estimate<HoleResult>('reference_elevation_m', (hole) => hole.reference_elevation_m),
  ...estimate<HoleResult>('ground_elevation_m', (hole) => hole.ground_elevation_m),
  number('joints_in', 0, (hole) => hole.joints_in),
  number('collar_to_shoe_m', CENTIMETRES, (hole) => hole.collar_to_shoe_m),
  number('penetration_m', CENTIMETRES, (hole) => hole.penetration_m),
  number('entered_length_m', CENTIMETRES, (hole) => hole.entered_m),
  number('pipe_recovery_ratio', 2, (hole) => hole.recovery),
  ...estimate<HoleResult>('recovery_at_ground_ratio', (hole) => hole.shortening?.recovery_at_ground ?? null),
  ...estimate<HoleResult>('shortening_length_m', (hole) => hole.shortening?.length_m ?? null),
  text('not_represented_m_depth', (hole) =>
    hole.not_represented.map((gap) => `${written(gap.top_m, 2)} to ${written(gap.bottom_m, 2)}`).join('; '),
  ),
  text('left_in_ground', (hole) => hole.left_in_ground),
  text('row_id', (hole) => hole.row_id),
];

const RUNS: CsvColumn<InHole<HoleResult['runs'][number]>>[] = [
  text('hole', (run) => run.in_hole),
  text('run', (run) => run.run),
  text('method', (run) => run.method),
  number('removed_m', CENTIMETRES, (run) => run.removed_m),
  number('removed_m_2sigma', CENTIMETRES, (run) => 2 * run.removed_sigma_m),
  text('removed_from', (run) => run.removed_from),
  number('recovered_m', CENTIMETRES, (run) => run.recovered_m),
  number('fall_in_m', CENTIMETRES, (run) => run.fall_in_m),
  number('sampler_recovery_ratio', 2, (run) => run.sampler_recovery),
  text('loss_position', (run) => run.loss_position),
  number('entered_top_m', CENTIMETRES, (run) => run.entered_top_m),
  number('entered_bottom_m', CENTIMETRES, (run) => run.entered_bottom_m),
  ...spread<InHole<HoleResult['runs'][number]>>('depth_top_m', (run) => run.depth_top_m),
  ...spread<InHole<HoleResult['runs'][number]>>('depth_bottom_m', (run) => run.depth_bottom_m),
  text('row_id', (run) => run.row_id),
];

const UNITS: CsvColumn<InHole<HoleResult['units'][number]>>[] = [
  text('hole', (unit) => unit.in_hole),
  text('unit', (unit) => unit.unit),
  text('sediment', (unit) => unit.sediment),
  text('secondary_sediment', (unit) => unit.secondary_sediment),
  text('colour', (unit) => unit.colour),
  text('contact_below', (unit) => unit.contact_below),
  text('structures', (unit) => unit.structures.join('; ')),
  text('fossils', (unit) => unit.fossils.join('; ')),
  text('environment', (unit) => unit.environment),
  text('description', (unit) => unit.description),
  number('core_top_m', CENTIMETRES, (unit) => unit.core_top_m),
  number('core_bottom_m', CENTIMETRES, (unit) => unit.core_bottom_m),
  ...spread<InHole<HoleResult['units'][number]>>('depth_top_m', (unit) => unit.depth_top_m),
  ...spread<InHole<HoleResult['units'][number]>>('depth_bottom_m', (unit) => unit.depth_bottom_m),
  ...estimate<InHole<HoleResult['units'][number]>>('elevation_top_m', (unit) => unit.elevation_top_m),
  ...estimate<InHole<HoleResult['units'][number]>>('elevation_bottom_m', (unit) => unit.elevation_bottom_m),
  text('row_id', (unit) => unit.row_id),
];

const SAMPLES: CsvColumn<Results['samples'][number]>[] = [
  text('sample', (sample) => sample.sample),
  text('hole', (sample) => sample.hole),
  text('site', (sample) => sample.site),
  text('material', (sample) => sample.material),
  text('dated', (sample) => (sample.dated ? 'yes' : 'no')),
  ...spread<Results['samples'][number]>('depth_m', (sample) => sample.depth_m),
  number('thickness_m', 3, (sample) => sample.thickness_m),
  ...estimate<Results['samples'][number]>('elevation_m', (sample) => sample.elevation_m),
  text('row_id', (sample) => sample.row_id),
];

const isRadiocarbon = (date: DateResult) => date.method === 'radiocarbon';
const isMarine = (date: DateResult) => date.delta_r !== 0 || date.delta_r_error !== 0;

const DATES: CsvColumn<DateResult>[] = [
  text('lab_code', (date) => date.lab_code),
  text('sample', (date) => date.sample),
  text('hole', (date) => date.hole),
  text('method', (date) => date.method),
  text('material', (date) => date.material),
  number('c14_age_bp', 0, (date) => (isRadiocarbon(date) ? date.value : null)),
  number('age_before_1950_yr_other_methods', 0, (date) => (isRadiocarbon(date) ? null : date.value)),
  number('error_yr_1sigma', 0, (date) => date.error),
  number('f14c', 4, (date) => date.f14c),
  number('f14c_1sigma', 4, (date) => date.f14c_sigma),
  text('calibration_curve', (date) => date.curve),
  number('delta_r_c14_yr', 0, (date) => (isMarine(date) ? date.delta_r : null)),
  number('delta_r_c14_yr_1sigma', 0, (date) => (isMarine(date) ? date.delta_r_error : null)),
  text('delta_r_shared_group', (date) => date.delta_r_group),
  number('median_cal_bp', 0, (date) => date.median_cal_bp),
  number('mean_cal_bp', 0, (date) => date.mean_cal_bp),
  number('sd_yr_1sigma', 0, (date) => date.sd_yr),
  text('set_68.3_cal_bp_older_to_younger_with_probability', (date) => setText(date.sets_68)),
  text('set_95.4_cal_bp_older_to_younger_with_probability', (date) => setText(date.sets_95)),
  number('oldest_95.4_cal_bp', 0, (date) => ends(date.sets_95).older),
  number('youngest_95.4_cal_bp', 0, (date) => ends(date.sets_95).younger),
  number('share_beyond_curve', 3, (date) => date.truncated),
  text('status', (date) => date.status),
  text('reason', (date) => date.reason),
  text('row_id', (date) => date.row_id),
];

/** Age and accumulation of a hole, one row for each depth. */
const AGE_DEPTH: CsvColumn<ReturnType<typeof depthRows>[number]>[] = [
  text('hole', (row) => row.hole),
  number('depth_m', 2, (row) => row.depth_m),
  number('age_cal_bp_median', 0, (row) => row.age.median),
  number('age_cal_bp_older_95', 0, (row) => row.age.upper95),
  number('age_cal_bp_younger_95', 0, (row) => row.age.lower95),
  number('accumulation_mm_yr_median', 2, (row) => row.accumulation.median),
  number('accumulation_mm_yr_lower_95', 2, (row) => row.accumulation.lower95),
  number('accumulation_mm_yr_upper_95', 2, (row) => row.accumulation.upper95),
  text('converged', (row) => yesNo(row.converged)),
];

function depthRows({ hole, depth_m, age_cal_bp, accumulation_mm_yr, diagnostics }: HoleHistory) {
  const at = (band: Band, i: number) => ({
    median: band.median[i]!,
    lower95: band.lower95[i]!,
    upper95: band.upper95[i]!,
  });
  return Array.from(depth_m, (depth, i) => ({
    hole,
    depth_m: depth,
    age: at(age_cal_bp, i),
    accumulation: at(accumulation_mm_yr, i),
    converged: diagnostics.converged,
  }));
}

/** "5308 to 5213 (0.312); 5196 to 5050 (0.643)". */
function setText(set: readonly AgeInterval[]): string {
  return set
    .map(
      (part) =>
        `${written(part.older_cal_bp, 0)} to ${written(part.younger_cal_bp, 0)} (${written(part.probability, 3)})`,
    )
    .join('; ');
}

/** The outer ends of a set; null where it is empty. */
function ends(set: readonly AgeInterval[]): { older: number | null; younger: number | null } {
  if (set.length === 0) return { older: null, younger: null };
  return {
    older: Math.max(...set.map((part) => part.older_cal_bp)),
    younger: Math.min(...set.map((part) => part.younger_cal_bp)),
  };
}

/** 2 sigma of a point in the community protocol; of the declared shapes where its parts are not known. */
export function protocolSigma2(point: PointResult): number {
  return point.components.length === 0 ? 2 * point.rsl_sigma_m : protocolError(point.components);
}

/** One part of a point's error at 2 sigma of the protocol: half the width of a uniform, twice the rest. */
export const partSigma2 = (part: ErrorComponent): number => protocolError([part]);

/**
 * The fields of the community protocol (Hijma et al. 2015; Khan et al. 2019), one column for every part of the error
 * that any point has, and what the curve made of the point.
 */
function pointColumns(results: Results): CsvColumn<PointResult>[] {
  const holes = new Map(results.holes.map((hole) => [hole.hole, hole]));
  const dates = new Map(results.dates.map((date) => [date.lab_code, date]));
  const curve = curveOf(results);
  const inCurve = new Map(curve?.points.map((point) => [point.id, point]));
  const odd = new Set(curve === null ? [] : disagreeing(curve).map(({ id }) => id));
  const found = (point: PointResult) => inCurve.get(point.point) ?? null;
  const parts = [
    ...new Set(results.points.flatMap((point) => point.components.map((part) => part.component))),
  ];
  const hole = (point: PointResult) => holes.get(point.hole ?? '') ?? null;
  const date = (point: PointResult) => dates.get(point.lab_code ?? '') ?? null;
  const c14 = (point: PointResult) => {
    const own = date(point);
    return own !== null && isRadiocarbon(own) ? own : null;
  };
  const marine = (point: PointResult) => {
    const own = c14(point);
    return own !== null && isMarine(own) ? own : null;
  };
  const decimals = (point: PointResult) => decimalsFor(protocolSigma2(point), CENTIMETRES);

  return [
    text('point', (point) => point.point),
    text('site', (point) => point.site),
    text('hole', (point) => point.hole),
    text('sample', (point) => point.sample),
    number('latitude_deg_wgs84', 6, (point) => point.latitude_deg),
    number('longitude_deg_wgs84', 6, (point) => point.longitude_deg),
    text('kind', (point) => point.kind),
    text('indicator', (point) => point.indicator),
    text('position', (point) => point.position),
    text('sampling_method', (point) => hole(point)?.method ?? null),
    text('dating_method', (point) => date(point)?.method ?? null),
    text('lab_code', (point) => point.lab_code),
    text('material_dated', (point) => date(point)?.material ?? null),
    number('c14_age_bp', 0, (point) => c14(point)?.value ?? null),
    number('c14_age_error_yr_1sigma', 0, (point) => c14(point)?.error ?? null),
    text('calibration_curve', (point) => c14(point)?.curve ?? null),
    number('delta_r_c14_yr', 0, (point) => marine(point)?.delta_r ?? null),
    number('delta_r_c14_yr_1sigma', 0, (point) => marine(point)?.delta_r_error ?? null),
    number('age_median_cal_bp', 0, (point) => point.age.median_cal_bp),
    number('age_older_2sigma_cal_bp', 0, (point) => point.age.older95_cal_bp),
    number('age_younger_2sigma_cal_bp', 0, (point) => point.age.younger95_cal_bp),
    number('sample_elevation_m', decimals, (point) => point.elevation_m),
    number('reference_water_level_m', decimals, (point) => point.reference_water_level_m),
    number('indicative_range_m_full_width', decimals, (point) => point.indicative_range_m),
    ...parts.map((part) =>
      number<PointResult>(`error_${part}_m_2sigma`, 3, (point) => {
        const own = point.components.filter((each) => each.component === part);
        return own.length === 0 ? null : protocolError(own);
      }),
    ),
    text('errors_shared_with', (point) =>
      point.components
        .filter((part) => part.shared_group !== null)
        .map((part) => `${part.component}: ${part.shared_group}`)
        .join('; '),
    ),
    text('errors_assumed', (point) =>
      point.components
        .filter(isAssumed)
        .map((part) => part.component)
        .join('; '),
    ),
    number('rsl_m', decimals, (point) => point.rsl_m),
    number('rsl_error_m_2sigma', decimals, protocolSigma2),
    number('rsl_error_m_1sigma_of_declared_shapes', 3, (point) => point.rsl_sigma_m),
    text('status', (point) => point.status),
    text('reason', (point) => point.reason),
    text('in_curve', (point) => (curve === null ? null : found(point) === null ? 'no' : 'yes')),
    number('age_in_curve_median_cal_bp', 0, (point) => found(point)?.age_cal_bp.median ?? null),
    number('age_in_curve_lower_95_cal_bp', 0, (point) => found(point)?.age_cal_bp.lower95 ?? null),
    number('age_in_curve_upper_95_cal_bp', 0, (point) => found(point)?.age_cal_bp.upper95 ?? null),
    number('age_shift_prior_sd', 2, (point) => found(point)?.age_shift_sd ?? null),
    // What lies between a limit and the sea is no misfit.
    number('residual_m', decimals, (point) =>
      point.kind === 'index' ? (found(point)?.residual_m ?? null) : null,
    ),
    number('increase_in_2sigma_of_first_rate_without_it_percent', 0, (point) =>
      percent(found(point)?.influence),
    ),
    number('rsl_by_other_points_m', decimals, (point) => found(point)?.others_level_m?.mean ?? null),
    number('rsl_by_other_points_m_2sigma', decimals, (point) => twice(found(point)?.others_level_m?.sd)),
    number('p_among_other_points', 4, (point) => {
      const own = found(point);
      return own === null ? null : probabilityAmongOthers(own);
    }),
    text('disagrees', (point) => (found(point) === null ? null : odd.has(point.point) ? 'yes' : 'no')),
    text('curve_converged', (point) => (found(point) === null ? null : yesNo(curve!.diagnostics.converged))),
    text('row_id', (point) => point.row_id),
  ];
}

const percent = (share: number | undefined): number | null => (share === undefined ? null : 100 * share);
const yesNo = (is: boolean): string => (is ? 'yes' : 'no');

/** Whether a figure is a stand-in that nobody measured or declared. */
export const isAssumed = (part: ErrorComponent): boolean => part.source.startsWith('assumed');

const curveRows = (results: Results): number[] => [...(curveOf(results)?.ages_cal_bp ?? [])].map((_, i) => i);

function curveColumns(curve: CurveResult | null): CsvColumn<number>[] {
  const columns: CsvColumn<number>[] = [
    number('age_cal_bp', ageDecimals(curve?.ages_cal_bp), (i) => curve?.ages_cal_bp[i] ?? null),
  ];
  const bands = [
    { name: 'rsl_m', band: curve?.level_m, least: CENTIMETRES },
    { name: 'rate_mm_yr', band: curve?.rate_mm_yr, least: 1 },
  ];
  for (const { name, band, least } of bands) {
    const decimals = (i: number) => decimalsFor(2 * (band?.sd[i] ?? Number.NaN), least);
    columns.push(
      number(`${name}_median`, decimals, (i) => band?.median[i] ?? null),
      number(`${name}_lower_68`, decimals, (i) => band?.lower68[i] ?? null),
      number(`${name}_upper_68`, decimals, (i) => band?.upper68[i] ?? null),
      number(`${name}_lower_95`, decimals, (i) => band?.lower95[i] ?? null),
      number(`${name}_upper_95`, decimals, (i) => band?.upper95[i] ?? null),
    );
  }
  columns.push(text('converged', () => (curve === null ? null : yesNo(curve.diagnostics.converged))));
  return columns;
}

const ageDecimals = (ages: Float64Array | undefined) => (ages?.every((age) => Number.isInteger(age)) ? 0 : 1);

type Interval = CurveResult['intervals'][number];
const rateDecimals = (interval: Interval) => decimalsFor(2 * interval.rate_mm_yr.sd, 1);

const intervalColumns = (curve: CurveResult | null): CsvColumn<Interval>[] => [
  number('older_cal_bp', 0, (interval) => interval.older_cal_bp),
  number('younger_cal_bp', 0, (interval) => interval.younger_cal_bp),
  number('rate_mm_yr_mean', rateDecimals, (interval) => interval.rate_mm_yr.mean),
  number('rate_mm_yr_2sd', rateDecimals, (interval) => 2 * interval.rate_mm_yr.sd),
  number('rate_mm_yr_median', rateDecimals, (interval) => interval.rate_mm_yr.median),
  number('rate_mm_yr_lower_95', rateDecimals, (interval) => interval.rate_mm_yr.lower95),
  number('rate_mm_yr_upper_95', rateDecimals, (interval) => interval.rate_mm_yr.upper95),
  number('rate_mm_yr_mean_prior_halved', rateDecimals, (interval) => interval.prior_halved_mm_yr),
  number('rate_mm_yr_mean_prior_doubled', rateDecimals, (interval) => interval.prior_doubled_mm_yr),
  number(
    'rate_mm_yr_mean_without_intercalated',
    rateDecimals,
    (interval) => interval.without_intercalated_mm_yr,
  ),
  number('monte_carlo_error_mm_yr_1sigma', 4, (interval) => interval.rate_mm_yr.mcse),
  number('r_hat', 4, (interval) => interval.rate_mm_yr.rhat),
  number('effective_draws_bulk', 0, (interval) => interval.rate_mm_yr.ess_bulk),
  number('effective_draws_tail', 0, (interval) => interval.rate_mm_yr.ess_tail),
  text('index_point_within', (interval) => (curve === null ? null : yesNo(isReached(curve, interval)))),
  text('converged', () => (curve === null ? null : yesNo(curve.diagnostics.converged))),
];

const PROBLEMS: CsvColumn<Results['problems'][number]>[] = [
  text('severity', (problem) => problem.severity),
  text('code', (problem) => problem.code),
  text('table', (problem) => problem.table),
  number('line', 0, (problem) => problem.line),
  text('label', (problem) => problem.label),
  text('column', (problem) => problem.column),
  text('found', (problem) => problem.found),
  text('expected', (problem) => problem.expected),
  text('fix', (problem) => problem.fix),
  text('row_id', (problem) => problem.row_id),
];

const SETTINGS: CsvColumn<Results['settings'][number]>[] = [
  text('name', (setting) => setting.name),
  text('value', (setting) => setting.value),
  text('assumed', (setting) => (setting.assumed ? 'yes' : 'no')),
];

const ACCOUNT: CsvColumn<InHole<HoleResult['account'][number]>>[] = [
  text('hole', (entry) => entry.in_hole),
  text('item', (entry) => entry.item),
  text('joint', (entry) => entry.joint),
  text('fate', (entry) => entry.fate),
];

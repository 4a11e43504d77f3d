/** Laboratory results to calendar ages: one step per determination, and per group of pooled ones. */
import type { Campaign } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import { type DateResult, type DoseRateResult, traceId } from '@stillstand/campaign/results';
import type { DoseFactorLabel } from '@stillstand/campaign/settings';
import { nearest, PUBLISHED_CURVES, type Row } from '@stillstand/campaign/tables';
import type { AgeConstraint } from '@stillstand/science/clocks';
import {
  ageBound,
  type Calibration,
  calibrate,
  mixedCurve,
  type NotCalibrated,
  type PooledAge,
  pooledAge,
  type YearlyCurve,
} from '@stillstand/science/dating';
import type { DoseFactors } from '@stillstand/science/luminescence';
import { type Complain, complaints } from '../complaint.ts';
import { digest } from '../runner/digest.ts';
import type { Runner } from '../runner/runner.ts';
import { type Known, step, type Traced } from '../runner/step.ts';
import { asReported, tellDate, tellPooled } from '../words/dates.ts';
import { complainOfMeasurements } from './against-measurements.ts';
import { type AgeDensity, ageDensities } from './age-densities.ts';
import { calendarAge, calendarConstraint, complainOfSharedPart } from './calendar-age.ts';
import { conventionalAge, isLimit } from './conventional-age.ts';
import { densityOf, distributionOf } from './distribution.ts';
import { type GivenAge, givenAge } from './given-age.ts';
import { agesOfMeasurements, type Doses } from './measured-age.ts';
import { type OwnCurve, type OwnCurves, ownCurves, rowsBetween } from './own-curves.ts';
import type { NamedFactors } from './rate-of-contents.ts';
import { isForOffset, type Reservoirs, reservoirs } from './reservoirs.ts';

/** A published curve. */
export type CurveLabel = (typeof PUBLISHED_CURVES)[number];

/** Published figures a computation needs; loaded by the caller, because science and campaign carry no data. */
export interface Published {
  curves: Partial<Record<CurveLabel, YearlyCurve>>;
  /** Factors of dose rates; without them no dose rate is computed from contents. */
  doseFactors?: Readonly<Partial<Record<DoseFactorLabel, DoseFactors>>>;
}

/** The factors of that name, where they are at hand. */
export function factorsAtHand({ doseFactors }: Published, label: DoseFactorLabel): NamedFactors | null {
  const factors = doseFactors?.[label];
  return factors === undefined ? null : { label, factors };
}

const isPublished = (name: string): name is CurveLabel =>
  (PUBLISHED_CURVES as readonly string[]).includes(name);

/** The published curves that the dates of a campaign need: the one each names, and the sea's for a marine share. */
export function curvesNeeded({ rows }: Pick<Campaign, 'rows'>): CurveLabel[] {
  const names = rows.determinations.flatMap((row) =>
    row.calibration_curve === null
      ? []
      : hasMarineShare(row)
        ? [row.calibration_curve, 'marine20']
        : [row.calibration_curve],
  );
  const ofPoints = rows.compiled_points.flatMap(
    ({ calibration_curve }) => curveLabel(calibration_curve) ?? [],
  );
  return [...new Set([...names.filter(isPublished), ...ofPoints])];
}

export const hasMarineShare = ({ marine_fraction, marine_fraction_error }: Row<'determinations'>): boolean =>
  (marine_fraction ?? 0) > 0 || (marine_fraction_error ?? 0) > 0;

/** A published curve by its name however it is written, as in a table of the literature; null for another name. */
function curveLabel(written: string | null): CurveLabel | null {
  const name = written?.trim().toLowerCase() ?? '';
  return isPublished(name) ? name : null;
}

/** A published curve that is at hand, however its name is written; null for another name, and for one that is not. */
export function publishedCurve(run: Runner, { curves }: Published, name: string): Known<YearlyCurve> | null {
  const label = curveLabel(name);
  const curve = label === null ? undefined : curves[label];
  return curve === undefined || label === null
    ? null
    : run.given(traceId.published(label), curve.name, 'published calibration curve', curve);
}

/** By name: the campaign's own curves, and the published ones that are at hand. */
export function curvesAtHand(
  run: Runner,
  own: OwnCurves['of'],
  published: Published,
): Map<string, Known<YearlyCurve>> {
  const curves = new Map<string, Known<YearlyCurve>>();
  for (const [name, { curve }] of own) curves.set(name, run.plain(curve));
  for (const name of PUBLISHED_CURVES) {
    const curve = publishedCurve(run, published, name);
    if (curve !== null) curves.set(name, curve);
  }
  return curves;
}

/** A date as it is reported, and as the curve takes it. */
export interface Dated {
  result: DateResult;
  /** Null for a rejected determination. */
  age: AgeConstraint | null;
}

export interface Dates {
  /** By laboratory code. */
  of: Map<string, Known<Dated>>;
  /** By the label of the group. */
  pooled: Map<string, Known<Dated>>;
  /** The campaign's own calibration curves. */
  ownCurves: OwnCurves['of'];
  /** By the name of the event. */
  events: ReadonlyMap<string, Known<Dated>>;
  /** ΔR from the campaign's own shells. */
  reservoirs: Reservoirs['of'];
  /** Laboratory codes of those whose sample has its age from another member of their sequence already. */
  repeats: ReadonlySet<string>;
  /** Dose rates computed from contents. */
  rates: readonly DoseRateResult[];
  problems: Problem[];
}

/** Years a maximum or minimum age may be stretched over, cal BP. */
export interface AgeRange {
  youngest: number;
  oldest: number;
}

/** The age of a determination, wherever it is from. */
type AgeToDate = Pick<GivenAge, 'row' | 'from' | 'years'>;

/** What a date takes from its sample. */
type SampleOfDate = Pick<Row<'samples'>, 'hole' | 'material'>;

const date = step(
  'date',
  ({
    given,
    curve,
    sea,
    sample,
    range,
  }: {
    given: AgeToDate;
    curve: YearlyCurve | null;
    sea: YearlyCurve | null;
    sample: SampleOfDate | null;
    range: AgeRange;
  }) => dateOne(given, curve, sea, sample, range),
);

const pooledDate = step(
  'pooled date',
  ({ group, dates }: { group: string; dates: readonly Dated[] }): Dated | null => {
    const { age: firstAge, result: first } = dates[0]!;
    if (firstAge?.kind !== 'radiocarbon') return null;
    const pooled = meanOf(dates);
    const age = { ...firstAge, c14_age: pooled.c14_age, error_yr: pooled.error_yr };
    const layer = calibrate(age, firstAge.curve);
    if (layer.kind !== 'calibrated') return null;
    return {
      age,
      result: {
        ...first,
        ...distributionOf(layer),
        lab_code: group,
        value: pooled.c14_age,
        error: pooled.error_yr,
      },
    };
  },
);

/** What is wrong with a rejected date changes nothing. */
const severityOf = ({ status }: Row<'determinations'>): 'note' | 'error' =>
  status === 'rejected' ? 'note' : 'error';

const meanOf = (dates: readonly Dated[]): PooledAge =>
  pooledAge(dates.map(({ result }) => ({ c14_age: result.value, error_yr: result.error })));

export function dateAll(
  run: Runner,
  campaign: Campaign,
  published: Published,
  range: AgeRange,
  doses: Doses,
): Dates {
  const { problems, complain } = complaints<Row<'determinations'>>(
    campaign,
    'determinations',
    (r) => r.lab_code,
  );
  const of = new Map<string, Known<Dated>>();
  const samples = new Map(campaign.rows.samples.map((s) => [s.sample, s]));
  const own = ownCurves(campaign);
  problems.push(...own.problems);
  const curves = curvesAtHand(run, own.of, published);
  const pools = reservoirs(run, campaign, curves);
  problems.push(...pools.problems);
  const densities = ageDensities(campaign);
  problems.push(...densities.problems);
  const measured = agesOfMeasurements(run, campaign, doses);
  const rates = [...measured.values()].flatMap((each) => (each.kind === 'computed' ? (each.rate ?? []) : []));
  const inSequence = new Set(campaign.rows.sequences.map(({ determination }) => determination));
  const rangeOf = run.plain(range);
  for (const typed of campaign.rows.determinations) {
    if (isForOffset(typed)) continue;
    const ofMeasurements = measured.get(typed.lab_code);
    if (ofMeasurements !== undefined && typed.age_density === null)
      complainOfMeasurements(typed, ofMeasurements, complain);
    const given = givenAge(typed, densities, ofMeasurements, complain);
    if (given === null) continue;
    const { row } = given;
    const radiocarbon = row.method === 'radiocarbon';
    complainOfSharedPart(row, given.from === 'density', complain);
    const curve = row.calibration_curve === null ? undefined : curves.get(row.calibration_curve);
    if (radiocarbon && curve === undefined) {
      complain(
        row,
        'no-calibration-curve',
        'calibration_curve',
        row.calibration_curve ?? '',
        'intcal20, shcal20, marine20, a zone of the bomb years, or a name in the table of calibration curves',
        `${howToName(row.calibration_curve, own)} The date is not calibrated.`,
        severityOf(row),
      );
      continue;
    }
    const ofCampaign = row.calibration_curve === null ? undefined : own.of.get(row.calibration_curve);
    const ofSea = isOfSea(row.calibration_curve, own.of);
    const share = row.marine_fraction ?? (ofSea ? 1 : 0);
    const marine = curves.get('marine20');
    const mixed = radiocarbon && !ofSea && hasMarineShare(row);
    if (mixed && marine === undefined) {
      complain(
        row,
        'no-calibration-curve',
        'marine_fraction',
        String(share),
        'the curve marine20 at hand',
        'A marine share mixes marine20 into the named atmosphere; the date is not calibrated.',
      );
      continue;
    }
    if (mixed && curve?.value.months !== undefined) {
      complain(
        row,
        'no-calibration-curve',
        'marine_fraction',
        String(share),
        'no marine share with a curve of the bomb years: the sea has none published for them',
        'Name intcal20 or shcal20 with the share, or leave the share out. The date is not calibrated.',
      );
      continue;
    }
    if (mixed && (row.marine_fraction_error ?? 0) === 0) {
      complain(
        row,
        'marine-share-exact',
        'marine_fraction',
        String(share),
        'a share with its error',
        'The share is taken as exact, and the reservoir offset as this date’s own: write the 1 sd of the share, or widen the error.',
        'note',
      );
    } else if (ofSea && share !== 1) {
      complain(
        row,
        'marine-share-unused',
        'marine_fraction',
        String(share),
        'an atmosphere as calibration curve where the carbon is mixed',
        'Name the atmosphere as curve; the share then mixes the sea into it. Here the marine curve is used alone.',
        'warning',
      );
    }
    const named = radiocarbon ? (curve ?? null) : null;
    const sample = samples.get(row.sample);
    const asTyped = run.row('determinations', typed, `determination ${row.lab_code}`);
    const inputs = {
      given: run.plain({ row, from: given.from, years: given.years }),
      curve: named,
      sea: mixed ? marine! : null,
      sample: sample === undefined ? null : run.plain({ hole: sample.hole, material: sample.material }),
      range: rangeOf,
    };
    const dated = run.do(
      date,
      inSequence.has(row.lab_code) ? traceId.dateAlone(row.lab_code) : traceId.date(row.lab_code),
      inputs,
      (v) => tellDate(row, given.from, named?.value.name ?? null, v.kind === 'dated' ? v.result : null),
      (v) => [
        asTyped,
        ...(given.measured === null ? [] : [given.measured]),
        ...(given.density === null ? [] : [rowsOfDensity(run, given.density, row.lab_code)]),
        ...(named === null
          ? []
          : [
              ofCampaign === undefined
                ? named
                : stretchOf(run, ofCampaign, row.lab_code, v.kind === 'dated' ? v.result : null),
            ]),
        ...(inputs.sea === null ? [] : [inputs.sea]),
      ],
    );
    if (dated.value.kind === 'dated') {
      of.set(row.lab_code, dated as Known<Dated>);
      if (dated.value.result.truncated > 0.001) {
        complain(
          row,
          'age-at-end-of-curve',
          'value',
          asReported(row),
          'a distribution that lies within the curve',
          `About ${Math.round(100 * dated.value.result.truncated)} % of it lies beyond the end of the curve and is cut off: report it as a limit.`,
          'warning',
        );
      }
    } else {
      complain(
        row,
        dated.value.kind === 'beyond_curve' ? 'age-beyond-curve' : 'age-unusable',
        'value',
        asReported(row),
        dated.value.reason,
        isLimit(row)
          ? 'It is kept as the limit it is and not used: it lies beyond the curve, or beyond the setting oldest_age_cal_bp.'
          : 'Check age, error, curve and offset; the date is not used.',
        isLimit(row) ? 'note' : severityOf(row),
      );
    }
  }
  return {
    of,
    pooled: poolGroups(run, campaign, of, complain),
    reservoirs: pools.of,
    ownCurves: own.of,
    events: new Map(),
    repeats: new Set(),
    rates,
    problems,
  };
}

/** Whether a date on that curve has marine carbon alone: nothing is mixed into it. */
export const isOfSea = (curve: string | null, own: OwnCurves['of']): boolean =>
  curve === 'marine20' || (curve !== null && own.get(curve)?.isMarine === true);

function howToName(named: string | null, { of, faulty }: OwnCurves): string {
  if (named !== null && faulty.has(named))
    return `Correct the rows of ${named} in the table of calibration curves.`;
  const near = named === null ? null : nearest(named, [...of.keys(), ...PUBLISHED_CURVES]);
  return near === null
    ? 'Name the curve: northern or southern atmosphere, or the sea.'
    : `Perhaps ${near} is meant.`;
}

/** For the trace: the rows of the campaign's own curve that the age lies on; without an age, its ends. */
function stretchOf(run: Runner, own: OwnCurve, labCode: string, result: DateResult | null): Traced {
  const { curve, rows } = own;
  const used =
    result === null
      ? [rows[0]!, rows.at(-1)!]
      : rowsBetween(own, result.from_cal_bp, result.from_cal_bp + result.density.length - 1);
  const of = (row: (typeof rows)[number]): string => `${curve.name} at ${row.age_cal_bp} cal BP`;
  return run.set(
    traceId.ownCurve(curve.name, labCode),
    `rows of the calibration curve ${curve.name}`,
    used.map((row) => run.row('calibration_curves', row, of(row))),
  );
}

/** For the trace: the rows of the age density. */
const rowsOfDensity = (run: Runner, { rows }: AgeDensity, labCode: string): Traced =>
  run.set(
    traceId.ageDensity(labCode),
    `rows of the age density ${rows[0]!.density}`,
    rows.map((row) => run.row('age_densities', row, `${row.density} at ${row.age_cal_bp} cal BP`)),
  );

/**
 * One determination alone, dated as the computation dates it: for a screen that shows an age while it is typed. Null
 * where the curve it needs is not named or not at hand.
 */
export function ageOf(
  given: AgeToDate,
  published: Published,
  own: OwnCurves['of'],
  sample: Row<'samples'> | null,
  range: AgeRange,
): DateResult | NotCalibrated | null {
  const { row } = given;
  if (row.method !== 'radiocarbon') return resultOf(dateOne(given, null, null, sample, range));
  const curve = curveNamed(row.calibration_curve, published, own);
  if (curve === undefined) return null;
  const isMixed = !isOfSea(row.calibration_curve, own) && hasMarineShare(row);
  const sea = isMixed ? published.curves.marine20 : null;
  return sea === undefined ? null : resultOf(dateOne(given, curve, sea, sample, range));
}

/** The curve of that name, where it is at hand. */
export const curveNamed = (
  name: string | null,
  { curves }: Published,
  own: OwnCurves['of'],
): YearlyCurve | undefined =>
  name === null ? undefined : isPublished(name) ? curves[name] : own.get(name)?.curve;

const resultOf = (dated: ReturnType<typeof dateOne>): DateResult | NotCalibrated =>
  dated.kind === 'dated' ? dated.result : dated;

function dateOne(
  { row, from, years }: AgeToDate,
  named: YearlyCurve | null,
  /** Mixed into the named curve by the marine share; null for none. */
  sea: YearlyCurve | null,
  sample: SampleOfDate | null,
  range: AgeRange,
): ({ kind: 'dated' } & Dated) | NotCalibrated {
  const stated = { offset_yr: row.delta_r ?? 0, offset_sd_yr: row.delta_r_error ?? 0 };
  const mixed = named !== null && sea !== null;
  if (mixed && !haveYearsInCommon(named, sea)) {
    return { kind: 'beyond_curve', reason: `${named.name} and ${sea.name} have no years in common` };
  }
  const curve = mixed
    ? mixedCurve(
        named,
        sea,
        row.marine_fraction ?? 0,
        row.marine_fraction_error ?? 0,
        stated.offset_yr,
        stated.offset_sd_yr,
      )
    : named;
  // The mixed curve carries the offset already.
  const { offset_yr, offset_sd_yr } = mixed ? { offset_yr: 0, offset_sd_yr: 0 } : stated;
  const measured = row.method === 'radiocarbon' ? conventionalAge(row) : null;
  if (measured !== null && 'reason' in measured) return measured;
  const own: Calibration | NotCalibrated =
    curve === null || measured === null
      ? (years ?? calendarAge(row))
      : calibrate({ c14_age: measured.c14_age, error_yr: measured.error_yr, offset_yr, offset_sd_yr }, curve);
  if (own.kind !== 'calibrated') return own;
  const role = roleOf(row);
  const layer = role === 'direct' ? own : ageBound(own, role, range.youngest, range.oldest);
  if (layer.kind !== 'calibrated') return layer;
  const rejected = row.status === 'rejected';
  const age: AgeConstraint =
    role !== 'direct' || curve?.months !== undefined || years !== null
      ? densityOf(layer)
      : curve === null || measured === null
        ? calendarConstraint(row, layer)
        : {
            kind: 'radiocarbon',
            c14_age: measured.c14_age,
            error_yr: measured.error_yr,
            curve,
            offset_yr,
            offset_sd_yr,
            delta_r_group: mixed ? null : row.delta_r_group,
          };
  return {
    kind: 'dated',
    age: rejected ? null : age,
    result: {
      row_id: row.row_id,
      lab_code: row.lab_code,
      sample: row.sample,
      hole: sample?.hole ?? null,
      method: row.method,
      value: measured?.c14_age ?? row.value,
      error: isLimit(row) ? 0 : (measured?.error_yr ?? row.error),
      age_from: from,
      f14c: measured?.f14c ?? null,
      f14c_sigma: measured?.f14c_sigma ?? null,
      ...calendarTerms(row),
      material: row.fraction_dated ?? sample?.material ?? null,
      curve: row.calibration_curve,
      delta_r: stated.offset_yr,
      delta_r_error: stated.offset_sd_yr,
      delta_r_group: row.delta_r_group,
      sequence: null,
      status: rejected ? 'rejected' : 'accepted',
      reason: row.reason,
      ...distributionOf(layer),
    },
  };
}

/** What value and error of a calendar age mean; of radiocarbon always the same. */
function calendarTerms(
  row: Row<'determinations'>,
): Pick<DateResult, 'counts_from_ce' | 'error_shape' | 'shared_sigma_yr' | 'shared_group'> {
  const { method, reference_year, error_shape, systematic_error, systematic_group } = row;
  if (method === 'radiocarbon')
    return { counts_from_ce: 1950, error_shape: 'normal', shared_sigma_yr: null, shared_group: null };
  const isShared = systematic_error !== null && systematic_group !== null;
  return {
    counts_from_ce: reference_year ?? 1950,
    error_shape: error_shape ?? 'normal',
    shared_sigma_yr: isShared ? systematic_error : null,
    shared_group: isShared ? systematic_group : null,
  };
}

const haveYearsInCommon = (a: YearlyCurve, b: YearlyCurve): boolean =>
  Math.max(a.from_cal_bp, b.from_cal_bp) <
  Math.min(a.from_cal_bp + a.c14_age.length, b.from_cal_bp + b.c14_age.length);

/** How an age applies to its layer: one that is only a limit bounds it, whatever was dated. */
export const roleOf = ({ qualifier, age_role }: Row<'determinations'>): 'direct' | 'maximum' | 'minimum' =>
  qualifier === 'greater_than' ? 'minimum' : qualifier === 'less_than' ? 'maximum' : (age_role ?? 'direct');

/** Radiocarbon results of one `group` on one curve become one pooled date, named by the group. */
function poolGroups(
  run: Runner,
  campaign: Campaign,
  of: Map<string, Known<Dated>>,
  complain: Complain<Row<'determinations'>>,
): Map<string, Known<Dated>> {
  const made = new Map<string, Known<Dated>>();
  const grouped = campaign.rows.determinations.filter(
    (row) =>
      row.pool_group !== null &&
      row.method === 'radiocarbon' &&
      row.status !== 'rejected' &&
      !isLimit(row) &&
      of.has(row.lab_code),
  );
  for (const [group, rows] of Map.groupBy(grouped, (row) => row.pool_group!)) {
    const parts = rows.map((row) => of.get(row.lab_code)!);
    const firstAge = parts[0]!.value.age;
    const sameKind = parts.every(
      ({ value: { age } }) =>
        age?.kind === 'radiocarbon' &&
        firstAge?.kind === 'radiocarbon' &&
        digest(age.curve) === digest(firstAge.curve) &&
        age.offset_yr === firstAge.offset_yr &&
        age.offset_sd_yr === firstAge.offset_sd_yr,
    );
    if (!sameKind || firstAge?.kind !== 'radiocarbon') {
      const found = rows.map((row) => row.lab_code).join(', ');
      complain(
        rows[0]!,
        'not-poolable',
        'pool_group',
        found,
        'radiocarbon ages on one curve with one offset, from before the bomb years',
        'Pool only results on one thing; the dates stay single.',
      );
      continue;
    }
    const pooled = meanOf(parts.map(({ value }) => value));
    if (pooled.p < 0.05) {
      const found = rows.map(asReported).join(', ');
      complain(
        rows[0]!,
        'pool-disagrees',
        'pool_group',
        found,
        `results that agree (chi-square ${pooled.chi_square.toFixed(1)} with ${pooled.degrees} degrees of freedom, p ${pooled.p.toFixed(3)})`,
        'They are pooled as asked, but at the 5 % level they are not of one age: look at them again.',
        'warning',
      );
    }
    const known = run.do(
      pooledDate,
      traceId.pooled(group),
      {
        group: run.plain(group),
        dates: parts,
      },
      (v) => tellPooled(group, v?.result ?? null),
      () => parts,
    );
    if (known.value !== null) made.set(group, known as Known<Dated>);
  }
  return made;
}

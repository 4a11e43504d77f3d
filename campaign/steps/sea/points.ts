/** What each dated sample says about the sea. */
import type { Campaign } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import { type PointResult, traceId, type UndatedResult } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import type { CurvePoint, SampleInHole } from '@stillstand/science/curve';
import {
  assumedErrors,
  DEPTH_ERRORS,
  declaredError,
  forCurve,
  type HeightError,
  indexPoint,
  limitingPoint,
  type NotUsable,
  type SiteTideLevel,
  type TideThen,
} from '@stillstand/science/points';
import type { AgesAgainstDepth } from '../ages/age-depth.ts';
import { dateBetween } from '../ages/between.ts';
import type { Dated, Dates } from '../ages/dates.ts';
import { complaints } from '../complaint.ts';
import type { Elevation } from '../heights/elevation.ts';
import type { Heights } from '../heights/heights.ts';
import type { SiteLevels } from '../heights/site-levels.ts';
import type { PlacedSample } from '../hole/placed-sample.ts';
import type { Samples } from '../hole/samples.ts';
import type { Runner } from '../runner/runner.ts';
import { type Known, step } from '../runner/step.ts';
import { tellPoint, tellWaterLevel } from '../words/points.ts';
import { type ByDepth, pointsByDepth } from './points-by-depth.ts';
import { type RangeOfPoint, tideRanges } from './tide-ranges.ts';

/** A point as reported, and as the curve takes it (null where it is not used). */
export interface MadePoint {
  result: PointResult;
  forCurve: CurvePoint | null;
  /** Where in a hole its sample lay; null for one that was levelled itself. */
  inHole: SampleInHole | null;
}

export interface Points {
  made: Known<MadePoint>[];
  /** Claims on the sea that wait for a date. */
  undated: UndatedResult[];
  /** Sites with points that wait for the ages of their hole. */
  waiting: ReadonlySet<string | null>;
  problems: Problem[];
}

type Answer = Exclude<ReturnType<typeof indexPoint> | ReturnType<typeof limitingPoint>, NotUsable>;

const claim = step(
  'sea level of a sample',
  ({
    row,
    sample,
    tide_levels,
    tide_then,
    declared,
    hole,
    inclination_percent,
  }: {
    row: Meaning;
    sample: Levelled;
    tide_levels: readonly SiteTideLevel[];
    tide_then: TideThen | null;
    declared: readonly Row<'point_errors'>[];
    hole: Drilled | null;
    inclination_percent: number;
  }): Answer | NotUsable => {
    const { elevation_m } = sample;
    const tide_group = sample.site;
    const errors = errorParts(sample, declared, hole, inclination_percent);
    const missing = (which: string): NotUsable => ({
      ok: false,
      reason: 'meaning_missing',
      found: '',
      expected: `the ${which} limit of the meaning, e.g. MHW+0.1`,
      fix: 'State the meaning in tide words.',
    });
    if (row.kind === 'index') {
      if (row.lower === null) return missing('lower');
      if (row.upper === null) return missing('upper');
      return indexPoint({
        elevation_m,
        lower: row.lower,
        upper: row.upper,
        tide_levels,
        tide_group,
        tide_then,
        errors,
      });
    }
    const bound = row.kind === 'terrestrial' ? row.lower : row.upper;
    if (bound === null) return missing(row.kind === 'terrestrial' ? 'lower' : 'upper');
    return limitingPoint({ kind: row.kind, elevation_m, bound, tide_levels, tide_group, tide_then, errors });
  },
);
/** What of a point's row its height is made from. */
type Meaning = Pick<Row<'points'>, 'kind' | 'lower' | 'upper'>;
/** What of a sample. */
type Levelled = Pick<PlacedSample, 'hole' | 'site' | 'thickness_m' | 'depth_m' | 'depth_sigma_m'> & {
  elevation_m: number;
  height: Elevation;
};
/** What of the hole it came from. */
type Drilled = Pick<Row<'holes'>, 'method' | 'inclination_deg'>;
type Position = Pick<Row<'holes'>, 'latitude_deg' | 'longitude_deg'>;

export function makePoints(
  run: Runner,
  campaign: Campaign,
  heights: Heights,
  levels: SiteLevels,
  samples: Samples,
  dates: Dates,
  againstDepth: AgesAgainstDepth['of'],
  leanPercent: number,
): Points {
  const { problems, complain } = complaints<Row<'points'>>(campaign, 'points', (r) => r.point);
  const made: Known<MadePoint>[] = [];
  const undated: UndatedResult[] = [];
  const waiting = new Set<string | null>();
  const byDepth = pointsByDepth(run, campaign, samples, againstDepth);
  const holes = new Map(campaign.rows.holes.map((row) => [row.hole, row]));
  const ranges = tideRanges(run, campaign, heights.datum, dates);
  for (const row of campaign.rows.points) {
    const sample = samples.of.get(row.sample);
    if (sample === undefined) continue;
    const levelled = levelledPart(sample.value);
    if (levelled === null) {
      complain(
        row,
        'point-without-elevation',
        'sample',
        row.sample,
        'a sample with an elevation on the campaign datum',
        'Complete the sample or its hole; the point is not made.',
      );
      continue;
    }
    const { site } = sample.value;
    const tide = levels.of(site);
    const used = tide.filter((t) => t.value.level === row.lower?.level || t.value.level === row.upper?.level);
    const declared = campaign.rows.point_errors
      .filter((e) => e.point === row.point)
      .map((e) => run.row('point_errors', e, `error ${e.component} of ${row.point}`));
    const hole = sample.value.hole === null ? undefined : holes.get(sample.value.hole);
    const deep = byDepth.of(row);
    const found = deep?.kind === 'made' ? deep.age.dated : dateOf(run, row, campaign, samples, dates);
    const [dated, lacking] = typeof found === 'string' ? [null, found] : [found, ''];
    if (deep?.kind === 'waits') waiting.add(site);
    const range = dated === null ? null : ranges.of(row.point, site, tide, dated);
    const answer = run.untold(claim, {
      row: run.plain({ kind: row.kind, lower: row.lower, upper: row.upper }),
      sample: run.plain(levelled),
      tide_levels: tide,
      tide_then: range?.tide_then ?? null,
      declared,
      hole:
        hole === undefined ? null : run.plain({ method: hole.method, inclination_deg: hole.inclination_deg }),
      inclination_percent: run.plain(leanPercent),
    });
    if (!answer.value.ok) {
      complain(
        row,
        `point-${answer.value.reason.replaceAll('_', '-')}`,
        row.kind === 'terrestrial' ? 'lower' : 'upper',
        answer.value.found,
        answer.value.expected,
        `${answer.value.fix} The point is not made.`,
      );
      continue;
    }
    if (dated === null && deep?.kind === 'waits') continue;
    if (dated === null) {
      if (row.kind === 'index' && row.status !== 'rejected') {
        undated.push({
          row_id: row.row_id,
          point: row.point,
          sample: row.sample,
          hole: sample.value.hole,
          rsl_m: answer.value.rsl_m,
          rsl_sigma_m: answer.value.sigma_m,
        });
      }
      complain(
        row,
        'point-without-date',
        'sample',
        row.sample,
        deep?.kind === 'none' ? deep.expected : lacking,
        `Add the determination, or name it in the point; the point is not made until then.${ranges.isFor(site) ? ' Of a sample without an age no tidal range of its time is known: today’s is used.' : ''}`,
        'warning',
      );
      continue;
    }
    if (deep?.kind === 'none') {
      complain(
        row,
        'point-age-not-from-depth',
        'age_from',
        row.age_from ?? '',
        deep.expected,
        `Complete the hole, or choose another source; until then the age is that of ${dated.value.result.lab_code}.`,
        'warning',
      );
    }
    if (deep?.kind === 'made' && row.age_from !== 'age_depth') {
      complain(
        row,
        'point-age-with-its-hole',
        'age_from',
        row.age_from ?? '',
        `age_depth, as of ${byDepth.askedBy(sample.value.hole)} in ${sample.value.hole}`,
        'Its age is read from all dates of the hole too, so that none counts twice. Choose age_depth to say so, or another source for all points of the hole.',
        'note',
      );
    }
    for (const remark of answer.value.remarks) {
      complain(row, 'point-remark', 'upper', remark, 'limits from low to high', 'Used as said.', 'note');
    }
    const named = traceId.point(row.point);
    const pointRow = run.row('points', row, `point ${row.point}`);
    const waterLevel = run.part(
      named.referenceWaterLevel,
      answer.value.reference_water_level_m,
      tellWaterLevel(row, answer.value, range !== null),
      [pointRow, ...used, ...(range?.parts ?? [])],
    );
    const value = makePoint(row, sample.value, hole ?? null, dated.value, answer.value, range, deep);
    made.push(
      run.part(named.rsl, value, tellPoint(row, value.result), [
        pointRow,
        sample,
        waterLevel,
        dated,
        ...declared,
      ]),
    );
  }
  return { made, undated, waiting, problems: [...ranges.problems(), ...problems] };
}

/** What a point's height is made from; null for a sample without an elevation. */
function levelledPart({
  hole,
  site,
  elevation_m,
  height,
  thickness_m,
  depth_m,
  depth_sigma_m,
}: PlacedSample): Levelled | null {
  if (elevation_m === null || height === null) return null;
  return { hole, site, elevation_m, height, thickness_m, depth_m, depth_sigma_m };
}

function makePoint(
  row: Row<'points'>,
  sample: PlacedSample,
  hole: Position | null,
  dated: Dated,
  answer: Answer,
  range: RangeOfPoint | null,
  deep: ByDepth | null,
): MadePoint {
  const rejected = row.status === 'rejected' || dated.age === null;
  const sets = dated.result.sets_95;
  const result: PointResult = {
    row_id: row.row_id,
    point: row.point,
    sample: row.sample,
    hole: sample.hole,
    site: sample.site,
    latitude_deg: hole?.latitude_deg ?? null,
    longitude_deg: hole?.longitude_deg ?? null,
    lab_code: dated.result.lab_code,
    by_depth: deep?.kind === 'made',
    kind: row.kind,
    position: row.position,
    indicator: row.indicator,
    status: rejected ? 'rejected' : 'accepted',
    reason:
      row.reason ??
      (dated.age === null ? `date rejected: ${dated.result.reason ?? 'no reason given'}` : null),
    elevation_m: sample.elevation_m!,
    reference_water_level_m: answer.reference_water_level_m,
    indicative_range_m: answer.indicative_range_m,
    tidal_range: range === null ? null : { ...range.tide_then.value.range, lever_m: answer.lever_m },
    rsl_m: answer.rsl_m,
    rsl_sigma_m: answer.sigma_m,
    components: answer.components.map(({ reversed: _, ...part }) => part),
    age: {
      median_cal_bp: dated.result.median_cal_bp,
      older95_cal_bp: Math.max(...sets.map((s) => s.older_cal_bp)),
      younger95_cal_bp: Math.min(...sets.map((s) => s.younger_cal_bp)),
    },
  };
  return {
    result,
    forCurve:
      rejected || dated.age === null || deep?.kind === 'waits'
        ? null
        : {
            id: row.point,
            kind: row.kind,
            height_m: answer.rsl_m,
            age: deep?.kind === 'made' ? deep.age.inCurve : dated.age,
            ...forCurve(
              deep?.kind === 'made' ? withoutDepth(answer.components) : answer.components,
              row.kind,
            ),
            burial: burial(row, sample, answer.components),
          },
    // A history keeps its own order.
    inHole: deep?.kind === 'made' ? null : inHole(row.point, sample),
  };
}

/** The state of its hole has the depth of such a point, with the error of the depth model. */
const withoutDepth = (components: Answer['components']): Answer['components'] =>
  components.filter(({ component, source }) => source === 'declared' || !DEPTH_ERRORS.has(component));

/** A lowering that is declared is the point's own, and none by what lies below comes to it. */
function burial(
  row: Row<'points'>,
  { hole }: PlacedSample,
  components: Answer['components'],
): NonNullable<CurvePoint['burial']> | null {
  const compressible_m = row.compressible_below_m ?? 0;
  if (hole === null || !(compressible_m > 0) || components.some((c) => c.shape === 'one_sided')) return null;
  return { hole, compressible_m };
}

function inHole(id: string, { hole, depth_draws, thickness_m }: PlacedSample): SampleInHole | null {
  if (hole === null || depth_draws === null) return null;
  const half = (thickness_m ?? 0) / 2;
  return { id, hole, top_m: depth_draws.map((d) => d - half), base_m: depth_draws.map((d) => d + half) };
}

/** Declared parts, and assumed ones where nobody declared them. */
function errorParts(
  sample: Levelled,
  declared: readonly Row<'point_errors'>[],
  hole: Drilled | null,
  inclination_percent: number,
): HeightError[] {
  const { height } = sample;
  return [
    ...declared.map((row) =>
      declaredError({
        component: row.component,
        value_m: row.value_m,
        sigma_level: row.sigma_level === '1' ? 1 : 2,
        shape: row.shape ?? 'normal',
        shared_group: row.shared_group,
        source: 'declared',
      }),
    ),
    ...assumedErrors({
      declared: new Set(declared.map((row) => row.component)),
      hole: sample.hole,
      method: hole?.method ?? null,
      thickness_m: sample.thickness_m,
      depth_m: sample.depth_m,
      depth_sigma_m: sample.depth_sigma_m,
      inclination_deg: hole?.inclination_deg ?? null,
      inclination_percent,
      reference: {
        levelling_sigma_m: height.levelling_sigma_m,
        group: height.group,
        benchmarks: height.benchmarks,
      },
      datum_shifts: height.shifts,
    }),
  ];
}

/**
 * The date of a point: by what it says of its source, the one named, else the only accepted one of its sample; or what it needs
 * to have one.
 */
function dateOf(
  run: Runner,
  row: Row<'points'>,
  campaign: Campaign,
  samples: Samples,
  dates: Dates,
): Known<Dated> | string {
  const determinations = campaign.rows.determinations.filter((d) => d.sample === row.sample);
  if (row.age_from === 'between') return dateBetween(run, campaign, row.sample, samples, dates);
  if (row.age_from === 'event') {
    const event = determinations.find((d) => d.event_group !== null)?.event_group;
    return dates.events.get(event ?? '') ?? 'an event_group of its determination, with two or more dates';
  }
  if (row.age_from === 'pooled') {
    const group = determinations.find((d) => d.pool_group !== null)?.pool_group;
    const pooled = group === undefined || group === null ? undefined : dates.pooled.get(group);
    if (pooled !== undefined) return pooled;
  }
  const named = row.determination === null ? undefined : dates.of.get(row.determination);
  if (named !== undefined) return named;
  const usable = determinations.filter((d) => dates.of.has(d.lab_code));
  const accepted = usable.filter((d) => d.status !== 'rejected');
  const chosen = accepted.find((d) => !dates.repeats.has(d.lab_code)) ?? accepted[0] ?? usable[0];
  return chosen === undefined ? 'an accepted determination of that sample' : dates.of.get(chosen.lab_code)!;
}

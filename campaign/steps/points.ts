/** What each dated sample says about the sea. */
import type { Campaign } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import type { PointResult, UndatedResult } from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import type { CurvePoint } from '@stillstand/science/curve';
import {
  assumedErrors,
  declaredError,
  forCurve,
  type HeightError,
  indexPoint,
  limitingPoint,
  type NotUsable,
  type SiteTideLevel,
} from '@stillstand/science/points';
import { complaints } from './complaint.ts';
import type { Dated, Dates } from './dates.ts';
import type { Heights } from './heights.ts';
import type { Known, Runner } from './runner.ts';
import type { PlacedSample, Samples } from './samples.ts';

/** A point as reported, and as the curve takes it (null where it is not used). */
export interface MadePoint {
  result: PointResult;
  forCurve: CurvePoint | null;
}

export interface Points {
  made: Known<MadePoint>[];
  /** Claims on the sea that wait for a date. */
  undated: UndatedResult[];
  problems: Problem[];
}

export function makePoints(
  run: Runner,
  campaign: Campaign,
  heights: Heights,
  samples: Samples,
  dates: Dates,
  leanPercent: number,
): Points {
  const { problems, complain } = complaints<Row<'points'>>(campaign, 'points', (r) => r.point);
  const made: Known<MadePoint>[] = [];
  const undated: UndatedResult[] = [];
  const levels = new Map<string, ReturnType<typeof tideLevels>>();
  for (const row of campaign.rows.points) {
    const sample = samples.of.get(row.sample);
    if (sample === undefined) continue;
    if (sample.value.elevation_m === null || sample.value.height === null) {
      complain(
        row,
        'point-without-elevation',
        'sample',
        row.sample,
        'a sample with an elevation on the campaign datum',
        'Mend what the sample or its hole lacks; the point is not made.',
      );
      continue;
    }
    const site = sample.value.site;
    if (site !== null && !levels.has(site)) levels.set(site, tideLevels(run, campaign, heights, site));
    const tide = site === null ? [] : (levels.get(site) ?? []);
    const used = tide.filter((t) => t.value.level === row.lower?.level || t.value.level === row.upper?.level);
    const declared = campaign.rows.point_errors.filter((e) => e.point === row.point);
    const errors = errorParts(sample.value, declared, leanPercent);
    const answer = claim(
      row,
      sample.value.elevation_m,
      tide.map((t) => t.value),
      site,
      errors,
    );
    if (!answer.ok) {
      complain(
        row,
        `point-${answer.reason.replaceAll('_', '-')}`,
        row.kind === 'terrestrial' ? 'lower' : 'upper',
        answer.found,
        answer.expected,
        `${answer.mend} The point is not made.`,
      );
      continue;
    }
    const dated = dateOf(row, campaign, dates);
    if (dated === null) {
      if (row.kind === 'index' && row.status !== 'rejected') {
        undated.push({
          row_id: row.row_id,
          point: row.point,
          sample: row.sample,
          hole: sample.value.row.hole,
          rsl_m: answer.rsl_m,
          rsl_sigma_m: answer.sigma_m,
        });
      }
      complain(
        row,
        'point-without-date',
        'sample',
        row.sample,
        'an accepted determination of that sample',
        'Add the determination, or name it in the column determination; the point is not made until then.',
        'warning',
      );
      continue;
    }
    if (row.age_from === 'age_depth') {
      complain(
        row,
        'point-age-not-from-depth',
        'age_from',
        row.age_from,
        'determination or pooled: ages along a hole are not modelled yet',
        `Write determination; until then the age is that of ${dated.known.value.result.lab_code}.`,
        'warning',
      );
    }
    for (const remark of answer.remarks) {
      complain(row, 'point-remark', 'upper', remark, 'limits from low to high', 'Used as said.', 'note');
    }
    const id = `point:${row.point}/rsl`;
    const pointRow = run.row('points', row, `point ${row.point}`);
    const waterLevel = run.step(
      'reference water level',
      `point:${row.point}/reference water level`,
      [pointRow, ...used],
      () => answer.reference_water_level_m,
      () => ({
        id: `point:${row.point}/reference water level`,
        label: row.kind === 'index' ? 'Reference water level' : 'Tide level of the bound',
        how: row.kind === 'index' ? 'middle of the indicative meaning' : 'the level the bound uses',
        value: answer.reference_water_level_m,
        sigma: answer.components.find((c) => c.component === 'tide_levels')?.sigma_m ?? null,
        unit: 'm',
      }),
    );
    made.push(
      run.step(
        'point',
        id,
        [
          pointRow,
          sample,
          waterLevel,
          dated.known,
          ...declared.map((e) => run.row('point_errors', e, `error ${e.component} of ${row.point}`)),
        ],
        (): MadePoint => makePoint(row, sample.value, dated.known.value, answer),
        (v) => ({
          id,
          label: `${row.kind === 'index' ? 'Sea level' : 'Bound on the sea'} at ${row.point}`,
          how: 'elevation − reference water level',
          value: v.result.rsl_m,
          sigma: v.result.rsl_sigma_m,
          unit: 'm',
        }),
      ),
    );
  }
  return { made, undated, problems };
}

type Answer = Exclude<ReturnType<typeof indexPoint> | ReturnType<typeof limitingPoint>, NotUsable>;

function claim(
  row: Row<'points'>,
  elevation_m: number,
  tide_levels: readonly SiteTideLevel[],
  tide_group: string | null,
  errors: readonly HeightError[],
): Answer | NotUsable {
  const missing = (which: string): NotUsable => ({
    ok: false,
    reason: 'meaning_missing',
    found: '',
    expected: `the ${which} limit of the meaning, e.g. MHW+0.1`,
    mend: 'State the meaning in tide words.',
  });
  if (row.kind === 'index') {
    if (row.lower === null) return missing('lower');
    if (row.upper === null) return missing('upper');
    return indexPoint({ elevation_m, lower: row.lower, upper: row.upper, tide_levels, tide_group, errors });
  }
  const bound = row.kind === 'terrestrial' ? row.lower : row.upper;
  if (bound === null) return missing(row.kind === 'terrestrial' ? 'lower' : 'upper');
  return limitingPoint({ kind: row.kind, elevation_m, bound, tide_levels, tide_group, errors });
}

function makePoint(row: Row<'points'>, sample: PlacedSample, dated: Dated, answer: Answer): MadePoint {
  const rejected = row.status === 'rejected' || dated.age === null;
  const sets = dated.result.sets_95;
  const result: PointResult = {
    row_id: row.row_id,
    point: row.point,
    sample: row.sample,
    hole: sample.row.hole,
    lab_code: dated.result.lab_code,
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
    rsl_m: answer.rsl_m,
    rsl_sigma_m: answer.sigma_m,
    components: answer.components,
    age: {
      median_cal_bp: dated.result.median_cal_bp,
      older95_cal_bp: Math.max(...sets.map((s) => s.older_cal_bp)),
      younger95_cal_bp: Math.min(...sets.map((s) => s.younger_cal_bp)),
    },
  };
  return {
    result,
    forCurve:
      rejected || dated.age === null
        ? null
        : {
            id: row.point,
            kind: row.kind,
            height_m: answer.rsl_m,
            age: dated.age,
            ...forCurve(answer.components, row.kind),
          },
  };
}

/** Declared parts, and assumed ones where nobody declared them. */
function errorParts(
  sample: PlacedSample,
  declared: readonly Row<'point_errors'>[],
  leanPercent: number,
): HeightError[] {
  const { height, hole } = sample;
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
      hole: sample.row.hole,
      method: hole?.row.method ?? null,
      thickness_m: sample.thickness_m,
      depth_m: sample.depth_m,
      depth_sigma_m: sample.depth_sigma_m,
      lean_deg: hole?.row.lean_deg ?? null,
      lean_percent: leanPercent,
      reference: {
        levelling_sigma_m: height?.levelling_sigma_m ?? null,
        group: height?.group ?? null,
        benchmarks: height?.benchmarks ?? [],
      },
      datum_shifts: height?.shifts ?? [],
    }),
  ];
}

/** Tide levels of a site on the campaign datum. */
function tideLevels(run: Runner, campaign: Campaign, heights: Heights, site: string): Known<SiteTideLevel>[] {
  return campaign.rows.tide_levels.flatMap((row) => {
    if (row.site !== site) return [];
    const to = heights.shift(row.datum);
    if (to === null) return [];
    const id = `tide:${site}/${row.level}`;
    return [
      run.step(
        'tide level',
        id,
        [run.row('tide_levels', row, `${row.level} at ${site}`), to],
        () => ({ level: row.level, elevation_m: row.elevation_m + to.value.shift_m, sigma_m: row.sigma_m }),
        (v) => ({
          id,
          label: `${row.level} at ${site}`,
          how: row.source ?? 'as stated',
          value: v.elevation_m,
          sigma: v.sigma_m,
          unit: 'm',
        }),
      ),
    ];
  });
}

/** The date of a point: the one named, the pooled one, else the only accepted one of its sample. */
function dateOf(row: Row<'points'>, campaign: Campaign, dates: Dates): { known: Known<Dated> } | null {
  const determinations = campaign.rows.determinations.filter((d) => d.sample === row.sample);
  if (row.age_from === 'pooled') {
    const group = determinations.find((d) => d.group !== null)?.group;
    const pooled = group === undefined ? undefined : dates.of.get(`pooled:${group}`);
    if (pooled !== undefined) return { known: pooled };
  }
  const named = row.determination === null ? undefined : dates.of.get(row.determination);
  if (named !== undefined) return { known: named };
  const usable = determinations.filter((d) => dates.of.has(d.lab_code));
  const chosen = usable.find((d) => d.status !== 'rejected') ?? usable[0];
  return chosen === undefined ? null : { known: dates.of.get(chosen.lab_code)! };
}

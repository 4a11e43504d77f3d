/** What each curve of a campaign is computed from: its usable points, their shared errors, and the choices made for it. */
import { type Problem, problem } from '@stillstand/campaign/problems';
import { nameOfCurve, siteName, sitesNamed, traceId } from '@stillstand/campaign/results';
import type { ComputationSettings } from '@stillstand/campaign/settings';
import { square } from '@stillstand/science/base';
import { type AgeConstraint, sharedErrorOf } from '@stillstand/science/clocks';
import { type CurvePoint, type CurveSettings, surelyBelow, unusablePoints } from '@stillstand/science/curve';
import type { CampaignDatum } from '../heights/heights.ts';
import type { Runner } from '../runner/runner.ts';
import type { Known } from '../runner/step.ts';
import { settingsInWords } from '../words/curve.ts';
import { type CurvesOfSites, chooseCurves, countedSites, type SiteInCurve } from './curve-sites.ts';
import type { MadeGauge } from './gauge-means.ts';
import type { MadePoint } from './points.ts';

export interface CurveInput {
  /** Name of the curve, unique in the campaign. */
  id: string;
  /** The same where numbers of the trace are named by it; null for the curve of the report. */
  named: string | null;
  /** Labels of the sites whose points it is of; null for points without one. */
  sites: readonly (string | null)[];
  /** The points used, as they were made. */
  used: readonly Known<MadePoint>[];
  /** Gauges whose annual means join them. */
  gauges: readonly Known<MadeGauge>[];
  /** The same as the curve takes them, and the blocks of the gauges. */
  points: readonly CurvePoint[];
  settings: Known<CurveSettings>;
}

/** Where no interval was asked for: every whole millennium that the points span. */
const DEFAULT_INTERVAL_YR = 1000;
/** No curve is reported at more ages. */
const MOST_AGES = 5000;

/** One of each curve, that of the report first; none where there is nothing to compute a curve from. */
export function curveInputs(
  run: Runner,
  made: readonly Known<MadePoint>[],
  gaugesMade: readonly Known<MadeGauge>[],
  settings: ComputationSettings,
  datum: CampaignDatum,
  siteTable: readonly SiteInCurve[],
): { inputs: CurveInput[]; problems: Problem[] } {
  const problems: Problem[] = [];
  const accepted = made.filter((m) => m.value.forCurve !== null);
  const refused = new Map(
    unusablePoints(
      accepted.map((m) => m.value.forCurve!),
      settings.curve,
    ).map((r) => [r.id, r]),
  );
  for (const m of accepted) {
    const refusal = refused.get(m.value.result.point);
    if (refusal === undefined) continue;
    problems.push(
      problem({
        severity: 'error',
        code: 'point-not-in-curve',
        table: 'points',
        row_id: m.value.result.row_id,
        label: m.value.result.point,
        found: refusal.found,
        expected: refusal.expected,
        fix: 'Correct the point; the curve is computed without it.',
      }),
    );
  }
  const usable = accepted.filter((m) => !refused.has(m.value.result.point));
  const ofSites = chooseCurves(
    usable.map((m) => m.value.result),
    settings.curve_sites,
    siteTable,
  );
  problems.push(...siteProblems(ofSites, settings));
  if (ofSites.curves.length === 0) {
    if (made.length > 0) {
      problems.push(
        problem({
          severity: 'warning',
          code: 'no-curve',
          table: 'points',
          found: `${made.length} points, none of them usable`,
          expected: 'at least one accepted point with an age',
          fix: 'Accept a point, or correct what its problems say; there is no curve until then.',
        }),
      );
    }
    return { inputs: [], problems };
  }
  if (settings.present_constraint_sd_m !== null && datum.mid_year_ce === null) {
    problems.push(
      problem({
        severity: 'note',
        code: 'no-tidal-epoch',
        table: 'datums',
        label: datum.label,
        column: 'epoch_from',
        found: '',
        expected: 'the first and last year of the tidal epoch',
        fix: 'State the epoch to constrain RSL to 0 at its mid-year; without it there is no constraint at present.',
      }),
    );
  }
  const inputs = ofSites.curves.map(({ id, sites }): CurveInput => {
    const used = usable.filter((m) => sites.includes(m.value.result.site));
    const gauges = gaugesMade.filter(
      ({ value: { result } }) => result.site === null || sites.includes(result.site),
    );
    const named = nameOfCurve(id);
    const curveSettings = curveSettingsFor(settings, used, gauges, datum);
    const choices = run.given(
      traceId.ofCurve(named, traceId.settings('curve')),
      'settings of the curve',
      settingsInWords(curveSettings, sites),
      curveSettings,
    );
    const points = withOwnErrors([
      ...used.map((m) => m.value.forCurve!),
      ...gauges.flatMap(({ value }) => value.points),
    ]);
    return { id, named, sites, used, gauges, points: inOrder(used, points), settings: choices };
  });
  problems.push(...inputs.flatMap(severalGauges));
  return { inputs, problems };
}

function severalGauges({ gauges, named }: CurveInput): Problem[] {
  if (gauges.length < 2) return [];
  return [
    problem({
      severity: 'warning',
      code: 'several-gauges',
      table: 'gauge_means',
      label: gauges.map(({ value: { result } }) => result.gauge).join(', '),
      found: `${gauges.length} gauges in one curve${named === null ? '' : `, that of ${named}`}`,
      expected: 'one, or gauges whose years are independent',
      fix: 'Gauges of one coast share weather and ocean, and are taken as independent: the rate is given too narrow. Leave one.',
    }),
  ];
}

/** Points that are in no curve for their site, and labels that no point has. */
function siteProblems(
  { curves, found, without, unknown }: CurvesOfSites,
  settings: ComputationSettings,
): Problem[] {
  const problems: Problem[] = [];
  const about = { table: 'settings', label: 'curve_sites', column: 'value' };
  const others = found.filter(({ site }) => without.includes(site));
  const count = others.reduce((sum, { points }) => sum + points, 0);
  const named = (of: typeof found): string => sitesNamed(of.map(({ site }) => site));
  const kept = (curves[0]?.sites ?? []).map(siteName).join(' and ');
  if (unknown.length > 0) {
    problems.push(
      problem({
        ...about,
        severity: 'error',
        code: 'unknown-site',
        found: unknown.join('; '),
        expected: `sites with accepted points: ${named(found)}; or all`,
        fix: `Name sites by their labels. The curve of the report is of ${kept} until then.`,
      }),
    );
  }
  if (others.length > 0) {
    const asked = settings.curve_sites !== null && unknown.length === 0;
    problems.push(
      problem({
        ...about,
        severity: asked ? 'note' : 'warning',
        code: 'points-of-other-sites',
        found: countedSites(found),
        expected: 'two index points of a site for a curve of its own, or the name of a curve for the site',
        fix: asked
          ? `No action needed: points of ${named(others)} (${count}) are in no curve, as the setting says. A curve named for the site gives it one.`
          : `Name a curve for the site, the same for all sites of one coast, or write all in the setting “sites of the curve” for one curve of all of them. Until then points of ${named(others)} (${count}) are in no curve.`,
      }),
    );
  }
  return problems;
}

/**
 * A shared error that one point alone carries is that point's own: the same model, but a chain would have to walk the
 * point and its constant one after the other, each held by the other.
 */
function withOwnErrors(points: readonly CurvePoint[]): CurvePoint[] {
  const carriers = carriersOf(points, ({ shared }) => shared.map((s) => s.group));
  const ofDates = carriersOf(points, datedWith);
  return points.map((point) => {
    const isOwn = (s: { group: string }): boolean => carriers.get(s.group) === 1;
    const own = point.shared.filter(isOwn);
    const [group] = datedWith(point);
    const age = group !== undefined && ofDates.get(group) === 1 ? withoutSystematic(point.age) : point.age;
    if (own.length === 0) return age === point.age ? point : { ...point, age };
    // Parts of one group add up, groups by their squares.
    const sums = [...Map.groupBy(own, (s) => s.group).values()].map((parts) =>
      parts.reduce((sum, s) => sum + s.sigma_m, 0),
    );
    return {
      ...point,
      age,
      sigma_m: Math.sqrt(sums.reduce((total, sum) => total + square(sum), square(point.sigma_m))),
      shared: point.shared.filter((s) => !isOwn(s)),
    };
  });
}

/** How many points carry each group. */
function carriersOf(
  points: readonly CurvePoint[],
  groupsOf: (point: CurvePoint) => readonly string[],
): Map<string, number> {
  const carriers = new Map<string, number>();
  for (const point of points)
    for (const group of new Set(groupsOf(point))) carriers.set(group, (carriers.get(group) ?? 0) + 1);
  return carriers;
}

/** Groups of doses that its date is of, or the dates of the hole it has its age from. */
const datedWith = ({ age }: CurvePoint): readonly string[] =>
  age.kind === 'of_hole' ? age.clocks.shared.flatMap((each) => doseOf(each.age)) : doseOf(age);

function doseOf(age: AgeConstraint): readonly string[] {
  const shared = age.kind === 'normal' ? sharedErrorOf(age) : null;
  return shared === null ? [] : [shared.group];
}

function withoutSystematic(age: CurvePoint['age']): CurvePoint['age'] {
  if (age.kind !== 'normal') return age;
  const { systematic: _, ...own } = age;
  return own;
}

/** With the points that lie below each in its hole. */
function inOrder(used: readonly Known<MadePoint>[], points: readonly CurvePoint[]): CurvePoint[] {
  const below = surelyBelow(used.flatMap((m) => m.value.inHole ?? []));
  return points.map((point) => {
    const older_below = below.get(point.id) ?? [];
    return older_below.length === 0 ? point : { ...point, older_below };
  });
}

/** Each span of years that gauges have, once. */
const spansOf = (gauges: readonly Known<MadeGauge>[]): CurveSettings['intervals'] => {
  const spans = gauges.map(({ value: { result } }) => spanOf(result));
  const isSame = (a: Span, b: Span): boolean =>
    a.older_cal_bp === b.older_cal_bp && a.younger_cal_bp === b.younger_cal_bp;
  return spans.filter((span, i) => spans.findIndex((each) => isSame(each, span)) === i);
};
type Span = CurveSettings['intervals'][number];

/** From the first year of a gauge to its last. */
function spanOf({ blocks }: MadeGauge['result']): { older_cal_bp: number; younger_cal_bp: number } {
  return {
    older_cal_bp: 1950 - blocks[0]!.from_year_ce,
    younger_cal_bp: 1950 - blocks.at(-1)!.to_year_ce,
  };
}

/**
 * Ages reach to the oldest point used where nobody asked for others, and rates over millennia no farther than the ages, and
 * over the years of each gauge.
 */
function curveSettingsFor(
  settings: ComputationSettings,
  used: readonly Known<MadePoint>[],
  gauges: readonly Known<MadeGauge>[],
  datum: CampaignDatum,
): CurveSettings {
  const { step_yr, youngest_cal_bp: youngest } = settings;
  const oldest = Math.max(...used.map((m) => m.value.result.age.older95_cal_bp), 0);
  const end = settings.oldest_cal_bp ?? Math.max(step_yr, Math.ceil(oldest / step_yr) * step_yr);
  const count = Math.max(1, Math.floor((end - youngest) / step_yr + 1e-9) + 1);
  const intervals =
    settings.curve.intervals.length > 0
      ? settings.curve.intervals
      : Array.from({ length: Math.floor(Math.min(oldest, end) / DEFAULT_INTERVAL_YR) }, (_, i) => ({
          older_cal_bp: (i + 1) * DEFAULT_INTERVAL_YR,
          younger_cal_bp: i * DEFAULT_INTERVAL_YR,
        }))
          .filter((interval) => interval.younger_cal_bp >= youngest)
          .reverse()
          .concat(spansOf(gauges));
  const ages_cal_bp = Array.from({ length: Math.min(count, MOST_AGES) }, (_, i) => youngest + i * step_yr);
  return {
    ...settings.curve,
    rate_model: {
      ...settings.curve.rate_model,
      changes_from_cal_bp: ages_cal_bp.at(-1)!,
      changes_to_cal_bp: youngest,
    },
    intervals,
    ages_cal_bp,
    tie:
      settings.present_constraint_sd_m === null || datum.mid_year_ce === null
        ? null
        : { year_ce: datum.mid_year_ce, sd_m: settings.present_constraint_sd_m },
  };
}

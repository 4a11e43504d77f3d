/** Sea level and its rate from the points of a campaign. */
import { type Problem, problem } from '@stillstand/campaign/problems';
import { square } from '@stillstand/science/base';
import type { CurvePoint, CurveResult, CurveSettings } from '@stillstand/science/curve';
import { computeCurve, curveSensitivity, unusablePoints } from '@stillstand/science/curve';
import type { CampaignDatum } from './heights.ts';
import type { MadePoint } from './points.ts';
import type { Known, Runner } from './runner.ts';
import type { ComputationSettings } from './settings.ts';

export interface SeaLevel {
  curve: Known<CurveResult> | null;
  problems: Problem[];
}

/** How somebody who only wants to look computes the curve. Such results are provisional, never reported. */
export interface CurveLook {
  /** Remembered under this name beside the whole curve. */
  name: string;
  curve(points: readonly CurvePoint[], settings: CurveSettings): CurveResult;
}

/** Where no interval was asked for: every whole millennium that the points span. */
const DEFAULT_INTERVAL_YR = 1000;

export function seaLevel(
  run: Runner,
  made: readonly Known<MadePoint>[],
  settings: ComputationSettings,
  datum: CampaignDatum,
  onProgress?: (done: number, of: number) => void,
  look: CurveLook | null = null,
): SeaLevel {
  const problems: Problem[] = [];
  const accepted = made.filter((m) => m.value.forCurve !== null);
  const curveSettings = curveSettingsFor(settings, accepted, datum);
  const refused = new Map(
    unusablePoints(
      accepted.map((m) => m.value.forCurve!),
      curveSettings,
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
        mend: 'Correct the point; the curve is computed without it.',
      }),
    );
  }
  const used = accepted.filter((m) => !refused.has(m.value.result.point));
  if (used.length === 0) {
    if (made.length > 0) {
      problems.push(
        problem({
          severity: 'warning',
          code: 'no-curve',
          table: 'points',
          found: `${made.length} points, none of them usable`,
          expected: 'at least one accepted point with an age',
          mend: 'Accept a point, or mend what its problems say; there is no curve until then.',
        }),
      );
    }
    return { curve: null, problems };
  }
  if (settings.tie_sd_m !== null && datum.mid_year_ce === null) {
    problems.push(
      problem({
        severity: 'note',
        code: 'no-tidal-epoch',
        table: 'datums',
        label: datum.label,
        column: 'epoch_from',
        found: '',
        expected: 'the first and last year of the tidal epoch',
        mend: 'State the epoch to tie sea level to 0 at its mid-year; without it the curve has no tie.',
      }),
    );
  }
  const choices = run.given(
    'settings/curve',
    'settings of the curve',
    settingsInWords(curveSettings),
    curveSettings,
    JSON.stringify(look === null ? curveSettings : { ...curveSettings, look: look.name }),
  );
  const points = run.set('points used', 'The points', byInfluence(used, null));
  const curve = run.step(
    'curve',
    'curve/all',
    [choices, ...used],
    () =>
      computeAll(
        used.map((m) => m.value),
        curveSettings,
        onProgress,
        look,
      ),
    (v) => ({
      id: 'curve/all',
      label: 'Smooth curve through all points',
      how: `${v.points.length} points, ${v.settings.chains} chains of ${v.settings.draws} draws, ${v.diagnostics.converged ? 'converged' : 'not converged'}`,
      value: null,
      sigma: null,
      unit: '',
    }),
    [choices, points],
  );
  tellNumbers(run, curve, used, choices);
  if (!curve.value.diagnostics.converged && look === null) {
    problems.push(
      problem({
        severity: 'warning',
        code: 'not-converged',
        table: 'settings',
        column: 'value',
        label: 'draws',
        found: curve.value.diagnostics.remarks.join('; '),
        expected: 'R-hat below 1.01 and at least 400 effective draws of every number',
        mend: 'Raise the setting draws; the figures are marked until then.',
      }),
    );
  }
  return { curve, problems };
}

/** The curve; its rates under other priors; the same without the intercalated points, whose heights may have settled. */
function computeAll(
  used: readonly MadePoint[],
  settings: CurveSettings,
  onProgress: ((done: number, of: number) => void) | undefined,
  look: CurveLook | null,
): CurveResult {
  const points = withOwnErrors(used.map((m) => m.forCurve!));
  if (look !== null) return look.curve(points, settings);
  const curve = computeCurve(points, settings, onProgress);
  const intercalated = used.filter((m) => m.result.position === 'intercalated').map((m) => m.forCurve!.id);
  return curveSensitivity(points, settings, curve, new Set(intercalated), onProgress);
}

/**
 * A shared error that one point alone carries is that point's own: the same model, but a chain would have to walk the
 * point and its constant one after the other, each held by the other.
 */
function withOwnErrors(points: readonly CurvePoint[]): CurvePoint[] {
  const carriers = new Map<string, number>();
  for (const { shared } of points)
    for (const group of new Set(shared.map((s) => s.group)))
      carriers.set(group, (carriers.get(group) ?? 0) + 1);
  return points.map((point) => {
    const isOwn = (s: { group: string }): boolean => carriers.get(s.group) === 1;
    const own = point.shared.filter(isOwn);
    if (own.length === 0) return point;
    // Parts of one group add up, groups by their squares.
    const sums = [...Map.groupBy(own, (s) => s.group).values()].map((parts) =>
      parts.reduce((sum, s) => sum + s.sigma_m, 0),
    );
    return {
      ...point,
      sigma_m: Math.sqrt(sums.reduce((total, sum) => total + square(sum), square(point.sigma_m))),
      shared: point.shared.filter((s) => !isOwn(s)),
    };
  });
}

/** Every reported number of the curve as a node of the trace; its first layer is the points by influence. */
function tellNumbers(
  run: Runner,
  curve: Known<CurveResult>,
  used: readonly Known<MadePoint>[],
  choices: Known<unknown>,
): void {
  const { value } = curve;
  const ranked = run.set(
    'points by influence',
    'Points, the most influential first',
    byInfluence(used, value),
  );
  for (const { older_cal_bp, younger_cal_bp, rate_mm_yr } of value.intervals) {
    run.quantity(curve, [ranked, choices], rate_mm_yr.mean, {
      id: `interval:${older_cal_bp}-${younger_cal_bp}`,
      label: `Rate from ${older_cal_bp} to ${younger_cal_bp} cal BP`,
      how: 'level at the younger end − level at the older end, over the years between',
      value: rate_mm_yr.mean,
      sigma: rate_mm_yr.sd,
      unit: 'mm/yr',
    });
  }
  tellPriors(run, curve, ranked, choices);
  tellPoints(run, curve, used, choices);
  value.ages_cal_bp.forEach((age, i) => {
    for (const [name, band, unit] of [
      ['level', value.level_m, 'm'],
      ['rate', value.rate_mm_yr, 'mm/yr'],
    ] as const) {
      run.quantity(curve, [ranked, choices], band.mean[i]!, {
        id: `${name}:${age}`,
        label: `${name === 'level' ? 'Sea level' : 'Rate'} at ${age} cal BP`,
        how: 'mean of the draws',
        value: band.mean[i]!,
        sigma: band.sd[i]!,
        unit,
      });
    }
  });
}

/** The rates that each interval would have under other assumptions. */
function tellPriors(
  run: Runner,
  curve: Known<CurveResult>,
  points: Known<unknown>,
  choices: Known<unknown>,
): void {
  for (const interval of curve.value.intervals) {
    const { older_cal_bp: older, younger_cal_bp: younger } = interval;
    for (const [name, rate, how] of [
      ['prior halved', interval.prior_halved_mm_yr, 'under a prior of the rate’s sd half as wide'],
      ['prior doubled', interval.prior_doubled_mm_yr, 'under a prior of the rate’s sd twice as wide'],
      [
        'intercalated left out',
        interval.without_intercalated_mm_yr,
        'a curve of its own, without the points whose heights may have settled',
      ],
    ] as const) {
      if (rate === null) continue;
      run.quantity(curve, [points, choices], rate, {
        id: `interval:${older}-${younger}/${name}`,
        label: `Rate from ${older} to ${younger} cal BP, ${name}`,
        how,
        value: rate,
        sigma: null,
        unit: 'mm/yr',
      });
    }
  }
}

/** What the curve makes of each point: how far the point lies from it, and how old it takes it to be. */
function tellPoints(
  run: Runner,
  curve: Known<CurveResult>,
  used: readonly Known<MadePoint>[],
  choices: Known<unknown>,
): void {
  const made = new Map(used.map((m) => [m.value.result.point, m]));
  for (const { id, residual_m, age_cal_bp: age } of curve.value.points) {
    const point = made.get(id);
    if (point === undefined) continue;
    run.quantity(curve, [point, choices], residual_m, {
      id: `point:${id}/residual`,
      label: `What the curve leaves over at ${id}`,
      how: 'height − level of the curve at its age − shared errors, mean of the draws',
      value: residual_m,
      sigma: null,
      unit: 'm',
    });
    run.quantity(curve, [point, choices], age.median, {
      id: `point:${id}/age in the curve`,
      label: `Age of ${id} in the curve`,
      how: 'its date, moved by what the other points say of the sea',
      value: age.median,
      sigma: age.sd,
      unit: 'cal BP',
    });
  }
}

function byInfluence(used: readonly Known<MadePoint>[], curve: CurveResult | null): Known<MadePoint>[] {
  if (curve === null) return [...used];
  const influence = new Map(curve.points.map((p) => [p.id, p.influence]));
  const of = (m: Known<MadePoint>): number => influence.get(m.value.result.point) ?? 0;
  return [...used].sort((a, b) => of(b) - of(a));
}

function curveSettingsFor(
  settings: ComputationSettings,
  accepted: readonly Known<MadePoint>[],
  datum: CampaignDatum,
): CurveSettings {
  const oldest = Math.max(...accepted.map((m) => m.value.result.age.older95_cal_bp), 0);
  const end =
    settings.oldest_cal_bp ??
    Math.max(settings.step_yr, Math.ceil(oldest / settings.step_yr) * settings.step_yr);
  const count = Math.max(1, Math.floor((end - settings.youngest_cal_bp) / settings.step_yr + 1e-9) + 1);
  const intervals =
    settings.curve.intervals.length > 0
      ? settings.curve.intervals
      : Array.from({ length: Math.floor(oldest / DEFAULT_INTERVAL_YR) }, (_, i) => ({
          older_cal_bp: (i + 1) * DEFAULT_INTERVAL_YR,
          younger_cal_bp: i * DEFAULT_INTERVAL_YR,
        })).reverse();
  return {
    ...settings.curve,
    intervals,
    ages_cal_bp: Array.from(
      { length: Math.min(count, 5000) },
      (_, i) => settings.youngest_cal_bp + i * settings.step_yr,
    ),
    tie:
      settings.tie_sd_m === null || datum.mid_year_ce === null
        ? null
        : { year_ce: datum.mid_year_ce, sd_m: settings.tie_sd_m },
  };
}

function settingsInWords(s: CurveSettings): string {
  const tie = s.tie === null ? 'no tie' : `0 ± ${s.tie.sd_m} m at ${s.tie.year_ce}`;
  return `${tie}; sd of the rate half-normal ${s.priors.rate_sd_scale_mm_yr} mm/yr, length lognormal ${s.priors.length_median_ka} ka; seed ${s.seed}`;
}

/** Sea level and its rate from the points of a campaign. */
import { type Problem, problem } from '@stillstand/campaign/problems';
import { type TraceId, traceId } from '@stillstand/campaign/results';
import { inProcess } from '@stillstand/science/base';
import type {
  CurvePoint,
  CurveResult,
  CurveSettings,
  MovedError,
  RatesCompared,
} from '@stillstand/science/curve';
import {
  compareRates,
  curveWithSensitivity,
  disagreeing,
  disagreementBelow,
  isAbrupt,
  loneEnds,
  movedAbove,
  movedErrors,
  probableOutliers,
  settingsToCompare,
} from '@stillstand/science/curve';
import type { Runner } from '../runner/runner.ts';
import { type Known, step, type Told, type Traced } from '../runner/step.ts';
import {
  tellAgeInCurve,
  tellAtAge,
  tellCurve,
  tellInterval,
  tellIntervalUnder,
  tellRates,
  tellResidual,
  unlessConverged,
} from '../words/curve.ts';
import { inMetres } from '../words/numbers.ts';
import type { CurveInput } from './curve-input.ts';
import type { MadeGauge } from './gauge-means.ts';
import type { MadePoint } from './points.ts';

/** The curve; its rates under other priors; the same without the intercalated points, whose heights may have settled. */
export const curveOfPoints = step(
  'curve',
  (
    {
      points,
      intercalated,
      settings,
    }: { points: readonly CurvePoint[]; intercalated: readonly string[]; settings: CurveSettings },
    { onProgress },
  ): CurveResult => {
    return inProcess(curveWithSensitivity(points, settings, new Set(intercalated)), onProgress);
  },
);

/** Models of the rate compared, each a curve of its own. */
export const ratesOfPoints = step(
  'rates',
  (
    { points, settings }: { points: readonly CurvePoint[]; settings: CurveSettings },
    { onProgress },
  ): RatesCompared => compareRates(points, settings, onProgress),
);

export function ratesCompared(
  run: Runner,
  { named, used, gauges, points, settings }: CurveInput,
): RatesCompared {
  const known = run.long(
    ratesOfPoints,
    traceId.ofCurve(named, traceId.ratesCompared),
    { points: run.plain(points), settings: run.plain(settingsToCompare(settings.value)) },
    tellRates,
    () => [settings, thePoints(run, { named, used, gauges })],
  );
  return known?.value ?? [];
}

const thePoints = (
  run: Runner,
  { named, used, gauges }: Pick<CurveInput, 'named' | 'used' | 'gauges'>,
): Traced => run.set(traceId.ofCurve(named, traceId.pointsUsed), 'The points', [...used, ...gauges]);

export function seaLevel(
  run: Runner,
  { named, used, gauges, points, settings }: CurveInput,
): { curve: Known<CurveResult>; problems: Problem[] } | null {
  const intercalated = used.flatMap(({ value: { result } }) =>
    result.position === 'intercalated' ? [result.point] : [],
  );
  const all = thePoints(run, { named, used, gauges });
  const curve = run.long(
    curveOfPoints,
    traceId.ofCurve(named, traceId.curve),
    { points: run.plain(points), intercalated: run.plain(intercalated), settings },
    tellCurve,
    () => [settings, all],
  );
  if (curve === null) return null;
  const places = placesOf(used, gauges);
  tellNumbers(run, named, curve.value, used, gauges, settings);
  return {
    curve,
    problems: ofCurve(named, [
      ...notConverged(curve.value),
      ...notSmooth(curve.value),
      ...sharedMoved(curve.value),
      ...outliers(curve.value, places),
      ...disagreements(curve.value, places),
      ...onePointEnds(curve.value, places),
      ...loweringUnknown(used),
    ]),
  };
}

/** What was found of another curve than that of the report says so first. */
const ofCurve = (named: string | null, problems: readonly Problem[]): Problem[] =>
  problems.map((each) => (named === null ? each : { ...each, found: `Curve of ${named}: ${each.found}` }));

const notConverged = ({ diagnostics }: CurveResult): Problem[] =>
  diagnostics.converged
    ? []
    : [
        problem({
          severity: 'warning',
          code: 'not-converged',
          table: 'settings',
          column: 'value',
          label: 'draws',
          found: diagnostics.remarks.join('; '),
          expected: 'R-hat below 1.01 and at least 400 effective draws of every number',
          fix: 'Raise the number of draws; the figures are marked until then.',
        }),
      ];

/** An abrupt change that a smooth rate does not have. */
const notSmooth = (curve: CurveResult): Problem[] =>
  isAbrupt(curve)
    ? [
        problem({
          severity: 'warning',
          code: 'rate-not-smooth',
          table: 'settings',
          column: 'value',
          label: 'rate_model',
          found: `one abrupt change near ${Math.round(curve.one_break!.age_cal_bp)} cal BP suits the heights better than a smooth rate`,
          expected: 'a rate without abrupt changes',
          fix: 'Compare models of the rate, and choose a stepwise rate or allow breaks (settings “model of the rate”, “changes of the rate”, “jump of the level at a change”) where they score better.',
        }),
      ]
    : [];

/** Where what is shared was stated. */
const PLACES_OF_SHARED = {
  height: { table: 'points', column: 'point' },
  'reservoir offset': { table: 'determinations', column: 'delta_r_group' },
  'dating error': { table: 'determinations', column: 'systematic_group' },
  present: { table: 'settings', column: 'value' },
} as const satisfies Record<MovedError['of'], Pick<Problem, 'table' | 'column'>>;

/** What points share and the others do not bear out: none of the points that share it disagrees by itself. */
const sharedMoved = (curve: CurveResult): Problem[] =>
  movedErrors(curve).map((error) => {
    const { of, id, sigma } = error;
    return problem({
      severity: 'warning',
      code: 'shared-error-moved',
      ...PLACES_OF_SHARED[of],
      label: of === 'present' ? 'present_constraint_sd_m' : id,
      found: `${of === 'present' ? 'the level at present' : 'the shared error'} moved by ${movedBy(error)}, ${(Math.abs(error.moved) / sigma).toFixed(1)} times its sigma`,
      expected: `within ${movedAbove(curve).toFixed(1)} times (0.05 over the number of shared errors)`,
      fix: 'Check what they share (datum shift, bench mark, zero of a gauge, reservoir offset, error of dates) and its sigma. The curve takes it as moved until then.',
    });
  });

function movedBy({ of, moved }: MovedError): string {
  if (of === 'reservoir offset') return `${moved.toFixed(0)} 14C yr`;
  return of === 'dating error' ? `${moved.toFixed(0)} yr` : `${inMetres(moved)} m`;
}

/** Points whose date or height is more probably an outlier than not, the surest first. */
function outliers(curve: CurveResult, places: Places): Problem[] {
  return probableOutliers(curve).map(({ id, of, p }) =>
    problem({
      severity: 'warning',
      code: 'point-outlier',
      ...placeIn(places, id),
      label: id,
      found: `its ${of} is an outlier with a probability of ${p.toFixed(2)}, as the other points have it`,
      expected: 'below 0.5',
      fix: `Check the ${of === 'date' ? 'date and its sample' : 'elevation, the sample and its indicative meaning'}: reject the point, or keep it. The curve weighs it by that probability.`,
    }),
  );
}

/** Points that the others contradict, the worst first. */
function disagreements(curve: CurveResult, places: Places): Problem[] {
  const found = new Map(curve.points.map((point) => [point.id, point]));
  return disagreeing(curve).map(({ id, p, age_shift_sd }) => {
    const { mean, sd } = found.get(id)!.others_level_m!;
    return problem({
      severity: 'warning',
      code: 'point-disagrees',
      ...placeIn(places, id),
      label: id,
      found: `p ${probability(p)}; others ${inMetres(mean)} ±${(2 * sd).toFixed(2)} m (2σ); age moved ${shift(age_shift_sd)} sd`,
      expected: `a height with p above ${probability(disagreementBelow(curve))} (0.05 over the number of points), an age moved by no more than 2 sd`,
      fix: 'Check the date, the sample and its indicative meaning: reject the point, or keep it. The curve uses it until then.',
    });
  });
}

/** Intercalated index points of which nothing says how far they may have been lowered. */
function loweringUnknown(used: readonly Known<MadePoint>[]): Problem[] {
  const index = used.flatMap(({ value }) => (value.result.kind === 'index' ? [value] : []));
  const free = index.filter(
    ({ result, forCurve }) =>
      result.position === 'intercalated' && forCurve!.lowering_m === 0 && (forCurve!.burial ?? null) === null,
  );
  if (free.length === 0) return [];
  const basal = index.filter(
    ({ result: { position } }) => position === 'basal' || position === 'base_of_basal',
  );
  return [
    problem({
      severity: basal.length === 0 ? 'warning' : 'note',
      code: 'lowering-not-stated',
      table: 'points',
      row_id: free[0]!.result.row_id,
      column: 'compressible_below',
      label: free[0]!.result.point,
      found: `${free.length} intercalated index points without it: ${free.map(({ result }) => result.point).join(', ')}; ${basal.length} basal`,
      expected: 'compressible sediment below each, or its lowering as an error',
      fix:
        basal.length === 0
          ? 'Enter it. Until then the curve takes these as not lowered, and nothing in the data could show that they were: the level may be too low.'
          : 'Enter it. Until then the curve takes these as not lowered; compare the rates without intercalated points.',
    }),
  ];
}

/** Ends of the curve that nothing else could contradict. */
function onePointEnds(curve: CurveResult, places: Places): Problem[] {
  return loneEnds(curve).map(({ end, id, from_cal_bp }) =>
    problem({
      severity: 'note',
      code: 'curve-end-on-one-point',
      ...placeIn(places, id),
      label: id,
      found:
        from_cal_bp === null
          ? 'the one index point of the curve'
          : `the one index point ${end === 'older' ? 'older' : 'younger'} than ${Math.round(from_cal_bp)} cal BP`,
      expected: 'a second point of that age',
      fix: 'No action needed. Without this point ± there would be more than twice as wide: no other point can show that it is wrong.',
    }),
  );
}

/** The row that each point of the curve is, by its label. */
type Places = ReadonlyMap<string, { table: string; row_id: string }>;

const placesOf = (used: readonly Known<MadePoint>[], gauges: readonly Known<MadeGauge>[]): Places =>
  new Map<string, { table: string; row_id: string }>([
    ...gauges.flatMap(({ value: { result, points } }) =>
      points.map(({ id }) => [id, { table: 'gauges', row_id: result.row_id }] as const),
    ),
    ...used.map(
      ({ value: { result } }) => [result.point, { table: 'points', row_id: result.row_id }] as const,
    ),
  ]);

const placeIn = (places: Places, id: string): { table: string; row_id: string | null } =>
  places.get(id) ?? { table: 'points', row_id: null };

const shift = (sd: number): string => `${sd < 0 ? '−' : '+'}${Math.abs(sd).toFixed(1)}`;
const probability = (p: number): string => (p < 0.0001 ? 'below 0.0001' : p.toFixed(4));

/** Every reported number of the curve as a node of the trace; its first layer is the points by influence. */
function tellNumbers(
  run: Runner,
  named: string | null,
  curve: CurveResult,
  used: readonly Known<MadePoint>[],
  gauges: readonly Known<MadeGauge>[],
  choices: Traced,
): void {
  const ranked = run.set(
    traceId.ofCurve(named, traceId.pointsByInfluence),
    'Points, the most influential first',
    byInfluence(used, gauges, curve),
  );
  const tell = (id: TraceId, told: Told, of: Traced = ranked): void => {
    run.part(traceId.ofCurve(named, id), told.value, unlessConverged(told, curve), [of, choices]);
  };
  for (const interval of curve.intervals) {
    const { mean, sd } = interval.rate_mm_yr;
    tell(traceId.interval(interval), tellInterval(interval, mean, sd));
    for (const [name, rate, how] of [
      ['prior halved', interval.prior_halved_mm_yr, 'under a prior of the rate’s sd half as wide'],
      ['prior doubled', interval.prior_doubled_mm_yr, 'under a prior of the rate’s sd twice as wide'],
      [
        'no outliers',
        interval.no_outliers_mm_yr,
        'a curve of its own, with every date and height taken as given',
      ],
      [
        'no burial',
        interval.no_burial_mm_yr,
        'a curve of its own, with no sample lowered by what lies below it',
      ],
      [
        'intercalated left out',
        interval.without_intercalated_mm_yr,
        'a curve of its own, without the points whose elevations may have been lowered by compaction',
      ],
    ] as const) {
      if (rate === null) continue;
      tell(traceId.intervalUnder(interval, name), tellIntervalUnder(interval, name, how, rate));
    }
  }
  const made = new Map<string, Traced>([
    ...gauges.flatMap((gauge) => gauge.value.points.map(({ id }) => [id, gauge] as const)),
    ...used.map((m) => [m.value.result.point, m] as const),
  ]);
  for (const point of curve.points) {
    const ofPoint = traceId.point(point.id);
    const of = made.get(point.id)!;
    // What lies between a limit and the sea is no misfit.
    if (point.kind === 'index') tell(ofPoint.residual, tellResidual(point), of);
    tell(ofPoint.ageInCurve, tellAgeInCurve(point), of);
  }
  curve.ages_cal_bp.forEach((age, i) => {
    const at = ({ mean, sd }: { mean: Float64Array; sd: Float64Array }) => ({ mean: mean[i]!, sd: sd[i]! });
    tell(traceId.level(age), tellAtAge('level', age, at(curve.level_m)));
    tell(traceId.rate(age), tellAtAge('rate', age, at(curve.rate_mm_yr)));
  });
}

/** A gauge counts as the most influential of its blocks. */
function byInfluence(
  used: readonly Known<MadePoint>[],
  gauges: readonly Known<MadeGauge>[],
  curve: CurveResult,
): Traced[] {
  const influence = new Map(curve.points.map((p) => [p.id, p.influence]));
  const of = (ids: readonly string[]): number => Math.max(0, ...ids.map((id) => influence.get(id) ?? 0));
  const ranked = [
    ...used.map((node) => ({ node, influence: of([node.value.result.point]) })),
    ...gauges.map((node) => ({ node, influence: of(node.value.points.map(({ id }) => id)) })),
  ];
  return ranked.sort((a, b) => b.influence - a.influence).map(({ node }) => node);
}

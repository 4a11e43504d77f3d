/** What a hole looks like when it is done: the part of the results that is about one hole. */
import type {
  AlternativeModel,
  DriveResult,
  Estimate,
  HoleResult,
  PaceTrendResult,
  RunResult,
  UnitResult,
} from '@stillstand/campaign/results';
import { exp } from '@stillstand/science/base';
import {
  allAtTopModel,
  type DepthEstimate,
  type DepthInput,
  type DepthModel,
  depthCurve,
  inSituDepth,
  inSituDepths,
  uniformModel,
} from '@stillstand/science/depth';
import { paceTrend, type ReducedDrive, type ReducedHole } from '@stillstand/science/rig';
import { type Elevation, elevationSigma } from '../heights/elevation.ts';
import type { Runner } from '../runner/runner.ts';
import { step } from '../runner/step.ts';
import type { ModelledHole } from './holes.ts';
import type { ModelledPush } from './place.ts';

export function estimate(depth: DepthEstimate): Estimate {
  const { value, sigma, lower95, upper95 } = depth;
  return { value, sigma, lower95, upper95 };
}

/** A normal quantity as an estimate; 95 % is 1.959964 sigma. */
function normalEstimate(value: number, sigma: number): Estimate {
  const half = 1.959963984540054 * sigma;
  return { value, sigma, lower95: value - half, upper95: value + half };
}

/** An elevation as an estimate. */
export const elevationEstimate = (elevation: Elevation): Estimate =>
  normalEstimate(elevation.value_m, elevationSigma(elevation));

/** Places at which depth against entered length is handed over for drawing. */
const CURVE_POINTS = 51;

/** Ends of the runs in the ground, and depth against entered length. */
const runDepths = step(
  'depth of runs',
  ({ model, ends_m }: { model: DepthModel; ends_m: readonly number[] }) => {
    const places = [...new Set(ends_m)];
    const at = inSituDepths(model, places).map(estimate);
    return {
      curve: depthCurve(model, CURVE_POINTS),
      ends: ends_m.map((end) => at[places.indexOf(end)]!),
    };
  },
);

const pushDepths = step('depth of a push', ({ pushed: { reckoning, model } }: { pushed: ModelledPush }) => ({
  top: estimate(inSituDepth(model, 0)),
  bottom: estimate(inSituDepth(model, reckoning.entered_m)),
}));

interface UnitPlace {
  row_id: string;
  core_top_m: number;
  core_bottom_m: number;
}

const alternatives = step(
  'alternative models',
  ({ input, units }: { input: DepthInput; units: readonly UnitPlace[] }): AlternativeModel[] => {
    const kinds = [
      ['uniform', uniformModel(input)],
      ['all_at_top', allAtTopModel(input)],
    ] as const;
    return kinds.map(([model, rival]) => {
      const { entered_m, median_m } = depthCurve(rival, 2);
      const { chi_square, degrees, rejected_sd, worst_m } = rival.misfit!;
      const depth = (entered: number): number => inSituDepth(rival, entered).value;
      return {
        model,
        line: [
          // Where nothing enters at first, depth grows while the entered length stays 0.
          ...(median_m[0]! > 0 ? [{ entered_m: 0, depth_m: 0 }] : []),
          ...Array.from(entered_m, (entered, i) => ({ entered_m: entered, depth_m: median_m[i]! })),
        ],
        chi_square,
        degrees,
        rejected_sd,
        worst_m,
        units: units.map(({ row_id, core_top_m, core_bottom_m }) => ({
          row_id,
          depth_top_m: depth(core_top_m),
          depth_bottom_m: depth(core_bottom_m),
        })),
      };
    });
  },
);

/** `units` as placed; `along_m` along the section line through all holes. */
export function holeResult(
  run: Runner,
  hole: ModelledHole,
  siteName: string | null,
  units: UnitResult[],
  along_m: number | null,
): HoleResult {
  const { row, readings, reference, ground } = hole;
  const fold = hole.fold?.value ?? null;
  const about = new Map(readings.map((r) => [r.reading.row_id, r]));
  const pushed = [...hole.pushes.values()].map(({ value }) => value);
  const penetration =
    fold?.deepest_m ?? (pushed.length > 0 ? Math.max(...pushed.map((p) => p.push.to_m)) : null);
  const enteredByPushes = pushed.reduce((sum, p) => sum + p.reckoning.entered_m, 0);
  const driven = pushed.reduce((sum, p) => sum + Math.max(0, p.push.to_m - p.push.from_m), 0);
  // The last sounding tells what entered; after pulling or a loss there is no plug left to read.
  const entered =
    fold === null ? (pushed.length > 0 ? enteredByPushes : null) : (fold.soundings.at(-1)?.entered_m ?? null);
  const inGround = depthsOfRuns(run, hole);
  return {
    row_id: row.row_id,
    hole: row.hole,
    site: row.site,
    site_name: siteName,
    method: row.method,
    state: row.state,
    end_reason: row.end_reason,
    left_in_ground: row.left_in_ground,
    replaces: row.replaces,
    latitude_deg: row.latitude_deg,
    longitude_deg: row.longitude_deg,
    section_m: along_m,
    reference_elevation_m: reference === null ? null : elevationEstimate(reference.value),
    ground_elevation_m: ground === null ? null : elevationEstimate(ground.value),
    joints_in: fold?.joints_in ?? 0,
    collar_to_shoe_m: fold?.collar_to_shoe_m ?? null,
    penetration_m: penetration,
    entered_m: entered,
    recovery:
      entered === null || penetration === null || penetration <= 0
        ? null
        : entered / (fold === null ? driven : penetration),
    states: (fold?.states ?? []).map((s) => ({
      seq: s.seq,
      table: about.get(s.row_id)!.table,
      row_id: s.row_id,
      time: about.get(s.row_id)!.time,
      collar_to_shoe_m: s.collar_to_shoe_m,
      stick_up_m: s.stick_up_m,
      penetration_m: s.penetration_m,
      plug_m: s.plug_m,
      removed_m: s.removed_m,
      entered_m: s.entered_m,
      recovery: s.recovery,
    })),
    drives: driveResults(fold?.drives ?? []),
    pace_trend: paceTrendResult(fold?.drives ?? []),
    runs: [...runResults(fold, inGround?.ends ?? []), ...pushResults(run, hole)],
    units,
    soundings: fold?.soundings ?? [],
    depth: inGround?.curve ?? null,
    shortening: shorteningResult(hole.model?.value.shortening ?? null),
    not_represented: hole.model?.value.not_represented ?? [],
    alternative_models: alternativeModels(run, hole, units),
    account: (fold?.account ?? []).map(({ item, label, fate }) => ({ item, joint: label, fate })),
  };
}

function shorteningResult(after: DepthModel['shortening']): HoleResult['shortening'] {
  if (after === null) return null;
  const { friction, ...rest } = after;
  return { ...rest, friction_probability: friction.probability, friction_per_m: friction.per_m };
}

/** Depth against entered length, and top and base of each run in turn; null without a depth model. */
function depthsOfRuns(run: Runner, { fold, model }: ModelledHole) {
  if (fold === null || model === null) return null;
  const ends_m = fold.value.runs.flatMap((r) => [r.entered_top_m, r.entered_bottom_m]);
  return run.untold(runDepths, { model, ends_m: run.plain(ends_m) }).value;
}

/** The alternative_models of our depth model, and where each would put the units. */
function alternativeModels(
  run: Runner,
  hole: ModelledHole,
  units: readonly UnitResult[],
): AlternativeModel[] {
  const fold = hole.fold?.value;
  if (fold === undefined || fold.deepest_m === null || fold.soundings.length === 0) return [];
  const input = { from_m: 0, penetration_m: fold.deepest_m, registration: fold.registration };
  const places = units.flatMap(({ row_id, core_top_m, core_bottom_m }) =>
    core_top_m === null || core_bottom_m === null ? [] : [{ row_id, core_top_m, core_bottom_m }],
  );
  return run.untold(alternatives, { input: run.plain(input), units: run.plain(places) }).value;
}

function runResults(fold: ReducedHole | null, ends: readonly Estimate[]): RunResult[] {
  if (fold === null || ends.length === 0) return [];
  return fold.runs.map((r, i) => ({
    row_id: r.row_id,
    run: r.run,
    method: 'run',
    removed_m: r.removed_m,
    removed_sigma_m: r.removed_sigma_m,
    removed_from: r.removed_from,
    recovered_m: r.recovered_m ?? r.removed_m,
    fall_in_m: r.fall_in_m,
    sampler_recovery: r.sampler_recovery,
    loss_position: r.loss_position,
    entered_top_m: r.entered_top_m,
    entered_bottom_m: r.entered_bottom_m,
    depth_top_m: ends[2 * i]!,
    depth_bottom_m: ends[2 * i + 1]!,
  }));
}

function pushResults(run: Runner, { pushes }: ModelledHole): RunResult[] {
  let enteredBefore = 0;
  return [...pushes.values()].map((pushed): RunResult => {
    const { push, label, reckoning } = pushed.value;
    const { top, bottom } = run.untold(pushDepths, { pushed }).value;
    const entered_top_m = enteredBefore;
    enteredBefore += reckoning.entered_m;
    return {
      row_id: push.row_id,
      run: label,
      method: 'push',
      removed_m: reckoning.entered_m,
      removed_sigma_m: reckoning.sigma_m,
      removed_from: 'push',
      recovered_m: push.recovered_m ?? reckoning.entered_m,
      fall_in_m: 0,
      sampler_recovery: reckoning.recovery,
      loss_position: null,
      entered_top_m,
      entered_bottom_m: enteredBefore,
      depth_top_m: top,
      depth_bottom_m: bottom,
    };
  });
}

function driveResults(drives: readonly ReducedDrive[]): DriveResult[] {
  return drives.map(
    ({
      row_id,
      seq,
      from_m,
      to_m,
      entered_m,
      recovery,
      rate_m_per_min,
      usual_m_per_min,
      pace,
      frequency_hz,
      ended_by,
    }) => ({
      row_id,
      seq,
      from_m,
      to_m,
      entered_m,
      recovery,
      rate_m_per_min,
      usual_m_per_min,
      pace,
      frequency_hz,
      ended_by,
    }),
  );
}

/** Places at which the trend is handed over for drawing. */
const TREND_POINTS = 21;

function paceTrendResult(drives: readonly ReducedDrive[]): PaceTrendResult | null {
  const trend = paceTrend(drives);
  const timed = drives.filter((d) => d.rate_m_per_min !== null);
  const last = timed.at(-1);
  if (trend === null || last === undefined) return null;
  const from = Math.min(...timed.map((d) => d.from_m));
  const to = Math.max(...timed.map((d) => d.to_m));
  const { rate_m_per_min: rate, ...told } = trend;
  return {
    ...told,
    line: Array.from({ length: TREND_POINTS }, (_, i) => {
      const depth_m = from + ((to - from) * i) / (TREND_POINTS - 1);
      // The trend is given at the middle of the last drive; its logarithm is straight.
      return {
        depth_m,
        rate_m_per_min: rate * exp(trend.slope_per_m * (depth_m - (last.from_m + last.to_m) / 2)),
      };
    }),
  };
}

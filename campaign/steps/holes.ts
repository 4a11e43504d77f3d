/** One hole: its readings folded, its depth registration, and what it looks like when it is done. */
import type { Campaign } from '@stillstand/campaign/document';
import { admitted, rigSettings } from '@stillstand/campaign/holes';
import { type Problem, problem } from '@stillstand/campaign/problems';
import type {
  DriveResult,
  Estimate,
  HoleResult,
  PaceTrendResult,
  RivalResult,
  RunResult,
  UnitResult,
} from '@stillstand/campaign/results';
import type { Row } from '@stillstand/campaign/tables';
import { exp, randomStream } from '@stillstand/science/base';
import {
  allAtTopModel,
  type DepthEstimate,
  depthDefaults,
  depthModel,
  type Push,
  reckonPush,
  uniformModel,
} from '@stillstand/science/depth';
import { type DriveReckoning, foldHole, type HoleFold, paceTrend } from '@stillstand/science/rig';
import { type Elevation, elevationSigma, type Heights } from './heights.ts';
import type { Core, ModelledPush } from './place.ts';
import { remembering } from './remembering.ts';
import { type RigRow, rigRows } from './rig-rows.ts';
import type { Known, Runner } from './runner.ts';
import type { ComputationSettings } from './settings.ts';

/** A hole as the later steps need it. */
export interface ModelledHole {
  row: Row<'holes'>;
  core: Core;
  /** Elevation of the ground at the start; null where the reference has none. */
  ground: Known<Elevation> | null;
  result: HoleResult;
  problems: Problem[];
}

export function modelHole(
  run: Runner,
  campaign: Campaign,
  heights: Heights,
  settings: ComputationSettings,
  row: Row<'holes'>,
): ModelledHole {
  const name = row.hole;
  const problems: Problem[] = [];
  const holeRow = run.row('holes', row, `hole ${name}`);
  const choices = run.given(
    `settings/hole:${name}`,
    'settings of the crew',
    'margin, sigmas, thread overlap',
    rigSettings(campaign, row, settings),
    JSON.stringify(rigSettings(campaign, row, settings)),
  );
  const rows = rigRows(run, campaign, name);
  const fold = rows.length === 0 ? null : foldReadings(run, name, holeRow, choices, rows);
  const table = new Map(rows.map((r) => [r.reading.row_id, r.table]));
  for (const finding of fold?.value.findings ?? []) {
    const { severity, code, row_id, seq, found, expected, mend } = admitted(finding, row);
    problems.push(
      problem({
        severity,
        code,
        row_id,
        found,
        expected,
        mend,
        table: table.get(row_id) ?? 'holes',
        line: campaign.lines.get(row_id) ?? null,
        label: `${name} seq ${seq}`,
      }),
    );
  }
  const stream = randomStream(settings.seed).split('depth');
  const depthSettings = { ...depthDefaults, draws: settings.depth_draws };
  const registered = fold === null ? null : registerDepth(run, name, fold, rows);
  const model =
    fold === null || registered === null || fold.value.deepest_m === null
      ? null
      : run.step(
          'depth model',
          `hole:${name}/depth`,
          [fold, run.given('settings/depth', 'depth settings', 'draws', null, JSON.stringify(depthSettings))],
          () =>
            remembering(
              depthModel(
                { from_m: 0, penetration_m: fold.value.deepest_m!, registration: fold.value.registration },
                stream.split(name),
                depthSettings,
              ),
            ),
          (v) => ({
            id: `hole:${name}/depth`,
            label: `Depth model of ${name}`,
            how:
              fold.value.soundings.length === 0
                ? 'decaying shortening, from priors alone: no sounding'
                : `decaying shortening through ${fold.value.soundings.length} soundings`,
            value: v.shortening?.recovery_at_ground.value ?? null,
            sigma: v.shortening?.recovery_at_ground.sigma ?? null,
            unit: 'recovery at the ground',
          }),
          registered.entered,
        );
  const pushes = modelPushes(run, campaign, name, depthSettings, stream);
  const core: Core = {
    hole: name,
    fold,
    model,
    runs: registered?.runs ?? new Map(),
    pushes,
    draws: settings.depth_draws,
  };
  // A first reading of the ground that cannot be read leaves elevations unknown; level with the reference is no guess.
  const groundUnread =
    campaign.aside.some((r) => r.table === 'ground' && r.hole === name) &&
    !rows.some((r) => r.table === 'ground');
  const ground = groundUnread ? null : groundOf(run, name, heights.reference(row), fold, rows);
  const site = campaign.rows.sites.find((s) => s.site === row.site)?.name ?? null;
  return { row, core, ground, problems, result: holeResult(row, site, core, rows, heights, ground) };
}

function foldReadings(
  run: Runner,
  name: string,
  holeRow: Known<unknown>,
  choices: Known<ReturnType<typeof rigSettings>>,
  rows: readonly RigRow[],
): Known<HoleFold> {
  return run.step(
    'rig',
    `hole:${name}/rig`,
    [holeRow, choices, ...rows.map((r) => r.known)],
    () =>
      foldHole(
        rows.map((r) => r.reading),
        choices.value,
      ),
    (v) => ({
      id: `hole:${name}/rig`,
      label: `Readings of ${name}`,
      how: 'folded in the order of seq',
      value: v.collar_to_shoe_m,
      sigma: null,
      unit: 'm collar to shoe',
    }),
  );
}

/** Trace of each entered length and each removed length down to the readings it hangs on. */
function registerDepth(
  run: Runner,
  name: string,
  fold: Known<HoleFold>,
  rows: readonly RigRow[],
): { entered: Known<unknown>[]; runs: Map<string, Known<number>> } {
  const bySeq = (table: RigRow['table']) => rows.filter((r) => r.table === table);
  const joints = bySeq('joints');
  const drives = bySeq('drives');
  const soundings = bySeq('soundings');
  const string = (seq: number): Known<null> | null => {
    const members = joints.filter((j) => j.reading.seq <= seq);
    const last = members.at(-1);
    if (last === undefined) return null;
    return run.set(
      `hole:${name}/string@${last.reading.seq}`,
      'The string',
      members.map((m) => m.known),
    );
  };
  const runs = new Map<string, Known<number>>();
  const removed: Known<unknown>[] = [];
  const seqOf = new Map(rows.map((r) => [r.reading.row_id, r.reading.seq]));
  for (const reckoned of fold.value.runs) {
    const row = rows.find((r) => r.reading.row_id === reckoned.row_id)!;
    const before = soundings.findLast((s) => s.reading.seq < reckoned.seq);
    const after = soundings.find((s) => s.reading.seq > reckoned.seq);
    const parts = [row, ...(reckoned.removed_from === 'soundings' ? [before, after] : [])];
    const known = run.quantity(
      fold,
      parts.flatMap((p) => (p === undefined ? [] : [p.known])),
      reckoned.removed_m,
      {
        id: `run:${name}/${reckoned.run}`,
        label: `Removed by run ${reckoned.run}`,
        how: {
          soundings: 'sounding after − sounding before',
          advance: 'end mark − start mark',
          recovered: 'what came up',
          nothing: 'not known',
        }[reckoned.removed_from],
        value: reckoned.removed_m,
        sigma: reckoned.removed_sigma_m,
        unit: 'm',
      },
    );
    runs.set(reckoned.run, known);
    removed.push(known);
  }
  const entered = fold.value.soundings.map((pin) => {
    const row = rows.find((r) => r.reading.row_id === pin.row_id)!;
    const seq = seqOf.get(pin.row_id)!;
    const drive = drives.findLast((d) => d.reading.seq < seq);
    const earlier = fold.value.runs.filter((r) => r.seq < seq).length;
    const soFar =
      earlier === 0
        ? null
        : run.set(`hole:${name}/removed@${earlier}`, 'Removed so far', removed.slice(0, earlier));
    const parts = [row.known, drive?.known, string(seq), soFar].filter((p) => p !== undefined && p !== null);
    return run.quantity(fold, parts, pin.entered_m, {
      id: `hole:${name}/entered@${seq}`,
      label: `Entered at ${pin.penetration_m.toFixed(2)} m penetration`,
      how: 'collar to shoe − sounding + removed so far',
      value: pin.entered_m,
      sigma: pin.sigma_m,
      unit: 'm',
    });
  });
  return { entered, runs };
}

function modelPushes(
  run: Runner,
  campaign: Campaign,
  name: string,
  depthSettings: typeof depthDefaults,
  stream: ReturnType<typeof randomStream>,
): Map<string, ModelledPush> {
  const pushes = new Map<string, ModelledPush>();
  const hole = campaign.rows.holes.find((h) => h.hole === name)!;
  for (const row of campaign.rows.pushes) {
    if (row.hole !== name) continue;
    const sections = campaign.rows.sections.filter((s) => s.hole === name && s.push === row.push);
    const cut = sections.reduce((sum, s) => sum + s.length_m, 0);
    const push: Push = {
      row_id: row.row_id,
      from_m: row.from_m,
      to_m: row.to_m,
      recovered_m: row.recovered_m ?? (sections.length > 0 ? cut : null),
      inside_top_m: row.inside_top_m,
      outside_top_m: row.outside_top_m,
      chamber: hole.method === 'chamber' || hole.method === 'gouge',
    };
    const reckoning = reckonPush(push);
    const id = `push:${name}/${row.push}`;
    const model = run.step(
      'push',
      id,
      [
        run.row('pushes', row, `push ${row.push}`),
        ...sections.map((s) => run.row('sections', s, `section ${s.order}`)),
        run.given('settings/depth', 'depth settings', 'draws', null, JSON.stringify(depthSettings)),
      ],
      () => remembering(depthModel(reckoning.input, stream.split(name).split(row.push), depthSettings)),
      () => ({
        id,
        label: `Push ${row.push} of ${name}`,
        how: {
          chamber: 'shut in place: nothing shortened',
          readings: 'shortening = inside − outside reading',
          recovered: 'shortening from the recovered length',
          nothing: 'shortening from priors alone',
        }[reckoning.entered_from],
        value: reckoning.entered_m,
        sigma: reckoning.sigma_m,
        unit: 'm entered',
      }),
    );
    pushes.set(row.push, { push, label: row.push, reckoning, model });
  }
  return pushes;
}

function groundOf(
  run: Runner,
  name: string,
  reference: Known<Elevation> | null,
  fold: Known<HoleFold> | null,
  rows: readonly RigRow[],
): Known<Elevation> | null {
  if (reference === null) return null;
  const first = rows.find((r) => r.table === 'ground');
  const below =
    fold?.value.ground_start_m ??
    (first?.reading.kind === 'ground' ? first.reading.ground_below_reference_m : 0) ??
    0;
  const id = `hole:${name}/ground`;
  return run.step(
    'ground',
    id,
    first === undefined ? [reference] : [reference, first.known],
    () => ({ ...reference.value, value_m: reference.value.value_m - below }),
    (v) => ({
      id,
      label: `Ground at ${name}`,
      how: first === undefined ? 'level with the reference (assumed)' : 'reference − ground below it',
      value: v.value_m,
      sigma: elevationSigma(v),
      unit: 'm',
    }),
  );
}

export function estimate(depth: DepthEstimate): Estimate {
  const { value, sigma, lower95, upper95 } = depth;
  return { value, sigma, lower95, upper95 };
}

/** A normal quantity as an estimate; 95 % is 1.959964 sigma. */
export function normalEstimate(value: number, sigma: number): Estimate {
  const half = 1.959963984540054 * sigma;
  return { value, sigma, lower95: value - half, upper95: value + half };
}

function holeResult(
  row: Row<'holes'>,
  siteName: string | null,
  core: Core,
  rows: readonly RigRow[],
  heights: Heights,
  ground: Known<Elevation> | null,
): HoleResult {
  const fold = core.fold?.value ?? null;
  const model = core.model?.value ?? null;
  const about = new Map(rows.map((r) => [r.reading.row_id, r]));
  const pushed = [...core.pushes.values()];
  const penetration =
    fold?.deepest_m ?? (pushed.length > 0 ? Math.max(...pushed.map((p) => p.push.to_m)) : null);
  const enteredByPushes = pushed.reduce((sum, p) => sum + p.reckoning.entered_m, 0);
  const driven = pushed.reduce((sum, p) => sum + Math.max(0, p.push.to_m - p.push.from_m), 0);
  // The last sounding tells what entered; after pulling or a loss there is no plug left to read.
  const entered =
    fold === null ? (pushed.length > 0 ? enteredByPushes : null) : (fold.soundings.at(-1)?.entered_m ?? null);
  const reference = heights.reference(row);
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
    section_m: null,
    reference_elevation_m:
      reference === null ? null : normalEstimate(reference.value.value_m, elevationSigma(reference.value)),
    ground_elevation_m:
      ground === null ? null : normalEstimate(ground.value.value_m, elevationSigma(ground.value)),
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
    runs: runResults(core),
    units: [],
    soundings: fold?.soundings ?? [],
    depth: model === null ? null : model.curve(51),
    shortening: model?.shortening ?? null,
    not_represented: model?.not_represented ?? [],
    rivals: [],
    account: (fold?.account ?? []).map(({ item, label, fate }) => ({ item, joint: label, fate })),
  };
}

function driveResults(drives: readonly DriveReckoning[]): DriveResult[] {
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
      speed_hz,
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
      speed_hz,
      ended_by,
    }),
  );
}

/** Places at which the trend is handed over for drawing. */
const TREND_POINTS = 21;

function paceTrendResult(drives: readonly DriveReckoning[]): PaceTrendResult | null {
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
      // The trend is told at the middle of the last drive; its logarithm is straight.
      return {
        depth_m,
        rate_m_per_min: rate * exp(trend.slope_per_m * (depth_m - (last.from_m + last.to_m) / 2)),
      };
    }),
  };
}

/** The rivals of our depth model, and where each would put the units. */
export function rivalResults(core: Core, units: readonly UnitResult[]): RivalResult[] {
  const fold = core.fold?.value;
  if (fold === undefined || fold.deepest_m === null || fold.soundings.length === 0) return [];
  const input = { from_m: 0, penetration_m: fold.deepest_m, registration: fold.registration };
  const kinds = [
    ['uniform', uniformModel(input)],
    ['all_at_top', allAtTopModel(input)],
  ] as const;
  return kinds.map(([model, rival]) => {
    const { entered_m, median_m } = rival.curve(2);
    const { chi_square, degrees, rejected_sd, worst_m } = rival.misfit!;
    const depth = (entered: number): number => rival.inSituDepth(entered).value;
    return {
      model,
      line: [
        // Where nothing enters at first, depth grows while the entered length stands at 0.
        ...(median_m[0]! > 0 ? [{ entered_m: 0, depth_m: 0 }] : []),
        ...Array.from(entered_m, (entered, i) => ({ entered_m: entered, depth_m: median_m[i]! })),
      ],
      chi_square,
      degrees,
      rejected_sd,
      worst_m,
      units: units.flatMap(({ row_id, core_top_m, core_bottom_m }) =>
        core_top_m === null || core_bottom_m === null
          ? []
          : [{ row_id, depth_top_m: depth(core_top_m), depth_bottom_m: depth(core_bottom_m) }],
      ),
    };
  });
}

function runResults(core: Core): RunResult[] {
  const model = core.model?.value ?? null;
  // Where one run ends the next begins: each place is asked for once.
  const asked = new Map<number, Estimate>();
  const depthOf = (entered_m: number): Estimate => {
    const known = asked.get(entered_m);
    if (known !== undefined) return known;
    const depth = estimate(model!.inSituDepth(entered_m));
    asked.set(entered_m, depth);
    return depth;
  };
  const runs =
    model === null
      ? []
      : (core.fold?.value.runs ?? []).map(
          (r): RunResult => ({
            row_id: r.row_id,
            run: r.run,
            method: 'run',
            removed_m: r.removed_m,
            removed_sigma_m: r.removed_sigma_m,
            removed_from: r.removed_from,
            recovered_m: r.recovered_m ?? r.removed_m,
            fall_in_m: r.fall_in_m,
            sampler_recovery: r.sampler_recovery,
            loss_at: r.loss_at,
            entered_top_m: r.entered_top_m,
            entered_bottom_m: r.entered_bottom_m,
            depth_top_m: depthOf(r.entered_top_m),
            depth_bottom_m: depthOf(r.entered_bottom_m),
          }),
        );
  let enteredBefore = 0;
  const pushes = [...core.pushes.values()].map(({ push, label, reckoning, model: own }): RunResult => {
    const top = enteredBefore;
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
      loss_at: null,
      entered_top_m: top,
      entered_bottom_m: enteredBefore,
      depth_top_m: estimate(own.value.inSituDepth(0)),
      depth_bottom_m: estimate(own.value.inSituDepth(reckoning.entered_m)),
    };
  });
  return [...runs, ...pushes];
}

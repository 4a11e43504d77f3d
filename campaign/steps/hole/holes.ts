/** One hole: its readings reduced, its depth model, its core and the elevation of its ground. */
import type { Campaign } from '@stillstand/campaign/document';
import { holeProblems, pushProblems, rigSettings } from '@stillstand/campaign/holes';
import type { Problem } from '@stillstand/campaign/problems';
import { traceId } from '@stillstand/campaign/results';
import type { ComputationSettings } from '@stillstand/campaign/settings';
import type { Row } from '@stillstand/campaign/tables';
import { randomStream } from '@stillstand/science/base';
import {
  type DepthInput,
  type DepthModel,
  type DepthSettings,
  depthDefaults,
  depthModel,
  reducePush,
} from '@stillstand/science/depth';
import { type ReducedHole, type RigReading, type RigSettings, reduceHole } from '@stillstand/science/rig';
import type { Elevation } from '../heights/elevation.ts';
import type { Heights } from '../heights/heights.ts';
import type { Runner } from '../runner/runner.ts';
import { type Known, step } from '../runner/step.ts';
import { tellGround } from '../words/heights.ts';
import { tellDepthModel, tellPush, tellReadings } from '../words/holes.ts';
import type { Core, ModelledPush } from './place.ts';
import { registerDepth } from './registration.ts';
import { type RigRow, rigRows, stockRows } from './rig-rows.ts';

/** A hole as the later steps need it. */
export interface ModelledHole {
  row: Row<'holes'>;
  /** Its readings of the rig, in order. */
  readings: readonly RigRow[];
  fold: Known<ReducedHole> | null;
  model: Known<DepthModel> | null;
  /** Removed length of each run, by its label. */
  runs: ReadonlyMap<string, Known<number>>;
  pushes: ReadonlyMap<string, Known<ModelledPush>>;
  core: Known<Core>;
  reference: Known<Elevation> | null;
  /** Elevation of the ground at the start; null where the reference has none. */
  ground: Known<Elevation> | null;
  problems: Problem[];
}

const reducedReadings = step(
  'rig',
  ({ readings, settings }: { readings: readonly RigReading[]; settings: RigSettings }) =>
    reduceHole(readings, settings),
);

const holeDepthModel = step(
  'depth model',
  ({
    hole,
    input,
    settings,
    seed,
  }: {
    hole: string;
    input: DepthInput;
    settings: DepthSettings;
    seed: number;
  }): DepthModel => depthModel(input, randomStream(seed).split('depth').split(hole), settings),
);

const modelledPush = step(
  'push',
  ({
    row,
    sections,
    method,
    settings,
    seed,
  }: {
    row: Row<'pushes'>;
    sections: readonly Row<'sections'>[];
    method: string;
    settings: DepthSettings;
    seed: number;
  }): ModelledPush => {
    const cut = sections.reduce((sum, s) => sum + s.length_m, 0);
    const push = {
      row_id: row.row_id,
      from_m: row.from_m,
      to_m: row.to_m,
      recovered_m: row.recovered_m ?? (sections.length > 0 ? cut : null),
      inside_top_m: row.inside_top_m,
      outside_top_m: row.outside_top_m,
      chamber: method === 'chamber' || method === 'gouge',
    };
    const reckoning = reducePush(push);
    const stream = randomStream(seed).split('depth').split(row.hole).split(row.push);
    return { label: row.push, push, reckoning, model: depthModel(reckoning.input, stream, settings) };
  },
);

export function modelHole(
  run: Runner,
  campaign: Campaign,
  heights: Heights,
  settings: ComputationSettings,
  row: Row<'holes'>,
): ModelledHole {
  const name = row.hole;
  const named = traceId.hole(name);
  const readings = rigRows(run, campaign, name);
  const fold = readings.length === 0 ? null : foldReadings(run, campaign, settings, row, readings);
  const ofDepth: OfDepth = {
    settings: run.plain(depthSettings(settings)),
    seed: run.plain(settings.seed),
  };
  const registered = fold === null ? null : registerDepth(run, name, fold.value, readings);
  const model =
    fold === null || registered === null || fold.value.deepest_m === null
      ? null
      : run.do(
          holeDepthModel,
          named.depth,
          {
            ...ofDepth,
            hole: run.plain(name),
            input: run.plain({
              from_m: 0,
              penetration_m: fold.value.deepest_m,
              registration: fold.value.registration,
            }),
          },
          (v) => tellDepthModel(name, fold.value.soundings.length, v),
          () => registered.entered,
        );
  const pushes = modelPushes(run, campaign, row, ofDepth);
  const core = run.plain<Core>({
    hole: name,
    rig: fold === null ? null : { runs: fold.value.runs, inflows: fold.value.inflows },
    model: model?.value ?? null,
    pushes: [...pushes.values()].map(({ value }) => value),
    draws: settings.depth_draws,
  });
  // A first reading of the ground that cannot be read leaves elevations unknown; level with the reference is no guess.
  const groundUnread =
    campaign.skipped_rows.some((r) => r.table === 'ground_levels' && r.hole === name) &&
    !readings.some((r) => r.table === 'ground_levels');
  const reference = heights.reference(row);
  const ground = groundUnread ? null : groundOf(run, name, reference, fold, readings);
  return {
    row,
    readings,
    fold,
    model,
    runs: registered?.runs ?? new Map(),
    pushes,
    core,
    reference,
    ground,
    problems: [
      ...(fold === null ? [] : holeProblems(campaign, row, readings, fold.value.findings)),
      ...pushProblems(campaign, name),
    ],
  };
}

function foldReadings(
  run: Runner,
  campaign: Campaign,
  settings: ComputationSettings,
  row: Row<'holes'>,
  readings: readonly RigRow[],
): Known<ReducedHole> {
  const choices = run.given(
    traceId.settings(`hole:${row.hole}`),
    'settings of the crew',
    'margin, sigmas, thread overlap',
    rigSettings(campaign, row, settings),
  );
  return run.do(
    reducedReadings,
    traceId.hole(row.hole).rig,
    { readings: run.plain(readings.map(({ reading }) => reading)), settings: choices },
    (v) => tellReadings(row.hole, v),
    () => [
      run.row('holes', row, `hole ${row.hole}`),
      choices,
      ...stockRows(run, campaign, row.hole),
      ...readings.map(({ known }) => known),
    ],
  );
}

function depthSettings(said: ComputationSettings): DepthSettings {
  return {
    ...depthDefaults,
    draws: said.depth_draws,
    ...(said.layer_contrast === null ? {} : { layer_sd: said.layer_contrast, layer_log_sd: 0 }),
    ...(said.by_passing ? {} : { by_passing: 0 }),
    ...(said.plug_friction ? {} : { friction: 0 }),
  };
}

interface OfDepth {
  settings: Known<DepthSettings>;
  seed: Known<number>;
}

function modelPushes(
  run: Runner,
  campaign: Campaign,
  hole: Row<'holes'>,
  ofDepth: OfDepth,
): Map<string, Known<ModelledPush>> {
  const pushes = new Map<string, Known<ModelledPush>>();
  for (const row of campaign.rows.pushes) {
    if (row.hole !== hole.hole) continue;
    const sections = campaign.rows.sections
      .filter((s) => s.hole === hole.hole && s.push === row.push)
      .map((s) => run.row('sections', s, `section ${s.order}`));
    const known = run.row('pushes', row, `push ${row.push}`);
    pushes.set(
      row.push,
      run.do(
        modelledPush,
        traceId.push(hole.hole, row.push),
        { ...ofDepth, row: known, sections, method: run.plain(hole.method) },
        (v) => tellPush(hole.hole, v),
        () => [known, ...sections],
      ),
    );
  }
  return pushes;
}

function groundOf(
  run: Runner,
  name: string,
  reference: Known<Elevation> | null,
  fold: Known<ReducedHole> | null,
  readings: readonly RigRow[],
): Known<Elevation> | null {
  if (reference === null) return null;
  const first = readings.find((r) => r.table === 'ground_levels');
  const below =
    fold?.value.ground_start_m ??
    (first?.reading.kind === 'ground' ? first.reading.ground_below_reference_m : 0) ??
    0;
  const elevation = { ...reference.value, value_m: reference.value.value_m - below };
  return run.part(
    traceId.hole(name).ground,
    elevation,
    tellGround(name, first !== undefined, elevation),
    first === undefined ? [reference] : [reference, first.known],
  );
}

/**
 * Where a length of core lay in the ground. Whatever it was measured in (a run, a push, everything that entered, the
 * ground itself), the answer is one kind: depth below the ground at the start of the hole, with draws that belong
 * together across the whole hole.
 */
import type { DepthEstimate, DepthModel, Push, PushReckoning } from '@stillstand/science/depth';
import { placeInPush } from '@stillstand/science/depth';
import { type HoleFold, placePiece } from '@stillstand/science/rig';
import type { Known } from './runner.ts';

export type Basis = 'run' | 'push' | 'entered' | 'in_situ';

/** A push with what entered and its depth model. */
export interface ModelledPush {
  push: Push;
  label: string;
  reckoning: PushReckoning;
  model: Known<DepthModel>;
}

/** What is known of a hole's core. */
export interface Core {
  hole: string;
  fold: Known<HoleFold> | null;
  model: Known<DepthModel> | null;
  /** Removed length of each run, by its label. */
  runs: ReadonlyMap<string, Known<number>>;
  pushes: ReadonlyMap<string, ModelledPush>;
  draws: number;
}

export interface Placed {
  ok: true;
  top: DepthEstimate;
  bottom: DepthEstimate;
  /** Along everything that entered; null where the ground itself was measured. */
  core_top_m: number | null;
  core_bottom_m: number | null;
  parts: Known<unknown>[];
  /** How, in words. */
  how: string;
  /** What cannot be so: placed all the same. */
  doubt: { found: string; expected: string } | null;
}

export interface NotPlaced {
  ok: false;
  column: 'basis' | 'run' | 'top';
  found: string;
  expected: string;
  mend: string;
}

export function placeCore(
  core: Core,
  basis: Basis | null,
  label: string | null,
  top_m: number,
  bottom_m: number,
): Placed | NotPlaced {
  if (!(bottom_m >= top_m)) {
    return {
      ok: false,
      column: 'top',
      found: `${top_m} to ${bottom_m} m`,
      expected: 'a bottom below the top',
      mend: 'Exchange them if they are the wrong way round.',
    };
  }
  if (basis === 'in_situ') {
    const exactly = (depth_m: number): DepthEstimate => ({
      value: depth_m,
      sigma: 0,
      lower95: depth_m,
      upper95: depth_m,
      draws: new Float64Array(core.draws).fill(depth_m),
      beyond: 0,
    });
    const how = 'depth measured in the ground';
    return {
      ok: true,
      top: exactly(top_m),
      bottom: exactly(bottom_m),
      core_top_m: null,
      core_bottom_m: null,
      parts: [],
      how,
      doubt: null,
    };
  }
  if (basis === 'entered') {
    if (core.model === null) return noModel(core, basis);
    return {
      ok: true,
      top: core.model.value.inSituDepth(top_m),
      bottom: core.model.value.inSituDepth(bottom_m),
      core_top_m: top_m,
      core_bottom_m: bottom_m,
      parts: [core.model],
      how: 'length along everything that entered, brought to the ground',
      doubt: null,
    };
  }
  if (basis === 'run') {
    if (core.model === null || core.fold === null) return noModel(core, basis);
    const run = core.fold.value.runs.find((r) => r.run === label);
    const removed = label === null ? undefined : core.runs.get(label);
    if (run === undefined || removed === undefined) {
      return unknown(core, 'run', label, [...core.runs.keys()]);
    }
    const piece = placePiece(run, core.fold.value.inflows, top_m, bottom_m);
    if (piece === null) {
      return {
        ok: false,
        column: 'top',
        found: `${top_m} to ${bottom_m} m of run ${run.run}`,
        expected: 'a piece of undisturbed core of a run whose removed length is known',
        mend: 'Fall-in has no place in the ground; without soundings or cable marks a run has none either.',
      };
    }
    const middle = (place: { low_m: number; high_m: number }): number => (place.low_m + place.high_m) / 2;
    return {
      ok: true,
      top: core.model.value.inSituDepth(piece.top),
      bottom: core.model.value.inSituDepth(piece.bottom),
      core_top_m: middle(piece.top),
      core_bottom_m: middle(piece.bottom),
      parts: [removed, core.model],
      how: `run ${run.run}, ${lossInWords(run)}, brought to the ground`,
      doubt: longerThan(bottom_m, run.recovered_m, `run ${run.run}`),
    };
  }
  if (basis === 'push') {
    const push = label === null ? undefined : core.pushes.get(label);
    if (push === undefined) return unknown(core, 'push', label, [...core.pushes.keys()]);
    const top = placeInPush(push.push, push.reckoning, top_m);
    const bottom = placeInPush(push.push, push.reckoning, bottom_m);
    return {
      ok: true,
      top: push.model.value.inSituDepth(top),
      bottom: push.model.value.inSituDepth(bottom),
      core_top_m: push.push.from_m + top.low_m,
      core_bottom_m: push.push.from_m + bottom.low_m,
      parts: [push.model],
      how: `push ${push.label}, brought to the ground`,
      doubt: longerThan(bottom_m, push.push.recovered_m, `push ${push.label}`),
    };
  }
  return {
    ok: false,
    column: 'basis',
    found: basis ?? '',
    expected: 'run, push, entered or in_situ',
    mend: 'Say what the depths were measured in.',
  };
}

/** A tape laid along a core and the length written down for it differ by so much, m (common practice, no source). */
const TAPE_M = 0.03;

function longerThan(bottom_m: number, recovered_m: number | null, of: string): Placed['doubt'] {
  if (recovered_m === null || bottom_m <= recovered_m + TAPE_M) return null;
  return { found: `${bottom_m} m in ${of}`, expected: `at most ${recovered_m} m, which came up` };
}

function lossInWords(run: HoleFold['runs'][number]): string {
  const recovered = (run.recovered_m ?? run.removed_m) - run.fall_in_m;
  if (Math.abs(run.removed_m - recovered) < 0.005) return 'all of it recovered';
  return {
    top: 'lost at the top',
    base: 'lost at the base',
    spread: 'loss spread evenly',
    unknown: 'loss at an unknown place',
  }[run.loss_at];
}

function noModel(core: Core, basis: Basis): NotPlaced {
  return {
    ok: false,
    column: 'basis',
    found: basis,
    expected: `readings of a string in hole ${core.hole}`,
    mend: 'Enter the joints, drives, soundings and runs of the hole, or measure depths in the ground (in_situ).',
  };
}

function unknown(
  core: Core,
  what: 'run' | 'push',
  label: string | null,
  known: readonly string[],
): NotPlaced {
  return {
    ok: false,
    column: 'run',
    found: label ?? '',
    expected:
      known.length === 0
        ? `a usable ${what} of hole ${core.hole}`
        : `one of ${known.slice(0, 12).join(', ')}`,
    mend: `Name the ${what} the depths were measured in.`,
  };
}

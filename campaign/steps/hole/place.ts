/**
 * Where a length of core lay in the ground. Whatever it was measured in (a run, a push, everything that entered, the
 * ground itself), the answer is one kind: depth below the ground at the start of the hole, with draws that belong
 * together across the whole hole.
 */
import {
  type DepthEstimate,
  type DepthModel,
  inSituDepths,
  type Push,
  placeInPush,
  type ReducedPush,
} from '@stillstand/science/depth';
import { type EnteredPlace, placePiece, type ReducedHole } from '@stillstand/science/rig';
import { step } from '../runner/step.ts';

export type Basis = 'run' | 'push' | 'entered' | 'in_situ';

/** A push with what entered and its depth model. */
export interface ModelledPush {
  label: string;
  push: Push;
  reckoning: ReducedPush;
  model: DepthModel;
}

/** What is known of a hole's core: plain data. */
export interface Core {
  hole: string;
  /** Of the string; null without readings of one. */
  rig: Pick<ReducedHole, 'runs' | 'inflows'> | null;
  /** Null too where the string never entered the ground. */
  model: DepthModel | null;
  pushes: readonly ModelledPush[];
  draws: number;
}

/** A length as it was measured. */
export interface CorePlace {
  basis: Basis | null;
  /** Label of the run or push it was measured in. */
  label: string | null;
  top_m: number;
  bottom_m: number;
}

export interface Placed {
  ok: true;
  top: DepthEstimate;
  bottom: DepthEstimate;
  /** Along everything that entered; null where the ground itself was measured. */
  core_top_m: number | null;
  core_bottom_m: number | null;
  /** How, in words. */
  how: string;
  /** What cannot be so: placed all the same. */
  doubt: { found: string; expected: string } | null;
}

export interface NotPlaced {
  ok: false;
  column: 'depth_basis' | 'run' | 'top';
  found: string;
  expected: string;
  fix: string;
}

export const coreDepth = step(
  'core depth',
  ({ core, place }: { core: Core; place: CorePlace }): Placed | NotPlaced => placeCore(core, place),
);

export function placeCore(core: Core, { basis, label, top_m, bottom_m }: CorePlace): Placed | NotPlaced {
  if (!(bottom_m >= top_m)) {
    return {
      ok: false,
      column: 'top',
      found: `${top_m} to ${bottom_m} m`,
      expected: 'a bottom below the top',
      fix: 'Exchange them if they are the wrong way round.',
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
    return {
      ok: true,
      top: exactly(top_m),
      bottom: exactly(bottom_m),
      core_top_m: null,
      core_bottom_m: null,
      how: 'depth measured in the ground',
      doubt: null,
    };
  }
  if (basis === 'entered') {
    if (core.model === null) return noModel(core, basis);
    return {
      ...depths(core.model, top_m, bottom_m),
      core_top_m: top_m,
      core_bottom_m: bottom_m,
      how: 'length along everything that entered, converted to in-situ depth',
      doubt: null,
    };
  }
  if (basis === 'run') return placeInRun(core, label, top_m, bottom_m);
  if (basis === 'push') {
    const pushed = core.pushes.find((p) => p.label === label);
    if (pushed === undefined) {
      const known = core.pushes.map((p) => p.label);
      return unknown(core, 'push', label, known);
    }
    const { push, reckoning, model } = pushed;
    const top = placeInPush(push, reckoning, top_m);
    const bottom = placeInPush(push, reckoning, bottom_m);
    return {
      ...depths(model, top, bottom),
      core_top_m: push.from_m + top.low_m,
      core_bottom_m: push.from_m + bottom.low_m,
      how: `push ${pushed.label}, converted to in-situ depth`,
      doubt: longerThan(bottom_m, push.recovered_m, `push ${pushed.label}`),
    };
  }
  return {
    ok: false,
    column: 'depth_basis',
    found: basis ?? '',
    expected: 'run, push, entered or in situ',
    fix: 'Say what the depths were measured in.',
  };
}

function placeInRun(core: Core, label: string | null, top_m: number, bottom_m: number): Placed | NotPlaced {
  if (core.model === null || core.rig === null) return noModel(core, 'run');
  const run = core.rig.runs.find((r) => r.run === label);
  if (run === undefined) {
    const known = core.rig.runs.map((r) => r.run);
    return unknown(core, 'run', label, known);
  }
  const piece = placePiece(run, core.rig.inflows, top_m, bottom_m);
  if (piece === null) {
    return {
      ok: false,
      column: 'top',
      found: `${top_m} to ${bottom_m} m of run ${run.run}`,
      expected: 'a piece of undisturbed core of a run whose removed length is known',
      fix: 'Fall-in has no place in the ground; without soundings or cable marks a run has none either.',
    };
  }
  const middle = (place: EnteredPlace): number => (place.low_m + place.high_m) / 2;
  return {
    ...depths(core.model, piece.top, piece.bottom),
    core_top_m: middle(piece.top),
    core_bottom_m: middle(piece.bottom),
    how: `run ${run.run}, ${lossInWords(run)}, converted to in-situ depth`,
    doubt: longerThan(bottom_m, run.recovered_m, `run ${run.run}`),
  };
}

type Where = number | EnteredPlace;

function depths(model: DepthModel, from: Where, to: Where): Pick<Placed, 'ok' | 'top' | 'bottom'> {
  const [top, bottom] = inSituDepths(model, [from, to]) as [DepthEstimate, DepthEstimate];
  return { ok: true, top, bottom };
}

/** A tape laid along a core and the length written down for it differ by so much, m (common practice, no source). */
const TAPE_M = 0.03;

function longerThan(bottom_m: number, recovered_m: number | null, of: string): Placed['doubt'] {
  if (recovered_m === null || bottom_m <= recovered_m + TAPE_M) return null;
  return { found: `${bottom_m} m in ${of}`, expected: `at most ${recovered_m} m, the recovered length` };
}

function lossInWords(run: ReducedHole['runs'][number]): string {
  const recovered = (run.recovered_m ?? run.removed_m) - run.fall_in_m;
  if (Math.abs(run.removed_m - recovered) < 0.005) return 'all of it recovered';
  return {
    top: 'core lost at the top',
    base: 'core lost at the base',
    spread: 'core loss spread evenly',
    unknown: 'core loss at an unknown position',
  }[run.loss_position];
}

function noModel(core: Core, basis: Basis): NotPlaced {
  return {
    ok: false,
    column: 'depth_basis',
    found: basis,
    expected: `readings of a string in hole ${core.hole}`,
    fix: 'Enter the joints, drives, soundings and runs of the hole, or give depths in the ground (in situ).',
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
    fix: `Name the ${what} the depths were measured in.`,
  };
}

/**
 * The readings of one hole, folded in order of `seq` into its state after each of them. Each kind of reading is judged in
 * its own file, on the state they share (open-hole.ts). Nothing throws: a reading that cannot be used is left out of the
 * numbers and named.
 */
import { tapeLength } from '@stillstand/science/base';
import type { RigFinding } from '../finding.ts';
import type { GroundReading, RigReading } from '../reading.ts';
import type { ReducedRun } from '../sampler/run.ts';
import { nameRunsAtEnd, takeRun } from '../sampler/sampling.ts';
import { takeDrive } from '../sediment/drive.ts';
import {
  enteredNow,
  type Inflow,
  inflowTotal,
  noSediment,
  pinSigmas,
  type Registration,
} from '../sediment/sediment.ts';
import { takeSounding } from '../sediment/sounding.ts';
import { type RigSettings, rigDefaults } from '../settings.ts';
import { itemName as nameOf } from '../string/account.ts';
import { takeJoint } from '../string/joint.ts';
import { type AccountItem, closeAccount, emptyString, lieAt } from '../string/string.ts';
import { takeWater } from '../water/water-level.ts';
import { find, lengthOf, type OpenHole, penetrationOf, type ReducedDrive, type Stand } from './open-hole.ts';

/** The hole after one reading, metres; null where a number is not known yet or no more. */
export interface RigState {
  row_id: string;
  seq: number;
  kind: RigReading['kind'];
  collar_to_shoe_m: number | null;
  /** Collar above the reference. */
  stick_up_m: number | null;
  /** Collar to shoe − stick-up: the elevation of the shoe is that of the reference less this. */
  shoe_below_reference_m: number | null;
  /** Shoe below the ground as it was at the start of the hole; below the ground now. */
  penetration_m: number | null;
  penetration_now_m: number | null;
  plug_m: number | null;
  removed_m: number;
  entered_m: number | null;
  inflow_m: number;
  /** Entered ÷ the deepest penetration so far. */
  recovery: number | null;
  /** Water inside above water outside; of the last reading that had both. */
  head_m: number | null;
  /** Pressure on the plug, inside less outside, as metres of the water outside: the head with both densities. */
  pressure_head_m: number | null;
}

export interface ReducedHole {
  states: RigState[];
  drives: ReducedDrive[];
  stands: Stand[];
  runs: ReducedRun[];
  /** Entered length at penetration as sounded; sigma with the error of all that was removed before. */
  soundings: { row_id: string; penetration_m: number; entered_m: number; sigma_m: number }[];
  /** The same and the runs between, in order: what the depth model is made from. */
  registration: Registration[];
  inflows: Inflow[];
  account: AccountItem[];
  joints_in: number;
  collar_to_shoe_m: number | null;
  /** The deepest the shoe has been below the ground at the start. */
  deepest_m: number | null;
  ground_start_m: number;
  ground_assumed: boolean;
  entered_m: number | null;
  findings: RigFinding[];
}

/**
 * Folds the readings of one hole by `seq`; of those that share one, in the order they are given. Same readings, same
 * result.
 */
export function reduceHole(
  readings: readonly RigReading[],
  settings: RigSettings = rigDefaults,
): ReducedHole {
  const ordered = [...readings].sort((a, b) => a.seq - b.seq);
  const firstGround = ordered.find(
    (r): r is GroundReading => r.kind === 'ground' && isNumber(r.ground_below_reference_m),
  );
  const ground = firstGround?.ground_below_reference_m ?? 0;
  const hole: OpenHole = {
    settings,
    string: emptyString(),
    length: 0,
    lost: false,
    stickUp: null,
    groundStart: ground,
    groundNow: ground,
    deepest: 0,
    sediment: noSediment(),
    plugSigma: 0,
    plugPenetration: 0,
    drivesSince: [],
    runsSince: [],
    plugBeforeRuns: null,
    enteredLast: 0,
    head: null,
    pressureHead: null,
    waterInside: 'sea',
    shoeAt: null,
    stands: [],
    warnedTight: new Set(),
    unknownNamed: false,
    drives: [],
    runs: [],
    findings: [],
  };
  const states: RigState[] = [];
  let before: RigReading | null = null;
  for (const reading of ordered) {
    if (before !== null && reading.seq === before.seq) {
      find(hole, reading, 'seq-twice', 'warning', {
        found: `number ${reading.seq} both here and in the ${before.kind} before it`,
        expected: 'one reading for each number in a hole',
        fix: 'Two devices may have written at once. Say which came first: move one of them before or after the other (between 4 and 5 there is 4.5). Until then this one is taken as the later.',
      });
    }
    before = reading;
    take(hole, reading);
    states.push(stateAfter(hole, reading));
  }
  const last = ordered[ordered.length - 1];
  if (last !== undefined) {
    nameRunsAtEnd(hole, last);
    if (firstGround === undefined) {
      find(hole, ordered[0]!, 'ground-assumed', 'note', {
        found: 'no reading of the ground',
        expected: 'ground below the reference at the start of the hole',
        fix: 'Taken as level with the reference.',
      });
    }
  }
  lieAt(hole.string.items, settings.makeup_loss_m, hole.shoeAt);
  const account = closeAccount(hole.string, settings.ended, settings.makeup_loss_m);
  if (last !== undefined) nameUnaccounted(hole, account, last);
  const { registration, inflows } = hole.sediment;
  const pins = registration.filter((r) => r.kind === 'pin');
  const sigmas = pinSigmas(registration);
  return {
    states,
    drives: hole.drives,
    stands: hole.stands,
    runs: hole.runs,
    soundings: pins.map((p, i) => ({
      row_id: p.row_id,
      penetration_m: p.penetration_m,
      entered_m: p.entered_m,
      sigma_m: sigmas[i]!,
    })),
    registration,
    inflows,
    account,
    joints_in: hole.string.items.filter((i) => i.item === 'joint').length,
    collar_to_shoe_m: lengthOf(hole),
    deepest_m: hole.deepest > 0 ? hole.deepest : null,
    ground_start_m: ground,
    ground_assumed: firstGround === undefined,
    entered_m: enteredNow(hole.sediment) ?? (hole.enteredLast > 0 ? hole.enteredLast : null),
    findings: hole.findings,
  };
}

function take(hole: OpenHole, reading: RigReading): void {
  const bad = notANumber(reading);
  if (bad !== null) {
    find(hole, reading, 'not-a-number', 'error', {
      found: bad,
      expected: 'a finite number',
      fix: 'Correct it; the reading is not used.',
    });
    return;
  }
  if (reading.kind === 'joint') takeJoint(hole, reading);
  else if (reading.kind === 'drive') takeDrive(hole, reading);
  else if (reading.kind === 'sounding') takeSounding(hole, reading);
  else if (reading.kind === 'run') takeRun(hole, reading);
  else if (reading.kind === 'water') takeWater(hole, reading);
  else if (reading.kind === 'ground' && reading.ground_below_reference_m !== null) {
    hole.groundNow = reading.ground_below_reference_m;
  }
}

/** "length_m NaN"; null where every number is one. Once for each reading, so without a list of its entries. */
function notANumber(reading: Readonly<RigReading>): string | null {
  for (const name in reading) {
    const value = reading[name as keyof RigReading] as unknown;
    if (typeof value === 'number' && !Number.isFinite(value)) return `${name} ${value}`;
  }
  return null;
}

function nameUnaccounted(hole: OpenHole, account: readonly AccountItem[], last: RigReading): void {
  const missing = account.filter((i) => i.fate === 'missing');
  if (missing.length > 0) {
    find(hole, last, 'pipe-unaccounted', 'warning', {
      found: `not accounted for: ${missing.map(nameOf).join(', ')}`,
      expected: 'every item pulled, cut, left or lost',
      fix: 'Enter what became of each.',
    });
  }
  const left = account.filter((i) => i.fate === 'left' || i.fate === 'lost');
  if (left.length > 0) {
    const sum = left.reduce((s, i) => s + i.in_ground_m, 0);
    find(hole, last, 'left-in-ground', 'note', {
      found: `${tapeLength(sum, 'm', 'at least')} in the ground: ${left.map(nameOf).join(', ')}`,
      expected: 'nothing left in the ground',
      fix: 'Report it with position and depth where the permit asks for it.',
    });
  }
}

const isNumber = (x: number | null): x is number => x !== null && Number.isFinite(x);

function stateAfter(hole: OpenHole, reading: RigReading): RigState {
  const { sediment } = hole;
  const penetration_m = penetrationOf(hole);
  if (penetration_m !== null) hole.shoeAt = penetration_m;
  const entered_m = enteredNow(sediment);
  return {
    row_id: reading.row_id,
    seq: reading.seq,
    kind: reading.kind,
    collar_to_shoe_m: lengthOf(hole),
    stick_up_m: hole.stickUp,
    shoe_below_reference_m: penetration_m === null ? null : penetration_m + hole.groundStart,
    penetration_m,
    penetration_now_m: penetration_m === null ? null : penetration_m + hole.groundStart - hole.groundNow,
    plug_m: sediment.plug_m,
    removed_m: sediment.removed_m,
    entered_m,
    inflow_m: inflowTotal(sediment),
    recovery: entered_m !== null && hole.deepest > 0.05 ? entered_m / hole.deepest : null,
    head_m: hole.head,
    pressure_head_m: hole.pressureHead,
  };
}

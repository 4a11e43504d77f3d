/**
 * The readings of one hole, folded in order of `seq` into its state after each of them. Past 250 lines because each
 * kind of reading is judged here, one function each, on the state they share; the string, the sediment, the sampler
 * and the runs have files of their own. Nothing throws: a reading that cannot be used is left out of the numbers and
 * named.
 */
import { itemName as nameOf } from './account.ts';
import { type FindingCode, metres, type RigFinding } from './finding.ts';
import { type Pace, paceOf, usualPace } from './pace.ts';
import type {
  DriveReading,
  GroundReading,
  JointReading,
  RigReading,
  RunReading,
  SoundingReading,
  WaterReading,
} from './reading.ts';
import type { RunReckoning } from './run.ts';
import { clearanceOf } from './sampler.ts';
import {
  addInflow,
  enteredAt,
  enteredNow,
  type Inflow,
  inflowTotal,
  noSediment,
  pinSigmas,
  type Registration,
  type Sediment,
  settle,
} from './sediment.ts';
import { type RigSettings, rigDefaults } from './settings.ts';
import {
  type AccountItem,
  addItem,
  closeAccount,
  collarToShoe,
  emptyString,
  lieAt,
  type PipeString,
  takeItem,
  untight,
} from './string.ts';
import { exitGradient, pressureHead_m, type WaterKind } from './water.ts';

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

/** A spell in which nobody drove: what the string and the plug did by themselves (a night, a tide, a meal). */
export interface Stand {
  /** Reading that told. */
  row_id: string;
  seq: number;
  /** Rise of the collar since the last reading, added joints taken off: negative settled, positive rebounded. */
  rise_m: number | null;
  /** Plug longer (sand came in) or shorter (settled). */
  plug_change_m: number | null;
}

export interface DriveReckoning {
  row_id: string;
  seq: number;
  /** Penetration before and after, below the ground at the start. */
  from_m: number;
  to_m: number;
  entered_m: number | null;
  /** Entered ÷ advance, of this drive, where soundings before and after it tell. */
  recovery: number | null;
  rate_m_per_min: number | null;
  /** Against what is usual in this hole (see pace.ts); null: not timed, or too few drives before it. */
  pace: Pace | null;
  /** Rate that was usual before it; its vibrator's usual speed. */
  usual_m_per_min: number | null;
  usual_hz: number | null;
  ended_by: string | null;
  speed_hz: number | null;
}

export interface HoleFold {
  states: RigState[];
  drives: DriveReckoning[];
  stands: Stand[];
  runs: RunReckoning[];
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

/** What the judging functions share. */
interface Hole {
  settings: RigSettings;
  string: PipeString;
  /** Collar to shoe, kept up by each joint. */
  length: number | null;
  lost: boolean;
  stickUp: number | null;
  groundStart: number;
  groundNow: number;
  deepest: number;
  sediment: Sediment;
  /** Of the last plug read: its 1 sigma, penetration then, drives and runs since. */
  plugSigma: number;
  plugPenetration: number;
  drivesSince: DriveReckoning[];
  runsSince: { run: RunReckoning; event: Extract<Registration, { kind: 'run' }> | null }[];
  plugBeforeRuns: number | null;
  enteredLast: number;
  head: number | null;
  pressureHead: number | null;
  /** Fresh as soon as any fresh water went in: the lighter, the worse. */
  waterInside: WaterKind;
  /** Where the shoe last was known to be, below the ground at the start. */
  shoeAt: number | null;
  stands: Stand[];
  warnedTight: Set<AccountItem>;
  unknownNamed: boolean;
  drives: DriveReckoning[];
  runs: RunReckoning[];
  findings: RigFinding[];
}

/** Folds the readings of one hole. Same readings, same result; the order of the array does not matter, `seq` does. */
export function foldHole(readings: readonly RigReading[], settings: RigSettings = rigDefaults): HoleFold {
  const ordered = [...readings].sort((a, b) => a.seq - b.seq);
  const firstGround = ordered.find(
    (r): r is GroundReading => r.kind === 'ground' && isNumber(r.ground_below_reference_m),
  );
  const ground = firstGround?.ground_below_reference_m ?? 0;
  const hole: Hole = {
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
  let seqBefore = Number.NaN;
  for (const reading of ordered) {
    if (reading.seq === seqBefore) {
      find(hole, reading, 'seq-twice', 'warning', {
        found: `a second reading with seq ${reading.seq}`,
        expected: 'one reading for each seq of a hole',
        mend: 'Number the readings in the order they were taken; the order of these two is uncertain.',
      });
    }
    seqBefore = reading.seq;
    take(hole, reading);
    states.push(stateAfter(hole, reading));
  }
  const last = ordered[ordered.length - 1];
  if (last !== undefined) {
    nameUnsoundedRuns(hole, last);
    if (firstGround === undefined) {
      find(hole, ordered[0]!, 'ground-assumed', 'note', {
        found: 'no reading of the ground',
        expected: 'ground below the reference at the start of the hole',
        mend: 'Taken as level with the reference.',
      });
    }
  }
  lieAt(hole.string, hole.string.items, settings.makeup_loss_m, hole.shoeAt);
  const account = closeAccount(hole.string, settings.ended);
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

function take(hole: Hole, reading: RigReading): void {
  const bad = notANumber(reading);
  if (bad !== null) {
    find(hole, reading, 'not-a-number', 'error', {
      found: bad,
      expected: 'a finite number',
      mend: 'Correct it; the reading is not used.',
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

function takeJoint(hole: Hole, reading: JointReading): void {
  const { string } = hole;
  const before = lengthOf(hole);
  if (reading.action === 'add') {
    if (reading.item === 'joint' && (reading.length_m === null || reading.length_m <= 0)) {
      find(hole, reading, 'joint-length-missing', 'error', {
        found: `joint ${reading.label ?? 'without label'} ${reading.length_m === null ? 'without length' : metres(reading.length_m)}`,
        expected: 'its length, end to end',
        mend: 'Enter the length; until then collar to shoe and everything that hangs on it is unknown.',
      });
    }
    const length_m = reading.length_m !== null && reading.length_m > 0 ? reading.length_m : null;
    const change = addItem(string, { ...reading, length_m });
    if (!change.ok) {
      find(hole, reading, 'joint-twice', 'error', {
        found: `${nameOf(reading)} added while it is in the string`,
        expected: 'each label once',
        mend: 'Withdraw the second row, or give the second item its own label. Not counted.',
      });
      return;
    }
  } else {
    if (reading.action === 'left' || reading.action === 'lost') {
      lieAt(string, string.items, hole.settings.makeup_loss_m, hole.shoeAt);
    }
    const change = takeItem(string, reading);
    if (!change.ok) {
      find(hole, reading, 'item-not-in-string', 'error', {
        found: `${nameOf(reading)} ${reading.action}`,
        expected: 'an item that is in the string',
        mend: 'Correct its label, or add the row that put it in.',
      });
      return;
    }
    if (change.outOfOrder.length > 0) {
      find(hole, reading, 'out-of-order', 'warning', {
        found: `${nameOf(reading)} ${reading.action} from below ${change.outOfOrder.map(nameOf).join(', ')}`,
        expected: 'the topmost item',
        mend: 'Enter the items above it first, or correct the label.',
      });
    }
    if (reading.action === 'lost' && change.gone.length > 0) {
      hole.lost = true;
      find(hole, reading, 'string-lost', 'danger', {
        found: `lost: ${change.gone.map(nameOf).join(', ')}`,
        expected: 'every item back',
        mend: 'End this hole and start a new one beside it that names this one in `replaces`.',
      });
    }
  }
  // The string stands still while a joint is added or taken off at the top: the collar moves by what was added.
  const after = collarToShoe(string, hole.settings.makeup_loss_m);
  hole.length = after;
  const still = reading.action === 'add' || reading.action === 'remove' || reading.action === 'cut';
  if (!still) hole.stickUp = null;
  else if (hole.stickUp !== null) {
    hole.stickUp = before !== null && after !== null ? hole.stickUp + after - before : null;
  }
}

function takeDrive(hole: Hole, reading: DriveReading): void {
  const { string } = hole;
  if (string.items.length === 0) {
    const code = hole.lost ? 'drive-after-loss' : 'drive-without-string';
    find(hole, reading, code, 'error', {
      found: hole.lost ? 'a drive after the string was lost' : 'a drive with nothing in the string',
      expected: hole.lost ? 'a new hole' : 'joints added before it',
      mend: hole.lost
        ? 'Move the row to the hole that replaces this one. Not used.'
        : 'Add the joints with a smaller seq. Not used.',
    });
    return;
  }
  const loose = untight(string).filter((i) => !hole.warnedTight.has(i));
  if (loose.length > 0) {
    for (const i of loose) hole.warnedTight.add(i);
    find(hole, reading, 'untight-joint', 'danger', {
      found: `driven with ${loose.map(nameOf).join(', ')} not confirmed tight`,
      expected: 'every thread confirmed tight before it goes below ground',
      mend: 'Check the threads still above ground; a string that parts below ground cannot be got back.',
    });
  }
  nameUnsoundedRuns(hole, reading);
  const { stick_up_start_m: start, stick_up_end_m: end } = reading;
  if (start === null || end === null) {
    find(hole, reading, 'stick-up-missing', 'error', {
      found: 'a drive without stick-up before and after',
      expected: 'collar above the reference, before and after',
      mend: 'Enter both; until the next stick-up the penetration is unknown.',
    });
    hole.stickUp = end;
    forgetPlug(hole);
    hole.deepest = Math.max(hole.deepest, penetrationOf(hole) ?? 0);
    return;
  }
  checkStickUp(hole, reading, start);
  hole.stickUp = end;
  const length = lengthOf(hole);
  forgetPlug(hole);
  if (length === null) {
    nameUnknown(hole, reading);
    return;
  }
  const from_m = length - start - hole.groundStart;
  const to_m = length - end - hole.groundStart;
  if (to_m < from_m) {
    find(hole, reading, 'drive-rises', 'warning', {
      found: `stick-up from ${metres(start)} to ${metres(end)}`,
      expected: 'a stick-up that gets smaller',
      mend: 'Check which stick-up is which; used as a string that rose.',
    });
  }
  if (to_m < 0) {
    find(hole, reading, 'shoe-above-ground', 'warning', {
      found: `shoe ${metres(-to_m)} above the ground after a drive`,
      expected: 'a shoe in the ground',
      mend: 'Check joints, stick-up and ground below reference.',
    });
  }
  const minutes = reading.duration_s !== null && reading.duration_s > 0 ? reading.duration_s / 60 : null;
  const usual = usualPace(hole.drives);
  const rate_m_per_min = minutes === null ? null : (to_m - from_m) / minutes;
  const drive: DriveReckoning = {
    row_id: reading.row_id,
    seq: reading.seq,
    from_m,
    to_m,
    entered_m: null,
    recovery: null,
    rate_m_per_min,
    pace: paceOf(rate_m_per_min, usual),
    usual_m_per_min: usual?.rate_m_per_min ?? null,
    usual_hz: usual?.speed_hz ?? null,
    ended_by: reading.ended_by,
    speed_hz: reading.speed_hz,
  };
  if (drive.pace === 'slowing' || drive.pace === 'refusal') nameSlowing(hole, reading, drive);
  hole.drives.push(drive);
  hole.drivesSince.push(drive);
  hole.deepest = Math.max(hole.deepest, to_m, from_m);
}

/** A drive makes the plug unknown until the next sounding; runs not yet sounded keep what their marks say. */
function forgetPlug(hole: Hole): void {
  const entered = enteredNow(hole.sediment);
  if (entered !== null) hole.enteredLast = entered;
  hole.sediment.plug_m = null;
  hole.runsSince = [];
  hole.plugBeforeRuns = null;
}

function nameSlowing(hole: Hole, reading: DriveReading, drive: DriveReckoning): void {
  const { usual_m_per_min: usual, usual_hz, speed_hz } = drive;
  const speed =
    speed_hz === null
      ? ''
      : `, vibrator ${speed_hz} Hz${usual_hz === null ? '' : ` (usually ${usual_hz} Hz)`}`;
  const slowVibrator = speed_hz !== null && usual_hz !== null && speed_hz < 0.9 * usual_hz;
  find(hole, reading, 'drive-slowing', 'warning', {
    found: `${drive.rate_m_per_min!.toFixed(2)} m/min (${drive.pace})${speed}`,
    expected:
      usual === null
        ? 'more than 0.05 m/min'
        : `about ${usual.toFixed(2)} m/min, the median of the drives before`,
    mend: slowVibrator
      ? 'The vibrator ran slower than usual: look at its engine and hoses before the ground is blamed.'
      : 'Stop before the string is held for good; note vibrator speed and what ended the drive.',
  });
}

function checkStickUp(hole: Hole, reading: DriveReading | SoundingReading, stickUp: number): void {
  if (hole.stickUp === null) return;
  const step = stickUp - hole.stickUp;
  const { settings } = hole;
  if (Math.abs(step) > settings.change_sigmas * Math.SQRT2 * settings.stick_up_sigma_m) {
    standOf(hole, reading).rise_m = step;
  }
  if (reading.kind === 'sounding' && reading.purpose === 'resume') {
    if (Math.abs(step) > settings.stick_up_tolerance_m) nameStand(hole, reading, step);
    return;
  }
  if (Math.abs(step) <= settings.stick_up_tolerance_m) return;
  find(hole, reading, 'stick-up-jump', 'warning', {
    found: `stick-up ${metres(stickUp)}`,
    expected: `about ${metres(hole.stickUp)} since the last reading`,
    mend:
      step < 0
        ? 'Used: the string sank by itself. Amend the row if it was misread or a joint was not entered.'
        : 'Used: the string rose by itself. Amend the row if it was misread or a joint was entered twice.',
  });
}

/** The string moved while it stood: expected of a night, and used. */
function nameStand(hole: Hole, reading: SoundingReading, step: number): void {
  const settled = step < 0;
  find(hole, reading, settled ? 'string-settled' : 'string-rebounded', 'note', {
    found: `collar ${metres(Math.abs(step))} ${settled ? 'lower' : 'higher'} than it was left`,
    expected: 'a string that stands still',
    mend: settled
      ? 'Used: the string settled by itself, and what entered meanwhile counts as entered.'
      : 'Used: the string rebounded. Sound again before the next run.',
  });
}

function standOf(hole: Hole, reading: Pick<RigReading, 'row_id' | 'seq'>): Stand {
  const last = hole.stands.at(-1);
  if (last?.row_id === reading.row_id) return last;
  const stand: Stand = { row_id: reading.row_id, seq: reading.seq, rise_m: null, plug_change_m: null };
  hole.stands.push(stand);
  return stand;
}

function takeSounding(hole: Hole, reading: SoundingReading): void {
  const { settings, sediment } = hole;
  if (reading.stick_up_m !== null) {
    checkStickUp(hole, reading, reading.stick_up_m);
    hole.stickUp = reading.stick_up_m;
    const p = penetrationOf(hole);
    if (p !== null) hole.deepest = Math.max(hole.deepest, p);
  }
  const length = lengthOf(hole);
  takeWaterLevel(hole, reading, length);
  if (length !== null && reading.collar_to_shoe_m !== null) {
    if (Math.abs(reading.collar_to_shoe_m - length) > settings.believed_tolerance_m) {
      find(hole, reading, 'collar-to-shoe-disagrees', 'warning', {
        found: `collar to shoe believed ${metres(reading.collar_to_shoe_m)}`,
        expected: `${metres(length)} from the joints entered`,
        mend: 'Count the joints and their made-up lengths again before the next run.',
      });
    }
  }
  if (reading.purpose === 'zero_check') {
    checkZero(hole, reading);
    return;
  }
  if (reading.to_sediment_m === null) return;
  if (length === null) {
    nameUnknown(hole, reading);
    return;
  }
  // nothing is read down a pipe to better than a millimetre
  const sigma = Math.max(0.001, reading.sigma_m ?? settings.sounding_sigma_m);
  let plug = length - reading.to_sediment_m;
  if (reading.to_sediment_m < 0) {
    find(hole, reading, 'plug-longer-than-string', 'error', {
      found: `sediment ${metres(-reading.to_sediment_m)} above the collar: a plug of ${metres(plug)} in a string of ${metres(length)}`,
      expected: 'sediment below the collar',
      mend: 'Correct the sounding; it is not used.',
    });
    return;
  }
  if (plug < -2 * sigma - 1e-9) {
    find(hole, reading, 'sediment-below-shoe', 'error', {
      found: `sediment ${metres(reading.to_sediment_m)} below the collar, shoe at ${metres(length)}`,
      expected: 'sediment above the shoe',
      mend: 'Correct the sounding or the joints; it is not used.',
    });
    return;
  }
  plug = Math.max(0, plug);
  const change = settings.change_sigmas * Math.sqrt(sigma ** 2 + hole.plugSigma ** 2);
  const advanced =
    hole.drivesSince.length > 0 || hole.deepest - hole.plugPenetration > settings.stick_up_tolerance_m;

  if (sediment.plug_m !== null && hole.runsSince.length > 0) {
    settleRuns(hole, reading, plug, sigma, change);
  } else if (advanced || sediment.plug_m === null) {
    soundAfterDrive(hole, reading, plug, sigma);
  } else if (plug - sediment.plug_m > change) {
    const rise = plug - sediment.plug_m;
    standOf(hole, reading).plug_change_m = rise;
    find(hole, reading, 'sediment-rising', 'warning', {
      found: `sediment ${metres(rise)} higher with neither drive nor run`,
      expected: 'a plug that stays as it is',
      mend: 'Taken as inflow and not counted as entered. Keep the string full of water.',
    });
    addInflow(sediment, sediment.plug_m, rise);
  } else if (plug - sediment.plug_m < -change) {
    standOf(hole, reading).plug_change_m = plug - sediment.plug_m;
    find(hole, reading, 'plug-settled', 'note', {
      found: `plug ${metres(sediment.plug_m - plug)} shorter with neither drive nor run`,
      expected: 'a plug that stays as it is',
      mend: 'Taken as settling, even along the plug.',
    });
    settle(sediment, sediment.plug_m, plug);
  } else {
    // a repeated reading of the same plug: one more pin at this penetration
    sediment.plug_m = plug;
    addPin(hole, reading, sigma);
  }
  hole.plugSigma = sigma;
  hole.plugPenetration = hole.deepest;
  hole.drivesSince = [];
  hole.runsSince = [];
  hole.plugBeforeRuns = null;
  hole.enteredLast = enteredNow(sediment)!;
}

function addPin(hole: Hole, reading: SoundingReading, sigma_m: number): void {
  if (penetrationOf(hole) === null) return;
  hole.sediment.registration.push({
    kind: 'pin',
    row_id: reading.row_id,
    penetration_m: hole.deepest,
    entered_m: Math.max(0, enteredNow(hole.sediment)!),
    sigma_m,
    place_sigma_m: hole.settings.stick_up_sigma_m,
  });
}

/** The first plug read after a drive: what entered meanwhile, unless it is too little or too much to be so. */
function soundAfterDrive(hole: Hole, reading: SoundingReading, plug: number, sigma: number): void {
  const { sediment, settings } = hole;
  nameUnsoundedRuns(hole, reading);
  if (penetrationOf(hole) === null) {
    // how far the string went is unknown, so nothing can be said of how much should have entered
    sediment.plug_m = plug;
    return;
  }
  const change =
    settings.change_sigmas * Math.sqrt(sigma ** 2 + hole.plugSigma ** 2 + 2 * settings.stick_up_sigma_m ** 2);
  const advance = Math.max(0, hole.deepest - hole.plugPenetration);
  const fixed = enteredAt(sediment.inflows, sediment.removed_m);
  const entered = enteredAt(sediment.inflows, sediment.removed_m + plug);
  const gain = entered - hole.enteredLast;
  if (gain < -change) {
    find(hole, reading, 'entered-falling', 'warning', {
      found: `entered length ${metres(entered)} after ${metres(hole.enteredLast)}`,
      expected: 'an entered length that grows with each drive',
      mend: 'Check sounding and joints. Taken as settling of the plug.',
    });
    // the plug before the drive, on the column ruler, shrinks to what is there now
    settle(sediment, hole.enteredLast - fixed + inflowIn(sediment), plug);
  } else if (gain > advance + change) {
    const excess = gain - advance;
    find(hole, reading, 'recovery-over-one', 'warning', {
      found: `${metres(gain)} entered in ${metres(advance)} of driving (recovery ${advance > 0 ? (gain / advance).toFixed(2) : 'without a drive'})`,
      expected: `a recovery of at most ${settings.recovery_max}`,
      mend: `Taken as ${metres(excess)} of inflow, not counted as entered. Check joints and sounding.`,
    });
    addInflow(sediment, plug - excess, excess);
  } else {
    if (advance > 0 && gain / advance > settings.recovery_max) {
      find(hole, reading, 'recovery-over-one', 'warning', {
        found: `recovery ${(gain / advance).toFixed(2)} over ${metres(advance)}`,
        expected: `at most ${settings.recovery_max}`,
        mend: 'Check sounding and stick-up; within their errors, so used as read.',
      });
    }
    sediment.plug_m = plug;
  }
  const now = enteredNow(sediment)!;
  const only = hole.drivesSince.length === 1 ? hole.drivesSince[0]! : null;
  if (only !== null) {
    const length = only.to_m - only.from_m;
    only.entered_m = now - hole.enteredLast;
    only.recovery = length > 0 ? only.entered_m / length : null;
  }
  addPin(hole, reading, sigma);
}

/** Inflow still in the plug. */
function inflowIn(sediment: Sediment): number {
  return inflowTotal(sediment) - (sediment.removed_m - enteredAt(sediment.inflows, sediment.removed_m));
}

/** A sounding after one or several runs says what they removed together. */
function settleRuns(hole: Hole, reading: SoundingReading, plug: number, sigma: number, change: number): void {
  const { sediment, settings } = hole;
  const before = hole.plugBeforeRuns!;
  const runs = hole.runsSince;
  const first = runs[0]!.run;
  const removedBefore = first.column_top_m;
  const marked = runs.reduce((sum, r) => sum + r.run.removed_m, 0);
  let total = before - plug;
  let inflow = 0;
  if (total < -change) {
    total = Math.min(before, marked);
    inflow = plug - (before - total);
    find(hole, reading, 'inflow-during-run', 'warning', {
      found: `sediment ${metres(plug - before)} higher after run ${runs.map((r) => r.run.run).join(', ')}`,
      expected: 'sediment lower after a run',
      mend: `Taken as ${metres(inflow)} of inflow, not counted as entered. Lift the sampler slowly; keep the string full.`,
    });
  }
  total = Math.max(0, total);
  const lastRun = runs[runs.length - 1]!;
  let top = removedBefore;
  for (const { run, event } of runs) {
    const share = marked > 0 ? run.removed_m / marked : 1 / runs.length;
    const sounded = inflow === 0 && (runs.length === 1 || run === lastRun.run);
    run.removed_m = total * share;
    if (inflow === 0) {
      run.removed_from = runs.length === 1 ? 'soundings' : run.removed_from;
      run.removed_sigma_m =
        runs.length === 1
          ? Math.sqrt(sigma ** 2 + hole.plugSigma ** 2)
          : Math.max(run.removed_sigma_m, settings.advance_sigma_m);
      if (run.removed_from === 'nothing') run.removed_from = 'recovered';
    }
    run.column_top_m = top;
    top += run.removed_m;
    run.column_bottom_m = top;
    finishRun(run, sediment.inflows);
    if (event !== null) {
      event.entered_bottom_m = run.entered_bottom_m;
      event.sigma_m = sounded ? sigma : run.removed_sigma_m;
      event.from = sounded ? 'soundings' : run.removed_from === 'advance' ? 'advance' : 'recovered';
    }
    nameRecovered(hole, run);
  }
  sediment.removed_m = removedBefore + total;
  if (inflow > 0) addInflow(sediment, before - total, inflow);
  else sediment.plug_m = plug;
}

function takeRun(hole: Hole, reading: RunReading): void {
  const { sediment, settings } = hole;
  const length = lengthOf(hole);
  const { start_mark_m: start, end_mark_m: end } = reading;
  const reversed = start !== null && end !== null && start > end;
  if (reversed) {
    find(hole, reading, 'marks-reversed', 'error', {
      found: `start mark ${metres(start)}, end mark ${metres(end)}`,
      expected: 'an end mark deeper than the start mark',
      mend: 'Check which mark is which; the advance is not used.',
    });
  }
  const advance_m = start === null || end === null || reversed ? null : end - start;
  const tip_m = reversed ? Math.max(start, end) : end;
  let fall_in_m = reading.fall_in_top_m ?? 0;
  if (reading.recovered_m !== null && fall_in_m > reading.recovered_m) {
    find(hole, reading, 'fall-in-longer-than-recovered', 'error', {
      found: `fall-in ${metres(fall_in_m)} of ${metres(reading.recovered_m)} recovered`,
      expected: 'fall-in no longer than what came up',
      mend: 'Correct one of the two; all that came up is taken as fall-in.',
    });
    fall_in_m = reading.recovered_m;
  }
  const cored = reading.recovered_m === null ? null : reading.recovered_m - fall_in_m;
  let clearance: ReturnType<typeof clearanceOf> | null = null;
  if (tip_m !== null) {
    if (length === null) nameUnknown(hole, reading);
    else {
      const joints = hole.string.items.filter((i) => i.item === 'joint').length;
      clearance = clearanceOf(tip_m, length, joints, settings);
      nameClearance(hole, reading, clearance);
    }
  }
  if (start !== null && length !== null && sediment.plug_m !== null && !reversed) {
    const expected = length - sediment.plug_m;
    const off = start - expected;
    if (Math.abs(off) > Math.max(0.1, 3 * (hole.plugSigma + settings.mark_sigma_m))) {
      find(hole, reading, 'start-mark-disagrees', 'warning', {
        found: `sampler touched at ${metres(start)}`,
        expected: `sediment at ${metres(expected)} as sounded`,
        mend: 'Check the cable marks against the collar (zero check) and sound again.',
      });
    }
  }
  const removed = advance_m ?? cored ?? 0;
  const run: RunReckoning = {
    row_id: reading.row_id,
    seq: reading.seq,
    run: reading.run,
    removed_m: sediment.plug_m === null ? removed : Math.min(removed, sediment.plug_m),
    removed_sigma_m: advance_m === null ? settings.recovered_sigma_m : settings.advance_sigma_m,
    removed_from: advance_m !== null ? 'advance' : cored !== null ? 'recovered' : 'nothing',
    advance_m,
    recovered_m: reading.recovered_m,
    fall_in_m,
    sampler_recovery: null,
    loss_at: reading.loss_at ?? 'unknown',
    outcome: reading.outcome,
    strokes_per_m:
      reading.strokes !== null && advance_m !== null && advance_m > 0 ? reading.strokes / advance_m : null,
    column_top_m: sediment.removed_m,
    column_bottom_m: sediment.removed_m,
    entered_top_m: 0,
    entered_bottom_m: 0,
    inflow_m: 0,
    clearance_m: clearance?.clearance_m ?? null,
    clearance_sigma_m: clearance?.sigma_m ?? null,
    tip_m,
    tip_depth_m:
      clearance === null || penetrationOf(hole) === null
        ? null
        : penetrationOf(hole)! - clearance.clearance_m,
  };
  run.column_bottom_m = run.column_top_m + run.removed_m;
  finishRun(run, sediment.inflows);
  if (hole.runsSince.length === 0) hole.plugBeforeRuns = sediment.plug_m;
  sediment.removed_m = run.column_bottom_m;
  if (sediment.plug_m !== null) sediment.plug_m -= run.removed_m;
  const event = {
    kind: 'run' as const,
    row_id: run.row_id,
    entered_bottom_m: run.entered_bottom_m,
    sigma_m: run.removed_sigma_m,
    from: advance_m !== null ? ('advance' as const) : ('recovered' as const),
  };
  sediment.registration.push(event);
  hole.runs.push(run);
  hole.runsSince.push({ run, event });
}

function finishRun(run: RunReckoning, inflows: readonly Inflow[]): void {
  run.entered_top_m = enteredAt(inflows, run.column_top_m);
  run.entered_bottom_m = enteredAt(inflows, run.column_bottom_m);
  run.inflow_m = run.removed_m - (run.entered_bottom_m - run.entered_top_m);
  run.sampler_recovery =
    run.recovered_m !== null && run.removed_m > 0 ? (run.recovered_m - run.fall_in_m) / run.removed_m : null;
}

function nameRecovered(hole: Hole, run: RunReckoning): void {
  if (run.recovered_m === null) return;
  const cored = run.recovered_m - run.fall_in_m;
  if (cored <= run.removed_m * hole.settings.recovery_max + 3 * run.removed_sigma_m) return;
  find(hole, { ...run, kind: 'run' }, 'recovered-more-than-removed', 'warning', {
    found: `${metres(cored)} came up, ${metres(run.removed_m)} was removed`,
    expected: 'no more than was removed',
    mend: 'Look for fall-in on top, or for inflow during the run; what came up is squeezed to fit.',
  });
}

function nameClearance(hole: Hole, reading: RunReading, c: ReturnType<typeof clearanceOf>): void {
  if (c.verdict === 'clear') return;
  const expected = `at least ${metres(c.margin_m)} above the shoe`;
  if (c.verdict === 'past shoe') {
    find(hole, reading, 'sampler-past-shoe', 'danger', {
      found: `tip ${metres(-c.clearance_m)} past the shoe`,
      expected,
      mend: 'Lift it now. A sampler stuck past the shoe is freed only by pulling the whole string.',
    });
  } else if (c.verdict === 'stop') {
    find(hole, reading, 'sampler-inside-margin', 'danger', {
      found: `tip ${metres(c.clearance_m)} above the shoe`,
      expected,
      mend: 'Stop: no deeper before the string is driven on.',
    });
  } else {
    find(hole, reading, 'sampler-close', 'warning', {
      found: `tip ${metres(c.clearance_m)} above the shoe`,
      expected: `at least ${metres(2 * c.margin_m)}, twice the margin`,
      mend: 'Watch the stop mark.',
    });
  }
}

/** With the tip level with the collar the tape reads its own error. */
function checkZero(hole: Hole, reading: SoundingReading): void {
  const zero = reading.to_sediment_m;
  if (zero === null || Math.abs(zero) <= 2 * hole.settings.mark_sigma_m) return;
  find(hole, reading, 'zero-check-off', 'warning', {
    found: `tape reads ${metres(zero)} with the tip at the collar`,
    expected: `0 within ${metres(2 * hole.settings.mark_sigma_m)}`,
    mend: 'Move the tape before the next run. Marks already read are used as read.',
  });
}

function takeWater(hole: Hole, reading: WaterReading): void {
  if (reading.water === 'fresh') hole.waterInside = 'fresh';
}

function takeWaterLevel(hole: Hole, reading: SoundingReading, length: number | null): void {
  const { to_water_inside_m: inside, water_outside_m: outside } = reading;
  if (inside === null || outside === null || hole.stickUp === null) return;
  // inside, below the reference = below the collar − collar above the reference
  hole.head = outside - (inside - hole.stickUp);
  const plug = hole.sediment.plug_m;
  // without a sounding the water may stand on the shoe: the longest column, the worst case for the lighter water
  const to_sediment_m =
    reading.to_sediment_m !== null && reading.purpose !== 'zero_check'
      ? reading.to_sediment_m
      : length === null
        ? null
        : length - (plug ?? 0);
  hole.pressureHead =
    to_sediment_m === null
      ? null
      : pressureHead_m({
          to_sediment_m,
          to_water_inside_m: inside,
          to_water_outside_m: outside + hole.stickUp,
          inside: hole.waterInside,
          outside: hole.settings.water_outside,
        });
  const pressure = hole.pressureHead ?? hole.head;
  if (hole.head >= -0.005 && pressure >= -0.005) return;
  const through = length === null || to_sediment_m === null ? null : length - to_sediment_m;
  const factor = through === null ? null : exitGradient(pressure, Math.max(0, through)).factor;
  const safety = factor === null ? '' : `; factor of safety ${factor.toFixed(1)} if the plug is organic`;
  if (hole.head < -0.005) {
    find(hole, reading, 'water-inside-low', 'warning', {
      found: `water inside ${metres(-hole.head)} below the water outside${safety}`,
      expected: 'water inside at or above the water outside',
      mend: 'Fill the string before anything is lifted: sand boils in through the shoe.',
    });
  } else {
    find(hole, reading, 'water-inside-light', 'warning', {
      found: `fresh water inside stands ${metres(hole.head)} above sea water outside and still weighs ${metres(-pressure)} less${safety}`,
      expected: 'a level higher by 2.5 % of its column, or sea water',
      mend: 'Fill the string higher, or fill it with sea water.',
    });
  }
}

/** Runs whose removed length no sounding tells, named once the chance is gone. */
function nameUnsoundedRuns(hole: Hole, before: RigReading): void {
  for (const { run } of hole.runsSince) {
    find(hole, { ...run, kind: 'run' }, 'run-without-soundings', 'warning', {
      found: `run ${run.run} with no sounding between it and ${before.kind} seq ${before.seq}`,
      expected: 'a sounding before and after each run',
      mend: `Removed length taken from ${run.removed_from === 'advance' ? 'the cable marks' : run.removed_from === 'recovered' ? 'what came up' : 'nothing: unknown'}, with 1 sigma ${metres(run.removed_sigma_m)}.`,
    });
    nameRecovered(hole, run);
  }
}

function nameUnaccounted(hole: Hole, account: readonly AccountItem[], last: RigReading): void {
  const missing = account.filter((i) => i.fate === 'missing');
  if (missing.length > 0) {
    find(hole, last, 'pipe-unaccounted', 'warning', {
      found: `no word of ${missing.map(nameOf).join(', ')}`,
      expected: 'every item pulled, cut, left or lost',
      mend: 'Enter what became of each.',
    });
  }
  const left = account.filter((i) => i.fate === 'left' || i.fate === 'lost');
  if (left.length > 0) {
    const sum = left.reduce((s, i) => s + i.in_ground_m, 0);
    find(hole, last, 'left-in-ground', 'note', {
      found: `${metres(sum)} in the ground: ${left.map(nameOf).join(', ')}`,
      expected: 'nothing left in the ground',
      mend: 'Report it with position and depth where the permit asks for it.',
    });
  }
}

function nameUnknown(hole: Hole, reading: RigReading): void {
  if (hole.unknownNamed) return;
  hole.unknownNamed = true;
  find(hole, reading, 'collar-to-shoe-unknown', 'error', {
    found: 'a reading that needs collar to shoe, which is unknown',
    expected: 'the length of every joint in the string',
    mend: 'Enter the missing length; this reading and those after it are not used for numbers.',
  });
}

const isNumber = (x: number | null): x is number => x !== null && Number.isFinite(x);

const lengthOf = (hole: Hole): number | null => hole.length;

function penetrationOf(hole: Hole): number | null {
  const length = lengthOf(hole);
  if (length === null || hole.stickUp === null || hole.string.items.length === 0) return null;
  return length - hole.stickUp - hole.groundStart;
}

function stateAfter(hole: Hole, reading: RigReading): RigState {
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

function find(
  hole: Hole,
  reading: Pick<RigReading, 'kind' | 'row_id' | 'seq'>,
  code: FindingCode,
  severity: RigFinding['severity'],
  words: Pick<RigFinding, 'found' | 'expected' | 'mend'>,
): void {
  const { kind, row_id, seq } = reading;
  hole.findings.push({ code, severity, kind, row_id, seq, ...words });
}

/** A sounding of the sediment: what entered, settled, came in or was taken since the last one. */
import { square } from '@stillstand/science/base';
import { apart, metres } from '../finding.ts';
import { find, lengthOf, nameUnknown, type OpenHole, penetrationOf } from '../hole/open-hole.ts';
import type { SoundingReading } from '../reading.ts';
import { finishRun, nameRecovered, nameUnsoundedRuns } from '../sampler/sampling.ts';
import { checkStickUp, standOf } from '../string/stand.ts';
import { takeWaterLevel } from '../water/water-level.ts';
import { addInflow, enteredAt, enteredNow, inflowTotal, type Sediment, settle } from './sediment.ts';

export function takeSounding(hole: OpenHole, reading: SoundingReading): void {
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
        fix: 'Count the joints and their made-up lengths again before the next run.',
      });
    }
  }
  checkZero(hole, reading);
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
      fix: 'Correct the sounding; it is not used.',
    });
    return;
  }
  if (plug < -2 * sigma - 1e-9) {
    find(hole, reading, 'sediment-below-shoe', 'error', {
      found: `sediment ${metres(reading.to_sediment_m)} below the collar, shoe at ${metres(length)}`,
      expected: 'sediment above the shoe',
      fix: 'Correct the sounding or the joints; it is not used.',
    });
    return;
  }
  plug = Math.max(0, plug);
  const change = settings.change_sigmas * Math.sqrt(square(sigma) + square(hole.plugSigma));
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
      fix: 'Taken as inflow and not counted as entered. Keep the string full of water.',
    });
    addInflow(sediment, sediment.plug_m, rise);
  } else if (plug - sediment.plug_m < -change) {
    standOf(hole, reading).plug_change_m = plug - sediment.plug_m;
    find(hole, reading, 'plug-settled', 'note', {
      found: `plug ${metres(sediment.plug_m - plug)} shorter with neither drive nor run`,
      expected: 'a plug that stays as it is',
      fix: 'Taken as settling, even along the plug.',
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

function addPin(hole: OpenHole, reading: SoundingReading, sigma_m: number): void {
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
function soundAfterDrive(hole: OpenHole, reading: SoundingReading, plug: number, sigma: number): void {
  const { sediment, settings } = hole;
  nameUnsoundedRuns(hole, reading);
  if (penetrationOf(hole) === null) {
    // how far the string went is unknown, so nothing can be said of how much should have entered
    sediment.plug_m = plug;
    return;
  }
  const change =
    settings.change_sigmas *
    Math.sqrt(square(sigma) + square(hole.plugSigma) + 2 * square(settings.stick_up_sigma_m));
  const advance = Math.max(0, hole.deepest - hole.plugPenetration);
  const fixed = enteredAt(sediment.inflows, sediment.removed_m);
  const entered = enteredAt(sediment.inflows, sediment.removed_m + plug);
  const gain = entered - hole.enteredLast;
  if (gain < -change) {
    find(hole, reading, 'entered-falling', 'warning', {
      found: `entered length ${metres(entered)} after ${metres(hole.enteredLast)}`,
      expected: 'an entered length that grows with each drive',
      fix: 'Check sounding and joints. Taken as settling of the plug.',
    });
    // the plug before the drive, on the column ruler, shrinks to what is there now
    settle(sediment, hole.enteredLast - fixed + inflowIn(sediment), plug);
  } else if (gain > advance + change) {
    const excess = gain - advance;
    find(hole, reading, 'recovery-over-one', 'warning', {
      found: `${metres(gain)} entered in ${metres(advance)} of driving (recovery ${advance > 0 ? apart(gain / advance, settings.recovery_max) : 'without a drive'})`,
      expected: `a recovery of at most ${settings.recovery_max}`,
      fix: `Taken as ${metres(excess)} of inflow, not counted as entered. Check joints and sounding.`,
    });
    addInflow(sediment, plug - excess, excess);
  } else {
    if (advance > 0 && gain / advance > settings.recovery_max) {
      find(hole, reading, 'recovery-over-one', 'warning', {
        found: `recovery ${apart(gain / advance, settings.recovery_max)} over ${metres(advance)}`,
        expected: `at most ${settings.recovery_max}`,
        fix: 'Check sounding and stick-up; within their errors, so used as read.',
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
function settleRuns(
  hole: OpenHole,
  reading: SoundingReading,
  plug: number,
  sigma: number,
  change: number,
): void {
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
      fix: `Taken as ${metres(inflow)} of inflow, not counted as entered. Lift the sampler slowly; keep the string full.`,
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
          ? Math.sqrt(square(sigma) + square(hole.plugSigma))
          : Math.max(run.removed_sigma_m, settings.cable_mark_sigma_m);
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

/** With the tip level with the collar the tape reads its own error. */
function checkZero(hole: OpenHole, reading: SoundingReading): void {
  const zero = reading.cable_at_collar_m;
  if (zero === null || Math.abs(zero) <= 2 * hole.settings.mark_sigma_m) return;
  find(hole, reading, 'zero-check-off', 'warning', {
    found: `tape reads ${metres(zero, 2 * hole.settings.mark_sigma_m)} with the tip at the collar`,
    expected: `0 within ${metres(2 * hole.settings.mark_sigma_m)}`,
    fix: 'Move the tape before the next run. Marks already read are used as read.',
  });
}

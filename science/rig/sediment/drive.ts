/** A drive: how far, how fast, and with what in the string. */

import { metres } from '../finding.ts';
import {
  find,
  lengthOf,
  nameUnknown,
  type OpenHole,
  penetrationOf,
  type ReducedDrive,
} from '../hole/open-hole.ts';
import type { DriveReading } from '../reading.ts';
import { nameUnsoundedRuns } from '../sampler/sampling.ts';
import { itemName as nameOf } from '../string/account.ts';
import { checkStickUp } from '../string/stand.ts';
import { untight } from '../string/string.ts';
import { paceOf, usualPace } from './pace.ts';
import { enteredNow } from './sediment.ts';

export function takeDrive(hole: OpenHole, reading: DriveReading): void {
  const { string } = hole;
  if (string.items.length === 0) {
    const code = hole.lost ? 'drive-after-loss' : 'drive-without-string';
    find(hole, reading, code, 'error', {
      found: hole.lost ? 'a drive after the string was lost' : 'a drive with nothing in the string',
      expected: hole.lost ? 'a new hole' : 'joints added before it',
      fix: hole.lost
        ? 'Move the reading to the replacement hole. Not used.'
        : 'Add the joints with numbers before this one. Not used.',
    });
    return;
  }
  const loose = untight(string).filter((i) => !hole.warnedTight.has(i));
  if (loose.length > 0) {
    for (const i of loose) hole.warnedTight.add(i);
    find(hole, reading, 'joint-not-tight', 'danger', {
      found: `driven with ${loose.map(nameOf).join(', ')} not confirmed tight`,
      expected: 'every thread confirmed tight before it goes below ground',
      fix: 'Check the threads still above ground. A string that parts below ground cannot be recovered.',
    });
  }
  nameUnsoundedRuns(hole, reading);
  const { stick_up_start_m: start, stick_up_end_m: end } = reading;
  if (start === null || end === null) {
    find(hole, reading, 'stick-up-missing', 'error', {
      found: 'a drive without stick-up before and after',
      expected: 'collar above the reference, before and after',
      fix: 'Enter both; until the next stick-up the penetration is unknown.',
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
      fix: 'Check which stick-up is which; used as a string that rose.',
    });
  }
  if (to_m < 0) {
    find(hole, reading, 'shoe-above-ground', 'warning', {
      found: `shoe ${metres(-to_m)} above the ground after a drive`,
      expected: 'a shoe in the ground',
      fix: 'Check joints, stick-up and ground below reference.',
    });
  }
  const minutes = reading.duration_s !== null && reading.duration_s > 0 ? reading.duration_s / 60 : null;
  const usual = usualPace(hole.drives);
  // after a lift, ground that was open already is no advance
  const { stick_up_tolerance_m } = hole.settings;
  const isRedriven = hole.deepest - from_m > stick_up_tolerance_m;
  const advance = Math.max(0, to_m - (isRedriven ? hole.deepest : from_m));
  // a string that came up was drawn, or its stick-ups are the wrong way round: no rate; a slight rebound is none gained
  const isRaised = from_m - to_m > stick_up_tolerance_m;
  const rate_m_per_min = minutes === null || isRaised ? null : advance / minutes;
  const drive: ReducedDrive = {
    row_id: reading.row_id,
    seq: reading.seq,
    from_m,
    to_m,
    entered_m: null,
    recovery: null,
    rate_m_per_min,
    pace: paceOf(rate_m_per_min, usual),
    usual_m_per_min: usual?.rate_m_per_min ?? null,
    usual_hz: usual?.frequency_hz ?? null,
    usual_of: usual?.drives ?? 0,
    ended_by: reading.ended_by,
    frequency_hz: reading.frequency_hz,
    isLifted: reading.obstruction_response === 'lifted_and_retried',
  };
  if (drive.pace === 'slowing' || drive.pace === 'refusal') nameSlowing(hole, reading, drive);
  hole.drives.push(drive);
  hole.drivesSince.push(drive);
  hole.deepest = Math.max(hole.deepest, to_m, from_m);
}

/** A drive makes the plug unknown until the next sounding; runs not yet sounded keep what their marks say. */
function forgetPlug(hole: OpenHole): void {
  const entered = enteredNow(hole.sediment);
  if (entered !== null) hole.enteredLast = entered;
  hole.sediment.plug_m = null;
  hole.runsSince = [];
  hole.plugBeforeRuns = null;
}

/** What the usual rate is of: one drive is no median. */
const usualOf = (drives: number): string =>
  drives === 1 ? 'the only timed drive before' : `the median of ${drives} drives before`;

function nameSlowing(hole: OpenHole, reading: DriveReading, drive: ReducedDrive): void {
  const { usual_m_per_min: usual, usual_hz, frequency_hz } = drive;
  const speed =
    frequency_hz === null
      ? ''
      : `, vibrator ${frequency_hz} Hz${usual_hz === null ? '' : ` (usually ${usual_hz} Hz)`}`;
  const slowVibrator = frequency_hz !== null && usual_hz !== null && frequency_hz < 0.9 * usual_hz;
  find(hole, reading, 'drive-slowing', 'warning', {
    found: `${drive.rate_m_per_min!.toFixed(2)} m/min (${drive.pace})${speed}`,
    expected:
      usual === null ? 'more than 0.05 m/min' : `about ${usual.toFixed(2)} m/min, ${usualOf(drive.usual_of)}`,
    fix: slowVibrator
      ? 'The vibrator ran slower than usual: look at its engine and hoses before the ground is blamed.'
      : 'Stop the vibrator before the string becomes stuck. Note its frequency and what ended the drive.',
  });
}

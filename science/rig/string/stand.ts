/** The string against where it was left: what it did by itself, and what was misread. */
import { metres } from '../finding.ts';
import { find, type OpenHole, type Stand } from '../hole/open-hole.ts';
import type { DriveReading, RigReading, SoundingReading } from '../reading.ts';

export function standOf(hole: OpenHole, reading: Pick<RigReading, 'row_id' | 'seq'>): Stand {
  const last = hole.stands.at(-1);
  if (last?.row_id === reading.row_id) return last;
  const stand: Stand = { row_id: reading.row_id, seq: reading.seq, rise_m: null, plug_change_m: null };
  hole.stands.push(stand);
  return stand;
}

export function checkStickUp(hole: OpenHole, reading: DriveReading | SoundingReading, stickUp: number): void {
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
  // lifted off an obstruction, it has risen by a hand
  if (step > 0 && hole.drives.at(-1)?.isLifted === true) return;
  find(hole, reading, 'stick-up-jump', 'warning', {
    found: `stick-up ${metres(stickUp)}`,
    expected: `about ${metres(hole.stickUp)} since the last reading`,
    fix:
      step < 0
        ? 'Used: the string sank by itself. Amend the row if it was misread or a joint was not entered.'
        : 'Used: the string rose by itself. Amend the row if it was misread or a joint was entered twice.',
  });
}

/** The string moved while it stood: expected of a night, and used. */
function nameStand(hole: OpenHole, reading: SoundingReading, step: number): void {
  const settled = step < 0;
  find(hole, reading, settled ? 'string-settled' : 'string-rebounded', 'note', {
    found: `collar ${metres(Math.abs(step))} ${settled ? 'lower' : 'higher'} than it was left`,
    expected: 'a string that stands still',
    fix: settled
      ? 'Used: the string settled by itself, and what entered while it settled counts as entered.'
      : 'Used: the string rebounded. Repeat the sounding before the next run.',
  });
}

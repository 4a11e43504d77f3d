/** What stopped the last drive of a hole, as the crew said or as its rate shows, and what was done about it. */
import type { DriveReading, ReducedDrive } from '@stillstand/science/rig';
import type { HoleState } from './state.ts';

export interface StoppedDrive {
  by: 'obstruction' | 'refusal';
  /** Null where nobody has said. */
  response: NonNullable<DriveReading['obstruction_response']> | null;
  /** Penetration where it stopped, m below the ground at the start; null where it is not known. */
  at_m: number | null;
}

/** Null where the last drive went on as it should, or nothing was driven. */
export function stoppedDrive({ readings, fold }: Pick<HoleState, 'readings' | 'fold'>): StoppedDrive | null {
  const drive = readings.findLast((r) => r.kind === 'drive');
  if (drive === undefined) return null;
  const reduced = fold.drives.find((d) => d.row_id === drive.row_id);
  const by = stopOf(drive, reduced);
  if (by === null) return null;
  return { by, response: lastResponse({ readings }), at_m: reduced?.to_m ?? null };
}

/** What the crew said they did after the last drive, however it ended; null where they said nothing. */
export const lastResponse = ({ readings }: Pick<HoleState, 'readings'>): StoppedDrive['response'] =>
  readings.findLast((r) => r.kind === 'drive')?.obstruction_response ?? null;

function stopOf({ ended_by }: DriveReading, reduced: ReducedDrive | undefined): StoppedDrive['by'] | null {
  if (ended_by === 'obstruction' || ended_by === 'refusal') return ended_by;
  return reduced?.pace === 'refusal' ? 'refusal' : null;
}

/** Where to put the tape on the cable, in the crew's units, from the sediment to the stop mark. */
import { type CableMark, cableMarks } from '@stillstand/science/rig';
import type { HoleNow } from './hole-now.ts';
import { saidLength, tapeInterval_m } from './lengths.ts';

export interface Tape extends CableMark {
  /** How it is told apart: "+0.5 m", "+3 ft". */
  label: string;
  /** From the tip of the sampler up the cable, as the tape measures it. */
  said: string;
}

/** Collar to sediment as last sounded, none while a drive or a run has changed it since. */
export function soundedNow(now: HoleNow): number | null {
  const at = now.readings.findLastIndex(
    (r) => r.kind === 'sounding' && r.to_sediment_m !== null && r.purpose !== 'zero_check',
  );
  if (at < 0) return null;
  const after = now.readings.slice(at + 1);
  if (
    after.some(
      (r) => r.kind === 'drive' || r.kind === 'joint' || (r.kind === 'run' && r.row_id !== now.run?.row_id),
    )
  )
    return null;
  const sounding = now.readings[at]!;
  return sounding.kind === 'sounding' ? sounding.to_sediment_m : null;
}

/** The tape of the next run, or of the one in hand; empty where the sediment stands inside the margin or is not sounded. */
export function tapes(now: HoleNow): Tape[] {
  const length = now.fold.collar_to_shoe_m;
  const sediment = soundedNow(now) ?? now.run?.start_mark_m ?? null;
  if (length === null || sediment === null || sediment < 0) return [];
  const interval = tapeInterval_m(now.unit);
  return cableMarks(sediment, length, now.fold.joints_in, interval, now.settings).map((mark, i) => ({
    ...mark,
    label:
      mark.is === 'sediment'
        ? 'sediment'
        : mark.is === 'stop'
          ? 'stop'
          : now.unit === 'ft'
            ? `+${i} ft`
            : `+${(i * interval).toFixed(1)} m`,
    said: saidLength(mark.tip_m, now.unit),
  }));
}

/** Length a sampler may still take before its tip is at the margin; negative where the sediment stands inside it. */
export function roomForRun(now: HoleNow): number | null {
  const length = now.fold.collar_to_shoe_m;
  const sediment = soundedNow(now);
  if (length === null || sediment === null) return null;
  const marks = tapes(now);
  return marks.length === 0
    ? Math.min(0, length - sediment - now.settings.margin_m)
    : marks.at(-1)!.tip_m - sediment;
}

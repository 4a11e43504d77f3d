/** Where to put the tape on the cable, in the crew's units, from the sediment to the stop mark. */

import { betweenLabel, type CableSaid, cableSaid, type HoleState } from '@stillstand/campaign/holes';
import { type CableTape, cableTape, type TapeMark } from '@stillstand/science/rig';
import { saidLength, tapeInterval_m } from './lengths.ts';

export interface Tape {
  /** Tip of the sampler below the collar when this tape passes the collar. */
  tip_m: number;
  is: Exclude<TapeMark['is'], 'zero'>;
  /** "sediment", "+0.5 m", "+3 ft", "full", "stop". */
  label: string;
  /** From the tip of the sampler up the cable, as the tape measures it; never more than it is. */
  said: string;
}

function tapeNow(now: HoleState): CableTape | null {
  const length = now.fold.collar_to_shoe_m;
  const sediment = now.sediment.sounded_m ?? now.run?.start_mark_m ?? null;
  if (length === null || sediment === null || sediment < 0) return null;
  const tape = cableTape({
    to_sediment_m: sediment,
    collar_to_shoe_m: length,
    joints: now.fold.joints_in,
    interval_m: tapeInterval_m(now.units.cable),
    capacity_m: now.sampler?.capacity_m ?? null,
    zero_m: 0,
    settings: now.settings,
  });
  return tape.refused ? null : tape;
}

/** The tape of the next run, or of the one in hand; empty where the sediment stands inside the margin or is not sounded. */
export function tapes(now: HoleState): Tape[] {
  const interval_m = tapeInterval_m(now.units.cable);
  return (tapeNow(now)?.marks ?? []).flatMap(({ is, tip_m, taken_m }): Tape[] => {
    if (is === 'zero') return [];
    const label = is === 'between' ? betweenLabel(taken_m, interval_m) : is;
    // tape too deep by its rounding would let the sampler down too far
    return [{ tip_m, is, label, said: saidLength(tip_m, now.units.cable, 'at most') }];
  });
}

/** Length a sampler may still take before its tip is at the margin; negative where the sediment stands inside it. */
export function roomForRun(now: HoleState): number | null {
  const length = now.fold.collar_to_shoe_m;
  const sediment = now.sediment.sounded_m;
  if (length === null || sediment === null) return null;
  const stop = tapes(now).find((t) => t.is === 'stop');
  return stop === undefined ? Math.min(0, length - sediment - now.settings.margin_m) : stop.tip_m - sediment;
}

/** What was said of the cable for the run in hand, or for the next: marks made, zero checked, water outside read. */
export const cableNow = (now: HoleState): CableSaid =>
  cableSaid(
    now.campaign,
    now.row.hole,
    tapeNow(now)?.marks.find((m) => m.is === 'stop')?.tip_m ?? null,
    now.run?.row_id ?? null,
  );

/**
 * The tape on the cable of the next run: which marks, where, and what they are checked by. `cableMarks` gives the
 * sediment, the marks between and the stop mark; here the sampler's capacity, the tape's own error and the words come in.
 */
import { CAUTIONS } from '../caution.ts';
import type { RigSettings } from '../settings.ts';
import { type CableMark, type Clearance, cableMarks, clearanceOf } from './sampler.ts';

/** What a valve sampler takes in a run, at most: common practice, no source. */
export const USUAL_RUN_M = 1.2;

export interface CableInput {
  to_sediment_m: number;
  collar_to_shoe_m: number;
  joints: number;
  /** Between marks: 1 m or 1 ft as the crew counts. */
  interval_m: number;
  /** Length of sediment the sampler holds; null: about 1.2 m. */
  capacity_m: number | null;
  /**
   * Zero check: what the tape reads at the collar while the tip is level with it, m; 0 is right, positive means that
   * every mark says more than the tip has gone down.
   */
  zero_m: number;
  settings: Pick<RigSettings, 'margin_m' | 'mark_sigma_m' | 'joint_sigma_m'>;
}

export interface TapeMark {
  is: 'zero' | CableMark['is'] | 'full';
  /** Tip below the collar. */
  tip_m: number;
  /** What the tape reads at the collar then: tip + zero. */
  reads_m: number;
  /** Length taken when the tip is here. */
  taken_m: number;
  clearance_m: number;
}

export interface CableTape {
  marks: TapeMark[];
  /** The most this run may take: to the stop mark, or as much as the sampler holds. */
  most_m: number;
  capacity_m: number;
  capacity_assumed: boolean;
  clearance_sigma_m: number;
  /** Larger of the set margin and 2 sigma of the clearance. */
  margin_m: number;
  /** The tape is off by more than 2 sigma of a mark: fix it before the run. */
  zero_off: boolean;
  /** Sediment stands inside the margin: nothing may be taken before the string is driven on. */
  refused: boolean;
  caution: string;
}

/** Where to put the tape. From the tip up: zero, sediment, each interval, full, stop. */
export function cableTape(input: CableInput): CableTape {
  const { to_sediment_m, collar_to_shoe_m, joints, interval_m, zero_m, settings } = input;
  const capacity_m = input.capacity_m ?? USUAL_RUN_M;
  const at = (tip_m: number): Clearance => clearanceOf(tip_m, collar_to_shoe_m, joints, settings);
  const mark = (is: TapeMark['is'], tip_m: number): TapeMark => ({
    is,
    tip_m,
    reads_m: tip_m + zero_m,
    taken_m: Math.max(0, tip_m - to_sediment_m),
    clearance_m: collar_to_shoe_m - tip_m,
  });
  const placed = cableMarks(to_sediment_m, collar_to_shoe_m, joints, interval_m, settings);
  const stop = placed.at(-1)?.tip_m ?? null;
  const full = to_sediment_m + capacity_m;
  const marks = placed.map((m) => mark(m.is, m.tip_m));
  if (stop !== null && full < stop - 1e-9) {
    const before = marks.findIndex((m) => m.tip_m >= full - 1e-9);
    marks.splice(before, 0, mark('full', full));
  }
  const { sigma_m, margin_m } = at(to_sediment_m);
  return {
    marks: [mark('zero', 0), ...marks],
    most_m: stop === null ? 0 : Math.min(stop - to_sediment_m, capacity_m),
    capacity_m,
    capacity_assumed: input.capacity_m === null,
    clearance_sigma_m: sigma_m,
    margin_m,
    zero_off: Math.abs(zero_m) > 2 * settings.mark_sigma_m,
    refused: stop === null,
    caution: CAUTIONS.cable,
  };
}

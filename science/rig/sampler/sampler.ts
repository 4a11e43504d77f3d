/** The sampler on its cable: how far its tip is from the shoe, and where to put the tape on the cable. */
import { square } from '@stillstand/science/base';
import type { RigSettings } from '../settings.ts';

export interface Clearance {
  /** Tip above the shoe, m; negative past it. */
  clearance_m: number;
  /** 1 sigma: cable mark and joints. */
  sigma_m: number;
  /** The margin that holds: the set one, or 2 sigma of the clearance where that is more. */
  margin_m: number;
  verdict: 'clear' | 'near stop' | 'stop' | 'past shoe';
}

/**
 * Clearance of a tip `tip_m` below the collar. *Past shoe* below 0 (the sampler sticks, and the whole string must come
 * out to free it), *stop* below the margin, *near stop* below twice the margin.
 */
export function clearanceOf(
  tip_m: number,
  collar_to_shoe_m: number,
  joints: number,
  settings: Pick<RigSettings, 'margin_m' | 'mark_sigma_m' | 'joint_sigma_m'>,
): Clearance {
  const clearance_m = collar_to_shoe_m - tip_m;
  const sigma_m = Math.sqrt(square(settings.mark_sigma_m) + joints * square(settings.joint_sigma_m));
  const margin_m = Math.max(settings.margin_m, 2 * sigma_m);
  const verdict =
    clearance_m < 0
      ? 'past shoe'
      : clearance_m < margin_m
        ? 'stop'
        : clearance_m < 2 * margin_m
          ? 'near stop'
          : 'clear';
  return { clearance_m, sigma_m, margin_m, verdict };
}

export interface CableMark {
  /** Tip below the collar, m: the tape goes on the cable where it passes the collar then. */
  tip_m: number;
  is: 'sediment' | 'between' | 'stop';
}

/**
 * Marks from the top of the sediment to the stop mark at the margin, one each `interval_m` down from the sediment
 * (1 m or 1 ft). Empty where the sediment already stands inside the margin: there is nothing a sampler may take.
 */
export function cableMarks(
  to_sediment_m: number,
  collar_to_shoe_m: number,
  joints: number,
  interval_m: number,
  settings: Pick<RigSettings, 'margin_m' | 'mark_sigma_m' | 'joint_sigma_m'>,
): CableMark[] {
  if (!(interval_m > 0)) throw new RangeError(`interval_m ${interval_m}: expected more than 0`);
  const stop = collar_to_shoe_m - clearanceOf(to_sediment_m, collar_to_shoe_m, joints, settings).margin_m;
  if (!(to_sediment_m < stop)) return [];
  return marksBetween(to_sediment_m, stop, interval_m);
}

/** The same where the stop mark is known. `interval_m` above 0. */
export function marksBetween(to_sediment_m: number, stop_m: number, interval_m: number): CableMark[] {
  const marks: CableMark[] = [{ tip_m: to_sediment_m, is: 'sediment' }];
  for (let i = 1; to_sediment_m + i * interval_m < stop_m - 1e-9; i++) {
    marks.push({ tip_m: to_sediment_m + i * interval_m, is: 'between' });
  }
  marks.push({ tip_m: stop_m, is: 'stop' });
  return marks;
}

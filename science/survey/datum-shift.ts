/** The step between two zeros of heights: height in `to` = height in `from` + shift. Metres, 1 sigma. */
import { square } from '@stillstand/science/base';

export interface DatumShift {
  row_id: string;
  from: string;
  to: string;
  shift_m: number;
  sigma_m: number;
}

/** What to add, its 1 sigma, and the steps it is made of: points that use the same steps share their error. */
export interface ShiftPath {
  shift_m: number;
  sigma_m: number;
  row_ids: string[];
}

/**
 * The shift between two datums along the fewest steps, each usable in both directions; among equally few, those
 * listed first. Null where no steps join them. Errors of the steps are taken as independent.
 */
export function shiftBetween(shifts: readonly DatumShift[], from: string, to: string): ShiftPath | null {
  const found = new Map<string, ShiftPath>([[from, { shift_m: 0, sigma_m: 0, row_ids: [] }]]);
  const queue = [from];
  for (let i = 0; i < queue.length; i++) {
    const here = queue[i]!;
    const path = found.get(here)!;
    if (here === to) return path;
    for (const step of shifts) {
      const forward = step.from === here;
      if (!forward && step.to !== here) continue;
      const there = forward ? step.to : step.from;
      if (found.has(there)) continue;
      found.set(there, {
        shift_m: path.shift_m + (forward ? step.shift_m : -step.shift_m),
        sigma_m: Math.sqrt(square(path.sigma_m) + square(step.sigma_m)),
        row_ids: [...path.row_ids, step.row_id],
      });
      queue.push(there);
    }
  }
  return null;
}

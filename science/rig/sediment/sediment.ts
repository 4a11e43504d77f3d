/**
 * The sediment in the string and out of it. Two rulers run down everything that ever came up the pipe, 0 at the first
 * grain: the *column* (what is in the plug plus what was removed, inflow included) and the *entered* ruler, the column
 * with the inflow taken out. At every moment plug + removed = entered + inflow.
 *
 * Inflow joins at the bottom of the plug. A plug that shrinks by itself shrinks evenly: pins and inflow still inside it
 * move with it, what was removed before stays.
 */
import { square } from '@stillstand/science/base';

/** Sand that came in by itself, on the column ruler. */
export interface Inflow {
  top_m: number;
  bottom_m: number;
}

/**
 * What depth registration is made from, in order. A pin is a measured entered length at a penetration, `sigma_m` its
 * own error; a run moves the ruler: after it, entered lengths carry the error of what it was said to remove.
 */
export type Registration =
  | {
      kind: 'pin';
      row_id: string;
      penetration_m: number;
      entered_m: number;
      sigma_m: number;
      place_sigma_m: number;
    }
  | {
      kind: 'run';
      row_id: string;
      /** All that was removed so far, on the entered ruler. */
      entered_bottom_m: number;
      /** Soundings: error of the sounding after it. Otherwise: error of the length removed. */
      sigma_m: number;
      from: 'soundings' | 'advance' | 'recovered';
    };

export interface Sediment {
  plug_m: number | null;
  removed_m: number;
  inflows: Inflow[];
  registration: Registration[];
}

export const noSediment = (): Sediment => ({ plug_m: 0, removed_m: 0, inflows: [], registration: [] });

/** Place on the entered ruler of a place on the column ruler. */
export function enteredAt(inflows: readonly Inflow[], column_m: number): number {
  let entered = column_m;
  for (const f of inflows) entered -= Math.max(0, Math.min(column_m, f.bottom_m) - f.top_m);
  return entered;
}

export const inflowTotal = (s: Sediment): number =>
  s.inflows.reduce((sum, f) => sum + f.bottom_m - f.top_m, 0);

/** Entered length now; null while the plug is unknown. */
export function enteredNow(s: Sediment): number | null {
  return s.plug_m === null ? null : enteredAt(s.inflows, s.removed_m + s.plug_m);
}

/** Adds inflow at the bottom of a plug of length `plug_m`, which grows by it. */
export function addInflow(s: Sediment, plug_m: number, inflow_m: number): void {
  const bottom = s.removed_m + plug_m;
  s.inflows.push({ top_m: bottom, bottom_m: bottom + inflow_m });
  s.plug_m = plug_m + inflow_m;
}

/** The plug shrinks by itself from `from_m` to `to_m`. */
export function settle(s: Sediment, from_m: number, to_m: number): void {
  const f = from_m > 0 ? to_m / from_m : 1;
  const column = (x: number) => (x > s.removed_m ? s.removed_m + (x - s.removed_m) * f : x);
  const fixed = enteredAt(s.inflows, s.removed_m);
  for (const r of s.registration) {
    if (r.kind === 'pin' && r.entered_m > fixed) r.entered_m = fixed + (r.entered_m - fixed) * f;
  }
  for (const i of s.inflows) {
    i.top_m = column(i.top_m);
    i.bottom_m = column(i.bottom_m);
  }
  s.plug_m = to_m;
}

/**
 * 1 sigma of each pin's entered length, errors of runs before it included. The error of a pin is that of its own
 * sounding, of where the shoe is, and of all removed so far; a run measured by soundings replaces the last of these by itself
 * plus the error of the last pin's sounding plus that of the sounding after the run (see docs/methods/rig.md).
 */
export function pinSigmas(registration: readonly Registration[]): number[] {
  let removed = 0;
  let last = 0;
  const sigmas: number[] = [];
  for (const r of registration) {
    if (r.kind === 'pin') {
      last = removed + square(r.sigma_m);
      sigmas.push(Math.sqrt(last + square(r.place_sigma_m)));
    } else {
      removed = (r.from === 'soundings' ? last : removed) + square(r.sigma_m);
    }
  }
  return sigmas;
}

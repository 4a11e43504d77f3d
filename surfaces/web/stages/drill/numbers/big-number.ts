/** A number of the screen with its ± (2 sd) and the sum that made it; one nobody can know yet says what to read. */
import type { Basis, HoleState } from '@stillstand/campaign/holes';
import type { Side } from '@stillstand/science/base';
import { m2Least, saidLength } from '../tape/lengths.ts';

type Level = 'normal' | 'caution' | 'danger';

export interface BigNumber {
  name: string;
  /** Null where it is not known. */
  value: string | null;
  unit: string;
  /** 2 sd, with the decimals of the value. */
  spread: string | null;
  /** The sum that made it, or what to read so that it can be known. */
  sum: string;
  level: Level;
  /** Of the state, beside its shape; empty when normal. */
  word: string;
  /** What to do about it, or the distance left. */
  say: string;
  /** The number in the crew's own unit, where that is feet. */
  crew: string | null;
  /** What it rests on that was not measured, and the form that says otherwise. */
  basis: { form: 'waters' | 'gear'; of: readonly Basis[] } | null;
}

export const unknown = (name: string, unit: string, sum: string): BigNumber => ({
  name,
  value: null,
  unit,
  spread: null,
  sum,
  level: 'normal',
  word: '',
  say: '',
  crew: null,
  basis: null,
});

export const known = (
  name: string,
  value: string,
  unit: string,
  spread: string | null,
  sum: string,
): BigNumber => ({
  ...unknown(name, unit, sum),
  value,
  spread,
});

/** 1 sigma of collar to shoe: joints err independently. */
export const stringSigma = (now: HoleState): number =>
  Math.sqrt(now.fold.joints_in) * now.settings.joint_sigma_m;

/** 2 sd in words, from 1 sigma, m; never less than a centimetre. */
export const spread2 = (sigma: number): string => m2Least(Math.max(0.01, 2 * sigma));

/** The length in the crew's feet, where that is what their tape has. */
export const inFeet = (m: number, now: HoleState, side: Side = 'nearest'): string | null =>
  now.units.tape === 'ft' ? saidLength(m, 'ft', side) : null;

/** A number of the screen with its ± (2 sd) and the sum that made it; one nobody can know yet says what to read. */

import {
  ageText,
  type Basis,
  type HoleAges,
  type HoleState,
  type ReadingAge,
} from '@stillstand/campaign/holes';
import { clockOf, dateOf } from '@stillstand/campaign/tables';
import type { Side } from '@stillstand/science/base';
import { t } from '../../../language/index.ts';
import { m2, m2Least, saidLength } from '../tape/lengths.ts';

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
  /** There is nothing yet that could be read: its words stand alone. */
  isEmpty: boolean;
  /** "6 h 59 min old": of a reading that has lost weight, and is shown lighter; null while it is fresh. */
  age: string | null;
  /** At its right, of the same reading: the rate of the drive with the shoe. */
  also: { value: string; unit: string; level: Level } | null;
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
  isEmpty: false,
  age: null,
  also: null,
  basis: null,
});

/** Nothing is in the hole that could be measured. */
export const empty = (name: string, words: string): BigNumber => ({
  ...unknown(name, '', words),
  isEmpty: true,
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

/** The moment the numbers are looked at: how old what they rest on is, and how far the sea has risen since. */
export interface Moment {
  ages: HoleAges;
  /** Today, `2024-03-05`. */
  day: string;
  /** Of the sea by its tide since the water outside was read, m; null where no tide is known. */
  rise_m: number | null;
}

/** A number that rests on a reading of that age: lighter, with its age, once it is old. */
export const aged = (n: BigNumber, age: ReadingAge | null): BigNumber =>
  age === null || age.weight === 'fresh' || n.value === null
    ? n
    : { ...n, age: age.age_min === null ? t`time not known` : t`${ageText(age.age_min)} old` };

/** "at 13:58", "at 17:20 on 2024-03-04": when it was read; empty without a time. */
export function whenWords(age: ReadingAge, day: string): string {
  const [date, clock] = [dateOf(age.time), clockOf(age.time)];
  if (clock === '') return '';
  return date === day || date === null ? t`at ${clock}` : t`at ${clock} on ${date}`;
}

/** Why a number that was read is not known any more, with what it was: "2.10 m at 13:58, before this drive". */
export function lastRead(value: string, age: ReadingAge, day: string): string {
  const since = {
    drive: t`before this drive`,
    run: t`before this run`,
    string: t`before the string was changed`,
  };
  const why = age.moved_by === null ? t`${ageText(age.age_min ?? 0)} ago` : since[age.moved_by];
  return `${`${value} ${whenWords(age, day)}`.trim()}, ${why}`;
}

/**
 * Lengths of a sum to the centimetre; to the millimetre where the rounded ones would not add up to what is shown. Each
 * with its sign, the first a plus.
 */
export function summed(parts: readonly number[], shown: string): (m: number) => string {
  const cm = (m: number): number => Math.round(100 * m);
  const adds = parts.reduce((sum, part) => sum + Math.sign(part) * cm(Math.abs(part)), 0);
  const isRight = adds === cm(Number(shown.replace('−', '-')));
  return isRight ? m2 : (m) => `${m < 0 ? '−' : ''}${Math.abs(m).toFixed(3)}`;
}

/** 1 sigma of collar to shoe: joints err independently. */
export const stringSigma = (now: HoleState): number =>
  Math.sqrt(now.fold.joints_in) * now.settings.joint_sigma_m;

/** 2 sd in words, from 1 sigma, m; never less than a centimetre. */
export const spread2 = (sigma: number): string => m2Least(Math.max(0.01, 2 * sigma));

/** The length in the crew's feet, where that is what their tape has. */
export const inFeet = (m: number, now: HoleState, side: Side = 'nearest'): string | null =>
  now.units.tape === 'ft' ? saidLength(m, 'ft', side) : null;

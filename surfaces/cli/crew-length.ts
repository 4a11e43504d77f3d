/** Lengths as a crew types and reads them. */
import { type LengthUnit, parseLength } from '@stillstand/campaign/tables';
import { FOOT_M, INCH_M } from '@stillstand/science/base';
import { type Words, WrongUse } from './command.ts';

export type CrewUnit = 'm' | 'ft';

/** The same, never more than it is: a stop mark is not rounded past the margin. */
export function sayNoMore(m: number, unit: CrewUnit): string {
  const step = unit === 'm' ? 0.01 : INCH_M / 4;
  return sayLength(Math.floor(m / step + 1e-6) * step, unit);
}

/** "3.05 m", or feet and inches to the quarter inch, as a tape is read. */
export function sayLength(m: number, unit: CrewUnit): string {
  const sign = m < 0 ? '−' : '';
  const size = Math.abs(m);
  if (unit === 'm') return size < 0.005 ? '0.00 m' : `${sign}${size.toFixed(2)} m`;
  const quarters = Math.round((size / INCH_M) * 4);
  const feet = Math.floor(quarters / 48);
  const inches = Math.floor((quarters % 48) / 4);
  const fraction = ['', ' 1/4', ' 1/2', ' 3/4'][quarters % 4]!;
  if (quarters === 0) return '0 in';
  return `${sign}${feet === 0 ? '' : `${feet} ft `}${inches}${fraction} in`;
}

/** Between marks on the cable: a metre or a foot. */
export const markInterval_m = (unit: CrewUnit): number => (unit === 'ft' ? FOOT_M : 1);

/** A length of an option in metres, as typed: "6.10 m", "20 ft 3 in"; a bare number is in the crew's unit. */
export function lengthWord(words: Words, option: string, unit: CrewUnit): number | null {
  const typed = words.text(option);
  if (typed === undefined) return null;
  const read = parseLength(typed, { unit });
  if (!read.ok) throw new WrongUse(`--${option}: found “${typed}”, expected ${read.expected}`);
  return read.metres;
}

export function unitWord(words: Words): CrewUnit | null {
  const typed = words.text('unit');
  if (typed === undefined) return null;
  if (typed !== 'm' && typed !== 'ft') throw new WrongUse(`--unit: found “${typed}”, expected m or ft`);
  return typed;
}

/** The unit the crew writes in the first of these options that states one; null where none does. */
export function typedUnit(words: Words, options: readonly string[]): CrewUnit | null {
  for (const option of options) {
    const read = parseLength(words.text(option) ?? '');
    if (read.ok) return isFeet(read.unit) ? 'ft' : 'm';
  }
  return null;
}

export const isFeet = (unit: LengthUnit): boolean => unit === 'ft' || unit === 'in';

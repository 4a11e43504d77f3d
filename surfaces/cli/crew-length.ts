/** Lengths as a crew types and reads them. */
import { type LengthUnit, parseLength } from '@stillstand/campaign/tables';
import { FOOT_M, type Side, tapeLength } from '@stillstand/science/base';
import { type Words, WrongUse } from './command.ts';

export type CrewUnit = 'm' | 'ft';

/** "3.05 m", or feet and inches to the quarter inch, as a tape is read; a limit is rounded to its safe side. */
export const sayLength = (m: number, unit: CrewUnit, side: Side = 'nearest'): string =>
  tapeLength(m, unit, side);

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

const isFeet = (unit: LengthUnit): boolean => unit === 'ft' || unit === 'in';

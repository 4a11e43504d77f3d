/** Lengths as the crew reads them off its tape, and rounded to the safe side where they are a limit. */
import type { CrewUnit } from '@stillstand/campaign/holes';
import { atLeast, atMost, FOOT_M, type Side, tapeLength } from '@stillstand/science/base';

const MINUS = '−';

/** Metres with two decimals and a true minus; never "−0.00". */
export function m2(m: number): string {
  const digits = Math.abs(m).toFixed(2);
  return (m < 0 && digits !== '0.00' ? MINUS : '') + digits;
}

/** The same, never more than it is: a clearance, room for a run, what holds the sediment down. */
export const m2Most = (m: number): string => m2(atMost(m, 2));

/** The same, never less than it is: a margin, a ±, pipe left in the ground, how low the water is. */
export const m2Least = (m: number): string => m2(atLeast(m, 2));

/** Its sign always shown. */
export const signed = (words: string): string =>
  /[1-9]/.test(words) && !words.startsWith(MINUS) ? `+${words}` : words;

/**
 * A length as it would be typed, fit for a cell: metres to the centimetre, or feet and inches to the quarter inch, as
 * a tape is read.
 */
export const typedLength = (m: number, unit: CrewUnit): string => tapeLength(m, unit).replace(MINUS, '-');

/** The same for reading, with a true minus; a limit is rounded to its safe side. */
export const saidLength = (m: number, unit: CrewUnit, side: Side = 'nearest'): string =>
  tapeLength(m, unit, side);

/** Tape on the cable: each metre and half metre, or each foot. */
export const tapeInterval_m = (unit: CrewUnit): number => (unit === 'ft' ? FOOT_M : 0.5);

/** As typed, and blank for a length that is not known. */
export const typedIfKnown = (m: number | null | undefined, unit: CrewUnit): string =>
  m == null ? '' : typedLength(m, unit);

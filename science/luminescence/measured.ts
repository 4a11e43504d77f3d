/** A measured number with its error in two parts: its own, and what other samples measured together share. */
import { inQuadrature } from '@stillstand/science/base';
import type { Finding } from '@stillstand/science/dating';

export interface Measured {
  value: number;
  /** 1 sigma of its own. */
  random: number;
  /** 1 sigma of what it shares with others: a calibrated source, a standard, a table of factors. */
  systematic: number;
}

/** A part computed from percent may be above the whole in its last digits. */
const ROUNDING = 1e-9;

export const exactly = (value: number): Measured => ({ value, random: 0, systematic: 0 });

export const errorOf = ({ random, systematic }: Measured): number => inQuadrature(random, systematic);

/**
 * A value, its whole error and how much of it is shared, 1 sigma each. A `Finding` where the shared part is more than the
 * whole, or anything is no number or below 0.
 */
export function measured(of: string, value: number, error: number, systematic: number): Measured | Finding {
  const found = `${value} ± ${error}, ${systematic} shared`;
  if (!(Number.isFinite(value) && error >= 0 && systematic >= 0 && error < Infinity && systematic < Infinity))
    return { of, found, expected: 'numbers, and errors of 0 or more', fix: 'Correct the numbers.' };
  if (systematic > error * (1 + ROUNDING))
    return {
      of,
      found,
      expected: `a shared part of at most the whole error, ${error}`,
      fix: 'State the whole error, the shared part included, or correct the part.',
    };
  return { value, random: Math.sqrt(Math.max(0, (error - systematic) * (error + systematic))), systematic };
}

export const isFinding = (made: Measured | Finding): made is Finding => 'found' in made;

/**
 * Unsupported lead-210 of each cell: at its best value, and drawn with all its errors. What slices share (a supported
 * activity, the half-life) is one draw for all of them.
 */
import { exp, log, type RandomStream, square } from '@stillstand/science/base';
import { type Estimate, estimateOf } from './age-estimate.ts';
import type { Cell, Column } from './column.ts';
import type { LeadSettings, LeadSlice } from './profile.ts';
import { type Supported, spread } from './supported.ts';

export interface Reading {
  /** Decay constant, 1/yr. */
  lambda: number;
  /** Unsupported lead-210 of each cell, Bq/kg; below 0 where the counts are so. */
  excess: Float64Array;
}

/** At best value, and drawn: draw k of everything belongs together. */
export interface Drawn<T> {
  best: T;
  draws: readonly T[];
}

export const mapDrawn = <A, B>({ best, draws }: Drawn<A>, of: (value: A) => B): Drawn<B> => ({
  best: of(best),
  draws: draws.map(of),
});

/** A number of a drawn thing as an estimate. */
export const drawn = <T>({ best, draws }: Drawn<T>, of: (value: T) => number): Estimate | null =>
  estimateOf(of(best), Float64Array.from(draws, of));

/** Errors to draw: a normal deviate, and one even on 0–1. At best value 0 and ½. */
export interface Errors {
  normal: () => number;
  even: () => number;
}

export const NO_ERRORS: Errors = { normal: () => 0, even: () => 0.5 };
export const errorsOf = (stream: RandomStream): Errors => ({ normal: stream.normal, even: stream.uniform });

/** A surface that was not measured is like the slice below it, within 30 % (1 sigma; our choice). */
const SURFACE = 0.3;

export function reading(
  slices: readonly LeadSlice[],
  { cells }: Column,
  supported: Supported,
  { half_life_yr }: Pick<LeadSettings, 'half_life_yr'>,
  errors: Errors,
): Reading {
  const lambda = Math.LN2 / (half_life_yr.value + half_life_yr.sigma * errors.normal());
  const totals = slices.map(({ total }) => {
    if (total === null) return NaN;
    if (total.is_limit) return total.bq_kg * errors.even();
    return total.bq_kg + total.sigma_bq_kg * errors.normal();
  });
  const supports = supportOf(slices, totals, supported, errors);
  const excess = slices.map(({ total }, i) => {
    if (!total?.is_limit) return totals[i]! - supports[i]!;
    // Anywhere from none to all that the limit leaves.
    return totals[i]! * Math.max(0, 1 - supports[i]! / total.bq_kg);
  });
  return { lambda, excess: Float64Array.from(cells, (cell) => excessOf(cell, excess, errors)) };
}

function excessOf({ slice, lead, share }: Cell, excess: readonly number[], errors: Errors): number {
  const [a, b] = lead.map((i) => excess[i]!) as [number, number?];
  if (b === undefined) return slice === lead[0] ? a : a * (1 + SURFACE * errors.normal());
  const between = a > 0 && b > 0 ? exp(log(a) + share * (log(b) - log(a))) : a + share * (b - a);
  // As uncertain as a value that may lie anywhere between the two.
  return between + (Math.abs(a - b) / Math.sqrt(12)) * errors.normal();
}

/** Supported activity of each slice, Bq/kg. */
function supportOf(
  slices: readonly LeadSlice[],
  totals: readonly number[],
  { from, bq_kg, sigma_bq_kg, tail }: Supported,
  errors: Errors,
): number[] {
  if (from === 'each_slice') {
    const own = slices.map(({ supported }) => {
      if (supported === null) return null;
      return supported.is_limit
        ? supported.bq_kg * errors.even()
        : supported.bq_kg + supported.sigma_bq_kg * errors.normal();
    });
    const known = own.filter((value) => value !== null);
    const mean = known.reduce((sum, value) => sum + value, 0) / known.length;
    return own.map((value) => value ?? mean);
  }
  if (from === 'stated') {
    const shared = bq_kg + sigma_bq_kg * errors.normal();
    return slices.map(() => shared);
  }
  // The mean of the tail as it was drawn: its slices and the excess above it share these errors.
  let weights = 0;
  let sum = 0;
  for (const i of tail) {
    const weight = 1 / square(spread(slices[i]!.total!));
    weights += weight;
    sum += weight * totals[i]!;
  }
  const scatter = Math.sqrt(Math.max(0, square(sigma_bq_kg) - 1 / weights));
  const shared = sum / weights + scatter * errors.normal();
  return slices.map(() => shared);
}

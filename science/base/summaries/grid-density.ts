/** Densities on an even grid: moments, highest-density sets, sampling. Value i stands for the cell of one step centred
 * on `from + i·step`; nothing need be normalised. */

import { square } from '../functions/powers.ts';
import { highestDensityLevel } from './highest-density.ts';

export interface GridDensity {
  /** Place of the first value. */
  from: number;
  /** > 0, same unit. */
  step: number;
  /** ≥ 0. */
  density: Float64Array;
}

/** Mean and sd of the values at their grid points; median linear within the cell it falls in. NaN without mass. */
export function gridMoments(d: GridDensity): { mean: number; sd: number; median: number } {
  const p = d.density;
  let total = 0;
  let first = 0;
  for (let i = 0; i < p.length; i++) {
    total += p[i]!;
    first += p[i]! * i;
  }
  const centre = first / total;
  let second = 0;
  for (let i = 0; i < p.length; i++) second += p[i]! * square(i - centre);
  return {
    mean: d.from + d.step * centre,
    sd: d.step * Math.sqrt(second / total),
    median: d.from + d.step * cellQuantile(p, total, 0.5),
  };
}

/** Place, in steps from the first grid point, that has the share p of the mass below it. */
function cellQuantile(density: Float64Array, total: number, p: number): number {
  const wanted = p * total;
  let below = 0;
  for (let i = 0; i < density.length; i++) {
    const mass = density[i]!;
    if (below + mass >= wanted && mass > 0) return i - 0.5 + (wanted - below) / mass;
    below += mass;
  }
  return NaN;
}

/**
 * The smallest set of grid points that holds `mass` (0 … 1) of the density, as runs from low to high: first and last
 * grid point of each, and its share of the whole mass. Points of equal density go in together. Empty without mass.
 */
export function highestDensitySets(
  d: GridDensity,
  mass: number,
): { low: number; high: number; probability: number }[] {
  const p = d.density;
  let total = 0;
  for (let i = 0; i < p.length; i++) total += p[i]!;
  if (!(total > 0 && total < Infinity)) return [];
  // Rounding must not ask for more than there is.
  const level = highestDensityLevel(p, 0, p.length, mass * total * (1 - 1e-13));
  const sets: { low: number; high: number; probability: number }[] = [];
  let start = -1;
  let sum = 0;
  for (let i = 0; i <= p.length; i++) {
    const inside = i < p.length && p[i]! >= level && p[i]! > 0;
    if (inside) {
      if (start < 0) start = i;
      sum += p[i]!;
    } else if (start >= 0) {
      sets.push({ low: d.from + d.step * start, high: d.from + d.step * (i - 1), probability: sum / total });
      start = -1;
      sum = 0;
    }
  }
  return sets;
}

/** The inverse of the cumulative distribution: u in (0, 1) to a place, even within each cell.
 * @throws RangeError where there is no mass. */
export function sampleGrid(d: GridDensity): (u: number) => number {
  const n = d.density.length;
  const cumulative = new Float64Array(n + 1);
  for (let i = 0; i < n; i++) cumulative[i + 1] = cumulative[i]! + d.density[i]!;
  const total = cumulative[n]!;
  if (!(total > 0 && total < Infinity)) {
    throw new RangeError(`sampleGrid: ${n} values that sum to ${total}; expected a finite sum above 0`);
  }
  return (u) => {
    const wanted = u * total;
    // First cell whose end lies beyond the wanted mass; cells without mass are never chosen.
    let low = 0;
    let high = n - 1;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (cumulative[middle + 1]! > wanted) high = middle;
      else low = middle + 1;
    }
    const mass = d.density[low]!;
    const within = mass > 0 ? (wanted - cumulative[low]!) / mass : 0.5;
    return d.from + d.step * (low - 0.5 + within);
  };
}

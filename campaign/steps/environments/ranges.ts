/** Draws as they are said. */
import { quantiles, type Range } from '@stillstand/science/base';

/** Of the draws that are numbers; null where none is finite at its middle. */
export function rangeOf(draws: Float64Array): Range | null {
  const known = draws.filter((draw) => !Number.isNaN(draw));
  if (known.length === 0) return null;
  const [lower95, median, upper95] = quantiles(known, [0.025, 0.5, 0.975]) as [number, number, number];
  return [lower95, median, upper95].every(Number.isFinite) ? { median, lower95, upper95 } : null;
}

export const shareOf = (draws: Float64Array, is: (draw: number) => boolean): number =>
  draws.reduce((sum, draw) => sum + (is(draw) ? 1 : 0), 0) / draws.length;

/** A best value with what its draws say. */
import { quantiles } from '@stillstand/science/base';

export interface Estimate {
  value: number;
  /** Half the central 68.27 % of the draws. */
  sigma: number;
  lower95: number;
  upper95: number;
}

/**
 * Null where it is not bounded: the best value is not finite, or more than 2.5 % of the draws are not, so that the
 * central 95 % has no end.
 */
export function estimateOf(value: number, draws: Float64Array): Estimate | null {
  if (!Number.isFinite(value)) return null;
  const asOrdered = draws.map((draw) => (Number.isNaN(draw) ? Infinity : draw));
  const [lower95, low, high, upper95] = quantiles(asOrdered, [0.025, 0.15865, 0.84135, 0.975]) as [
    number,
    number,
    number,
    number,
  ];
  if (!Number.isFinite(upper95)) return null;
  return { value, sigma: (high - low) / 2, lower95, upper95 };
}

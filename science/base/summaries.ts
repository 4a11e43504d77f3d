/** Mean, spread and quantiles of a list of numbers. */
import { square } from './powers.ts';

/** NaN for none. */
export function mean(x: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < x.length; i++) sum += x[i]!;
  return sum / x.length;
}

/** With n − 1; two passes, so that a large mean costs no digits. NaN for fewer than two. */
export function standardDeviation(x: ArrayLike<number>): number {
  if (x.length < 2) return NaN;
  const m = mean(x);
  let squares = 0;
  for (let i = 0; i < x.length; i++) squares += square(x[i]! - m);
  return Math.sqrt(squares / (x.length - 1));
}

/** Quantile p (0 … 1) of ascending numbers, linear between order statistics: type 7 of Hyndman & Fan 1996, Am. Stat.
 * 50:361–365. NaN for none. */
export function quantileSorted(sorted: Float64Array, p: number): number {
  const place = (sorted.length - 1) * Math.min(1, Math.max(0, p));
  const below = Math.floor(place);
  const low = sorted[below] ?? NaN;
  const high = sorted[below + 1] ?? low;
  return low === high ? low : low + (high - low) * (place - below);
}

/** Quantiles of unordered numbers, in the order asked for. */
export function quantiles(x: ArrayLike<number>, ps: readonly number[]): number[] {
  const sorted = Float64Array.from(x).sort();
  return ps.map((p) => quantileSorted(sorted, p));
}

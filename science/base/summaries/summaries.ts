/** Mean and spread of a list of numbers. */
import { square } from '../functions/powers.ts';

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

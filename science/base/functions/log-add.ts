/** Adds up numbers that are known by their logarithms, so that none is lost however small. */
import { exp, log1p } from './elementary.ts';

/** log(e^a + e^b); −∞ is nothing. */
export function logAdd(a: number, b: number): number {
  const [high, low] = a > b ? [a, b] : [b, a];
  return low === -Infinity ? high : high + log1p(exp(low - high));
}

/** Weights of draws, and which of them go on. */
import { exp, square } from '@stillstand/science/base';

/**
 * Log weights to probabilities; gives their effective number. Weights that are all lost count as even, one that is lost
 * as none.
 */
export function probabilities(weight: Float64Array, into: Float64Array): number {
  const n = weight.length;
  let most = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < n; i++) if (weight[i]! > most) most = weight[i]!;
  let sum = 0;
  for (let i = 0; i < n; i++) {
    const w = Number.isFinite(most) && weight[i]! <= most ? exp(weight[i]! - most) : 0;
    into[i] = w;
    sum += w;
  }
  if (sum === 0) {
    into.fill(1 / n);
    return 0;
  }
  let squares = 0;
  for (let i = 0; i < n; i++) {
    into[i] = into[i]! / sum;
    squares += square(into[i]!);
  }
  return 1 / squares;
}

/** Systematic resampling: which draw each slot is to hold. One that goes on keeps its slot, the others are copied over. */
export function offspring(probability: Float64Array, slots: Int32Array, copies: Int32Array, u: number): void {
  const n = probability.length;
  let cumulative = 0;
  let taken = 0;
  let waiting = 0;
  for (let j = 0; j < n; j++) {
    cumulative += probability[j]!;
    slots[j] = -1;
    while (taken < n && (taken + u < cumulative * n || j === n - 1)) {
      if (slots[j] === j) copies[waiting++] = j;
      slots[j] = j;
      taken++;
    }
  }
  for (let i = 0, c = 0; i < n; i++) if (slots[i]! < 0) slots[i] = copies[c++]!;
}

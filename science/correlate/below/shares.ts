import { exp } from '@stillstand/science/base';

/** Shares that sum to 1, of logarithms known up to a constant; at least one. */
export function sharesOf(logs: readonly number[]): number[] {
  const most = Math.max(...logs);
  const weights = logs.map((each) => exp(each - most));
  const whole = weights.reduce((sum, each) => sum + each, 0);
  return weights.map((each) => each / whole);
}

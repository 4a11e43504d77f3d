/**
 * Whole powers by multiplication alone. `x ** 2` and `Math.pow` are left to the engine by ECMA-262; measured, one
 * engine's `x ** 3` differs from x·x·x in every fourth number, its `x ** 4` from (x·x)·(x·x) in every second.
 */

export const square = (x: number): number => x * x;

/**
 * x to a whole power, by repeated squaring: exact where the result and all below it are whole numbers under 2^53, or x
 * a power of two; else within 1 unit in the last place per multiplication. RangeError for a power that is not whole.
 */
export function power(x: number, whole: number): number {
  if (!Number.isInteger(whole)) throw new RangeError(`power ${whole}: expected a whole number`);
  let result = 1;
  let base = x;
  for (let left = Math.abs(whole); left > 0; left = Math.floor(left / 2)) {
    if (left % 2 === 1) result *= base;
    base *= base;
  }
  return whole < 0 ? 1 / result : result;
}

/** √(Σ xᵢ²): 1 sigma of independent errors together. */
export const inQuadrature = (...errors: readonly number[]): number =>
  Math.sqrt(errors.reduce((sum, each) => sum + square(each), 0));

/** ln Γ(x), x > 0, by Stirling's series (Abramowitz & Stegun 1964, 6.1.41) above 12, below it by Γ(x + 1) = x·Γ(x). */
import { log } from './elementary.ts';

const HALF_LOG_2PI = 0.9189385332046728;

/** Absolute error below 1e-14 for x < 30 and relative below 1e-15 beyond; NaN unless x > 0. */
export function logGamma(x: number): number {
  if (!(x > 0)) return NaN;
  let shifted = x;
  let product = 1;
  while (shifted < 12) {
    product *= shifted;
    shifted += 1;
  }
  const w = 1 / (shifted * shifted);
  const series =
    (1 / 12 - w * (1 / 360 - w * (1 / 1260 - w * (1 / 1680 - w * (1 / 1188 - (w * 691) / 360360))))) /
    shifted;
  const stirling = (shifted - 0.5) * log(shifted) - shifted + HALF_LOG_2PI + series;
  return product === 1 ? stirling : stirling - log(product);
}

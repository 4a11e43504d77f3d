/** The chi-square distribution's upper tail, for whole degrees of freedom (Abramowitz & Stegun 1964, 26.4.4–26.4.5). */
import { exp } from './elementary.ts';
import { normalCdf } from './normal.ts';

/** P(χ² ≥ x) with `degrees` ≥ 1 degrees of freedom. NaN for degrees that are not whole or below 1. */
export function chiSquareUpperTail(x: number, degrees: number): number {
  if (!(Number.isInteger(degrees) && degrees >= 1)) return NaN;
  if (x <= 0) return 1;
  // Q(ν) = Q(ν − 2) + (x/2)^(ν/2 − 1)·e^(−x/2)/Γ(ν/2), from Q(1) = 2Φ(−√x) or Q(2) = e^(−x/2).
  const even = degrees % 2 === 0;
  let tail = even ? exp(-x / 2) : 2 * normalCdf(-Math.sqrt(x));
  let term = even ? exp(-x / 2) * (x / 2) : (exp(-x / 2) * Math.sqrt(x / 2) * 2) / Math.sqrt(Math.PI);
  for (let nu = even ? 4 : 3; nu <= degrees; nu += 2) {
    tail += term;
    term *= x / nu;
  }
  return Math.min(1, tail);
}

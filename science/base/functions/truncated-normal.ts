/** Normal numbers between bounds, exact however far the bounds lie in the tail (Robert 1995, Stat. Comput. 5:121–125). */

import type { RandomStream } from '../chains/random.ts';
import { exp, expm1, log1p } from './elementary.ts';

/**
 * One draw of N(mean, sd²) held between `lower` and `upper` (either may be infinite), in their unit.
 * @throws RangeError unless sd > 0 and lower < upper (lower = upper gives that value).
 */
export function truncatedNormal(
  stream: RandomStream,
  mean: number,
  sd: number,
  lower: number,
  upper: number,
): number {
  if (lower === upper) return lower;
  if (!(sd > 0 && lower < upper)) {
    throw new RangeError(
      `truncatedNormal: sd ${sd}, bounds ${lower} to ${upper}; expected sd > 0, lower < upper`,
    );
  }
  const a = (lower - mean) / sd;
  const b = (upper - mean) / sd;
  const z = b <= 0 ? -standard(stream, -b, -a) : standard(stream, a, b);
  // Rounding of mean + sd·z may step over a bound by an ulp.
  return Math.min(upper, Math.max(lower, mean + sd * z));
}

/** a < b, b > 0. */
function standard(stream: RandomStream, a: number, b: number): number {
  if (a <= 0) {
    // The peak is inside: draw it freely where the bounds are wide, evenly between the bounds where they are narrow.
    if (b - a > 2.5066282746310002) {
      for (;;) {
        const z = stream.normal();
        if (z >= a && z <= b) return z;
      }
    }
    for (;;) {
      const z = a + (b - a) * stream.uniform();
      if (stream.uniform() <= exp(-0.5 * z * z)) return z;
    }
  }
  // A tail: proposals from an exponential cut off at b, its rate Robert's optimum for b = ∞.
  const rate = 0.5 * (a + Math.sqrt(a * a + 4));
  const lost = expm1(-rate * (b - a));
  // Where b lies before the peak of the ratio (at `rate`), the ratio is largest at b.
  const nearest = b < rate ? rate - b : 0;
  for (;;) {
    const z = a - log1p(stream.uniform() * lost) / rate;
    const off = z - rate;
    if (stream.uniform() <= exp(-0.5 * (off * off - nearest * nearest))) return Math.min(z, b);
  }
}

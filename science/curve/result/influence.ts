/**
 * What a rate would lose with one of its points, without computing the curve anew: about how much its sd grows when the
 * point is left out.
 *
 * Index points, as if their height's error were normal with the same variance s²: leaving one out of a normal posterior
 * multiplies the variance of a rate g by 1 + c²/(V (s² − v)), where r is the point's height less the level and shared
 * errors at its age, c = Cov(g, r), V = Var(g), v = Var(r), all over the draws (the downdate of a normal posterior by one
 * observation, Rasmussen & Williams 2006, eq. 5.12, written for g). Where v nears s² the point alone holds its place.
 * Limits, by power scaling of their factor Φ (Kallioinen, Paananen, Bürkner & Vehtari 2024, Stat. Comput. 34:57), which
 * misses points held by an even range: inside it their factor is flat.
 *
 * Measured on the demo coast against computing again: docs/methods/curve.md.
 */
import { exp, mean, normalLogCdf, square } from '@stillstand/science/base';
import type { CurvePoint } from '../problem/model.ts';

/** Least of s² − v, as a share of s²: below, the difference is Monte-Carlo noise. */
const LEAST_LEFT = 0.04;

/** Everything of a height error that is the point's own, as one variance, m². */
export const ownVariance = (p: Pick<CurvePoint, 'sigma_m' | 'half_range_m' | 'lowering_m'>): number =>
  square(p.sigma_m) + square(p.half_range_m) / 3 + square(p.lowering_m);

/** Growth of the sd of `rate`, as a share of it (0.18: by 18 %), from the draws of it and of the point's residual, m. */
export function growthWithout(
  kind: CurvePoint['kind'],
  own_sigma_m: number,
  rate: Float64Array,
  residual_m: Float64Array,
): number {
  if (kind === 'index') {
    const v = covariance(residual_m, residual_m);
    const c = covariance(rate, residual_m);
    const left = square(own_sigma_m) - v;
    const grown = Math.sqrt(1 + square(c) / (covariance(rate, rate) * Math.max(left, LEAST_LEFT * v))) - 1;
    // A rate or a residual that never varies.
    return Number.isFinite(grown) ? grown : 0;
  }
  const side = kind === 'terrestrial' ? 1 : -1;
  const factor = residual_m.map((r) => normalLogCdf((side * r) / own_sigma_m));
  const centre = mean(rate);
  const squares = rate.map((g) => square(g - centre));
  const pull = -covariance(factor, squares) / mean(squares);
  return Math.max(0, exp(pull / 2) - 1);
}

function covariance(a: Float64Array, b: Float64Array): number {
  const [ma, mb] = [mean(a), mean(b)];
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += (a[k]! - ma) * (b[k]! - mb);
  return sum / a.length;
}

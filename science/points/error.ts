/**
 * Parts of a height error and their two sums: the community protocol's, in 2 sigma, for tables; and the declared
 * shapes', in 1 sigma, for the curve. Formulae: docs/methods/points.md.
 */
import { square } from '@stillstand/science/base';

export type ErrorShape = 'normal' | 'uniform' | 'one_sided';

/** One part of a height error, metres. */
export interface HeightError {
  component: string;
  /**
   * 1 sigma of the declared shape, ≥ 0. Uniform of half width h: h/√3. One-sided (half-normal of scale s, the
   * sample now lies lower than it formed): s, which is the root mean square error of the height left unshifted.
   */
  sigma_m: number;
  shape: ErrorShape;
  /** Points that name the same group share this error; null where it is the point's own. */
  shared_group: string | null;
  /** Where it comes from: "measured", "declared", "assumed: …". */
  source: string;
  /** Of a shared part: what raises the other heights of its group lowers this one. */
  reversed?: true;
}

/** A part as a person declares it, see the table `point_errors`. */
export interface DeclaredError {
  component: string;
  /** At `sigma_level` of a normal; half width of a uniform; scale of a one-sided. ≥ 0, metres. */
  value_m: number;
  sigma_level: 1 | 2;
  shape: ErrorShape;
  shared_group: string | null;
  source: string;
}

/** A declared part in 1 sigma. */
export function declaredError(declared: DeclaredError): HeightError {
  const { component, value_m, sigma_level, shape, shared_group, source } = declared;
  const sigma_m =
    shape === 'normal' ? value_m / sigma_level : shape === 'uniform' ? value_m / Math.sqrt(3) : value_m;
  return { component, sigma_m, shape, shared_group, source };
}

/**
 * What one part counts in the protocol, metres at 2 sigma: twice the sigma of a normal, the *half width* of a uniform
 * (so half the indicative range enters as a 2-sigma part), twice the scale of a one-sided.
 */
function protocolPart(error: HeightError): number {
  return error.shape === 'uniform' ? Math.sqrt(3) * error.sigma_m : 2 * error.sigma_m;
}

/**
 * Root-sum-square of all parts, metres, at `sigmaLevel`. At 2 it is the error of the community protocol (Hijma et al.
 * 2015; Khan et al. 2019), every part at 2 sigma; at 1 half of that.
 */
export function protocolError(errors: readonly HeightError[], sigmaLevel: 1 | 2 = 2): number {
  let sum = 0;
  for (const error of errors) sum += square(protocolPart(error));
  return (Math.sqrt(sum) * sigmaLevel) / 2;
}

/** Root-sum-square of all parts in their declared shapes, metres, 1 sigma. */
export function curveError(errors: readonly HeightError[]): number {
  let sum = 0;
  for (const error of errors) sum += square(error.sigma_m);
  return Math.sqrt(sum);
}

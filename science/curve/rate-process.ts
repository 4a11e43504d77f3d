/**
 * The level and its rate between two ages, in closed form. The rate is a Matérn-3/2 process (Hartikainen & Särkkä 2010,
 * MLSP; Särkkä & Solin 2019, Applied Stochastic Differential Equations); the level is its integral, f(t) = α − ∫₀ᵗ r.
 *
 * State at age t (ka): level f in m, rate r/σ, slope of the rate r′/(σλ): in these units the stationary covariance of
 * rate and slope is the identity. Over a gap Δ to the older side, z = λΔ, e = e^{−z}, κ = σ/λ:
 *
 *   f ← f − a·r − b·r′   a = κ(2 − e(2 + z)), b = κ(1 − e(1 + z))
 *   r ← p·r + q·r′       p = e(1 + z), q = e·z
 *   r′ ← −q·r + w·r′     w = e(1 − z)
 *
 * plus noise of covariance Q = 4 ∫₀ᶻ h hᵀ, h(s) = (−κ(1 − e^{−s}(1 + s)), s·e^{−s}, (1 − s)e^{−s}). The integrals are
 * elementary, but for short gaps their terms cancel (Q₀₀ ~ z⁵/5), so there they are summed as e^{±z} times a series of
 * positive terms, which loses nothing down to Δ = 0.
 */
import { exp } from '@stillstand/science/base';

/** Places in the array `rateStep` fills. */
export const A = 0;
export const B = 1;
export const P = 2;
export const Q = 3;
export const W = 4;
export const Q00 = 5;
export const Q01 = 6;
export const Q02 = 7;
export const Q11 = 8;
export const Q12 = 9;
export const Q22 = 10;
export const STEP = 11;

/** Below this z the series are used: the closed forms have lost at most 1e-12 there. */
const SHORT = 0.5;

/** 1/k! from k = 2: e^z − 1 − z. */
const LEVEL = series(2, 15, (k) => 1 / factorial(k));
/** 2^k/k! from k = 3: e^{2z} − 1 − 2z − 2z². */
const RATE = series(3, 19, (k) => 2 ** k / factorial(k));
/** e^{2z}(4z − 11) + 8e^z(2 + z) − (5 + 6z + 2z²), all terms positive from k = 5. */
const LEVEL_NOISE = series(5, 22, (k) => (2 ** k * (2 * k - 11) + 16 + 8 * k) / factorial(k));

/** Transition only: fills a, b, p, q, w at `at`. */
export function rateTransition(
  gap_ka: number,
  lambda: number,
  kappa: number,
  out: Float64Array,
  at = 0,
): void {
  const z = lambda * gap_ka;
  const e = exp(-z);
  const ze = z * e;
  const g = z < SHORT ? e * z * z * horner(LEVEL, z) : 1 - e - ze;
  out[at] = kappa * (2 * g + ze);
  out[at + 1] = kappa * g;
  out[at + 2] = e + ze;
  out[at + 3] = ze;
  out[at + 4] = e - ze;
}

/** Transition and noise over a gap ≥ 0; `kappa` = σ/λ in m. Fills STEP numbers from `at`. */
export function rateStep(gap_ka: number, lambda: number, kappa: number, out: Float64Array, at = 0): void {
  const z = lambda * gap_ka;
  const e = exp(-z);
  const ze = z * e;
  const e2 = e * e;
  let g: number;
  let level: number;
  let rate: number;
  if (z < SHORT) {
    const zz = z * z;
    g = e * zz * horner(LEVEL, z);
    rate = e2 * z * zz * horner(RATE, z);
    level = e2 * z * zz * zz * horner(LEVEL_NOISE, z);
  } else {
    g = 1 - e - ze;
    rate = 1 - e2 * (1 + 2 * z + 2 * z * z);
    level = 4 * z - 11 + 8 * e * (2 + z) - e2 * (5 + 6 * z + 2 * z * z);
  }
  out[at] = kappa * (2 * g + ze);
  out[at + 1] = kappa * g;
  out[at + 2] = e + ze;
  out[at + 3] = ze;
  out[at + 4] = e - ze;
  out[at + 5] = kappa * kappa * level;
  out[at + 6] = -2 * kappa * g * g;
  out[at + 7] = kappa * (rate - 4 * g * ze);
  out[at + 8] = rate;
  out[at + 9] = 2 * ze * ze;
  out[at + 10] = rate + 4 * ze * e;
}

function horner(c: Float64Array, z: number): number {
  let sum = 0;
  for (let i = c.length - 1; i >= 0; i--) sum = sum * z + c[i]!;
  return sum;
}

function series(from: number, to: number, term: (k: number) => number): Float64Array {
  return Float64Array.from({ length: to - from }, (_, i) => term(from + i));
}

function factorial(k: number): number {
  let product = 1;
  for (let i = 2; i <= k; i++) product *= i;
  return product;
}

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
import { exp, power } from '@stillstand/science/base';

/** Numbers `rateStep` fills: a, b, p, q, w, then Q₀₀ Q₀₁ Q₀₂ Q₁₁ Q₁₂ Q₂₂. */
export const STEP = 11;

/** Below this z the series are used: the closed forms have lost at most 1e-11 there. */
const SHORT = 0.3;

/** Coefficients of three series, interleaved so that one pass sums them side by side; from the lowest power on:
 * e^z − 1 − z from z²; e^{2z} − 1 − 2z − 2z² from z³; e^{2z}(4z − 11) + 8e^z(2 + z) − (5 + 6z + 2z²) from z⁵, all
 * positive. The first term left out is below 1e-14 of the sum. */
const TERMS = 12;
const SERIES = Float64Array.from({ length: 3 * TERMS }, (_, at) => {
  const i = Math.floor(at / 3);
  if (at % 3 === 0) return 1 / factorial(i + 2);
  if (at % 3 === 1) return power(2, i + 3) / factorial(i + 3);
  const k = i + 5;
  return (power(2, k) * (2 * k - 11) + 16 + 8 * k) / factorial(k);
});

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
  let g: number;
  if (z < SHORT) {
    let sum = 0;
    for (let i = 3 * TERMS - 3; i >= 0; i -= 3) sum = sum * z + SERIES[i]!;
    g = e * z * z * sum;
  } else g = 1 - e - ze;
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
    let first = 0;
    let second = 0;
    let third = 0;
    for (let i = 3 * TERMS - 3; i >= 0; i -= 3) {
      first = first * z + SERIES[i]!;
      second = second * z + SERIES[i + 1]!;
      third = third * z + SERIES[i + 2]!;
    }
    const zz = z * z;
    g = e * zz * first;
    rate = e2 * z * zz * second;
    level = e2 * z * zz * zz * third;
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

function factorial(k: number): number {
  let product = 1;
  for (let i = 2; i <= k; i++) product *= i;
  return product;
}

/**
 * A sea level drawn from the prior by dense algebra (Rasmussen & Williams 2006, their appendix A.2), and points on it:
 * the simulation shares no code with the sampler it checks.
 */
import { cholesky, type RandomStream } from '@stillstand/science/base';
import type { CurvePriors } from '@stillstand/science/curve';

export interface Sea {
  rate_sd_mm_yr: number;
  length_ka: number;
  /** By the ages asked for, cal BP. */
  level_m: (age_cal_bp: number) => number;
  rate_mm_yr: (age_cal_bp: number) => number;
}

/** σ, ℓ, and level and rate at the given ages, jointly. */
export function drawSea(
  priors: CurvePriors,
  levels_at: readonly number[],
  rates_at: readonly number[],
  stream: RandomStream,
): Sea {
  const rate_sd_mm_yr = priors.rate_sd_scale_mm_yr * Math.abs(stream.normal());
  const length_ka = priors.length_median_ka * Math.exp(priors.length_log_sd * stream.normal());
  const lambda = Math.sqrt(3) / length_ka;
  // h″ is the covariance of the rate over σ²; its double integral from 0.
  const h = (x: number): number => {
    const z = lambda * Math.abs(x);
    if (z < 1e-3) return (x * x) / 2;
    return (2 * z - 3 + (z + 3) * Math.exp(-z)) / lambda ** 2;
  };
  const h1 = (x: number): number => {
    const z = lambda * Math.abs(x);
    return (Math.sign(x) * (2 - (z + 2) * Math.exp(-z))) / lambda;
  };
  const h2 = (x: number): number => {
    const z = lambda * Math.abs(x);
    return (1 + z) * Math.exp(-z);
  };
  const level = [...new Set(levels_at)];
  const rate = [...new Set(rates_at)];
  const all = [
    ...level.map((age) => ({ rate: false, t: age / 1000 })),
    ...rate.map((age) => ({ rate: true, t: age / 1000 })),
  ];
  const n = all.length;
  const k = new Float64Array(n * n);
  all.forEach((a, i) => {
    all.forEach((b, j) => {
      if (a.rate && b.rate) k[i * n + j] = h2(a.t - b.t);
      else if (!(a.rate || b.rate)) k[i * n + j] = h(a.t) + h(b.t) - h(a.t - b.t);
      else {
        const x = a.rate ? b.t : a.t;
        const y = a.rate ? a.t : b.t;
        k[i * n + j] = -h1(y) - h1(x - y);
      }
    });
    // The level at 0 is exactly α, and close ages are nearly one: a hair of noise (10⁻⁵ σ) keeps the factor.
    k[i * n + i] = k[i * n + i]! + 1e-10;
  });
  const l = cholesky(k, n);
  if (l === null) throw new RangeError('drawSea: covariance not positive definite');
  const e = Float64Array.from({ length: n }, () => stream.normal());
  const x = all.map((_, i) => {
    let sum = 0;
    for (let j = 0; j <= i; j++) sum += l[i * n + j]! * e[j]!;
    return rate_sd_mm_yr * sum;
  });
  const alpha = priors.level_sd_m * stream.normal();
  const mean = priors.rate_mean_mm_yr;
  return {
    rate_sd_mm_yr,
    length_ka,
    level_m: (age) => alpha + x[level.indexOf(age)]! - (mean * age) / 1000,
    rate_mm_yr: (age) => mean + x[level.length + rate.indexOf(age)]!,
  };
}

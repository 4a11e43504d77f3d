// biome-ignore-all lint/plugin: the twin of tests, computed another way: with the engine's own functions.
/**
 * The slow twin, for tests: the same model by dense algebra on the covariance function (Rasmussen & Williams 2006,
 * Gaussian Processes for Machine Learning, Algorithm 2.1), n³. Level f(t) = α − ∫₀ᵗ r with r of covariance
 * k(u) = σ²(1 + λ|u|)e^{−λ|u|}: with h″ = k, h(0) = h′(0) = 0,
 *   Cov(f(x), f(y)) = level_sd² + h(x) + h(y) − h(x − y),  Cov(f(x), r(y)) = −h′(y) − h′(x − y).
 */
import { cholesky, solveCholesky, square } from '@stillstand/science/base';

export interface DenseModel {
  rate_sd: number;
  lambda: number;
  rate_mean: number;
  level_sd_m: number;
}

/** Heights observed: age (ka), height, 1 sigma, loadings on shared errors (m). */
export interface DenseHeight {
  age_ka: number;
  height_m: number;
  sigma_m: number;
  loading_m: number[];
}

function h(m: DenseModel, x: number): number {
  const z = m.lambda * Math.abs(x);
  // Small z by its series: the closed form cancels.
  const s =
    z < 0.05
      ? z * z * (1 / 2 + z * z * (-1 / 24 + z * (1 / 60 + z * (-1 / 240 + z * (1 / 1260 - z / 8064)))))
      : 2 * z - 3 + (z + 3) * Math.exp(-z);
  return (square(m.rate_sd) * s) / square(m.lambda);
}

function slopeOfH(m: DenseModel, x: number): number {
  const z = m.lambda * Math.abs(x);
  return (Math.sign(x) * square(m.rate_sd) * (2 - (z + 2) * Math.exp(-z))) / m.lambda;
}

function rateCovariance(m: DenseModel, x: number): number {
  const z = m.lambda * Math.abs(x);
  return square(m.rate_sd) * (1 + z) * Math.exp(-z);
}

interface Quantity {
  kind: 'level' | 'rate';
  age_ka: number;
}

function covariance(m: DenseModel, a: Quantity, b: Quantity): number {
  if (a.kind === 'rate' && b.kind === 'rate') return rateCovariance(m, a.age_ka - b.age_ka);
  if (a.kind === 'rate') return covariance(m, b, a);
  const x = a.age_ka;
  const y = b.age_ka;
  if (b.kind === 'rate') return -slopeOfH(m, y) - slopeOfH(m, x - y);
  return square(m.level_sd_m) + h(m, x) + h(m, y) - h(m, x - y);
}

function priorMean(m: DenseModel, q: Quantity): number {
  return q.kind === 'rate' ? m.rate_mean : -m.rate_mean * q.age_ka;
}

/** Log marginal likelihood of the heights, shared errors integrated out; posterior of quantities and shared errors. */
export function dense(
  m: DenseModel,
  heights: readonly DenseHeight[],
  wanted: readonly Quantity[],
): {
  logLikelihood: number;
  mean: Float64Array;
  covariance: Float64Array;
  shared: Float64Array;
} {
  const n = heights.length;
  const levels = heights.map((o): Quantity => ({ kind: 'level', age_ka: o.age_ka }));
  const dot = (a: number[], b: number[]): number => a.reduce((sum, x, g) => sum + x * b[g]!, 0);
  const k = new Float64Array(n * n);
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++)
      k[i * n + j] =
        covariance(m, levels[i]!, levels[j]!) +
        dot(heights[i]!.loading_m, heights[j]!.loading_m) +
        (i === j ? square(heights[i]!.sigma_m) : 0);
  const l = cholesky(k, n)!;
  const miss = Float64Array.from(heights, (o, i) => o.height_m - priorMean(m, levels[i]!));
  const weights = solveCholesky(l, miss, n);
  let logLikelihood = -0.5 * n * Math.log(2 * Math.PI);
  for (let i = 0; i < n; i++) logLikelihood -= 0.5 * miss[i]! * weights[i]! + Math.log(l[i * n + i]!);
  const cross = wanted.map((q) => Float64Array.from(levels, (o) => covariance(m, q, o)));
  const solved = cross.map((c) => solveCholesky(l, c, n));
  const w = wanted.length;
  const posterior = new Float64Array(w * w);
  const product = (a: Float64Array, b: Float64Array): number => a.reduce((sum, x, i) => sum + x * b[i]!, 0);
  for (let a = 0; a < w; a++)
    for (let b = 0; b < w; b++)
      posterior[a * w + b] = covariance(m, wanted[a]!, wanted[b]!) - product(cross[a]!, solved[b]!);
  const groups = heights[0]!.loading_m.length;
  return {
    logLikelihood,
    mean: Float64Array.from(wanted, (q, a) => priorMean(m, q) + product(cross[a]!, weights)),
    covariance: posterior,
    shared: Float64Array.from({ length: groups }, (_, g) =>
      heights.reduce((sum, o, i) => sum + o.loading_m[g]! * weights[i]!, 0),
    ),
  };
}

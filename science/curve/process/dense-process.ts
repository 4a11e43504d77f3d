// biome-ignore-all lint/plugin: the twin of tests, computed another way: with the engine's own functions.
/**
 * The slow twin, for tests: the same model by dense algebra on the covariance function (Rasmussen & Williams 2006,
 * Gaussian Processes for Machine Learning, Algorithm 2.1), n³. Level f(t) = α − ∫₀ᵗ r with r of covariance
 * k(u) = σ²(1 + λ|u|)e^{−λ|u|}: with h″ = k, h(0) = h′(0) = 0,
 *   Cov(∫ r over [a, b], ∫ r over [c, d]) = h(b − c) + h(a − d) − h(b − d) − h(a − c),
 *   Cov(∫ r over [a, b], r(y)) = h′(b − y) − h′(a − y).
 * With breaks the rates of two pieces know nothing of each other, and each break between 1950 and an age adds its jump.
 */
import { cholesky, solveCholesky, square } from '@stillstand/science/base';

export interface DenseModel {
  rate_sd: number;
  /** 0: the rate keeps its value. */
  lambda: number;
  rate_mean: number;
  /** By how much the mean is larger a thousand years earlier. */
  slowing: number;
  break_ka: readonly number[];
  jump_sd_m: number;
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
  if (m.lambda === 0) return 0.5 * square(m.rate_sd * x);
  const z = m.lambda * Math.abs(x);
  // Small z by its series: the closed form cancels.
  const s =
    z < 0.05
      ? z * z * (1 / 2 + z * z * (-1 / 24 + z * (1 / 60 + z * (-1 / 240 + z * (1 / 1260 - z / 8064)))))
      : 2 * z - 3 + (z + 3) * Math.exp(-z);
  return (square(m.rate_sd) * s) / square(m.lambda);
}

function slopeOfH(m: DenseModel, x: number): number {
  if (m.lambda === 0) return square(m.rate_sd) * x;
  const z = m.lambda * Math.abs(x);
  return (Math.sign(x) * square(m.rate_sd) * (2 - (z + 2) * Math.exp(-z))) / m.lambda;
}

function rateCovariance(m: DenseModel, x: number): number {
  if (m.lambda === 0) return square(m.rate_sd);
  const z = m.lambda * Math.abs(x);
  return square(m.rate_sd) * (1 + z) * Math.exp(-z);
}

interface Quantity {
  kind: 'level' | 'rate';
  age_ka: number;
}

/** Parts of [0, x] in each piece between breaks, and the piece an age is in. */
function partsOf(m: DenseModel, x: number): { piece: number; from: number; to: number }[] {
  const edges = [-Infinity, ...m.break_ka.toSorted((a, b) => a - b), Infinity];
  return edges.slice(1).flatMap((to, piece) => {
    const part = { piece, from: Math.max(edges[piece]!, Math.min(0, x)), to: Math.min(to, Math.max(0, x)) };
    return part.to > part.from ? [part] : [];
  });
}
const pieceOf = (m: DenseModel, x: number): number => m.break_ka.filter((b) => b < x).length;

function covariance(m: DenseModel, a: Quantity, b: Quantity): number {
  const x = a.age_ka;
  const y = b.age_ka;
  if (a.kind === 'rate' && b.kind === 'rate')
    return pieceOf(m, x) === pieceOf(m, y) ? rateCovariance(m, x - y) : 0;
  if (a.kind === 'rate') return covariance(m, b, a);
  const sign = Math.sign(x);
  if (b.kind === 'rate') {
    const own = partsOf(m, x).filter(({ piece }) => piece === pieceOf(m, y));
    return -sign * own.reduce((sum, { from, to }) => sum + slopeOfH(m, to - y) - slopeOfH(m, from - y), 0);
  }
  let sum = square(m.level_sd_m);
  for (const p of partsOf(m, x))
    for (const q of partsOf(m, y)) {
      if (p.piece !== q.piece) continue;
      const both = h(m, p.to - q.from) + h(m, p.from - q.to) - h(m, p.to - q.to) - h(m, p.from - q.from);
      sum += sign * Math.sign(y) * both;
    }
  const jumps = m.break_ka.filter((at) => (at - x) * at < 0 && (at - y) * at < 0).length;
  return sum + jumps * square(m.jump_sd_m);
}

function priorMean(m: DenseModel, q: Quantity): number {
  const t = q.age_ka;
  return q.kind === 'rate' ? m.rate_mean + m.slowing * t : -m.rate_mean * t - 0.5 * m.slowing * t * t;
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

/**
 * Importance weights whose largest are replaced by the quantiles of a generalised Pareto distribution fitted to them
 * (Vehtari, Simpson, Gelman, Yao & Gabry 2024, J. Mach. Learn. Res. 25:72): a few large weights then no longer decide
 * a mean, and the fitted shape k says whether the mean can be trusted (below 0.7) or the weights do not carry so far.
 */
import { exp, expm1, log, log1p } from '../functions/elementary.ts';

/** Fewer values in the tail say nothing of its shape. */
const LEAST_TAIL = 5;
/** Weights worth more than this share of the draws are as good as even, whatever their tail. */
const EVEN = 0.99;

export interface SmoothedWeights {
  /** In the order of the ratios, adding to 1. */
  weight: Float64Array;
  /** Shape of the tail: weights have 1/k finite moments. −∞ where the weights are as good as even. */
  k: number;
}

/** From the natural logarithms of importance ratios, up to a constant. What cannot be smoothed, such as fewer than 25,
 * stays as it is: k is then ∞. */
export function paretoSmoothed(logRatio: Float64Array): SmoothedWeights {
  const n = logRatio.length;
  const largest = logRatio.reduce((most, x) => Math.max(most, x), -Infinity);
  const weight = logRatio.map((x) => exp(x - largest));
  const tail = Math.min(Math.floor(n / 5), Math.ceil(3 * Math.sqrt(n)));
  let k = Infinity;
  const total = weight.reduce((sum, w) => sum + w, 0);
  const squares = weight.reduce((sum, w) => sum + w * w, 0);
  if (total * total > EVEN * n * squares) k = -Infinity;
  else if (tail >= LEAST_TAIL) {
    const order = Int32Array.from(weight.keys()).sort((a, b) => weight[a]! - weight[b]! || a - b);
    const threshold = weight[order[n - tail - 1]!]!;
    const above = Float64Array.from({ length: tail }, (_, i) => weight[order[n - tail + i]!]! - threshold);
    // A tail that is one value for the most part has no shape.
    if (above[quarterOf(tail)]! > 0) {
      const fit = fitGeneralisedPareto(above);
      k = fit.k;
      if (Number.isFinite(k)) {
        for (let i = 0; i < tail; i++) {
          const p = (i + 0.5) / tail;
          // No weight above the largest there was.
          weight[order[n - tail + i]!] = Math.min(1, threshold + quantile(p, fit));
        }
      }
    }
  }
  const sum = weight.reduce((total, w) => total + w, 0);
  return { weight: weight.map((w) => w / sum), k };
}

const quarterOf = (n: number): number => Math.floor(n / 4 + 0.5) - 1;

interface GeneralisedPareto {
  k: number;
  scale: number;
}

const quantile = (p: number, { k, scale }: GeneralisedPareto): number =>
  k === 0 ? -scale * log1p(-p) : (scale * expm1(-k * log1p(-p))) / k;

/**
 * Shape and scale of a generalised Pareto distribution of ascending values, three quarters of them above 0: mean of a posterior
 * over a grid of one parameter (Zhang & Stephens 2009, Technometrics 51:316–325), the shape then drawn a little towards
 * 0.5 as if ten more values had said so (Vehtari et al. 2024, appendix C).
 */
export function fitGeneralisedPareto(x: Float64Array): GeneralisedPareto {
  const n = x.length;
  const points = 30 + Math.floor(Math.sqrt(n));
  const quarter = x[quarterOf(n)]!;
  const last = x[n - 1]!;
  const theta = Float64Array.from({ length: points }, (_, j) => {
    const step = 1 - Math.sqrt(points / (j + 0.5));
    return 1 / last + step / (3 * quarter);
  });
  const shape = (t: number): number => x.reduce((sum, value) => sum + log1p(-t * value), 0) / n;
  const likelihood = theta.map((t) => {
    const k = shape(t);
    return n * (log(-t / k) - k - 1);
  });
  const most = likelihood.reduce((m, l) => (Number.isFinite(l) ? Math.max(m, l) : m), -Infinity);
  let total = 0;
  let mean = 0;
  likelihood.forEach((l, j) => {
    const w = exp(l - most);
    if (!(w > 0)) return;
    total += w;
    mean += w * theta[j]!;
  });
  const t = mean / total;
  const k = shape(t);
  return { k: (n * k + 5) / (n + 10), scale: -k / t };
}

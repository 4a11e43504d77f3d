/**
 * Whether chains agree and how much they tell: rank-normalised split R-hat, effective sample sizes and Monte-Carlo
 * error after Vehtari, Gelman, Simpson, Carpenter & Bürkner 2021, Bayesian Anal. 16:667–718. Chains are equally long;
 * odd ones lose their middle draw when halved.
 */
import { normalQuantile } from './normal.ts';
import { mean, quantileSorted, standardDeviation } from './summaries.ts';

type Chains = readonly Float64Array[];

/** Larger of the bulk and the folded (tail) rank-normalised split R-hat. 1 for a quantity that never moves; ∞ for
 * chains stuck apart; NaN for fewer than 4 draws or any that is not finite. */
export function rHat(chains: Chains): number {
  const halves = split(chains);
  if (!usable(halves)) return NaN;
  if (isConstant(halves)) return 1;
  if (halves.every((c) => isConstant([c]))) return Infinity;
  const centre = quantileSorted(pooledSorted(halves), 0.5);
  const folded = halves.map((c) => c.map((x) => Math.abs(x - centre)));
  const bulk = potentialScaleReduction(rankNormalised(halves));
  // Two-valued draws fold to a constant, which says nothing.
  return isConstant(folded) ? bulk : Math.max(bulk, potentialScaleReduction(rankNormalised(folded)));
}

/** Effective number of draws for the middle of the distribution. */
export function essBulk(chains: Chains): number {
  const halves = split(chains);
  return usable(halves) ? effectiveSize(rankNormalised(halves)) : NaN;
}

/** Smaller of the effective numbers of draws at the 5 % and the 95 % quantile. */
export function essTail(chains: Chains): number {
  const halves = split(chains);
  if (!usable(halves)) return NaN;
  const sorted = pooledSorted(halves);
  const at = (p: number): number => {
    const q = quantileSorted(sorted, p);
    return effectiveSize(halves.map((c) => c.map((x) => (x <= q ? 1 : 0))));
  };
  return Math.min(at(0.05), at(0.95));
}

/** Monte-Carlo standard error of the mean, in the unit of the draws. */
export function mcseMean(chains: Chains): number {
  const halves = split(chains);
  if (!usable(halves)) return NaN;
  return standardDeviation(pooled(chains)) / Math.sqrt(effectiveSize(halves));
}

/** Everything reported of one quantity. `lower95`, `upper95`: 2.5 % and 97.5 % quantiles. */
export function summarize(chains: Chains): {
  mean: number;
  sd: number;
  median: number;
  lower95: number;
  upper95: number;
  mcse: number;
  rhat: number;
  ess_bulk: number;
  ess_tail: number;
} {
  const all = pooled(chains);
  const sorted = Float64Array.from(all).sort();
  return {
    mean: mean(all),
    sd: standardDeviation(all),
    median: quantileSorted(sorted, 0.5),
    lower95: quantileSorted(sorted, 0.025),
    upper95: quantileSorted(sorted, 0.975),
    mcse: mcseMean(chains),
    rhat: rHat(chains),
    ess_bulk: essBulk(chains),
    ess_tail: essTail(chains),
  };
}

/** Between- against within-chain variance (their eq. 1–4). */
function potentialScaleReduction(chains: Chains): number {
  const n = chains[0]!.length;
  const within = mean(chains.map((c) => standardDeviation(c) ** 2));
  const between = standardDeviation(chains.map(mean)) ** 2;
  return Math.sqrt((n - 1) / n + between / within);
}

/** Draws divided by the summed autocorrelation (their eq. 10–14), cut off by Geyer's initial positive and monotone
 * sequences (Geyer 1992, Stat. Sci. 7:473–483). Lags are computed one after another, only as far as needed. Draws that
 * never move count in full. */
function effectiveSize(chains: Chains): number {
  const m = chains.length;
  const n = chains[0]!.length;
  const all = m * n;
  if (isConstant(chains)) return all;
  const means = chains.map(mean);
  const centred = chains.map((c, k) => c.map((x) => x - means[k]!));
  const covariance = (lag: number): number => {
    let sum = 0;
    for (const c of centred) for (let i = lag; i < n; i++) sum += c[i]! * c[i - lag]!;
    return sum / all;
  };
  const within = (covariance(0) * n) / (n - 1);
  const total = covariance(0) + (m > 1 ? standardDeviation(means) ** 2 : 0);
  const correlation = (lag: number): number => 1 - (within - covariance(lag)) / total;

  // Sums of neighbouring pairs: positive and falling for any reversible chain, noise once they are not.
  let previous = 1 + correlation(1);
  let sum = previous > 0 ? previous : 1;
  let lag = 2;
  if (previous > 0) {
    for (; lag + 1 < n - 3; lag += 2) {
      const even = correlation(lag);
      const pair = even + correlation(lag + 1);
      if (!(pair > 0)) {
        // A last single term lowers the bias for chains that alternate.
        if (even > 0) sum += even / 2;
        break;
      }
      previous = Math.min(previous, pair);
      sum += previous;
    }
  }
  // Antithetic chains may beat independence, but not without limit (their section 3.2).
  return all / Math.max(2 * sum - 1, 1 / Math.log10(all));
}

/** Normal scores of the ranks over all chains together, ties shared (their eq. 14: (r − 3/8)/(S + 1/4)). */
function rankNormalised(chains: Chains): Float64Array[] {
  const n = chains[0]!.length;
  const values = pooled(chains);
  const order = new Uint32Array(values.length);
  for (let i = 0; i < order.length; i++) order[i] = i;
  order.sort((a, b) => values[a]! - values[b]!);
  const scores = new Float64Array(values.length);
  for (let start = 0; start < order.length; ) {
    let end = start + 1;
    while (end < order.length && values[order[end]!] === values[order[start]!]) end++;
    const rank = (start + 1 + end) / 2;
    const score = normalQuantile((rank - 0.375) / (order.length + 0.25));
    for (let i = start; i < end; i++) scores[order[i]!] = score;
    start = end;
  }
  return chains.map((_, k) => scores.slice(k * n, (k + 1) * n));
}

function split(chains: Chains): Float64Array[] {
  return chains.flatMap((c) => {
    const half = Math.floor(c.length / 2);
    return [c.slice(0, half), c.slice(c.length - half)];
  });
}

function pooled(chains: Chains): Float64Array {
  const all = new Float64Array(chains.reduce((sum, c) => sum + c.length, 0));
  let at = 0;
  for (const c of chains) {
    all.set(c, at);
    at += c.length;
  }
  return all;
}

function pooledSorted(chains: Chains): Float64Array {
  return pooled(chains).sort();
}

function isConstant(chains: Chains): boolean {
  const first = chains[0]?.[0];
  return chains.every((c) => c.every((x) => x === first));
}

function usable(halves: Chains): boolean {
  const n = halves[0]?.length ?? 0;
  return n >= 2 && halves.every((c) => c.length === n && c.every((x) => Number.isFinite(x)));
}

/**
 * Whether chains agree and how much they tell: rank-normalised split R-hat, effective sample sizes and Monte-Carlo
 * error after Vehtari, Gelman, Simpson, Carpenter & Bürkner 2021, Bayesian Anal. 16:667–718. Chains are equally long;
 * odd ones lose their middle draw when halved.
 *
 * A curve asks this of hundreds of quantities, so one sorted copy of the draws serves for all: their ranks, the ranks of
 * their distances from the median, quantiles, and whether anything moves. The plain twin is in the test.
 */

import { log } from '../functions/elementary.ts';
import { normalQuantile } from '../functions/normal.ts';
import { square } from '../functions/powers.ts';
import type { Summary } from '../result.ts';
import { pooled } from '../summaries/columns.ts';
import { quantileSorted } from '../summaries/quantiles.ts';
import { mean, standardDeviation } from '../summaries/summaries.ts';

type Chains = readonly Float64Array[];

/** The draws of the halves of all chains, and room to work in. */
interface Halves {
  count: number;
  /** Of one half. */
  length: number;
  /** Half after half; and ascending. */
  draws: Float64Array;
  sorted: Float64Array;
  /** Normal scores of the draws' ranks. */
  scores: Float64Array;
  /** Normal scores of the ranks 1, 1½, 2 … of as many draws, at 0, 1, 2 … */
  scoreOfRank: Float64Array;
  values: Float64Array;
  centred: Float64Array;
  distances: Float64Array;
  /** Which draw stands at each place of `sorted`, of `distances`. */
  order: Uint32Array;
  folded: Uint32Array;
  bucket: Uint32Array;
  bucketEnd: Uint32Array;
  means: Float64Array;
  /** Covariances at two lags. */
  pair: Float64Array;
}

/** Larger of the bulk and the folded (tail) rank-normalised split R-hat. 1 for a quantity that never moves; ∞ for
 * chains stuck apart; NaN for fewer than 4 draws or any that is not finite. */
export function rHat(chains: Chains): number {
  const h = halve(chains);
  return h === null ? NaN : rHatOf(h);
}

/** Effective number of draws for the middle of the distribution. */
export function essBulk(chains: Chains): number {
  const h = halve(chains);
  return h === null ? NaN : effectiveSize(h, h.scores);
}

/** Smaller of the effective numbers of draws at the 5 % and the 95 % quantile. */
export function essTail(chains: Chains): number {
  const h = halve(chains);
  return h === null ? NaN : tailSize(h);
}

/** Monte-Carlo standard error of the mean, in the unit of the draws. */
export function mcseMean(chains: Chains): number {
  const h = halve(chains);
  return h === null ? NaN : standardDeviation(pooled(chains)) / Math.sqrt(effectiveSize(h, h.draws));
}

/** Everything reported of one quantity. `lower95`, `upper95`: 2.5 % and 97.5 % quantiles; `lower68`, `upper68`: 16 % and
 * 84 %. */
export function summarize(chains: Chains): Summary {
  const h = halve(chains);
  const complete = h !== null && chains[0]!.length === 2 * h.length;
  const all = complete ? h.draws : pooled(chains);
  const sorted = complete ? h.sorted : Float64Array.from(all).sort();
  const sd = standardDeviation(all);
  return {
    mean: mean(all),
    sd,
    median: quantileSorted(sorted, 0.5),
    lower95: quantileSorted(sorted, 0.025),
    upper95: quantileSorted(sorted, 0.975),
    lower68: quantileSorted(sorted, 0.16),
    upper68: quantileSorted(sorted, 0.84),
    mcse: h === null ? NaN : sd / Math.sqrt(effectiveSize(h, h.draws)),
    rhat: h === null ? NaN : rHatOf(h),
    ess_bulk: h === null ? NaN : effectiveSize(h, h.scores),
    ess_tail: h === null ? NaN : tailSize(h),
  };
}

function rHatOf(h: Halves): number {
  if (h.sorted[0] === h.sorted.at(-1)) return 1;
  if (everyHalfStandsStill(h)) return Infinity;
  const bulk = potentialScaleReduction(h, h.scores);
  // Two-valued draws fold to a constant, which says nothing.
  return foldedScores(h, h.values) ? Math.max(bulk, potentialScaleReduction(h, h.values)) : bulk;
}

function tailSize(h: Halves): number {
  const { draws, sorted, values } = h;
  const at = (p: number): number => {
    const q = quantileSorted(sorted, p);
    for (let i = 0; i < draws.length; i++) values[i] = draws[i]! <= q ? 1 : 0;
    return effectiveSize(h, values);
  };
  return Math.min(at(0.05), at(0.95));
}

/** Between- against within-chain variance (their eq. 1–4). */
function potentialScaleReduction(h: Halves, values: Float64Array): number {
  const { count, length, centred, means } = h;
  centre(h, values);
  let squares = 0;
  for (let i = 0; i < centred.length; i++) squares += centred[i]! * centred[i]!;
  const within = squares / (count * (length - 1));
  return Math.sqrt((length - 1) / length + square(standardDeviation(means)) / within);
}

/** Draws divided by the summed autocorrelation (their eq. 10–14), cut off by Geyer's initial positive and monotone
 * sequences (Geyer 1992, Stat. Sci. 7:473–483). Lags are computed one after another, only as far as needed. Values that
 * never move count in full. */
function effectiveSize(h: Halves, values: Float64Array): number {
  const { count, length, means, pair } = h;
  const all = count * length;
  if (values.every((x) => x === values[0])) return all;
  centre(h, values);
  covariances(h, 0);
  const within = (pair[0]! * length) / (length - 1);
  const total = pair[0]! + square(standardDeviation(means));
  const correlation = (covariance: number): number => 1 - (within - covariance) / total;

  // Sums of neighbouring pairs: positive and falling for any reversible chain, noise once they are not.
  let previous = 1 + correlation(pair[1]!);
  let sum = previous > 0 ? previous : 1;
  if (previous > 0) {
    for (let lag = 2; lag + 1 < length - 3; lag += 2) {
      covariances(h, lag);
      const even = correlation(pair[0]!);
      const both = even + correlation(pair[1]!);
      if (!(both > 0)) {
        // A last single term lowers the bias for chains that alternate.
        if (even > 0) sum += even / 2;
        break;
      }
      previous = Math.min(previous, both);
      sum += previous;
    }
  }
  // Antithetic chains may beat independence, but not without limit (their section 3.2).
  return all / Math.max(2 * sum - 1, Math.LN10 / log(all));
}

/** Covariances at a lag and the next, into `pair`: two sums side by side, which do not wait for each other. */
function covariances({ count, length, centred, pair }: Halves, lag: number): void {
  let even = 0;
  let odd = 0;
  for (let k = 0; k < count; k++) {
    const start = k * length + lag;
    const end = (k + 1) * length;
    even += centred[start]! * centred[start - lag]!;
    for (let i = start + 1; i < end; i++) {
      const x = centred[i]!;
      even += x * centred[i - lag]!;
      odd += x * centred[i - lag - 1]!;
    }
  }
  pair[0] = even / (count * length);
  pair[1] = odd / (count * length);
}

/** Fills `means` by half, and `centred` with the values less the mean of their half. */
function centre({ count, length, centred, means }: Halves, values: Float64Array): void {
  for (let k = 0; k < count; k++) {
    const start = k * length;
    const end = start + length;
    let sum = 0;
    for (let i = start; i < end; i++) sum += values[i]!;
    const middle = sum / length;
    means[k] = middle;
    for (let i = start; i < end; i++) centred[i] = values[i]! - middle;
  }
}

/** Normal scores of the ranks of the distances from the median; false where all are alike. */
function foldedScores(h: Halves, out: Float64Array): boolean {
  const { sorted, order, distances, folded } = h;
  const n = sorted.length;
  const median = quantileSorted(sorted, 0.5);
  // Distances grow from the median to either end: two ascending runs, merged.
  let above = 0;
  while (sorted[above]! < median) above++;
  let below = above - 1;
  for (let k = 0; k < n; k++) {
    const low = below >= 0 ? median - sorted[below]! : Infinity;
    const high = above < n ? sorted[above]! - median : Infinity;
    distances[k] = Math.min(low, high);
    folded[k] = order[low < high ? below-- : above++]!;
  }
  if (distances[0] === distances[n - 1]) return false;
  score(distances, folded, h.scoreOfRank, out);
  return true;
}

/** Normal scores of ascending numbers by rank, equal ones sharing theirs; `order` says whose they are. */
function score(
  ascending: Float64Array,
  order: Uint32Array,
  scoreOfRank: Float64Array,
  out: Float64Array,
): void {
  for (let start = 0; start < ascending.length; ) {
    let end = start + 1;
    while (end < ascending.length && ascending[end] === ascending[start]) end++;
    for (let k = start; k < end; k++) out[order[k]!] = scoreOfRank[start + end - 1]!;
    start = end;
  }
}

/** In one bucket no more than so many numbers are put in order by insertion. */
const CROWD = 40;

/** Ascending order of the draws: spread over as many even buckets as there are draws, then by insertion, which finds them
 * all but in place. Draws that crowd, as heavy tails make them, are compared instead. */
function putInOrder({ draws, sorted, order, bucket, bucketEnd }: Halves): void {
  const n = draws.length;
  let low = Infinity;
  let high = -Infinity;
  for (let i = 0; i < n; i++) {
    low = Math.min(low, draws[i]!);
    high = Math.max(high, draws[i]!);
  }
  const perUnit = (n - 1) / (high - low);
  bucketEnd.fill(0);
  let crowd = 0;
  for (let i = 0; i < n; i++) {
    const b = ((draws[i]! - low) * perUnit) | 0;
    bucket[i] = b;
    crowd = Math.max(crowd, ++bucketEnd[b]!);
  }
  if (crowd > CROWD) {
    for (let i = 0; i < n; i++) order[i] = i;
    order.sort((a, b) => draws[a]! - draws[b]!);
  } else {
    for (let b = 1; b < n; b++) bucketEnd[b] = bucketEnd[b]! + bucketEnd[b - 1]!;
    for (let i = 0; i < n; i++) order[--bucketEnd[bucket[i]!]!] = i;
    for (let k = 1; k < n; k++) {
      const i = order[k]!;
      const x = draws[i]!;
      let to = k;
      for (; to > 0 && draws[order[to - 1]!]! > x; to--) order[to] = order[to - 1]!;
      order[to] = i;
    }
  }
  for (let k = 0; k < n; k++) sorted[k] = draws[order[k]!]!;
}

/** The room of the last call, for the next of the same size. */
let room: Halves | null = null;

/** Null for fewer than 4 draws or any that is not finite. */
function halve(chains: Chains): Halves | null {
  const whole = chains[0]?.length ?? 0;
  const length = Math.floor(whole / 2);
  if (length < 2 || chains.some((c) => c.length !== whole)) return null;
  if (room?.count !== 2 * chains.length || room.length !== length) room = newRoom(2 * chains.length, length);
  const { draws, sorted, order, scores, scoreOfRank } = room;
  chains.forEach((c, k) => {
    draws.set(c.subarray(0, length), 2 * k * length);
    draws.set(c.subarray(whole - length), (2 * k + 1) * length);
  });
  for (let i = 0; i < draws.length; i++) if (!Number.isFinite(draws[i])) return null;
  putInOrder(room);
  score(sorted, order, scoreOfRank, scores);
  return room;
}

/** Normal scores are Φ⁻¹((r − 3/8)/(S + 1/4)) of the rank r among S (their eq. 14). */
function newRoom(count: number, length: number): Halves {
  const n = count * length;
  return {
    count,
    length,
    draws: new Float64Array(n),
    sorted: new Float64Array(n),
    scores: new Float64Array(n),
    scoreOfRank: Float64Array.from({ length: 2 * n - 1 }, (_, k) =>
      normalQuantile((1 + k / 2 - 0.375) / (n + 0.25)),
    ),
    values: new Float64Array(n),
    centred: new Float64Array(n),
    distances: new Float64Array(n),
    order: new Uint32Array(n),
    folded: new Uint32Array(n),
    bucket: new Uint32Array(n),
    bucketEnd: new Uint32Array(n),
    means: new Float64Array(count),
    pair: new Float64Array(2),
  };
}

function everyHalfStandsStill({ count, length, draws }: Halves): boolean {
  for (let k = 0; k < count; k++) {
    const first = draws[k * length];
    for (let i = k * length; i < (k + 1) * length; i++) if (draws[i] !== first) return false;
  }
  return true;
}

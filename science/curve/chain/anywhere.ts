/**
 * A proposal for an age anywhere it could be: into an outlier's tail and out of it at once. All ages that a date allows are
 * parted into bins (`problem/age-bins.ts`), each weighed by the date's density and by how well the height suits the sea at
 * its middle. It does not depend on where the age stands, so that Metropolis and Hastings' ratio needs two bins alone.
 *
 * In the warm-up the sea is what all other points say just then, which costs a walk along all nodes and is asked of a few
 * points a sweep, and later of those that may well be outliers. Meanwhile the chain learns level and spread of its own
 * paths; for all other points the weights stay as these have them at the end of the warm-up, with a tenth of the date's own,
 * at the price of one age.
 */
import { exp, log, type RandomStream, square } from '@stillstand/science/base';
import type { Bins } from '../problem/age-bins.ts';
import { logHeightOf, type Problem } from '../problem/problem.ts';
import { type Messages, predictLevel } from '../process/messages.ts';
import { type Path, path } from '../process/path.ts';
import { trend_m } from '../process/rates.ts';

const KA = 1000;
/** Ages the sea is learnt at, from this much beyond the oldest date's mean to the youngest. */
const LEARNT = 96;
const BEYOND_KA = 3;
/** Where nothing was learnt, m. */
const UNKNOWN_M = 5;
/** Fewer paths say too little of the spread. */
const ENOUGH = 8;
/** Dates that are outliers more probably than this are asked each sweep, so many a sweep at most. */
const DOUBTFUL = 0.1;
const MOST_ASKED = 25;
/** Share of the date's own weights. */
const OWN = 0.1;

export interface Anywhere {
  /** For the weights of one point's bins. */
  weight: Float64Array;
  /** Paths of the warm-up at the ages learnt at, and what they come to. Null where no age may be an outlier. */
  learning: { path: Path; sum: Float64Array; squares: Float64Array; count: number } | null;
  /** Probabilities that each date is an outlier, summed over so many moves of the warm-up; how often it is asked. */
  doubt: Float64Array;
  moves: Float64Array;
  often: Float64Array;
  /** Of each point: log of the density of its bins, per ka, and their sums; null until it is learnt. */
  learnt: { log_density: Float64Array; cumulative: Float64Array }[] | null;
}

export function anywhere({ bins, ages, nodes }: Problem): Anywhere {
  const weight = new Float64Array(Math.max(0, ...bins.map((b) => b?.log_weight.length ?? 0)));
  const each = (): Float64Array => new Float64Array(ages.length);
  const doubts = { doubt: each(), moves: each(), often: each() };
  if (weight.length === 0) return { weight, ...doubts, learning: null, learnt: null };
  const means = ages.map((age) => age.mean_cal_bp / KA);
  const from = Math.min(...means) - BEYOND_KA;
  const to = Math.max(...means) + BEYOND_KA;
  const stops = Float64Array.from({ length: LEARNT }, (_, k) => from + ((to - from) * k) / (LEARNT - 1));
  const room = (): Float64Array => new Float64Array(LEARNT);
  return {
    weight,
    ...doubts,
    learning: { path: path(nodes, stops), sum: room(), squares: room(), count: 0 },
    learnt: null,
  };
}

/** Remembers a path drawn into `learning.path`. */
export function learnPath({ learning }: Anywhere): void {
  if (learning === null) return;
  const { level_m } = learning.path;
  for (let k = 0; k < LEARNT; k++) {
    learning.sum[k] = learning.sum[k]! + level_m[k]!;
    learning.squares[k] = learning.squares[k]! + square(level_m[k]!);
  }
  learning.count++;
}

/** Remembers how probable it is now that the date of a point is an outlier. */
export function learnDoubt({ doubt, moves }: Anywhere, i: number, p: number): void {
  doubt[i] = doubt[i]! + p;
  moves[i] = moves[i]! + 1;
}

/** Fixes how often each point is asked, and the weights by what was learnt; `shift_m`: shared errors at each point. */
export function fixPlaces(problem: Problem, room: Anywhere, shift_m: Float64Array): void {
  const { learning, often, doubt, moves } = room;
  let asked = 0;
  for (let i = 0; i < often.length; i++) {
    often[i] = moves[i]! > 0 && doubt[i]! > DOUBTFUL * moves[i]! ? 1 : 0;
    asked += often[i]!;
  }
  if (asked > MOST_ASKED) for (let i = 0; i < often.length; i++) often[i] = (often[i]! * MOST_ASKED) / asked;
  if (learning === null || learning.count < ENOUGH) return;
  const { age_ka } = learning.path;
  const from = age_ka[0]!;
  const step = age_ka[1]! - from;
  room.learnt = problem.bins.map((bins, i) => {
    if (bins === null) return { log_density: new Float64Array(0), cumulative: new Float64Array(0) };
    const { edge_ka, log_weight } = bins;
    const n = log_weight.length;
    const p = problem.points[i]!;
    // The part of a height error that is held explicitly is one more error here.
    const explicit =
      problem.explicit[i] === 1
        ? square(p.lowering_m)
        : problem.explicit[i] === 2
          ? square(p.half_range_m)
          : 0;
    const suits = log_weight.map((w, b) => {
      const k = Math.round(((edge_ka[b]! + edge_ka[b + 1]!) / 2 - from) / step);
      const isKnown = k >= 0 && k < LEARNT;
      const near = Math.min(LEARNT - 1, Math.max(0, k));
      const mean = learning.sum[near]! / learning.count;
      const variance = isKnown
        ? Math.max(0, learning.squares[near]! / learning.count - square(mean))
        : square(UNKNOWN_M);
      return w + logHeightOf(problem, i, p.height_m, mean + shift_m[i]!, variance + explicit);
    });
    const share = (of: Float64Array): Float64Array => {
      const most = of.reduce((a, b) => Math.max(a, b), -Infinity);
      const e = of.map((x) => exp(x - most));
      const sum = e.reduce((a, b) => a + b, 0);
      return e.map((x) => x / sum);
    };
    const [suiting, own] = [share(suits), share(log_weight)];
    const log_density = new Float64Array(n);
    const cumulative = new Float64Array(n);
    let sum = 0;
    for (let b = 0; b < n; b++) {
      const q = (1 - OWN) * suiting[b]! + OWN * own[b]!;
      sum += q;
      cumulative[b] = sum;
      log_density[b] = log(q / (edge_ka[b + 1]! - edge_ka[b]!));
    }
    return { log_density, cumulative };
  });
}

export interface Drawn {
  age_ka: number;
  /** Log of the density it was drawn with less that of where the age stands. */
  log_ratio: number;
}

/** An age by what was learnt; null where the age stands in no bin. */
export function proposeLearnt(
  { edge_ka }: Bins,
  { log_density, cumulative }: NonNullable<Anywhere['learnt']>[number],
  at_ka: number,
  stream: RandomStream,
): Drawn | null {
  const from = binOf(edge_ka, at_ka);
  if (from === -1) return null;
  const u = stream.uniform() * cumulative.at(-1)!;
  let to = 0;
  while (to < cumulative.length - 1 && u >= cumulative[to]!) to++;
  const age_ka = edge_ka[to]! + stream.uniform() * (edge_ka[to + 1]! - edge_ka[to]!);
  return { age_ka, log_ratio: log_density[to]! - log_density[from]! };
}

/** An age by what all other points say now; the point must be taken out of the messages. Null as above. */
export function proposeAsked(
  problem: Problem,
  i: number,
  { edge_ka, log_weight }: Bins,
  m: Messages,
  at: { age_ka: number; centre_m: number; shift_m: number },
  weight: Float64Array,
  stream: RandomStream,
): Drawn | null {
  const bins = log_weight.length;
  const from = binOf(edge_ka, at.age_ka);
  if (from === -1) return null;
  let most = -Infinity;
  for (let b = 0; b < bins; b++) {
    const middle = (edge_ka[b]! + edge_ka[b + 1]!) / 2;
    predictLevel(m, middle);
    const mean = m.level_m - trend_m(m.rates, middle) + at.shift_m;
    weight[b] = log_weight[b]! + logHeightOf(problem, i, at.centre_m, mean, m.variance_m2);
    if (weight[b]! > most) most = weight[b]!;
  }
  if (most === -Infinity) return null;
  let sum = 0;
  for (let b = 0; b < bins; b++) {
    weight[b] = exp(weight[b]! - most);
    sum += weight[b]!;
  }
  let left = stream.uniform() * sum;
  let to = 0;
  while (to < bins - 1 && left >= weight[to]!) left -= weight[to++]!;
  const age_ka = edge_ka[to]! + stream.uniform() * (edge_ka[to + 1]! - edge_ka[to]!);
  const density = (b: number): number => log(weight[b]!) - log(edge_ka[b + 1]! - edge_ka[b]!);
  return { age_ka, log_ratio: density(to) - density(from) };
}

function binOf(edge_ka: Float64Array, age_ka: number): number {
  const bins = edge_ka.length - 1;
  if (!(age_ka >= edge_ka[0]! && age_ka <= edge_ka[bins]!)) return -1;
  let low = 0;
  let high = bins - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (edge_ka[middle]! <= age_ka) low = middle;
    else high = middle - 1;
  }
  return low;
}

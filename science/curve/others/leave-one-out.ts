/**
 * What all other points lead to expect of each point, its own height forgotten: the level at the age its own date gives,
 * and how probable a height as low as the one found is. At a draw of everything else (ages and latent heights of the
 * others, shared errors, σ, ℓ) the path, the point's latent height and its age are summed out: the messages of the walk
 * give level and variance at any age with the node taken out, and a grid of ages carries the date's own distribution.
 * Draws given all points become draws given all others by the weight 1/p(height | all else), smoothed in its tail
 * (integrated importance sampling: Vehtari, Mononen, Tolvanen, Sivula & Winther 2016, J. Mach. Learn. Res. 17:103).
 *
 * Limits that are loose in the chain have a latent height drawn here, given the path that let them be: so the draw is one
 * of a chain that holds every limit.
 */
import { exp, log, normalCdf, type RandomStream } from '@stillstand/science/base';
import { type AgePrior, logAgeDensity, logAgeGiven, normalGiven } from '@stillstand/science/clocks';
import type { Chain } from '../chain/chain.ts';
import { ANY_AGE, boundsOf, isWithin } from '../problem/depth-order.ts';
import { drawHeight, logHeight, MARINE, TERRESTRIAL } from '../problem/height.ts';
import { tailGrid } from '../problem/outliers.ts';
import { errorKindOf, type Problem } from '../problem/problem.ts';
import { type Messages, messages, predictLevel, restart, takeOut } from '../process/messages.ts';
import type { Observations } from '../process/observations.ts';
import type { Path } from '../process/path.ts';
import { trend_m } from '../process/rates.ts';
import { ageMass } from './age-mass.ts';
import { logHeightAmong } from './height-density.ts';
import { logScore, type ScoreSum, scoreSum } from './score.ts';

const KA = 1000;
/** Ages of a date's grid, and how far it reaches: sd of a normal, share of any other left out at each end. */
const GRID = 21;
const REACH_SD = 3.5;
const FAINT = 3e-5;
/** Farther than so many sd the sea keeps clear of a limit: 1e-9. */
const CLEAR = 6;

/** The distribution of an age on a coarse grid, with weights adding to 1. */
interface AgeGrid {
  age_ka: Float64Array;
  weight: Float64Array;
}

/** The same of an outlier among the dates, with the probability that it is one; empty where there are none. */
type Tail = { age_ka: number; weight: number }[];

/** Room to ask a chain what its other points expect of each. */
export interface Others {
  /** Every point is walked, limits too. */
  o: Observations;
  messages: Messages;
  grids: AgeGrid[];
  tails: Tail[];
  sums: (ScoreSum | null)[];
  weight: Float64Array;
  stream: RandomStream;
}

/** Columns [point][draw]. */
export interface Expected {
  /** ln p(height | all else), up to a constant of the point, on a coarse grid: for weights. */
  logDensity: Float64Array[];
  /** The same on a fine grid and as the log of a density per metre, of limits of a probability. */
  score: Float64Array[];
  /** Index: probability of a height as low as that found or lower. Limit: that the sea keeps to its side. */
  below: Float64Array[];
  /** Level at the mean of the date: mean, m, and variance, m². */
  level_m: Float64Array[];
  variance_m2: Float64Array[];
}

export function others({ problem, o, rates, stream }: Chain): Others {
  const all: Observations = {
    ...o,
    height_m: new Float64Array(o.count),
    variance_m2: new Float64Array(o.count),
    order: new Int32Array(o.count),
    place: new Int32Array(o.count),
  };
  return {
    o: all,
    messages: messages(all, rates),
    grids: problem.ages.map(ageGrid),
    tails: problem.ages.map((prior) => tailOf(prior, problem)),
    sums: problem.ages.map((prior, i) =>
      scoreSum(ageMass(prior, problem.ageOutliers, problem.points[i]!.kind === 'index' ? 'index' : 'limit')),
    ),
    weight: new Float64Array(GRID),
    stream: stream.split('others'),
  };
}

export function noneExpected(problem: Problem, draws: number): Expected {
  const columns = (): Float64Array[] => problem.points.map(() => new Float64Array(draws));
  return {
    logDensity: columns(),
    score: columns(),
    below: columns(),
    level_m: columns(),
    variance_m2: columns(),
  };
}

/** Asks a chain as it stands, `path` drawn from it: what is expected of every point, as draw number `at`. */
export function keepExpected(chain: Chain, path: Path, room: Others, expected: Expected, at: number): void {
  takeIn(chain, path, room);
  const { order, count } = room.o;
  for (let k = 0; k < count; k++) {
    if (order[k]! < chain.problem.points.length) ask(chain, room, order[k]!, expected, at);
  }
}

/** The same of one point alone. */
export function keepExpectedOf(
  i: number,
  chain: Chain,
  path: Path,
  room: Others,
  expected: Expected,
  at: number,
): void {
  takeIn(chain, path, room);
  ask(chain, room, i, expected, at);
}

/** Where a chain stands, all limits held, into the room's own walk. */
function takeIn(chain: Chain, path: Path, { o, messages: m, stream }: Others): void {
  const { problem, limits, shift_m } = chain;
  const { points, kind } = problem;
  o.height_m.set(chain.o.height_m);
  o.variance_m2.set(chain.o.variance_m2);
  for (const i of limits.points) {
    const expected_m = path.levelAtNode_m[i]! + shift_m[i]!;
    const { height_m } = points[i]!;
    const { log_share, variance_m2 } = problem.heightOutliers;
    const which = errorKindOf(
      problem,
      i,
      height_m,
      expected_m,
      0,
      log_share.length === 1 ? 0 : stream.uniform(),
    );
    o.variance_m2[i] = variance_m2[log_share.length * i + which]!;
    const z = drawHeight(kind[i]!, height_m, 0, expected_m, o.variance_m2[i]!, stream);
    o.height_m[i] = z + trend_m(chain.rates, o.age_ka[i]!) - shift_m[i]!;
  }
  o.order.set(limits.all.order);
  o.place.set(limits.all.place);
  restart(m, chain.rates, false);
}

function ask(chain: Chain, room: Others, i: number, expected: Expected, at: number): void {
  const { problem, shift_m } = chain;
  const { messages: m, stream } = room;
  const p = problem.points[i]!;
  const kind = problem.kind[i]!;
  const noise = problem.heightOutliers.variance_m2[problem.heightOutliers.log_share.length * i]!;
  const isLimit = kind === TERRESTRIAL || kind === MARINE;
  takeOut(m, i);
  const middle = problem.ages[i]!.mean_cal_bp / KA;
  predictLevel(m, middle);
  expected.level_m[i]![at] = m.level_m - trend_m(chain.rates, middle);
  expected.variance_m2[i]![at] = m.variance_m2;
  expected.score[i]![at] = logScore(chain, m, room.sums[i]!, i);
  if (isLimit && keepsClear(chain, room, i)) {
    expected.logDensity[i]![at] = 0;
    expected.below[i]![at] = 1;
    return;
  }
  const { age_ka, weight, sound, tail } = agesGiven(chain, room, i);
  let density = 0;
  let below = 0;
  let most = -Infinity;
  for (let k = 0; k < age_ka.length; k++) {
    const age = age_ka[k]!;
    predictLevel(m, age);
    const mean = m.level_m - trend_m(chain.rates, age) + shift_m[i]!;
    const variance = m.variance_m2 + noise;
    const l = logHeightAmong(problem, i, mean, m.variance_m2);
    // Sum of weight·e^l, held against the largest l so far.
    if (l > most) {
      density *= most === -Infinity ? 0 : exp(most - l);
      most = l;
    }
    density += sound * weight[k]! * exp(l - most);
    if (isLimit) below += weight[k]! * exp(logHeight(kind, p.height_m, 0, mean, variance));
    else {
      const even = p.half_range_m > 0 ? p.half_range_m * (2 * stream.uniform() - 1) : 0;
      const lowered = p.lowering_m > 0 ? p.lowering_m * Math.abs(stream.normal()) : 0;
      below += weight[k]! * normalCdf((p.height_m - even + lowered - mean) / Math.sqrt(variance));
    }
  }
  for (const { age_ka: age, weight: w } of tail) {
    predictLevel(m, age);
    const l = logHeightAmong(problem, i, m.level_m - trend_m(chain.rates, age) + shift_m[i]!, m.variance_m2);
    if (l > most) {
      density *= most === -Infinity ? 0 : exp(most - l);
      most = l;
    }
    density += w * exp(l - most);
  }
  expected.logDensity[i]![at] = most + log(density);
  expected.below[i]![at] = below;
}

/** Whether the sea certainly keeps to a limit's side at both ends and in the middle of its date: nothing more to ask. */
function keepsClear(chain: Chain, room: Others, i: number): boolean {
  const { messages: m } = room;
  const { problem, shift_m } = chain;
  const { height_m, sigma_m } = problem.points[i]!;
  const side = problem.kind[i] === TERRESTRIAL ? 1 : -1;
  const { age_ka } = gridGiven(chain, room, i);
  for (const k of [0, age_ka.length >> 1, age_ka.length - 1]) {
    const age = age_ka[k]!;
    predictLevel(m, age);
    const mean = m.level_m - trend_m(chain.rates, age) + shift_m[i]!;
    if (side * (height_m - mean) < CLEAR * Math.sqrt(m.variance_m2 + sigma_m * sigma_m)) return false;
  }
  return true;
}

/** Ages of a date given the error it shares, with their weights. */
function gridGiven(chain: Chain, room: Others, i: number): AgeGrid {
  const { problem } = chain;
  const prior = problem.ages[i]!;
  const grid = room.grids[i]!;
  // The year it is, or that its history has now.
  if (prior.kind === 'fixed') grid.age_ka[0] = chain.o.age_ka[i]!;
  const g = problem.offsetOf[i]!;
  if (g < 0) return grid;
  if (prior.kind === 'normal') {
    const { mean_cal_bp, sd_yr } = normalGiven(prior, chain.offset[g]!);
    const moved = (age_ka: number): number =>
      (mean_cal_bp + (sd_yr / prior.sd_yr) * (KA * age_ka - prior.mean_cal_bp)) / KA;
    return { age_ka: grid.age_ka.map(moved), weight: grid.weight };
  }
  const { weight } = room;
  let sum = 0;
  for (let k = 0; k < grid.age_ka.length; k++) {
    const age = KA * grid.age_ka[k]!;
    const ratio = exp(logAgeGiven(prior, age, chain.offset[g]!) - logAgeDensity(prior, age));
    // A gap between two peaks may lie at the middle of a part.
    weight[k] = grid.weight[k]! * (Number.isFinite(ratio) ? ratio : 1);
    sum += weight[k]!;
  }
  for (let k = 0; k < grid.age_ka.length; k++) weight[k] = weight[k]! / sum;
  return { age_ka: grid.age_ka, weight };
}

/** Ages of a date as all else leaves them; `weight` adds to 1, and with `sound` and the weights of the tail again. */
interface AgesGiven extends AgeGrid {
  sound: number;
  tail: Tail;
}

function agesGiven(chain: Chain, room: Others, i: number): AgesGiven {
  const { problem, o } = chain;
  const { age_ka, weight } = gridGiven(chain, room, i);
  const tail = room.tails[i]!;
  const massOf = (of: Tail): number => of.reduce((sum, { weight: w }) => sum + w, 0);
  const sound = 1 - massOf(tail);
  const bounds = boundsOf(problem.order, o.age_ka, i);
  if (bounds === ANY_AGE) return { age_ka, weight, sound, tail };
  // Neighbours in its hole leave some of the ages.
  const kept = age_ka.map((age, k) => (isWithin(bounds, age) ? weight[k]! : 0));
  const left = kept.reduce((sum, w) => sum + w, 0);
  const within = tail.filter(({ age_ka: age }) => isWithin(bounds, age));
  const total = sound * left + massOf(within);
  // Where they leave none of the grid's, the one it has now is one.
  if (left === 0) {
    const now = { age_ka: Float64Array.of(o.age_ka[i]!), weight: Float64Array.of(1) };
    const scaled = within.map((each) => ({ ...each, weight: each.weight / total }));
    return { ...now, sound: total > 0 ? 0 : 1, tail: scaled };
  }
  return {
    age_ka,
    weight: kept.map((w) => w / left),
    sound: (sound * left) / total,
    tail: within.map((each) => ({ ...each, weight: each.weight / total })),
  };
}

function tailOf(prior: AgePrior, { ageOutliers: out }: Problem): Tail {
  if (out === null || prior.kind === 'fixed') return [];
  return tailGrid(prior, out).map(({ age_cal_bp, weight }) => ({
    age_ka: age_cal_bp / KA,
    weight: weight * exp(out.log_out),
  }));
}

function ageGrid(prior: AgePrior): AgeGrid {
  switch (prior.kind) {
    case 'fixed':
      return { age_ka: Float64Array.of(prior.mean_cal_bp / KA), weight: Float64Array.of(1) };
    case 'normal': {
      const z = Float64Array.from({ length: GRID }, (_, k) => REACH_SD * ((2 * k) / (GRID - 1) - 1));
      return {
        age_ka: z.map((x) => (prior.mean_cal_bp + x * prior.sd_yr) / KA),
        weight: normalised(z.map((x) => exp(-0.5 * x * x))),
      };
    }
    case 'cells': {
      const { cumulative: c, from_cal_bp } = prior;
      let first = 0;
      let last = c.length - 1;
      while (c[first]! < FAINT) first++;
      while (last > first && c[last - 1]! > 1 - FAINT) last--;
      const each = Math.ceil((last - first + 1) / GRID);
      const age_ka: number[] = [];
      const weight: number[] = [];
      for (let from = first; from <= last; from += each) {
        const to = Math.min(last, from + each - 1);
        const mass = c[to]! - (from === 0 ? 0 : c[from - 1]!);
        if (!(mass > 0)) continue;
        age_ka.push((from_cal_bp + (from + to) / 2) / KA);
        weight.push(mass);
      }
      return { age_ka: Float64Array.from(age_ka), weight: normalised(Float64Array.from(weight)) };
    }
  }
}

function normalised(weight: Float64Array): Float64Array {
  const sum = weight.reduce((total, w) => total + w, 0);
  return weight.map((w) => w / sum);
}

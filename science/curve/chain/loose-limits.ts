/**
 * Limits the sea keeps clear of. A latent height on each of them would pin the path there to within the sample's sigma,
 * and the ages beside it would creep. So they stay out of the chain, loose: a path drawn from it counts only with the
 * probability that they let it pass, and the paths that count are draws from the whole posterior (rejection).
 *
 * Limits the sea presses against would reject too many. A chain starts with all limits loose and learns during its
 * warm-up which to hold: those become heights of the chain like any other, with a latent height on their side of y.
 *
 * A point that is left out is neither walked nor asked: its age alone is drawn, from what its date says.
 */
import { exp, log, type RandomStream } from '@stillstand/science/base';
import { MARINE, TERRESTRIAL } from '../problem/height.ts';
import type { Problem } from '../problem/problem.ts';
import { logHeightOf } from '../problem/problem.ts';
import { type Observations, sortByAge } from '../process/observations.ts';
import { drawPath, type Path } from '../process/path.ts';
import type { Rates } from '../process/rates.ts';

/** Share of the paths the loose limits may turn away, about. */
const TURNED_AWAY = 0.5;

export interface LooseLimits {
  /** Points that are loose, and the one left out, −1 for none; 1 for each of them by point. */
  points: number[];
  leftOut: number;
  isLoose: Uint8Array;
  /** All nodes, the loose ones not observed: what paths are drawn from. */
  all: Observations;
  /** Probability of failing each point's limit, summed over so many paths. */
  failing: Float64Array;
  paths: number;
}

/** All limits loose: takes them out of the walk. */
export function looseLimits(problem: Problem, o: Observations): LooseLimits {
  const limits = problem.visit.filter((i) => problem.kind[i] === TERRESTRIAL || problem.kind[i] === MARINE);
  const isLoose = new Uint8Array(problem.points.length);
  const variance_m2 = Float64Array.from(o.variance_m2);
  for (const i of limits) {
    isLoose[i] = 1;
    variance_m2[i] = Infinity;
  }
  const all = { ...o, order: Int32Array.from(o.order), place: new Int32Array(o.count), variance_m2 };
  o.order = o.order.filter((node) => isLoose[node] !== 1);
  const failing = new Float64Array(problem.points.length);
  return { points: [...limits], leftOut: -1, isLoose, all, failing, paths: 0 };
}

/**
 * A draw of the path at all nodes, loose ones included; `o.height_m` with the shared errors taken off, `variance_m2` of
 * the heights as their errors are now.
 */
export function drawWholePath(
  limits: LooseLimits,
  path: Path,
  variance_m2: Float64Array,
  rates: Rates,
  stream: RandomStream,
): void {
  const { all, isLoose } = limits;
  for (let i = 0; i < all.count; i++) if (isLoose[i] !== 1) all.variance_m2[i] = variance_m2[i]!;
  sortByAge(limits.all);
  drawPath(path, limits.all, rates, stream);
}

/** Whether a path counts: a coin with the probability that all loose limits hold. */
export function letPass(
  limits: LooseLimits,
  problem: Problem,
  path: Path,
  shift_m: Float64Array,
  stream: RandomStream,
): boolean {
  let sum = 0;
  for (const i of limits.points) sum += logHolds(problem, i, path.levelAtNode_m[i]! + shift_m[i]!);
  return limits.points.length === 0 || log(stream.uniform()) < sum;
}

/** Remembers how a path fares with each loose limit. */
export function watchLimits(limits: LooseLimits, problem: Problem, path: Path, shift_m: Float64Array): void {
  for (const i of limits.points) {
    const holds = exp(logHolds(problem, i, path.levelAtNode_m[i]! + shift_m[i]!));
    limits.failing[i] = limits.failing[i]! + 1 - holds;
  }
  limits.paths++;
}

/** Those that fail most, so many that the others would turn few paths away; forgets what was seen. */
export function pressing(limits: LooseLimits): number[] {
  const { points, failing, paths } = limits;
  const worstFirst = points.toSorted((i, j) => failing[j]! - failing[i]! || i - j);
  let turnedAway = worstFirst.reduce((sum, i) => sum + failing[i]! / paths, 0);
  const held: number[] = [];
  for (const i of worstFirst) {
    if (turnedAway <= TURNED_AWAY) break;
    turnedAway -= failing[i]! / paths;
    held.push(i);
  }
  failing.fill(0);
  limits.paths = 0;
  return held;
}

/** Takes limits into the walk. */
export function hold(limits: LooseLimits, o: Observations, held: readonly number[]): void {
  for (const i of held) {
    limits.isLoose[i] = 0;
    limits.all.variance_m2[i] = o.variance_m2[i]!;
  }
  limits.points = limits.points.filter((i) => limits.isLoose[i] === 1);
  o.order = Int32Array.of(...o.order, ...held);
  sortByAge(o);
}

/** Logarithm of the probability that a sea at this height, shared errors added, is on the limit's side. */
function logHolds(problem: Problem, i: number, level_m: number): number {
  return logHeightOf(problem, i, problem.points[i]!.height_m, level_m, 0);
}

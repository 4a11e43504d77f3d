/**
 * The leave-one-out score of a point at one draw of all else: log density of its height given its own date, what the other
 * points say of the sea, and the shared errors, with its age, the outlier states of date and height and the path summed
 * out. Over the draws it is a mean of these densities (`from-others.ts`).
 *
 * The sum over the age goes from knot to knot of the date (`age-mass.ts`). Between two the level the others expect is taken
 * as straight, in steps of about the height's sd, each asked at the two nodes of Gauss and Legendre with the mass of its half.
 */
import { exp, log, square } from '@stillstand/science/base';
import type { Chain } from '../chain/chain.ts';
import { boundsOf } from '../problem/depth-order.ts';
import { EXACT, LOWERED, MARINE, TERRESTRIAL } from '../problem/height.ts';
import { type Messages, predictLevel } from '../process/messages.ts';
import { trend_m } from '../process/rates.ts';
import { type AgeMass, giveShift, massBelow } from './age-mass.ts';
import { logHeightAmong, logUnit } from './height-density.ts';

/** Longest step in sds of the height; and most steps. */
const STEP_SD = { index: 1, limit: 3 };
const STEPS = 60;
/** Between two knots that hold more than this share of the date the sum is always fine; a share of the density that is slight. */
const MUCH = 0.02;
const SLIGHT = 0.02;
/** Where the level moves less, in sds of the height, one age is enough. */
const STILL_SD = 0.3;
/** Of a node from the middle of a step, in half steps. */
const NODE = 1 / Math.sqrt(3);

/** What is known of a point's age, and room for the sum over it. */
export interface ScoreSum {
  dated: AgeMass;
  edge_ka: Float64Array;
  /** Mass below each edge; level, m, and its variance, m². */
  mass: Float64Array;
  level_m: Float64Array;
  variance_m2: Float64Array;
}

/** Null for a certain year. */
export function scoreSum(dated: AgeMass | null): ScoreSum | null {
  if (dated === null) return null;
  const room = (): Float64Array => new Float64Array(dated.knot_ka.length + 2);
  return { dated, edge_ka: room(), mass: room(), level_m: room(), variance_m2: room() };
}

/** Of point `i`, taken out of the messages. */
export function logScore(chain: Chain, m: Messages, sum: ScoreSum | null, i: number): number {
  const { problem, o, rates } = chain;
  const shift = chain.shift_m[i]!;
  const unit = logUnit(problem, i);
  const levelAt = (age_ka: number): number => {
    predictLevel(m, age_ka);
    return m.level_m - trend_m(rates, age_ka) + shift;
  };
  const atNow = (): number => unit + logHeightAmong(problem, i, levelAt(o.age_ka[i]!), m.variance_m2);
  if (sum === null) return atNow();
  const { dated } = sum;
  const g = problem.offsetOf[i]!;
  if (g >= 0) giveShift(dated, chain.offset[g]!);

  const { knot_ka, below } = dated;
  // Neighbours in its hole leave some of the ages.
  const bounds = boundsOf(problem.order, o.age_ka, i);
  const from = Math.max(bounds.youngest, knot_ka[0]!);
  const to = Math.min(bounds.oldest, knot_ka.at(-1)!);
  if (!(to > from)) return atNow();
  // Levels the others expect at the knots there are, and at both ends.
  const { edge_ka, mass: upTo, level_m, variance_m2 } = sum;
  let edges = 0;
  const addEdge = (age_ka: number, of: number): void => {
    edge_ka[edges] = age_ka;
    upTo[edges] = of;
    level_m[edges] = levelAt(age_ka);
    variance_m2[edges++] = m.variance_m2;
  };
  addEdge(from, massBelow(dated, from));
  for (let k = 0; k < knot_ka.length; k++)
    if (knot_ka[k]! > from && knot_ka[k]! < to) addEdge(knot_ka[k]!, below[k]!);
  addEdge(to, massBelow(dated, to));

  const { log_share, variance_m2: own } = problem.heightOutliers;
  const variance = own[log_share.length * i]!;
  const kind = problem.kind[i]!;
  const isLimit = kind === TERRESTRIAL || kind === MARINE;
  const whole = upTo[edges - 1]! - upTo[0]!;
  let total = 0;
  let density = 0;
  let most = -Infinity;
  const add = (weight: number, level: number, of: number): void => {
    if (!(weight > 0)) return;
    const l = logHeightAmong(problem, i, level, of);
    if (l > most) {
      density *= most === -Infinity ? 0 : exp(most - l);
      most = l;
    }
    density += weight * exp(l - most);
    total += weight;
  };
  const addBetween = (e: number, isSlight: boolean): void => {
    const [levelA, levelB] = [level_m[e]!, level_m[e + 1]!];
    const middle = (variance_m2[e]! + variance_m2[e + 1]!) / 2;
    const moves = Math.abs(levelB - levelA) / Math.sqrt(middle + variance);
    if (isSlight || moves < STILL_SD) {
      // Levels passed through evenly are taken as normal ones of the same variance.
      add(upTo[e + 1]! - upTo[e]!, (levelA + levelB) / 2, middle + square(levelB - levelA) / 12);
      return;
    }
    const steps = Math.ceil(Math.min(STEPS, moves / (isLimit ? STEP_SD.limit : STEP_SD.index)));
    const [a, b] = [edge_ka[e]!, edge_ka[e + 1]!];
    let before = upTo[e]!;
    for (let half = 1; half <= 2 * steps; half++) {
      const after = half === 2 * steps ? upTo[e + 1]! : massBelow(dated, a + ((b - a) * half) / (2 * steps));
      const at = half % 2 === 1 ? half - NODE : half - 1 + NODE;
      add(after - before, levelA + ((levelB - levelA) * at) / (2 * steps), middle);
      before = after;
    }
  };
  // First where most of the date lies; of the rest, what could add little even if its level suited the height is summed coarsely.
  const isMuch = (e: number): boolean => upTo[e + 1]! - upTo[e]! > MUCH * whole;
  for (let e = 0; e + 1 < edges; e++) if (isMuch(e)) addBetween(e, false);
  for (let e = 0; e + 1 < edges; e++) {
    if (isMuch(e)) continue;
    const best = kind === EXACT || kind === LOWERED ? -0.5 * log(variance + variance_m2[e]!) : 0;
    addBetween(e, (upTo[e + 1]! - upTo[e]!) * exp(Math.min(0, best - most)) < SLIGHT * density);
  }
  return total > 0 ? unit + most + log(density / total) : atNow();
}

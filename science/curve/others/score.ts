/**
 * The leave-one-out score of a point at one draw of all else: log density of its height given its own date, what the other
 * points say of the sea, and the shared errors, with its age, the outlier states of date and height and the path summed
 * out. Over the draws it is a mean of these densities (`from-others.ts`).
 *
 * The sum over the age goes from knot to knot of the date (`age-mass.ts`). Between two the level the others expect is taken
 * as straight, in steps of about the height's sd, each asked at the two nodes of Gauss and Legendre with the mass of its half.
 */
import { exp, log } from '@stillstand/science/base';
import type { Chain } from '../chain/chain.ts';
import { boundsOf } from '../problem/depth-order.ts';
import { MARINE, TERRESTRIAL } from '../problem/height.ts';
import { type Messages, predictLevel } from '../process/messages.ts';
import { trend_m } from '../process/rates.ts';
import { type AgeMass, giveShift, massBelow } from './age-mass.ts';
import { logHeightAmong, logUnit } from './height-density.ts';

/** Longest step in sds of the height: between knots that hold more than this share of the date, between others, of a limit. */
const STEP_SD = { much: 1, little: 2, limit: 3 };
const MUCH = 0.02;
const STEPS = 60;
/** Where the level moves less, in sds of the height, one age is enough. */
const STILL_SD = 0.3;
/** Of a node from the middle of a step, in half steps. */
const NODE = 1 / Math.sqrt(3);

/** Of point `i`, taken out of the messages. */
export function logScore(chain: Chain, m: Messages, mass: AgeMass | null, i: number): number {
  const { problem, o, rates } = chain;
  const shift = chain.shift_m[i]!;
  const unit = logUnit(problem, i);
  const levelAt = (age_ka: number): number => {
    predictLevel(m, age_ka);
    return m.level_m - trend_m(rates, age_ka) + shift;
  };
  const atNow = (): number => unit + logHeightAmong(problem, i, levelAt(o.age_ka[i]!), m.variance_m2);
  if (mass === null) return atNow();
  const g = problem.offsetOf[i]!;
  if (g >= 0) giveShift(mass, chain.offset[g]!);

  const { knot_ka, below } = mass;
  // Neighbours in its hole leave some of the ages.
  const bounds = boundsOf(problem.order, o.age_ka, i);
  const from = Math.max(bounds.youngest, knot_ka[0]!);
  const to = Math.min(bounds.oldest, knot_ka.at(-1)!);
  if (!(to > from)) return atNow();
  const { log_share, variance_m2: own } = problem.heightOutliers;
  const variance = own[log_share.length * i]!;
  const isLimit = problem.kind[i] === TERRESTRIAL || problem.kind[i] === MARINE;
  const much = MUCH * (below.at(-1)! - below[0]!);
  let k = 0;
  while (knot_ka[k]! <= from) k++;
  let a = from;
  let massA = massBelow(mass, a);
  let levelA = levelAt(a);
  let varianceA = m.variance_m2;
  let total = 0;
  let sum = 0;
  let most = -Infinity;
  const add = (weight: number, level: number, of: number): void => {
    if (!(weight > 0)) return;
    const l = logHeightAmong(problem, i, level, of);
    if (l > most) {
      sum *= most === -Infinity ? 0 : exp(most - l);
      most = l;
    }
    sum += weight * exp(l - most);
    total += weight;
  };
  while (a < to) {
    const isKnot = knot_ka[k]! < to;
    const b = isKnot ? knot_ka[k]! : to;
    const massB = isKnot ? below[k]! : massBelow(mass, b);
    const levelB = levelAt(b);
    const varianceB = m.variance_m2;
    const middle = (varianceA + varianceB) / 2;
    const longest = isLimit ? STEP_SD.limit : massB - massA > much ? STEP_SD.much : STEP_SD.little;
    const moves = Math.abs(levelB - levelA) / Math.sqrt(middle + variance);
    const steps = moves < STILL_SD ? 0 : Math.ceil(Math.min(STEPS, moves / longest));
    if (steps === 0) add(massB - massA, (levelA + levelB) / 2, middle);
    let before = massA;
    for (let half = 1; half <= 2 * steps; half++) {
      const after = half === 2 * steps ? massB : massBelow(mass, a + ((b - a) * half) / (2 * steps));
      const at = half % 2 === 1 ? half - NODE : half - 1 + NODE;
      add(after - before, levelA + ((levelB - levelA) * at) / (2 * steps), middle);
      before = after;
    }
    a = b;
    massA = massB;
    levelA = levelB;
    varianceA = varianceB;
    k++;
  }
  return total > 0 ? unit + most + log(sum / total) : atNow();
}

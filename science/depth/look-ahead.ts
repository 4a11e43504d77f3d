/**
 * What the soundings still to come say, roughly, of the layers at the end of a spell: it steers the filter and is divided
 * out of its weights again. The logit of what entered in a spell is taken as a reading, with a normal error, of the mean
 * of its layers; then all is linear and normal, and runs upwards in one pass for every pair of ρ₀ and ℓ.
 */
import { exp, log, square } from '@stillstand/science/base';
import type { Ground, Spell } from './cells.ts';
import type { ReadingErrors } from './errors.ts';
import { PAIRS, type Pairs } from './pairs.ts';

/** A spell as the filter draws it. Arrays by pair. */
export interface Course {
  spell: Spell;
  /** Layer k = before[k]·(layer k − 1) + ahead[k]·pull + sd[k]·noise. */
  before: Float64Array;
  ahead: Float64Array;
  sd: Float64Array;
  /** What lies ahead says e^(−weight·g²/2 + pull·g) of the last layer, g. */
  weight: number;
  pull: Float64Array;
  /** Precision of all layers of the spell moved together. */
  precision: number;
  /** The mean of the layers as read, and as expected: above·mean_above + pull·mean_ahead ± √variance. */
  found: Float64Array;
  mean_above: number;
  mean_ahead: number;
  variance: number;
}

export interface LookAhead {
  /** One for each spell, in order. */
  courses: Course[];
  /** Probability of the pairs after the soundings, roughly; cumulative. */
  cumulative: Float64Array;
}

/** Variance of the mean of layers as read that a logit and a straight line miss. Steers only. */
const ROUGH = 0.02;

export function lookAhead(ground: Ground, errors: ReadingErrors, pairs: Pairs): LookAhead {
  const cells = ground.edges.length - 1;
  const courses: Course[] = [];
  let weight = 0;
  let pull = new Float64Array(PAIRS);
  const likelihood = new Float64Array(PAIRS);
  for (let j = ground.stands.length - 1; j >= 0; j--) {
    const { spell, from, to } = ground.stands[j]!;
    if (spell === null) continue;
    const n = spell.cells;
    const before = new Float64Array(n);
    const ahead = new Float64Array(n);
    const sd = new Float64Array(n);
    const weightAtEnd = weight;
    // what lies ahead carried up the cells: weight, share of the pull, and its log density for a pull of 0 and of 1
    let share = 1;
    let flat = 0;
    let curved = 0;
    for (let k = n - 1; k >= 0; k--) {
      const follow = k === 0 ? spell.enter : spell.follow;
      const variance = k === 0 ? spell.enter_variance : spell.follow_variance;
      const held = 1 / (1 + variance * weight);
      before[k] = follow * held;
      ahead[k] = variance * held * share;
      sd[k] = Math.sqrt(variance * held);
      flat += 0.5 * log(held);
      curved += 0.5 * variance * held * share * share;
      weight *= follow * follow * held;
      share *= follow * held;
    }
    // mean of the layers: how it hangs on the cell above and on the pull, and its variance
    let mean_above = 0;
    let mean_ahead = 0;
    let above = 1;
    let pulled = 0;
    let own = 0;
    let shared = 0;
    let total = 0;
    for (let k = 0; k < n; k++) {
      const a = before[k]!;
      above *= a;
      pulled = a * pulled + ahead[k]!;
      mean_above += above / n;
      mean_ahead += pulled / n;
      shared = a * (shared + own);
      own = a * a * own + square(sd[k]!);
      total += (own + 2 * shared) / (n * n);
    }
    const found = new Float64Array(PAIRS);
    const next = new Float64Array(PAIRS);
    let variance = 1;
    let gained = 0;
    if (to > from) {
      const gain = ground.read_m[from]! - (from === 0 ? 0 : ground.read_m[from - 1]!);
      const sigma = differenceSigma(errors, from);
      // layers within the spell flatten the logistic (MacKay 1992, Neural Comput. 4:720–736)
      const flatten = Math.sqrt(1 + (Math.PI / 8) * Math.max(0, spell.variance - total));
      const edge = Math.min(0.3, (0.5 * sigma) / spell.length_m);
      const recovery = Math.max(edge, Math.min(1 - edge, gain / spell.length_m));
      const logit = flatten * log(recovery / (1 - recovery));
      const error = (flatten * sigma) / (spell.length_m * recovery * (1 - recovery));
      variance = total + error * error + ROUGH;
      gained = mean_above / variance;
      weight += mean_above * gained;
      for (let p = 0; p < PAIRS; p++) {
        let mean = 0;
        const base = p * cells + spell.first;
        for (let k = 0; k < n; k++) mean += pairs.logit[base + k]!;
        found[p] = logit - mean / n;
      }
    }
    for (let p = 0; p < PAIRS; p++) {
      const off = gained === 0 && to === from ? 0 : found[p]! - mean_ahead * pull[p]!;
      next[p] = share * pull[p]! + gained * off;
      likelihood[p] = likelihood[p]! + flat + curved * square(pull[p]!) - (0.5 * off * off) / variance;
    }
    const slips = ((n - 1) * square(1 - spell.follow)) / spell.follow_variance;
    courses.push({
      spell,
      before,
      ahead,
      sd,
      weight: weightAtEnd,
      pull,
      precision: 1 / spell.enter_variance + slips + weightAtEnd,
      found,
      mean_above,
      mean_ahead,
      variance,
    });
    pull = next;
  }
  const most = likelihood.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  const cumulative = new Float64Array(PAIRS);
  let sum = 0;
  for (let p = 0; p < PAIRS; p++) {
    sum += exp(likelihood[p]! - most);
    cumulative[p] = sum;
  }
  for (let p = 0; p < PAIRS; p++) cumulative[p] = cumulative[p]! / sum;
  return { courses: courses.reverse(), cumulative };
}

/** 1 sigma of the difference of a pin and the one before it. */
function differenceSigma({ factor, pins, runs }: ReadingErrors, pin: number): number {
  const n = pins + runs;
  let sum = 0;
  for (let k = 0; k <= pin; k++) {
    const before = pin === 0 ? 0 : factor[(pin - 1) * n + k]!;
    sum += square(factor[pin * n + k]! - before);
  }
  return Math.sqrt(sum);
}

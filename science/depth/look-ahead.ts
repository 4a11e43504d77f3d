/**
 * What the soundings still to come say, roughly, of the layers at the end of a spell: it steers the filter and is divided
 * out of its weights again. The logit of what entered in a spell is taken as a reading, with a normal error, of the mean
 * of its layers; then all is linear and normal, and runs upwards in one pass for every world. Layers are of sd 1 here; a
 * contrast multiplies them.
 */
import { exp, log, square } from '@stillstand/science/base';
import { type Choice, gainDensity, ROUGH, type Ways } from './by-passing.ts';
import type { Ground, Spell } from './cells.ts';
import type { ReadingErrors } from './errors.ts';
import { WORLDS, type Worlds } from './worlds.ts';

/** A spell as the filter draws it. */
export interface Course {
  spell: Spell;
  /** By level. */
  by: Steered[];
  /** By world: what lies ahead says e^(−weight·g²/2 + pull·g) of the last layer, g. */
  pull: Float64Array;
  /** By world: the mean of the layers as read, and how much better by-passing explains the reading, logarithm. */
  found: Float64Array;
  bonus: Float64Array;
  /** By level: how much better it is read if by-passed ground reaches down to it. */
  onto: Float64Array;
}

export interface Steered {
  /** Layer k = before[k]·(layer k − 1) + ahead[k]·pull + sd[k]·noise. */
  before: Float64Array;
  ahead: Float64Array;
  sd: Float64Array;
  weight: number;
  /** Precision of all layers of the spell moved together. */
  precision: number;
  /** The mean of the layers as expected: above·mean_above + pull·mean_ahead, of itself and as read ± √variance. */
  mean_above: number;
  mean_ahead: number;
  own_variance: number;
  variance: number;
  /** What layers within the spell flatten the logistic of their mean by. */
  flatten: number;
  /** What the weight of a draw lacks of this level, logarithm. */
  constant: number;
}

export interface LookAhead {
  /** One for each spell, in order. */
  courses: Course[];
  /** Probability of the worlds after the soundings, roughly; cumulative. */
  cumulative: Float64Array;
}

/** Recovery of a spell above which by-passing is left out here. */
const WHOLE = 0.97;
/** No density is taken for less. */
const LEAST = 1e-100;

export function lookAhead(
  ground: Ground,
  errors: ReadingErrors,
  worlds: Worlds,
  ways: readonly (Ways | null)[],
): LookAhead {
  const cells = ground.edges.length - 1;
  const { levels, level } = worlds;
  const courses: Course[] = [];
  const weight = new Float64Array(levels.length);
  let pull = new Float64Array(WORLDS);
  const likelihood = new Float64Array(WORLDS);
  const mean = new Float64Array(WORLDS);
  const density = new Float64Array(WORLDS);
  const without = new Float64Array(WORLDS);
  const all = new Float64Array(levels.length);
  const meanOf = new Float64Array(levels.length);
  let number = ways.length;
  for (let j = ground.stands.length - 1; j >= 0; j--) {
    const { spell, from, to } = ground.stands[j]!;
    if (spell === null) continue;
    const passing = ways[--number]!;
    const read = to > from ? readingOf(ground, errors, spell, from) : null;
    const drawn = levels.map((_, l) => steer(spell, weight[l]!));
    // what by-passing has to do with the reading: density with it, and the probability that it has nothing to do with it
    all.fill(0);
    meanOf.fill(0);
    if (read !== null) {
      for (let w = 0; w < WORLDS; w++) {
        let sum = 0;
        const base = w * cells + spell.first;
        for (let k = 0; k < spell.cells; k++) sum += worlds.logit[base + k]!;
        mean[w] = sum / spell.cells;
        const l = level[w]!;
        const { layer_sd, by_passing } = levels[l]!;
        if (passing === null || !by_passing) continue;
        const [among] = passing.choices;
        const expected = mean[w]! + layer_sd * drawn[l]!.mean_ahead * pull[w]!;
        const variance = square(layer_sd) * drawn[l]!.own_variance;
        const flatten = flattening(spell, drawn[l]!.own_variance, layer_sd);
        const none = among[0]!.probability * densityOf(read, 1, expected, variance, flatten);
        let sumOf = none;
        if (read.recovery < WHOLE) {
          for (let a = 1; a < among.length; a++) {
            const open = among[a]!.open_m / spell.length_m;
            if (open + 3 * read.sigma < read.recovery) continue;
            sumOf += among[a]!.probability * densityOf(read, open, expected, variance, flatten);
          }
        }
        density[w] = sumOf;
        without[w] = none;
        all[l] = all[l]! + sumOf;
        meanOf[l] = meanOf[l]! + sumOf * expected;
      }
    }
    const by: Steered[] = [];
    const upwards = drawn.map((d, l) => {
      const [steered, up] = meet(spell, d, weight[l]!, levels[l]!.layer_sd, read);
      by.push(steered);
      weight[l] = up.weight;
      return up;
    });
    const found = new Float64Array(WORLDS);
    const bonus = new Float64Array(WORLDS);
    const next = new Float64Array(WORLDS);
    for (let w = 0; w < WORLDS; w++) {
      const l = level[w]!;
      const { mean_ahead, variance } = by[l]!;
      const { share, flat, curved, gained, logit, spread } = upwards[l]!;
      const p = pull[w]!;
      let sum = flat + curved * square(p);
      next[w] = share * p;
      if (read !== null) {
        found[w] = (logit - mean[w]!) / levels[l]!.layer_sd;
        let off = found[w]! - mean_ahead * p;
        if (all[l]! > 0) {
          off *= density[w]! > 0 ? without[w]! / density[w]! : 0;
          found[w] = mean_ahead * p + off;
        }
        next[w] = next[w]! + gained * off;
        sum -= (0.5 * off * off) / variance;
        if (all[l]! > 0) {
          bonus[w] = log(Math.max(LEAST, density[w]!)) + spread + (0.5 * off * off) / variance;
          sum += bonus[w]!;
        }
      }
      likelihood[w] = likelihood[w]! + sum;
    }
    const onto = Float64Array.from(levels, ({ layer_sd }, l) => {
      if (read === null || passing === null || !(all[l]! > 0)) return 1;
      const { own_variance, flatten } = by[l]!;
      const variance = square(layer_sd) * own_variance;
      const [below, belowPassed] = passing.choices.map((among) =>
        densityOfAll(read, passing, among, spell.length_m, meanOf[l]! / all[l]!, variance, flatten),
      );
      return Math.max(0.01, Math.min(100, belowPassed! / below!));
    });
    courses.push({ spell, by, pull, found, bonus, onto });
    pull = next;
  }
  const most = likelihood.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  const cumulative = new Float64Array(WORLDS);
  let sum = 0;
  for (let w = 0; w < WORLDS; w++) {
    sum += exp(likelihood[w]! - most);
    cumulative[w] = sum;
  }
  for (let w = 0; w < WORLDS; w++) cumulative[w] = cumulative[w]! / sum;
  return { courses: courses.reverse(), cumulative };
}

/** What entered in a spell, as a share of it. */
interface Reading {
  recovery: number;
  /** 1 sigma. */
  sigma: number;
}

function readingOf(ground: Ground, errors: ReadingErrors, { length_m }: Spell, pin: number): Reading {
  const gain = ground.read_m[pin]! - (pin === 0 ? 0 : ground.read_m[pin - 1]!);
  const sigma = differenceSigma(errors, pin) / length_m;
  const edge = Math.min(0.3, 0.5 * sigma);
  return { recovery: Math.max(edge, Math.min(1 - edge, gain / length_m)), sigma };
}

/** Density, but for √2π, of the logit of what was read where a share of the spell enters. */
function densityOf(
  { recovery, sigma }: Reading,
  open: number,
  mean: number,
  variance: number,
  flatten: number,
): number {
  return (
    (recovery * (1 - recovery) * gainDensity(recovery, sigma, open, 1, mean, variance, flatten)) / flatten
  );
}

/** The same over all ways that can be taken. */
function densityOfAll(
  read: Reading,
  { open_m }: Ways,
  among: readonly Choice[],
  length_m: number,
  mean: number,
  variance: number,
  flatten: number,
): number {
  let sum = 0;
  for (const { from, to, probability } of among) {
    for (let way = from; way < to; way++) {
      const open = open_m[way]! / length_m;
      if (open + 3 * read.sigma < read.recovery) continue;
      sum += (probability / (to - from)) * densityOf(read, open, mean, variance, flatten);
    }
  }
  return sum;
}

/** One spell at one level, from what lies ahead of it to what lies ahead of the spell above, without its reading. */
function steer(spell: Spell, weightAtEnd: number) {
  const n = spell.cells;
  const before = new Float64Array(n);
  const ahead = new Float64Array(n);
  const sd = new Float64Array(n);
  // what lies ahead carried up the cells: weight, share of the pull, and its log density for a pull of 0 and of 1
  let weight = weightAtEnd;
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
  let own_variance = 0;
  for (let k = 0; k < n; k++) {
    const a = before[k]!;
    above *= a;
    pulled = a * pulled + ahead[k]!;
    mean_above += above / n;
    mean_ahead += pulled / n;
    shared = a * (shared + own);
    own = a * a * own + square(sd[k]!);
    own_variance += (own + 2 * shared) / (n * n);
  }
  return { before, ahead, sd, weight, share, flat, curved, mean_above, mean_ahead, own_variance };
}

/** What layers within a spell flatten the logistic of their mean by (MacKay 1992, Neural Comput. 4:720–736). */
function flattening(spell: Spell, own_variance: number, layer_sd: number): number {
  const within = Math.max(0, spell.variance - own_variance) * square(layer_sd);
  return Math.sqrt(1 + (Math.PI / 8) * within);
}

/** The same with its reading. */
function meet(
  spell: Spell,
  { weight: before_weight, share, flat: before_flat, curved, ...drawn }: ReturnType<typeof steer>,
  weightAtEnd: number,
  layer_sd: number,
  read: Reading | null,
) {
  let weight = before_weight;
  let flat = before_flat;
  let logit = 0;
  let variance = 1;
  let gained = 0;
  let spread = 0;
  let constant = 0;
  const flatten = flattening(spell, drawn.own_variance, layer_sd);
  const slips = ((spell.cells - 1) * square(1 - spell.follow)) / spell.follow_variance;
  const precision = 1 / spell.enter_variance + slips + weightAtEnd;
  if (read !== null) {
    const { recovery, sigma } = read;
    logit = flatten * log(recovery / (1 - recovery));
    const error = (flatten * sigma) / (recovery * (1 - recovery));
    variance = drawn.own_variance + (error * error + ROUGH) / square(layer_sd);
    gained = drawn.mean_above / variance;
    weight += drawn.mean_above * gained;
    // the density of the logit, less what the flattening stretches it by
    spread = 0.5 * log((variance * square(layer_sd)) / square(flatten));
    flat -= spread;
    constant = spread + 0.5 * log(precision);
  }
  const steered: Steered = { ...drawn, weight: weightAtEnd, precision, variance, flatten, constant };
  return [steered, { weight, share, flat, curved, gained, spread, logit }] as const;
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

/**
 * What the soundings still to come say, roughly, of the layers at the end of a spell: it steers the filter and is divided
 * out of its weights again. The logit of what entered in a spell is taken as a reading, with a normal error, of the mean
 * of its layers; then all is linear and normal, and runs upwards in one pass for every world. Layers are of sd 1 here; a
 * contrast multiplies them.
 */
import { exp, log, square } from '@stillstand/science/base';
import { type Gain, gainDensity, gainOf, noGain, ROUGH, type Ways } from './by-passing.ts';
import type { Ground, Spell } from './cells.ts';
import type { ReadingErrors } from './errors.ts';
import { LEVELS, MEANS, WORLDS, type Worlds } from './worlds.ts';

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

interface Steered {
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

/** No density is taken for less. */
const LEAST = 1e-100;

export function lookAhead(
  ground: Ground,
  errors: ReadingErrors,
  worlds: Worlds,
  ways: readonly (Ways | null)[],
): LookAhead {
  const cells = ground.edges.length - 1;
  const { levels } = worlds;
  const courses: Course[] = [];
  const weight = new Float64Array(LEVELS);
  let pull = new Float64Array(WORLDS);
  const likelihood = Float64Array.from({ length: WORLDS }, (_, w) =>
    log(Math.max(LEAST, levels[w % LEVELS]!.probability)),
  );
  const mean = new Float64Array(MEANS);
  let number = ways.length;
  for (let j = ground.stands.length - 1; j >= 0; j--) {
    const { spell, from, to } = ground.stands[j]!;
    if (spell === null) continue;
    const passing = ways[--number]!;
    const read = to > from ? readingOf(ground, errors, spell, from) : null;
    const gains = read === null || passing === null ? NONE : gainsOf(read, passing, spell);
    for (let m = 0; m < MEANS; m++) {
      let sum = 0;
      const base = m * cells + spell.first;
      for (let k = 0; k < spell.cells; k++) sum += worlds.logit[base + k]!;
      mean[m] = sum / spell.cells;
    }
    const found = new Float64Array(WORLDS);
    const bonus = new Float64Array(WORLDS);
    const next = new Float64Array(WORLDS);
    const onto = new Float64Array(LEVELS).fill(1);
    const by = levels.map(({ layer_sd, by_passing }, l) => {
      const drawn = steer(spell, weight[l]!);
      const [steered, { weight: upwards, share, flat, curved, gained, logit, spread }] = meet(
        spell,
        drawn,
        weight[l]!,
        layer_sd,
        read,
      );
      weight[l] = upwards;
      const { mean_ahead, variance } = steered;
      let passed: Read | null = null;
      if (read !== null) {
        let low = Number.POSITIVE_INFINITY;
        let high = Number.NEGATIVE_INFINITY;
        for (let m = 0; m < MEANS; m++) {
          const expected = mean[m]! + layer_sd * mean_ahead * pull[m * LEVELS + l]!;
          low = Math.min(low, expected);
          high = Math.max(high, expected);
        }
        passed = readOver(read, by_passing ? gains : NONE, steered, layer_sd, low, high);
      }
      let weighed = 0;
      let better = 0;
      for (let m = 0; m < MEANS; m++) {
        const w = m * LEVELS + l;
        const p = pull[w]!;
        let sum = flat + curved * square(p);
        next[w] = share * p;
        if (read !== null) {
          found[w] = (logit - mean[m]!) / layer_sd;
          let off = found[w]! - mean_ahead * p;
          if (passed !== null) {
            // with by-passing the reading says less of the layers: it draws them so much less from where they are expected
            const at = ((mean[m]! + layer_sd * mean_ahead * p - passed.low) / passed.step) * 0.999999;
            const i = Math.floor(at);
            const t = at - i;
            const density = passed.density[i]! * (1 - t) + passed.density[i + 1]! * t;
            off *= passed.kept[i]! * (1 - t) + passed.kept[i + 1]! * t;
            found[w] = mean_ahead * p + off;
            bonus[w] = density + spread + (0.5 * off * off) / variance;
            sum += bonus[w]!;
            const chance = passed.chance[i]! * (1 - t) + passed.chance[i + 1]! * t;
            weighed += chance;
            better += chance * (passed.onto[i]! * (1 - t) + passed.onto[i + 1]! * t);
          }
          next[w] = next[w]! + gained * off;
          sum -= (0.5 * off * off) / variance;
        }
        likelihood[w] = likelihood[w]! + sum;
      }
      if (weighed > 0 && by_passing) onto[l] = Math.max(0.01, Math.min(100, better / weighed));
      return steered;
    });
    courses.push({ spell, by, pull, found, bonus, onto });
    pull = next;
  }
  const most = likelihood.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  const cumulative = new Float64Array(WORLDS);
  let sum = 0;
  for (let w = 0; w < WORLDS; w++) {
    const over = likelihood[w]! - most;
    if (over > -40) sum += exp(over);
    cumulative[w] = sum;
  }
  for (let w = 0; w < WORLDS; w++) cumulative[w] = cumulative[w]! / sum;
  return { courses: courses.reverse(), cumulative };
}

/** What is to be thought of a reading, at even steps of what the layers are expected to let in. */
interface Read {
  /** The logit of recovery they are expected to let in, first and step. */
  low: number;
  step: number;
  /** Density of the logit that was read, but for √2π: logarithm, and itself. */
  density: Float64Array;
  chance: Float64Array;
  /** Probability that nothing of the spell is by-passed. */
  kept: Float64Array;
  /** How much better it is read below by-passed ground. */
  onto: Float64Array;
}

/** Places at which it is worked out. */
const PLACES = 8;
/** Gauss and Hermite's seven places of a standard normal, and their weights (Abramowitz & Stegun 1964, table 25.10). */
const NODES = [
  -3.7504397177257425, -2.366759410734541, -1.1544053947399682, 0, 1.1544053947399682, 2.366759410734541,
  3.7504397177257425,
];
const WEIGHTS = [
  0.0005482688559722, 0.0307571239675865, 0.2401231786050127, 0.4571428571428571, 0.2401231786050127,
  0.0307571239675865, 0.0005482688559722,
];

/**
 * Density of the logit of what was read where all of the spell enters, but for √2π: by places of the reading's error where
 * that is the narrower, else by places of the layers. A straight line would miss that nothing above 1 enters.
 */
function wholeDensity(
  { read, recovery, sigma, logits, slopes }: Reading,
  mean: number,
  variance: number,
  flatten: number,
): number {
  const logit_sigma = (flatten * sigma) / (recovery * (1 - recovery));
  let sum = 0;
  if (square(logit_sigma) < variance) {
    for (let q = 0; q < NODES.length; q++) {
      if (slopes[q] === 0) continue;
      const off = flatten * logits[q]! - mean;
      sum += (WEIGHTS[q]! * flatten * exp((-0.5 * off * off) / variance)) / slopes[q]!;
    }
    sum /= Math.sqrt(variance);
  } else {
    const sd = Math.sqrt(variance);
    for (let q = 0; q < NODES.length; q++) {
      const off = (read - 1 / (1 + exp(-(mean + sd * NODES[q]!) / flatten))) / sigma;
      sum += WEIGHTS[q]! * exp(-0.5 * off * off);
    }
    sum /= sigma;
  }
  return (sum * recovery * (1 - recovery)) / flatten;
}

/** Ways to by-pass some of the spell that leave enough for the reading, with the probability of each. */
interface Gains {
  /** Probability that nothing is by-passed. */
  whole: number;
  below: { probability: number; gain: Gain }[][];
}

const NONE: Gains = { whole: 1, below: [] };

function gainsOf({ recovery, sigma }: Reading, { choices }: Ways, { length_m }: Spell): Gains {
  const below = choices.map((among) =>
    among.flatMap(({ from, probability, open_m }) => {
      const open = open_m / length_m;
      if (from === 0 || open + 3 * sigma < recovery) return [];
      return [{ probability, gain: gainOf(recovery, sigma, open, 1, noGain()) }];
    }),
  );
  return { whole: choices[0][0]!.probability, below };
}

function readOver(
  read: Reading,
  gains: Gains,
  { own_variance, flatten }: Steered,
  layer_sd: number,
  low: number,
  high: number,
): Read {
  const variance = square(layer_sd) * own_variance;
  const step = Math.max(1e-6, (high - low) / (PLACES - 1));
  const density = new Float64Array(PLACES);
  const chance = new Float64Array(PLACES);
  const kept = new Float64Array(PLACES);
  const onto = new Float64Array(PLACES);
  for (let i = 0; i < PLACES; i++) {
    const expected = low + i * step;
    const none = wholeDensity(read, expected, variance, flatten) * gains.whole;
    const sums = [none, 0];
    gains.below.forEach((among, above) => {
      for (const { probability, gain } of among) {
        const part = gainDensity(gain, read.sigma, expected, variance, flatten);
        sums[above] = sums[above]! + (probability * read.recovery * (1 - read.recovery) * part) / flatten;
      }
    });
    const [all, below] = sums as [number, number];
    density[i] = log(Math.max(LEAST, all));
    chance[i] = all;
    kept[i] = gains === NONE ? 1 : all > 0 ? none / all : 0;
    onto[i] = all > 0 ? Math.min(100, below / all) : 1;
  }
  return { low, step, density, chance, kept, onto };
}

/** What entered in a spell, as a share of it. */
interface Reading {
  read: number;
  /** The same kept between nothing and all. */
  recovery: number;
  /** 1 sigma. */
  sigma: number;
  /** At the places of the error: logit of recovery, and its slope ρ(1 − ρ); 0 where that lies outside nothing and all. */
  logits: Float64Array;
  slopes: Float64Array;
}

function readingOf(ground: Ground, errors: ReadingErrors, { length_m }: Spell, pin: number): Reading {
  const gain = ground.read_m[pin]! - (pin === 0 ? 0 : ground.read_m[pin - 1]!);
  const sigma = differenceSigma(errors, pin) / length_m;
  const edge = Math.min(0.3, 0.5 * sigma);
  const read = gain / length_m;
  const logits = new Float64Array(NODES.length);
  const slopes = new Float64Array(NODES.length);
  for (let q = 0; q < NODES.length; q++) {
    const rho = read + sigma * NODES[q]!;
    if (rho <= 0.001 || rho >= 0.999) continue;
    logits[q] = log(rho / (1 - rho));
    slopes[q] = rho * (1 - rho);
  }
  return { read, recovery: Math.max(edge, Math.min(1 - edge, read)), sigma, logits, slopes };
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

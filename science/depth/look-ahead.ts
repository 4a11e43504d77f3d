/**
 * What the soundings still to come say, roughly, of the layers at the end of a spell: it steers the filter and is divided
 * out of its weights again. The logit of what entered in a spell is taken as a reading, with a normal error, of the mean
 * of its layers; then all is linear and normal, and runs upwards in one pass for every world. Layers are of sd 1 here; a
 * contrast multiplies them.
 */
import { exp, log, square } from '@stillstand/science/base';
import { type Expected, gainDensity, ROUGH, type Ways } from './by-passing.ts';
import type { Ground, Spell } from './cells.ts';
import type { ReadingErrors } from './errors.ts';
import { CONTRASTS, WORLDS, type Worlds } from './worlds.ts';

/** A spell as the filter draws it. */
export interface Course {
  spell: Spell;
  /** By contrast. */
  by: Steered[];
  /** By world: what lies ahead says e^(−weight·g²/2 + pull·g) of the last layer, g. */
  pull: Float64Array;
  /** By world: the mean of the layers as read, and how much better by-passing explains the reading, logarithm. */
  found: Float64Array;
  bonus: Float64Array;
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
  /** What the weight of a draw lacks of this contrast, logarithm. */
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
  const { contrast, layer_sd } = worlds;
  const courses: Course[] = [];
  const weight = new Float64Array(CONTRASTS);
  let pull = new Float64Array(WORLDS);
  const likelihood = new Float64Array(WORLDS);
  const expected = { mean: 0, variance: 0 };
  let number = ways.length;
  for (let j = ground.stands.length - 1; j >= 0; j--) {
    const { spell, from, to } = ground.stands[j]!;
    if (spell === null) continue;
    const passing = ways[--number]!;
    const read = to > from ? readingOf(ground, errors, spell, from) : null;
    const by: Steered[] = [];
    const passed = Array.from(layer_sd, (sd, c) => {
      const [steered, upwards] = steer(spell, weight[c]!, sd, read);
      by.push(steered);
      weight[c] = upwards.weight;
      return upwards;
    });
    const found = new Float64Array(WORLDS);
    const bonus = new Float64Array(WORLDS);
    const next = new Float64Array(WORLDS);
    for (let w = 0; w < WORLDS; w++) {
      const c = contrast[w]!;
      const { mean_ahead, variance } = by[c]!;
      const { share, flat, curved, gained } = passed[c]!;
      const p = pull[w]!;
      let sum = flat + curved * square(p);
      next[w] = share * p;
      if (read !== null) {
        let mean = 0;
        const base = w * cells + spell.first;
        for (let k = 0; k < spell.cells; k++) mean += worlds.logit[base + k]!;
        mean /= spell.cells;
        found[w] = (passed[c]!.logit - mean) / layer_sd[c]!;
        let off = found[w]! - mean_ahead * p;
        const among = passing === null ? [] : passing.choices[worlds.passing[w]!]![0];
        if (among.length > 1 && read.recovery < WHOLE) {
          // with by-passing the layers are told less: the reading draws them so much less from where they are expected
          expected.mean = mean + layer_sd[c]! * mean_ahead * p;
          expected.variance = square(layer_sd[c]!) * by[c]!.own_variance;
          const whole = among[0]!.probability * densityOf(read, 1, expected);
          let all = whole;
          for (let a = 1; a < among.length; a++) {
            const { probability, open_m } = among[a]!;
            all += probability * densityOf(read, open_m / spell.length_m, expected);
          }
          off *= all > 0 ? whole / all : 0;
          found[w] = mean_ahead * p + off;
          bonus[w] = log(Math.max(LEAST, all)) + passed[c]!.spread + (0.5 * off * off) / variance;
        } else if (among.length > 1) bonus[w] = log(among[0]!.probability);
        sum += bonus[w]!;
        next[w] = next[w]! + gained * off;
        sum -= (0.5 * off * off) / variance;
      }
      likelihood[w] = likelihood[w]! + sum;
    }
    courses.push({ spell, by, pull, found, bonus });
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
function densityOf({ recovery, sigma }: Reading, open: number, expected: Expected): number {
  return recovery * (1 - recovery) * gainDensity(recovery, sigma, open, 1, expected);
}

/** One spell at one contrast, from what lies ahead of it to what lies ahead of the spell above. */
function steer(spell: Spell, weightAtEnd: number, layer_sd: number, read: Reading | null) {
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
  let logit = 0;
  let variance = 1;
  let gained = 0;
  let spread = 0;
  let constant = 0;
  const slips = ((n - 1) * square(1 - spell.follow)) / spell.follow_variance;
  const precision = 1 / spell.enter_variance + slips + weightAtEnd;
  if (read !== null) {
    const { recovery, sigma } = read;
    // layers within the spell flatten the logistic (MacKay 1992, Neural Comput. 4:720–736)
    const within = Math.max(0, spell.variance - own_variance) * square(layer_sd);
    const flatten = Math.sqrt(1 + (Math.PI / 8) * within);
    logit = flatten * log(recovery / (1 - recovery));
    const error = (flatten * sigma) / (recovery * (1 - recovery));
    variance = own_variance + (error * error + ROUGH) / square(layer_sd);
    gained = mean_above / variance;
    weight += mean_above * gained;
    // the density of the logit, less what the flattening stretches it by
    spread = 0.5 * log((variance * square(layer_sd)) / square(flatten));
    flat -= spread;
    constant = spread + 0.5 * log(precision);
  }
  const steered: Steered = {
    before,
    ahead,
    sd,
    weight: weightAtEnd,
    precision,
    mean_above,
    mean_ahead,
    own_variance,
    variance,
    constant,
  };
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

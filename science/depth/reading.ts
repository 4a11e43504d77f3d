/**
 * What was read of a spell, and how probable that is by what its layers are expected to let in, with by-passing or without.
 * It steers the filter only.
 */
import { exp, log, square } from '@stillstand/science/base';
import { type Gain, gainDensity, gainOf, noGain, type Ways } from './by-passing.ts';
import type { Ground, Spell } from './cells.ts';
import type { ReadingErrors } from './errors.ts';

/** No density is taken for less. */
export const LEAST = 1e-100;

/** What entered in a spell, as a share of it. */
export interface Reading {
  read: number;
  /** The same kept between nothing and all. */
  recovery: number;
  /** 1 sigma. */
  sigma: number;
  /** At the places of the error: logit of recovery, and its slope ρ(1 − ρ); 0 where that lies outside nothing and all. */
  logits: Float64Array;
  slopes: Float64Array;
}

export function readingOf(ground: Ground, errors: ReadingErrors, { length_m }: Spell, pin: number): Reading {
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

/** What is to be thought of a reading, at even steps of what the layers are expected to let in. */
export interface Read {
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

export const NONE: Gains = { whole: 1, below: [] };

export function gainsOf({ recovery, sigma }: Reading, { choices }: Ways, { length_m }: Spell): Gains {
  const below = choices.map((among) =>
    among.flatMap(({ from, probability, open_m }) => {
      const open = open_m / length_m;
      if (from === 0 || open + 3 * sigma < recovery) return [];
      return [{ probability, gain: gainOf(recovery, sigma, open, 1, noGain()) }];
    }),
  );
  return { whole: choices[0][0]!.probability, below };
}

export function readOver(
  read: Reading,
  gains: Gains,
  { own_variance, flatten }: { own_variance: number; flatten: number },
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

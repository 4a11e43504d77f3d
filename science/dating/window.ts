/**
 * The probability of each calendar year for one radiocarbon age, unnormalised, written into memory that is kept with
 * the curve: p(t) ∝ N(age − offset; μ(t), error² + offset sd² + σ(t)²), uniform in t, the 1/√variance kept.
 *
 * A date touches a few hundred of 55,000 years. The first and last year that can matter are found by bisection in the
 * running maximum and minimum of the curve's reach μ ± 6σ, and blocks between them that cannot matter are passed over.
 */
import { exp } from '@stillstand/science/base';
import type { YearlyCurve } from './yearly-curve.ts';

/** Farthest reach in sd: what is left out is at most 1.5e-8 of the highest possible value. */
export const REACH_SD = 6;
const BLOCK = 16;

export interface Window {
  curve: YearlyCurve;
  variance: Float64Array;
  /** Of each block: largest and smallest μ, largest σ². */
  blockHigh: Float64Array;
  blockLow: Float64Array;
  blockVariance: Float64Array;
  /** Largest μ + 6σ of all blocks up to this one, smallest μ − 6σ of all from it on. */
  highUpTo: Float64Array;
  lowFrom: Float64Array;
  /** [0, length): entry i belongs to the year `first_cal_bp + i`. */
  density: Float64Array;
  first_cal_bp: number;
  length: number;
  /** Sums of the density, of density·i and of density·i². */
  total: number;
  first: number;
  second: number;
}

const windows = new WeakMap<YearlyCurve, Window>();

/** The window of a curve; one per curve, so its content lasts until the next date. */
export function windowOf(curve: YearlyCurve): Window {
  let window = windows.get(curve);
  if (window === undefined) {
    window = prepare(curve);
    windows.set(curve, window);
  }
  return window;
}

/** Fills the window for an age (offset already taken off) and the variance of all that is not the curve's. Blocks farther
 * off than `reach_sd` (at most 6) are left out. */
export function fillWindow(window: Window, age: number, variance: number, reach_sd: number): void {
  const { density } = window;
  const mu = window.curve.c14_age;
  const curveVariance = window.variance;
  const reach = reach_sd * Math.sqrt(variance);
  let block = firstAtLeast(window.highUpTo, age - reach);
  let endBlock = endAtMost(window.lowFrom, age + reach);
  while (block < endBlock && !matters(window, block, age, variance, reach_sd)) block++;
  while (endBlock > block && !matters(window, endBlock - 1, age, variance, reach_sd)) endBlock--;
  const from = block * BLOCK;
  let total = 0;
  let first = 0;
  let second = 0;
  for (; block < endBlock; block++) {
    const start = block * BLOCK;
    const end = Math.min(start + BLOCK, mu.length);
    if (!matters(window, block, age, variance, reach_sd)) {
      density.fill(0, start - from, end - from);
      continue;
    }
    // No branch in here: a mispredicted one costs more than the year it would save.
    for (let i = start; i < end; i++) {
      const d = age - mu[i]!;
      const v = variance + curveVariance[i]!;
      const w = 1 / v;
      const p = exp(-0.5 * d * d * w) * (w * Math.sqrt(v)); // root and quotient run side by side
      const moment = p * (i - from);
      total += p;
      first += moment;
      second += moment * (i - from);
      density[i - from] = p;
    }
  }
  window.first_cal_bp = window.curve.from_cal_bp + from;
  window.length = Math.max(0, Math.min(endBlock * BLOCK, mu.length) - from);
  window.total = total;
  window.first = first;
  window.second = second;
}

function matters(window: Window, block: number, age: number, variance: number, reach_sd: number): boolean {
  const off = Math.max(age - window.blockHigh[block]!, window.blockLow[block]! - age);
  return off <= 0 || off * off < reach_sd * reach_sd * (variance + window.blockVariance[block]!);
}

/** First place in a rising list that is ≥ value; its length where none is. */
function firstAtLeast(rising: Float64Array, value: number): number {
  let low = 0;
  let high = rising.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (rising[middle]! >= value) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** One past the last place in a rising list that is ≤ value. */
function endAtMost(rising: Float64Array, value: number): number {
  let low = 0;
  let high = rising.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (rising[middle]! <= value) low = middle + 1;
    else high = middle;
  }
  return low;
}

function prepare(curve: YearlyCurve): Window {
  const n = curve.c14_age.length;
  const blocks = Math.ceil(n / BLOCK);
  const variance = curve.sigma_yr.map((sigma) => sigma * sigma);
  const blockHigh = new Float64Array(blocks).fill(-Infinity);
  const blockLow = new Float64Array(blocks).fill(Infinity);
  const blockVariance = new Float64Array(blocks);
  const highUpTo = new Float64Array(blocks).fill(-Infinity);
  const lowFrom = new Float64Array(blocks).fill(Infinity);
  for (let i = 0; i < n; i++) {
    const block = Math.floor(i / BLOCK);
    const age = curve.c14_age[i]!;
    const reach = REACH_SD * curve.sigma_yr[i]!;
    blockHigh[block] = Math.max(blockHigh[block]!, age);
    blockLow[block] = Math.min(blockLow[block]!, age);
    blockVariance[block] = Math.max(blockVariance[block]!, variance[i]!);
    highUpTo[block] = Math.max(highUpTo[block]!, age + reach);
    lowFrom[block] = Math.min(lowFrom[block]!, age - reach);
  }
  for (let b = 1; b < blocks; b++) highUpTo[b] = Math.max(highUpTo[b]!, highUpTo[b - 1]!);
  for (let b = blocks - 2; b >= 0; b--) lowFrom[b] = Math.min(lowFrom[b]!, lowFrom[b + 1]!);
  return {
    curve,
    variance,
    blockHigh,
    blockLow,
    blockVariance,
    highUpTo,
    lowFrom,
    density: new Float64Array(n),
    first_cal_bp: 0,
    length: 0,
    total: 0,
    first: 0,
    second: 0,
  };
}

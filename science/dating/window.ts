/**
 * The probability of each calendar year for one radiocarbon age, unnormalised, written into memory that is kept with
 * the curve: p(t) ∝ N(age − offset; μ(t), error² + offset sd² + σ(t)²), uniform in t, the 1/√variance kept.
 *
 * A date touches a few hundred of 55,000 years. The first and last year that can matter are found by bisection in the
 * running maximum and minimum of the curve's reach μ ± 6σ, and blocks between them that cannot matter are passed over.
 */
import { exp } from '@stillstand/science/base';
import type { YearlyCurve } from './yearly-curve.ts';

/** Years farther off than this many sd get nothing: e^(−18) = 1.5e-8 of the highest possible. */
const REACH_SD = 6;
const BLOCK = 32;

export interface Window {
  curve: YearlyCurve;
  variance: Float64Array;
  /** Of each block: largest μ + 6σ, smallest μ − 6σ, and those over all blocks up to it and from it on. */
  blockHigh: Float64Array;
  blockLow: Float64Array;
  highUpTo: Float64Array;
  lowFrom: Float64Array;
  /** Entry i belongs to the year `curve.from_cal_bp + i`; only [from, to) is valid. */
  density: Float64Array;
  from: number;
  to: number;
  total: number;
  peak: number;
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

/** Fills the window for an age (offset already taken off) and the variance of all that is not the curve's. */
export function fillWindow(window: Window, age: number, variance: number): void {
  const { density, blockHigh, blockLow } = window;
  const mu = window.curve.c14_age;
  const curveVariance = window.variance;
  const reach = REACH_SD * Math.sqrt(variance);
  const low = age - reach;
  const high = age + reach;
  const firstBlock = firstAtLeast(window.highUpTo, low);
  const endBlock = endAtMost(window.lowFrom, high);
  const from = firstBlock * BLOCK;
  const to = Math.min(endBlock * BLOCK, mu.length);
  let total = 0;
  let peak = 0;
  for (let block = firstBlock; block < endBlock; block++) {
    const start = block * BLOCK;
    const end = Math.min(start + BLOCK, to);
    if (blockHigh[block]! < low || blockLow[block]! > high) {
      for (let i = start; i < end; i++) density[i] = 0;
      continue;
    }
    for (let i = start; i < end; i++) {
      const v = variance + curveVariance[i]!;
      const d = age - mu[i]!;
      const q = d * d;
      let p = 0;
      if (q < REACH_SD * REACH_SD * v) {
        const w = 1 / v;
        p = exp(-0.5 * q * w) * Math.sqrt(w);
        total += p;
        if (p > peak) peak = p;
      }
      density[i] = p;
    }
  }
  window.from = from;
  window.to = Math.max(from, to);
  window.total = total;
  window.peak = peak;
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
  const blockHigh = new Float64Array(blocks).fill(-Infinity);
  const blockLow = new Float64Array(blocks).fill(Infinity);
  for (let i = 0; i < n; i++) {
    const block = Math.floor(i / BLOCK);
    const reach = REACH_SD * curve.sigma_yr[i]!;
    blockHigh[block] = Math.max(blockHigh[block]!, curve.c14_age[i]! + reach);
    blockLow[block] = Math.min(blockLow[block]!, curve.c14_age[i]! - reach);
  }
  const highUpTo = blockHigh.slice();
  for (let b = 1; b < blocks; b++) highUpTo[b] = Math.max(highUpTo[b]!, highUpTo[b - 1]!);
  const lowFrom = blockLow.slice();
  for (let b = blocks - 2; b >= 0; b--) lowFrom[b] = Math.min(lowFrom[b]!, lowFrom[b + 1]!);
  return {
    curve,
    variance: curve.sigma_yr.map((sigma) => sigma * sigma),
    blockHigh,
    blockLow,
    highUpTo,
    lowFrom,
    density: new Float64Array(n),
    from: 0,
    to: 0,
    total: 0,
    peak: 0,
  };
}

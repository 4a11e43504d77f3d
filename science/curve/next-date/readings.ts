/**
 * What a date not yet taken would read, from the kept draws of a curve.
 *
 * The point reads y = f(T) + error, T its true age, known to the laboratory's error. Of a path f it reads on average
 * h = E f(T) over T, by Gauss–Hermite quadrature; so Cov(rate, y) = Cov(rate, h), Cov(y₁, y₂) = Cov(h₁, h₂) of two points whose
 * errors of age are each their own, and Var y = Var h + E Var(f(T) | f) + the variance of the height's error.
 */
import { square } from '@stillstand/science/base';
import type { CurveResult } from '../result/result.ts';

/** Ages a date is looked for at: more cost time and show nothing more. */
const MOST_AGES = 61;

/** Runs of draws of each chain that are left out one at a time, to see how far what is said depends on the draws. */
const RUNS = 5;

/** Gauss–Hermite, five points, for a standard normal (Abramowitz & Stegun 1964, table 25.10, times √2 and over √π). */
const PLACES: readonly (readonly [number, number])[] = [
  [-2.8569700138728056, 0.011257411327720693],
  [-1.355626179974266, 0.22207592200561266],
  [0, 0.5333333333333333],
  [1.355626179974266, 0.22207592200561266],
  [2.8569700138728056, 0.011257411327720693],
];

/** Readings at each of some ages, over the draws of a curve; the same for all its rates. */
export interface Readings {
  /** 1 sd of a date, yr. */
  age_sd_yr: number;
  /** Reported ages at which a date is looked for, in their order; all of them up to 61. */
  ages_cal_bp: Float64Array;
  /** Index of each among the reported ages. */
  reported: readonly number[];
  /** Mean and sd of the level at each. */
  level_m: { mean: number; sd: number }[];
  /** E f(T) of each draw less its mean, draw after draw; and Var(f(T) | f). */
  read: Float64Array;
  within: Float64Array;
  /** First draw of each run, and the number of all draws. */
  runs: readonly number[];
  /** Sums over each run, and over all: of products of `read` by pairs of ages, of `read`, of `within`. */
  sums: readonly Sums[];
  all: Sums;
}

interface Sums {
  draws: number;
  products: Float64Array;
  read: Float64Array;
  within: Float64Array;
}

/** @param age_sd_yr ≥ 0; of the calendar age */
export function readingsOf(curve: CurveResult, age_sd_yr: number): Readings {
  const reported = thinned(curve.ages_cal_bp.length);
  const ages_cal_bp = Float64Array.from(reported, (i) => curve.ages_cal_bp[i]!);
  const n = reported.length;
  const of = curve.ages_cal_bp.length;
  const { level_m } = curve.draws;
  const draws = level_m.length / of;
  const read = new Float64Array(draws * n);
  const within = new Float64Array(draws * n);
  // Of each age at each place of its true age: the reported age below and how far towards the next.
  const at = new Int32Array(n * PLACES.length);
  const share = new Float64Array(n * PLACES.length);
  reported.forEach((i, k) => {
    PLACES.forEach(([place], p) => {
      const found = among(curve.ages_cal_bp, curve.ages_cal_bp[i]! + place * age_sd_yr);
      at[k * PLACES.length + p] = found.at;
      share[k * PLACES.length + p] = found.share;
    });
  });
  const weight = Float64Array.from(PLACES, ([, w]) => w);
  const step = of > 1 ? 1 : 0;
  for (let d = 0; d < draws; d++)
    for (let k = 0, q = 0; k < n; k++) {
      let first = 0;
      let second = 0;
      for (let p = 0; p < weight.length; p++, q++) {
        const below = level_m[d * of + at[q]!]!;
        const f = below + share[q]! * (level_m[d * of + at[q]! + step]! - below);
        first += weight[p]! * f;
        second += weight[p]! * f * f;
      }
      read[d * n + k] = first;
      within[d * n + k] = Math.max(0, second - first * first);
    }
  centre(read, n);
  const { chains } = curve.diagnostics;
  const runs = Array.from({ length: chains * RUNS + 1 }, (_, k) => Math.floor((k * draws) / (chains * RUNS)));
  const sums = runs.slice(1).map((end, k) => sumsOver(read, within, n, runs[k]!, end));
  return {
    age_sd_yr,
    ages_cal_bp,
    reported,
    level_m: reported.map((i) => momentsAt(level_m, of, i)),
    read,
    within,
    runs,
    sums,
    all: added(sums, n),
  };
}

/** Variances and covariances of a rate and of the readings, by some of the draws. */
export interface Moments {
  /** Of the rate, (mm/yr)². */
  rate: number;
  /** Of the rate with the reading at each age. */
  with: Float64Array;
  /** Of the readings by pairs of ages, n × n, the errors of heights not in them. */
  readings: Float64Array;
  /** Variance each reading has of its own age's error, m². */
  within: Float64Array;
}

/** By all draws, and by all but each run of them. */
export interface RateMoments {
  all: Moments;
  without: readonly Moments[];
}

/** @param rate of each draw of the same curve, mm/yr */
export function momentsWith(
  { read, runs, sums, all, ages_cal_bp }: Readings,
  rate: Float64Array,
): RateMoments {
  const n = ages_cal_bp.length;
  const middle = rate.reduce((sum, g) => sum + g, 0) / rate.length;
  const rates = sums.map((_, k) => {
    let first = 0;
    let second = 0;
    const products = new Float64Array(n);
    for (let d = runs[k]!; d < runs[k + 1]!; d++) {
      const g = rate[d]! - middle;
      first += g;
      second += g * g;
      for (let i = 0; i < n; i++) products[i] = products[i]! + g * read[d * n + i]!;
    }
    return { first, second, products };
  });
  const total = {
    first: rates.reduce((sum, r) => sum + r.first, 0),
    second: rates.reduce((sum, r) => sum + r.second, 0),
    products: Float64Array.from({ length: n }, (_, i) => rates.reduce((sum, r) => sum + r.products[i]!, 0)),
  };
  /** `less` null: of all. */
  const moments = (less: number | null): Moments => {
    const s = less === null ? null : sums[less]!;
    const r = less === null ? null : rates[less]!;
    const draws = all.draws - (s?.draws ?? 0);
    const meanRate = (total.first - (r?.first ?? 0)) / draws;
    const means = Float64Array.from(all.read, (x, i) => (x - (s?.read[i] ?? 0)) / draws);
    const readings = new Float64Array(n * n);
    for (let i = 0; i < n; i++)
      for (let j = 0; j < n; j++) {
        const at = i < j ? j * n + i : i * n + j;
        readings[i * n + j] = (all.products[at]! - (s?.products[at] ?? 0)) / draws - means[i]! * means[j]!;
      }
    return {
      rate: (total.second - (r?.second ?? 0)) / draws - square(meanRate),
      with: Float64Array.from(
        total.products,
        (x, i) => (x - (r?.products[i] ?? 0)) / draws - meanRate * means[i]!,
      ),
      readings,
      within: Float64Array.from(all.within, (x, i) => (x - (s?.within[i] ?? 0)) / draws),
    };
  };
  return { all: moments(null), without: sums.map((_, k) => moments(k)) };
}

/** Of so many ages 61 at most, even among them, both ends kept. */
function thinned(count: number): number[] {
  const n = Math.min(count, MOST_AGES);
  return Array.from({ length: n }, (_, k) => (n === 1 ? 0 : Math.round((k * (count - 1)) / (n - 1))));
}

/** The reported age below another, the last but one at most, and the share of the way to the next; beyond them at the last. */
function among(ages: Float64Array, age: number): { at: number; share: number } {
  let at = 0;
  while (at < ages.length - 2 && ages[at + 1]! <= age) at++;
  const step = (ages[at + 1] ?? ages[at]!) - ages[at]!;
  return { at, share: step > 0 ? Math.max(0, Math.min(1, (age - ages[at]!) / step)) : 0 };
}

function centre(values: Float64Array, n: number): void {
  const draws = values.length / n;
  for (let i = 0; i < n; i++) {
    let sum = 0;
    for (let d = 0; d < draws; d++) sum += values[d * n + i]!;
    for (let d = 0; d < draws; d++) values[d * n + i] = values[d * n + i]! - sum / draws;
  }
}

/** Products below the diagonal and on it alone. */
function sumsOver(read: Float64Array, within: Float64Array, n: number, from: number, to: number): Sums {
  const sums = { products: new Float64Array(n * n), read: new Float64Array(n), within: new Float64Array(n) };
  const { products, read: first, within: apart } = sums;
  for (let d = from; d < to; d++) {
    const row = d * n;
    for (let i = 0; i < n; i++) {
      const h = read[row + i]!;
      first[i]! += h;
      apart[i]! += within[row + i]!;
      for (let j = 0, at = i * n; j <= i; j++, at++) products[at]! += h * read[row + j]!;
    }
  }
  return { draws: to - from, ...sums };
}

function added(sums: readonly Sums[], n: number): Sums {
  const total: Sums = {
    draws: 0,
    products: new Float64Array(n * n),
    read: new Float64Array(n),
    within: new Float64Array(n),
  };
  for (const { draws, products, read, within } of sums) {
    total.draws += draws;
    for (let i = 0; i < n * n; i++) total.products[i] = total.products[i]! + products[i]!;
    for (let i = 0; i < n; i++) total.read[i] = total.read[i]! + read[i]!;
    for (let i = 0; i < n; i++) total.within[i] = total.within[i]! + within[i]!;
  }
  return total;
}

function momentsAt(level_m: Float64Array, of: number, i: number): { mean: number; sd: number } {
  const draws = level_m.length / of;
  let mean = 0;
  let squares = 0;
  for (let d = 0; d < draws; d++) mean += level_m[d * of + i]! / draws;
  for (let d = 0; d < draws; d++) squares += square(level_m[d * of + i]! - mean) / draws;
  return { mean, sd: Math.sqrt(squares) };
}

/**
 * The draws of a curve as paths through time. A draw has level and rate at each reported age; between two of them its
 * level is the cubic with these levels and rates at both ends, its rate the slope of that cubic; where the rate is constant or
 * stepwise it is the straight line. The true path lies about it with an sd that is known in closed form (`betweenAges`), nil
 * at the reported ages.
 */
import { median, power, square } from '@stillstand/science/base';
import type { CurveResult } from '../result/result.ts';
import { type Cubic, cubicThrough, derivative, valueAt } from './polynomial.ts';

/** A stretch of time, ages in cal BP. */
export interface Window {
  older_cal_bp: number;
  younger_cal_bp: number;
}

/** Nothing can be said: what was found, and what would have been needed. */
export interface NoAnswer {
  found: string;
  expected: string;
}

export const isAnswer = <T extends object>(answer: T | NoAnswer): answer is T => !('expected' in answer);

export interface Paths {
  /** Reported ages, each once, the oldest first. */
  ages_cal_bp: Float64Array;
  draws: number;
  chains: number;
  /** A row a draw, a column an age: m, and m/yr towards a rising sea. */
  level_m: Float64Array;
  rate_m_yr: Float64Array;
  /** The rate keeps its value between changes: straight from one reported age to the next. */
  isStraight: boolean;
}

export function pathsOf({ ages_cal_bp, draws, diagnostics, settings }: CurveResult): Paths {
  const width = ages_cal_bp.length;
  const order = [...ages_cal_bp.keys()]
    .filter((i) => ages_cal_bp.indexOf(ages_cal_bp[i]!) === i)
    .sort((a, b) => ages_cal_bp[b]! - ages_cal_bp[a]!);
  const count = width === 0 ? 0 : draws.level_m.length / width;
  const inOrder = (from: Float64Array, times: number): Float64Array => {
    const rows = new Float64Array(count * order.length);
    for (let d = 0; d < count; d++)
      for (let k = 0; k < order.length; k++)
        rows[d * order.length + k] = times * from[d * width + order[k]!]!;
    return rows;
  };
  return {
    ages_cal_bp: Float64Array.from(order, (i) => ages_cal_bp[i]!),
    draws: count,
    chains: diagnostics.chains,
    level_m: inOrder(draws.level_m, 1),
    rate_m_yr: inOrder(draws.rate_mm_yr, 1e-3),
    isStraight: settings.rate_model.kind !== 'smooth',
  };
}

/** No curve keeps fewer of a chain. */
const LEAST_DRAWS = 8;

/** A curve whose draws were not kept, or hardly any. */
export const tooFew = ({ draws }: Paths): NoAnswer | null =>
  draws >= LEAST_DRAWS ? null : { found: `a curve of ${draws} draws`, expected: `${LEAST_DRAWS} or more` };

/** From the oldest reported age to the youngest; null with fewer than two. */
export function wholeOf({ ages_cal_bp }: Pick<Paths, 'ages_cal_bp'>): Window | null {
  if (ages_cal_bp.length < 2) return null;
  return { older_cal_bp: ages_cal_bp[0]!, younger_cal_bp: ages_cal_bp.at(-1)! };
}

/** The window asked for, or the whole; what is wrong with it where it does not lie within the reported ages. */
export function windowWithin(paths: Paths, asked: Window | null): Window | NoAnswer {
  const whole = wholeOf(paths);
  const few = tooFew(paths);
  if (few !== null) return few;
  if (whole === null)
    return { found: `a curve reported at ${paths.ages_cal_bp.length} ages`, expected: 'two ages or more' };
  if (asked === null) return whole;
  const { older_cal_bp: older, younger_cal_bp: younger } = asked;
  if (older > younger && older <= whole.older_cal_bp && younger >= whole.younger_cal_bp) return asked;
  return {
    found: `${older} to ${younger} cal BP`,
    expected: `an older and a younger age within the reported ages, ${whole.older_cal_bp} to ${whole.younger_cal_bp} cal BP`,
  };
}

/** An age the curve reports or that lies between two it does. */
export function ageWithin(paths: Paths, age_cal_bp: number): NoAnswer | null {
  const few = tooFew(paths);
  if (few !== null) return few;
  const whole = wholeOf(paths);
  const isOne = paths.ages_cal_bp.includes(age_cal_bp);
  if (isOne || (whole !== null && age_cal_bp < whole.older_cal_bp && age_cal_bp > whole.younger_cal_bp))
    return null;
  const ends = [paths.ages_cal_bp[0], paths.ages_cal_bp.at(-1)].map((age) => age ?? 'no age');
  return {
    found: `${age_cal_bp} cal BP`,
    expected: `an age within those reported, ${ends[0]} to ${ends[1]} cal BP`,
  };
}

/** Level of draw `d` from reported age `k` to the next younger, by u from 0 at the older. */
export function stretch({ ages_cal_bp, level_m, rate_m_yr, isStraight }: Paths, d: number, k: number): Cubic {
  const at = d * ages_cal_bp.length + k;
  if (isStraight) {
    const rise = level_m[at + 1]! - level_m[at]!;
    return cubicThrough(level_m[at]!, level_m[at + 1]!, rise, rise);
  }
  const years = ages_cal_bp[k]! - ages_cal_bp[k + 1]!;
  return cubicThrough(level_m[at]!, level_m[at + 1]!, years * rate_m_yr[at]!, years * rate_m_yr[at + 1]!);
}

/** The stretches a window covers, of each the part that lies in it. */
export function stretchesOf(
  { ages_cal_bp }: Paths,
  { older_cal_bp, younger_cal_bp }: Window,
): { k: number; older_cal_bp: number; years: number; from: number; to: number }[] {
  return Array.from({ length: ages_cal_bp.length - 1 }, (_, k) => {
    const years = ages_cal_bp[k]! - ages_cal_bp[k + 1]!;
    const u = (age: number): number => Math.min(1, Math.max(0, (ages_cal_bp[k]! - age) / years));
    return { k, older_cal_bp: ages_cal_bp[k]!, years, from: u(older_cal_bp), to: u(younger_cal_bp) };
  }).filter(({ from, to }) => to > from);
}

/** Where an age lies: its stretch, and u there. */
function placeOf({ ages_cal_bp }: Paths, age_cal_bp: number): { k: number; u: number } {
  let k = 0;
  while (k < ages_cal_bp.length - 2 && ages_cal_bp[k + 1]! >= age_cal_bp) k++;
  return { k, u: (ages_cal_bp[k]! - age_cal_bp) / (ages_cal_bp[k]! - ages_cal_bp[k + 1]!) };
}

/** Level of each draw at an age within those reported, m. */
export function levelsAt(paths: Paths, age_cal_bp: number): Float64Array {
  const { ages_cal_bp, level_m, draws } = paths;
  const column = ages_cal_bp.indexOf(age_cal_bp);
  if (column !== -1)
    return Float64Array.from({ length: draws }, (_, d) => level_m[d * ages_cal_bp.length + column]!);
  const { k, u } = placeOf(paths, age_cal_bp);
  return Float64Array.from({ length: draws }, (_, d) => valueAt(stretch(paths, d, k), u));
}

/** Rate of each draw at an age within those reported, m/yr. */
export function ratesAt(paths: Paths, age_cal_bp: number): Float64Array {
  const { ages_cal_bp, rate_m_yr, draws } = paths;
  const column = ages_cal_bp.indexOf(age_cal_bp);
  if (column !== -1)
    return Float64Array.from({ length: draws }, (_, d) => rate_m_yr[d * ages_cal_bp.length + column]!);
  const { k, u } = placeOf(paths, age_cal_bp);
  const years = ages_cal_bp[k]! - ages_cal_bp[k + 1]!;
  return Float64Array.from({ length: draws }, (_, d) => valueAt(derivative(stretch(paths, d, k)), u) / years);
}

/** Mean rate of each draw over a window, mm/yr. */
export function meanRates(paths: Paths, { older_cal_bp, younger_cal_bp }: Window): Float64Array {
  const older = levelsAt(paths, older_cal_bp);
  const years = older_cal_bp - younger_cal_bp;
  return levelsAt(paths, younger_cal_bp).map((level, d) => (1000 * (level - older[d]!)) / years);
}

/** 1 sd of the true path about the cubic in the middle of the widest gap between reported ages. */
export interface BetweenAges {
  gap_yr: number;
  level_m: number;
  rate_mm_yr: number;
}

/**
 * The smooth model's rate has white noise of density 4λ³σ² as its second derivative, λ = √3/ℓ (Hartikainen & Särkkä 2010,
 * IEEE MLSP, eq. 12; from memory). What a cubic with both levels and rates right misses of it is its integral against a
 * Peano kernel: variance 4λ³σ²h⁵/7680 of the level and 4λ³σ²h³/1920 of the rate in the middle of a gap of h, as long as h
 * is short against ℓ, and no more where it is not. Root mean square over the draws of σ and ℓ.
 *
 * With changes, each as probable in every year that it may be in, the gap has one with the probability p: at worst in its middle,
 * where the line through both ends then misses √2σh/8 of the level and half of a jump, and √2σ of the rate.
 */
export function betweenAges({ draws, settings }: CurveResult, paths: Paths, window: Window): BetweenAges {
  const gap_yr = Math.max(0, ...stretchesOf(paths, window).map(({ years }) => years));
  const h = gap_yr / 1000;
  const { rate_sd_mm_yr: sd, length_ka: length } = draws;
  const { kind, changes, changes_from_cal_bp, changes_to_cal_bp, jump_sd_m } = settings.rate_model;
  let noise = 0;
  let variance = 0;
  for (let d = 0; d < sd.length; d++) {
    variance += square(sd[d]!) / sd.length;
    if (kind === 'smooth') noise += (4 * power(Math.sqrt(3) / length[d]!, 3) * square(sd[d]!)) / sd.length;
  }
  const p =
    changes === 0
      ? 0
      : Math.min(1, (changes * gap_yr) / Math.max(1, changes_from_cal_bp - changes_to_cal_bp));
  return {
    gap_yr,
    level_m: Math.sqrt((noise * power(h, 5)) / 7680 + p * ((variance * h * h) / 32 + square(jump_sd_m) / 4)),
    rate_mm_yr: Math.sqrt((noise * power(h, 3)) / 1920 + 2 * p * variance),
  };
}

/** An answer whose reported ages are too far apart: by so much it may be off, 1 sd, for that alone. */
export interface TooWide {
  gap_yr: number;
  error: number;
  unit: 'm' | 'mm/yr';
}

/** A tenth of an sd, added to it as variances add, widens it by half a per cent. */
const BEARABLE = 0.1;

/** Null where the error is no more than a tenth of the sd of what is asked. */
export const tooWide = (gap_yr: number, error: number, sd: number, unit: TooWide['unit']): TooWide | null =>
  error > BEARABLE * sd ? { gap_yr, error, unit } : null;

/** The usual sd, over the reported ages in a window, of what the curve reports of level or rate. */
export function usualSd(
  { ages_cal_bp, level_m, rate_mm_yr }: CurveResult,
  of: 'level' | 'rate',
  window: Window,
): number {
  const sds = (of === 'level' ? level_m : rate_mm_yr).sd;
  return median(
    sds.filter((_, i) => ages_cal_bp[i]! <= window.older_cal_bp && ages_cal_bp[i]! >= window.younger_cal_bp),
  );
}

/** Error of a mean rate whose ends both lie between reported ages, mm/yr; none lies on one where `isOn`. */
export const errorOfMeanRate = ({ level_m }: BetweenAges, years: number): number =>
  (1000 * Math.SQRT2 * level_m) / years;

/** Whether the curve reports every one of these ages. */
export const areReported = ({ ages_cal_bp }: Paths, ages: readonly number[]): boolean =>
  ages.every((age) => ages_cal_bp.includes(age));

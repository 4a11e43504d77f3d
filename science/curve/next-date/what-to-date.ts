/**
 * What more dates would do to a rate, before anybody has taken them: how much of its sd would be left, from the draws
 * already kept. One date, the best two together, and what a budget buys; each with its Monte-Carlo error, by leaving out the
 * runs of draws one at a time (the jackknife: Miller 1974, Biometrika 61:1–15, from memory).
 */
import { square } from '@stillstand/science/base';
import type { IntervalRate } from '../result/interval-rate.ts';
import type { CurveResult } from '../result/result.ts';
import {
  type Candidate,
  type DatePlan,
  demandPlan,
  type Layer,
  layerOf,
  type NewPoint,
  newPoints,
  scatterVariance,
  succeeds,
  usualNewPoint,
} from './candidates.ts';
import { type Moments, momentsWith, type RateMoments, type Readings, readingsOf } from './readings.ts';
import { varianceLeft } from './variance-left.ts';

/** A number from the draws, and its Monte-Carlo error. */
interface FromDraws {
  value: number;
  mcse: number;
}

/** Dates to take together. */
export interface Choice {
  /** The oldest first. `point` null: a new index point. Ages and levels are where it would be expected. */
  dates: (Pick<Candidate, 'point' | 'price' | 'age_cal_bp' | 'level_m'> & { alone: number })[];
  /** Share of the rate's sd that would be left, 0–1: root of the expected variance over that without. */
  left: number;
  /** Monte-Carlo error of `left`. */
  mcse: number;
  price: number;
  /** Sd narrower by a fiftieth or more, and by more than twice the Monte-Carlo error; a pair than by the better of its two. */
  isWorth: boolean;
}

/** `alone` of each date, and `together`, are shares of the rate's variance that would go. */
export interface Pair extends Choice {
  together: number;
  /** What the two do beyond the sum of what each does alone; below 0 they repeat one another. */
  beyond: FromDraws;
}

export interface WhatToDate {
  usual: NewPoint;
  /** Probability that a date gives a result that is no outlier. */
  succeeds: number;
  /** 1 sd by which index points scatter beyond their errors, as counted here, m; 0: not in the model. */
  scatter_m: number;
  /** With a usual new point at each of its ages, in the order of the reported ones. */
  through: { age_cal_bp: number; left: number }[];
  /** The best new point and each layer dated alone, those that narrow the rate most for their price first. */
  singles: Choice[];
  /** Layers the curve comes nowhere near. */
  far: string[];
  /** The two that leave least, whatever they are; and the two layers that do, where there are two. */
  pair: Pair | null;
  layers: Pair | null;
  /** What leaves least within the budget; null without one, or where it buys no date. */
  bought: Choice | null;
}

/** Dates that a budget is spent on at most. */
export const MOST_DATES = 5;

/** Less of a rate's sd is not worth a date. */
const WORTH = 0.02;

/** Readings of dates as good as the usual ones of a curve, for all its rates; null without an index point to be usual. */
export const usualReadings = (curve: CurveResult): Readings | null => {
  const usual = usualNewPoint(curve);
  return usual === null ? null : readingsOf(curve, usual.age_sd_yr);
};

/**
 * @param readings those of the same curve, by `usualReadings`
 * @param rate of the same curve
 * @throws RangeError where the plan is none
 */
export function whatToDate(
  curve: CurveResult,
  readings: Readings,
  rate: IntervalRate,
  layers: readonly Layer[],
  plan: DatePlan,
): WhatToDate {
  demandPlan(plan);
  const usual = usualNewPoint(curve)!;
  const moments = momentsWith(readings, rate.draws);
  const points = newPoints(curve, readings, usual, plan);
  const placed = layers.map((layer) => layerOf(curve, readings, layer, plan));
  const inReach = placed.filter((layer) => layer !== null);
  const through = points.map((point) => ({
    age_cal_bp: point.age_cal_bp.mean,
    left: Math.sqrt(left(moments.all, [point])),
  }));
  const best = points[through.reduce((k, { left: l }, i) => (l < through[k]!.left ? i : k), 0)]!;
  const all = [...points, ...inReach];
  return {
    usual,
    succeeds: succeeds(curve, plan.fails),
    scatter_m: Math.sqrt(scatterVariance(curve)),
    through,
    singles: [best, ...inReach].map((one) => choiceOf(moments, [one])).sort((a, b) => buys(b) - buys(a)),
    far: layers.filter((_, i) => placed[i] === null).map(({ point }) => point),
    pair: pairOf(moments, bestPair(moments.all, all)),
    layers: pairOf(moments, bestPair(moments.all, inReach)),
    bought: plan.budget === null ? null : bought(moments, all, plan.budget),
  };
}

/** What would be left if these were dated together, each at an age of the readings or a layer. */
export function datedTogether(
  curve: CurveResult,
  readings: Readings,
  rate: IntervalRate,
  dates: readonly (Layer | { age_cal_bp: number; height_sigma_m: number })[],
  plan: DatePlan,
): Choice | null {
  const chosen = dates.map((date) => {
    if ('point' in date) return layerOf(curve, readings, date, plan);
    const points = newPoints(curve, readings, { ...date, age_sd_yr: readings.age_sd_yr }, plan);
    return points[readings.ages_cal_bp.indexOf(date.age_cal_bp)] ?? null;
  });
  if (chosen.length === 0 || chosen.some((one) => one === null)) return null;
  return choiceOf(momentsWith(readings, rate.draws), chosen as Candidate[]);
}

const left = (moments: Moments, dates: readonly Candidate[]): number =>
  varianceLeft(
    moments,
    dates.map(({ dating }) => dating),
  );

/** Share of the sd that a price takes. */
const buys = ({ left: share, price }: Choice): number => (1 - share) / price;
const priceOf = (dates: readonly Candidate[]): number => dates.reduce((sum, { price }) => sum + price, 0);

function choiceOf(moments: RateMoments, chosen: readonly Candidate[]): Choice {
  const dates = [...chosen].sort((a, b) => b.age_cal_bp.mean - a.age_cal_bp.mean);
  const { value, mcse } = fromDraws(moments, (m) => Math.sqrt(left(m, dates)));
  return {
    dates: dates.map((date) => {
      const { point, price, age_cal_bp, level_m } = date;
      return { point, price, age_cal_bp, level_m, alone: 1 - left(moments.all, [date]) };
    }),
    left: value,
    mcse,
    price: priceOf(dates),
    isWorth: isWorth({ value, mcse }),
  };
}

/** Of what is left. */
const isWorth = ({ value, mcse }: FromDraws): boolean => 1 - value >= WORTH && 1 - value > 2 * mcse;

/** Of all draws; its error by leaving out each run of them. */
function fromDraws({ all, without }: RateMoments, of: (moments: Moments) => number): FromDraws {
  const each = without.map(of);
  const middle = each.reduce((sum, x) => sum + x, 0) / each.length;
  const squares = each.reduce((sum, x) => sum + square(x - middle), 0);
  return { value: of(all), mcse: Math.sqrt(((each.length - 1) / each.length) * squares) };
}

function pairOf(moments: RateMoments, two: readonly Candidate[] | null): Pair | null {
  if (two === null) return null;
  const beyond = (m: Moments): number =>
    1 - left(m, two) - two.reduce((sum, one) => sum + 1 - left(m, [one]), 0);
  const overBetter = (m: Moments): number =>
    Math.sqrt(left(m, two) / Math.min(...two.map((one) => left(m, [one]))));
  return {
    ...choiceOf(moments, two),
    isWorth: isWorth(fromDraws(moments, overBetter)),
    together: 1 - left(moments.all, two),
    beyond: fromDraws(moments, beyond),
  };
}

/** Two new points may have one age; a layer has one date. */
function bestPair(
  moments: Moments,
  candidates: readonly Candidate[],
  budget = Infinity,
): readonly Candidate[] | null {
  let best: readonly Candidate[] | null = null;
  let least = Infinity;
  candidates.forEach((a, i) => {
    for (let j = a.point === null ? i : i + 1; j < candidates.length; j++) {
      const two = [a, candidates[j]!];
      if (priceOf(two) > budget) continue;
      const share = left(moments, two);
      if (share < least) [best, least] = [two, share];
    }
  });
  return best;
}

/** One or two dates exactly; more by adding, to the best one for its price and to the best two, what buys most each time. */
function bought(moments: RateMoments, candidates: readonly Candidate[], budget: number): Choice | null {
  const m = moments.all;
  const first = added(m, candidates, [], budget);
  if (first === null) return null;
  const alone = candidates
    .filter(({ price }) => price <= budget)
    .reduce((a, b) => (left(m, [b]) < left(m, [a]) ? b : a));
  const two = bestPair(m, candidates, budget);
  const sets = [[alone], filled(m, candidates, [first], budget)];
  if (two !== null) sets.push(filled(m, candidates, two, budget));
  const best = sets.reduce((a, b) => (left(m, b) < left(m, a) ? b : a));
  return choiceOf(moments, best);
}

function filled(
  moments: Moments,
  candidates: readonly Candidate[],
  from: readonly Candidate[],
  budget: number,
): Candidate[] {
  const set = [...from];
  while (set.length < MOST_DATES) {
    const next = added(moments, candidates, set, budget);
    if (next === null) break;
    set.push(next);
  }
  return set;
}

/** What takes most of the variance for its price, next to what is chosen; null where nothing that can be paid is worth it. */
function added(
  moments: Moments,
  candidates: readonly Candidate[],
  set: readonly Candidate[],
  budget: number,
): Candidate | null {
  const now = set.length === 0 ? 1 : left(moments, set);
  const most = budget - priceOf(set);
  let best: Candidate | null = null;
  let most_taken = 0;
  for (const one of candidates) {
    if (one.price > most || (one.point !== null && set.includes(one))) continue;
    const then = left(moments, [...set, one]);
    const taken = (now - then) / one.price;
    if (taken > most_taken && then <= now * square(1 - WORTH)) [best, most_taken] = [one, taken];
  }
  return best;
}

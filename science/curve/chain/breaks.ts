/**
 * The ages at which the rate starts afresh, the path integrated out: each is moved by steps of all lengths, and drawn again
 * anywhere, by weights that one walk along all nodes gives every bin of the time asked about (Metropolis–Hastings with a
 * proposal that does not depend on where the break is now). Where their number is free, breaks come and go by the same
 * weights (Green 1995, Biometrika 82:711–732; with the path integrated out nothing else changes its dimension).
 */
import { exp, log } from '@stillstand/science/base';
import { isInOrder } from '../problem/depth-order.ts';
import { logAgeUnder } from '../problem/outliers.ts';
import { breakLikelihoods } from '../process/break-likelihood.ts';
import { sortByAge } from '../process/observations.ts';
import { copyBreaks, copyInto, copyScale, type Rates, withBreak, withoutBreak } from '../process/rates.ts';
import { BINS, type BreakRoom } from './break-room.ts';
import type { Chain } from './chain.ts';
import { logPosterior } from './hyperparameters.ts';
import { setHeights } from './shared-errors.ts';
import { tuned } from './tuning.ts';

const KA = 1000;
/** Log of the longest shift, yr. */
const LONGEST = log(1000);
/** Share of the weights that is even. */
const EVEN = 0.1;
/** Shortest step, as a share of the range, and log of how much longer the longest is: a hundred times. */
const SHORT = 0.002;
const LOG_LONGER = log(100);
/** Times a sweep that each break and all that is older are shifted together. */
const SHIFTS = 3;
/** Times a sweep that a break may come or go. */
const COMES_AND_GOES = 2;

/** `current`: log posterior of where the chain stands; returns that of where it then stands. */
export function moveBreaks(chain: Chain, current: number): number {
  const { breaks: room, rates, problem, stream } = chain;
  if (room === null) return current;
  let log_posterior = current;
  // Any of them, each as probable: one that overtakes another has another number, by which the way back would miss it.
  for (let k = 0; k < rates.breaks; k++)
    log_posterior = anywhere(chain, room, anyBreak(chain), log_posterior);
  for (let k = 0; k < rates.breaks; k++) {
    log_posterior = step(chain, room, anyBreak(chain), log_posterior);
    for (let s = 0; s < SHIFTS; s++) log_posterior = shiftOlder(chain, room, k, log_posterior);
  }
  if (rates.breaks > 1) log_posterior = allAnywhere(chain, room, log_posterior);
  if (problem.settings.rate_model.kind !== 'smooth') return log_posterior;
  for (let k = 0; k < COMES_AND_GOES; k++)
    log_posterior =
      stream.uniform() < 0.5 ? come(chain, room, log_posterior) : go(chain, room, log_posterior);
  return log_posterior;
}

const anyBreak = ({ rates, stream }: Chain): number => stream.integer(rates.breaks);

function step(chain: Chain, room: BreakRoom, k: number, current: number): number {
  const { rates, stream } = chain;
  const range = BINS * room.width_ka;
  const length = range * SHORT * exp(LOG_LONGER * stream.uniform());
  const to = rates.break_ka[k]! + length * stream.normal();
  if (!(to >= room.from_ka && to <= room.from_ka + range)) return current;
  withoutBreak(rates, k, room.without);
  withBreak(room.without, to, room.within);
  return settle(chain, room.within, 0, current);
}

/**
 * A break, those older and the ages of all points older than it, by as many years: the path is as far from the heights as
 * before, and the dates alone decide. A break alone moves only as far as the ages on both sides of it let it.
 */
function shiftOlder(chain: Chain, room: BreakRoom, k: number, current: number): number {
  const { problem, rates, stream, o, savedAge_ka, offset } = chain;
  const { points, ages, ageOutliers, offsetOf } = problem;
  const by = (exp(room.log_shift) / KA) * stream.normal();
  const at = rates.break_ka[k]!;
  const end = room.from_ka + BINS * room.width_ka;
  savedAge_ka.set(o.age_ka);
  let ratio = k > 0 && at + by <= rates.break_ka[k - 1]! ? -Infinity : 0;
  if (at + by < room.from_ka || rates.break_ka[rates.breaks - 1]! + by > end) ratio = -Infinity;
  for (let p = 0; p < o.order.length && ratio > -Infinity; p++) {
    const i = o.order[p]!;
    const age = o.age_ka[i]!;
    const isOlder = age > at;
    if (i >= points.length || ages[i]!.kind === 'fixed' || !isOlder) {
      // The same must be older afterwards, or there is no way back.
      if (isOlder !== age > at + by) ratio = -Infinity;
      continue;
    }
    const shared = offsetOf[i]! >= 0 ? offset[offsetOf[i]!]! : 0;
    o.age_ka[i] = age + by;
    ratio +=
      logAgeUnder(ages[i]!, ageOutliers, KA * (age + by), shared) -
      logAgeUnder(ages[i]!, ageOutliers, KA * age, shared);
  }
  if (ratio > -Infinity && problem.order !== null && !isInOrder(problem.order, o.age_ka)) ratio = -Infinity;
  let there = current;
  let accepted = false;
  if (ratio > -Infinity) {
    copyInto(rates, room.within);
    for (let j = k; j < rates.breaks; j++) room.within.break_ka[j] = rates.break_ka[j]! + by;
    sortByAge(o);
    setHeights(chain);
    there = logPosterior(chain, chain.log_rate_sd, chain.log_length, room.within);
    accepted = log(stream.uniform()) < ratio + there - current;
  }
  if (accepted) copyBreaks(room.within, rates);
  else {
    o.age_ka.set(savedAge_ka);
    sortByAge(o);
    setHeights(chain);
  }
  room.log_shift = tuned(chain, room.log_shift, accepted, LONGEST);
  return accepted ? there : current;
}

function anywhere(chain: Chain, room: BreakRoom, k: number, current: number): number {
  const { rates } = chain;
  const from = binOf(room, rates.break_ka[k]!);
  withoutBreak(rates, k, room.without);
  weigh(chain, room);
  const to = drawBin(chain, room);
  withBreak(room.without, to.age_ka, room.within);
  return settle(chain, room.within, log(room.weight[from]! / room.weight[to.bin]!), current);
}

/**
 * All breaks drawn again, one after another, each by weights given those already drawn; the way back is that of the present
 * ones in a random order. Two that hold each other get nowhere one at a time.
 */
function allAnywhere(chain: Chain, room: BreakRoom, current: number): number {
  const { rates, stream } = chain;
  const now = rates.break_ka.slice(0, rates.breaks);
  for (let k = now.length - 1; k > 0; k--) {
    const j = Math.floor((k + 1) * stream.uniform());
    [now[k], now[j]] = [now[j]!, now[k]!];
  }
  let log_ratio = 0;
  const begin = (): void => {
    copyScale(rates, room.without);
    room.without.breaks = 0;
  };
  const take = (age_ka: number): void => {
    withBreak(room.without, age_ka, room.within);
    copyBreaks(room.within, room.without);
  };
  begin();
  for (const age_ka of now) {
    weigh(chain, room);
    log_ratio += log(room.weight[binOf(room, age_ka)]!);
    take(age_ka);
  }
  begin();
  for (let k = 0; k < now.length; k++) {
    weigh(chain, room);
    const to = drawBin(chain, room);
    log_ratio -= log(room.weight[to.bin]!);
    take(to.age_ka);
  }
  return settle(chain, room.without, log_ratio, current);
}

function come(chain: Chain, room: BreakRoom, current: number): number {
  const { rates, problem } = chain;
  if (rates.breaks === problem.settings.rate_model.changes) return current;
  copyInto(rates, room.without);
  weigh(chain, room);
  const to = drawBin(chain, room);
  withBreak(room.without, to.age_ka, room.within);
  // Even in number and age: as many bins as there are, each as probable, against the weight of the one it came to.
  return settle(chain, room.within, -log(BINS * room.weight[to.bin]!), current);
}

function go(chain: Chain, room: BreakRoom, current: number): number {
  const { rates } = chain;
  if (rates.breaks === 0) return current;
  const k = anyBreak(chain);
  const from = binOf(room, rates.break_ka[k]!);
  withoutBreak(rates, k, room.without);
  weigh(chain, room);
  return settle(chain, room.without, log(BINS * room.weight[from]!), current);
}

/** Probability of each bin for one break more than `room.without` has. */
function weigh(chain: Chain, { weight, middle_ka, without, within }: BreakRoom): void {
  breakLikelihoods(chain.messages, without, within, middle_ka, weight);
  let most = -Infinity;
  for (let b = 0; b < BINS; b++) most = Math.max(most, weight[b]!);
  let sum = 0;
  for (let b = 0; b < BINS; b++) {
    weight[b] = exp(weight[b]! - most);
    sum += weight[b]!;
  }
  for (let b = 0; b < BINS; b++) weight[b] = ((1 - EVEN) * weight[b]!) / sum + EVEN / BINS;
}

function drawBin(
  { stream }: Chain,
  { weight, from_ka, width_ka }: BreakRoom,
): { bin: number; age_ka: number } {
  let left = stream.uniform();
  let bin = 0;
  while (bin < BINS - 1 && left >= weight[bin]!) left -= weight[bin++]!;
  return { bin, age_ka: from_ka + (bin + stream.uniform()) * width_ka };
}

const binOf = ({ from_ka, width_ka }: BreakRoom, age_ka: number): number =>
  Math.min(BINS - 1, Math.max(0, Math.floor((age_ka - from_ka) / width_ka)));

/** Takes the rates proposed with the probability that the posterior and `log_ratio` of the proposals give. */
function settle(chain: Chain, proposed: Rates, log_ratio: number, current: number): number {
  const there = logPosterior(chain, chain.log_rate_sd, chain.log_length, proposed);
  if (!(log(chain.stream.uniform()) < there - current + log_ratio)) return current;
  copyBreaks(proposed, chain.rates);
  return there;
}

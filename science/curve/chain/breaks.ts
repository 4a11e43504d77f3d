/**
 * The ages at which the rate starts afresh, the path integrated out: each is moved by steps of all lengths, and drawn again
 * anywhere, by weights that one walk along all nodes gives every bin of the time asked about (Metropolis–Hastings with a
 * proposal that does not depend on where the break is now). Where their number is free, breaks come and go by the same
 * weights (Green 1995, Biometrika 82:711–732; with the path integrated out nothing else changes its dimension).
 */
import { exp, log } from '@stillstand/science/base';
import type { Problem } from '../problem/problem.ts';
import { breakLikelihoods } from '../process/break-likelihood.ts';
import { copyBreaks, copyScale, type Rates, withBreak, withoutBreak } from '../process/rates.ts';
import type { Chain } from './chain.ts';
import { logPosterior } from './hyperparameters.ts';
import { breakRange } from './rates.ts';

/** Bins of even width over the ages at which the rate may change. */
const BINS = 48;
/** Share of the weights that is even. */
const EVEN = 0.1;
/** Shortest step, as a share of the range, and log of how much longer the longest is: a hundred times. */
const SHORT = 0.002;
const LOG_LONGER = log(100);
/** Times a sweep that a break may come or go. */
const COMES_AND_GOES = 2;

export interface BreakRoom {
  from_ka: number;
  width_ka: number;
  /** Middle of each bin, ka. */
  middle_ka: Float64Array;
  /** By how much a break there changes the log likelihood; then the probability of each bin. */
  weight: Float64Array;
  /** Rates without the break in question, and with another. */
  without: Rates;
  within: Rates;
}

/** Null for a rate that has no breaks. */
export function breakRoom({ settings }: Problem, rates: Rates): BreakRoom | null {
  if (settings.rate_model.changes === 0) return null;
  const { from_ka, to_ka } = breakRange(settings);
  const width_ka = (to_ka - from_ka) / BINS;
  const room = (): Rates => ({ ...rates, break_ka: new Float64Array(rates.break_ka.length) });
  return {
    from_ka,
    width_ka,
    middle_ka: Float64Array.from({ length: BINS }, (_, b) => from_ka + (b + 0.5) * width_ka),
    weight: new Float64Array(BINS),
    without: room(),
    within: room(),
  };
}

/** `current`: log posterior of where the chain stands; returns that of where it then stands. */
export function moveBreaks(chain: Chain, current: number): number {
  const { breaks: room, rates, problem, stream } = chain;
  if (room === null) return current;
  let log_posterior = current;
  for (let k = 0; k < rates.breaks; k++) log_posterior = anywhere(chain, room, k, log_posterior);
  for (let k = 0; k < rates.breaks; k++) log_posterior = step(chain, room, k, log_posterior);
  if (problem.settings.rate_model.kind !== 'smooth') return log_posterior;
  for (let k = 0; k < COMES_AND_GOES; k++)
    log_posterior =
      stream.uniform() < 0.5 ? come(chain, room, log_posterior) : go(chain, room, log_posterior);
  return log_posterior;
}

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

function anywhere(chain: Chain, room: BreakRoom, k: number, current: number): number {
  const { rates } = chain;
  const from = binOf(room, rates.break_ka[k]!);
  withoutBreak(rates, k, room.without);
  weigh(chain, room);
  const to = drawBin(chain, room);
  withBreak(room.without, to.age_ka, room.within);
  return settle(chain, room.within, log(room.weight[from]! / room.weight[to.bin]!), current);
}

function come(chain: Chain, room: BreakRoom, current: number): number {
  const { rates, problem } = chain;
  if (rates.breaks === problem.settings.rate_model.changes) return current;
  copyScale(rates, room.without);
  copyBreaks(rates, room.without);
  weigh(chain, room);
  const to = drawBin(chain, room);
  withBreak(room.without, to.age_ka, room.within);
  // Even in number and age: as many bins as there are, each as probable, against the weight of the one it came to.
  return settle(chain, room.within, -log(BINS * room.weight[to.bin]!), current);
}

function go(chain: Chain, room: BreakRoom, current: number): number {
  const { rates, stream } = chain;
  if (rates.breaks === 0) return current;
  const k = Math.min(rates.breaks - 1, Math.floor(rates.breaks * stream.uniform()));
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

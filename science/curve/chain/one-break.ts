/**
 * Whether one abrupt change would suit the heights better than a smooth rate alone: at so many draws of a smooth model, by
 * how much the likelihood of the heights would be larger with one break and jump at each of some ages. The mean of these
 * ratios over the draws is the ratio of the two models' evidence (importance sampling with the same prior of all else), and
 * their course says where.
 */
import type { Problem } from '../problem/problem.ts';
import { breakLikelihoods } from '../process/break-likelihood.ts';
import { copyOf, copyWith, type Rates } from '../process/rates.ts';
import type { Chain } from './chain.ts';
import { breakRange } from './rates.ts';

/** Ages looked at, evenly over those at which a rate may change. */
const AGES = 60;
/** 1 sd of the jump asked about, m. Common practice, no source: that of a lake's outburst or an earthquake's. */
const JUMP_SD_M = 2;

export interface OneBreak {
  age_ka: Float64Array;
  log_ratio: Float64Array;
  within: Rates;
}

/** Null where the model has changes of its own. */
export function oneBreak({ settings }: Problem, rates: Rates): OneBreak | null {
  const age_ka = oneBreakAges(settings);
  if (age_ka.length === 0) return null;
  return {
    age_ka,
    log_ratio: new Float64Array(AGES),
    within: copyWith(rates, new Float64Array(1)),
  };
}

/** None where the model has changes of its own. */
export function oneBreakAges(settings: Problem['settings']): Float64Array {
  const { kind, changes } = settings.rate_model;
  if (kind !== 'smooth' || changes > 0) return new Float64Array(0);
  const { from_ka, to_ka } = breakRange(settings);
  return Float64Array.from({ length: AGES }, (_, k) => from_ka + ((k + 0.5) * (to_ka - from_ka)) / AGES);
}

/** Of a chain as it stands, into `columns` [age][draw]; the chain's messages must be restarted after it. */
export function keepOneBreak(
  chain: Chain,
  room: OneBreak,
  columns: readonly Float64Array[],
  at: number,
): void {
  const jumping = copyOf(chain.rates);
  jumping.jump_sd_m = JUMP_SD_M;
  breakLikelihoods(chain.messages, jumping, room.within, room.age_ka, room.log_ratio);
  for (let k = 0; k < AGES; k++) columns[k]![at] = room.log_ratio[k]!;
}

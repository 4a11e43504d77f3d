/** Where breaks of the rate are looked for, and room to weigh the places. */
import { log } from '@stillstand/science/base';
import type { Problem } from '../problem/problem.ts';
import { copyWith, type Rates } from '../process/rates.ts';
import { breakRange } from './rates.ts';

/** Bins of even width over the ages at which the rate may change. */
export const BINS = 48;

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
  /** Log of the shift of a break with all that is older, yr; learnt. */
  log_shift: number;
}

/** Null for a rate that has no breaks. */
export function breakRoom({ settings }: Problem, rates: Rates): BreakRoom | null {
  if (settings.rate_model.changes === 0) return null;
  const { from_ka, to_ka } = breakRange(settings);
  const width_ka = (to_ka - from_ka) / BINS;
  const room = (): Rates => copyWith(rates, new Float64Array(rates.break_ka.length));
  return {
    from_ka,
    width_ka,
    middle_ka: Float64Array.from({ length: BINS }, (_, b) => from_ka + (b + 0.5) * width_ka),
    weight: new Float64Array(BINS),
    without: room(),
    within: room(),
    log_shift: log(50),
  };
}

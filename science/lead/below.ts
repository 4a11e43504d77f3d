/** Lead-210 below the last slice that was measured: whether there can be some, and about how much. */
import { exp, mean, type RandomStream, standardDeviation } from '@stillstand/science/base';
import type { Decline } from './constant-flux.ts';
import type { FluxFit } from './flux-fit.ts';
import type { Drawn, Reading } from './reading.ts';

/** 1 sigma of the logarithm of the estimate (our choice). */
const BELOW_SIGMA = 0.5;
/** What counts as found, sigma. */
const FOUND = 2;

/** Mean of the last three cells. */
const lastThree = (of: Float64Array): number => mean(of.subarray(-3));

/** Whether the last slices still have unsupported lead-210, by 2 sigma. */
export function reachesBase({ best, draws }: Drawn<Reading>): boolean {
  return lastThree(best.excess) > FOUND * standardDeviation(draws.map(({ excess }) => lastThree(excess)));
}

/** What lies below the last cell, if the activity goes on falling as the line through the profile does. */
export function belowOf(
  { best, draws }: Drawn<Reading>,
  flux: FluxFit | null,
  stream: RandomStream,
): Drawn<number> {
  if (flux === null) return { best: Infinity, draws: draws.map(() => Infinity) };
  const down = flux.base_x.at(-1)! - lastThree(flux.middle_x);
  const below = ({ excess }: Reading, { slope }: Decline): number =>
    slope > 0 ? (Math.max(0, lastThree(excess)) * exp(-slope * down)) / slope : Infinity;
  return {
    best: below(best, flux.fit.best),
    draws: draws.map((draw, k) => below(draw, flux.fit.draws[k]!) * exp(BELOW_SIGMA * stream.normal())),
  };
}

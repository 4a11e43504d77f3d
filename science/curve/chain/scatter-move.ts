/** The sd of the extra scatter by random walk in its logarithm, the path integrated out. */
import { exp, log, square } from '@stillstand/science/base';
import type { Chain } from './chain.ts';
import { logPosterior } from './hyperparameters.ts';
import { setScatter } from './scatter.ts';
import { tuned } from './tuning.ts';

/** Steps a sweep. */
const STEPS = 2;

/** `current`: log posterior of where the chain stands; returns that of where it then stands. */
export function moveScatter(chain: Chain, current: number): number {
  const { scatter, stream } = chain;
  if (scatter.scale_m === 0) return current;
  let log_posterior = current;
  for (let step = 0; step < STEPS; step++) {
    const before = scatter.sd_m;
    const after = before * exp(exp(scatter.log_step) * stream.normal());
    setScatter(chain, after);
    const there = logPosterior(chain);
    // Half-normal, in its logarithm.
    const prior =
      log(after / before) + 0.5 * (square(before / scatter.scale_m) - square(after / scatter.scale_m));
    const accepted = log(stream.uniform()) < there - log_posterior + prior;
    if (accepted) log_posterior = there;
    else setScatter(chain, before);
    scatter.log_step = tuned(chain, scatter.log_step, accepted, 1);
  }
  return log_posterior;
}

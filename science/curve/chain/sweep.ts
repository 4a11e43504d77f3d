/**
 * One sweep of a Markov chain over ages, latent heights, shared errors, σ and ℓ, the path of level and rate integrated out
 * of every step:
 *   1. the shared height errors, exactly;
 *   2. by how much the rate slowed (`slowing.ts`); (log σ, log ℓ) by random walk (`hyperparameters.ts`); the ages at which
 *      the rate starts afresh (`breaks.ts`); extra scatter of the heights (`scatter.ts`); each shared reservoir error with the ages that carry it, and
 *      dates that contradict their depths, two at once (`ages-together.ts`);
 *   3. the histories of holes that points have their ages from, with the depths of these (`histories.ts`);
 *   4. the latent heights all at once (`release.ts`);
 *   5. each point's age and latent height together, given all other points (`point-move.ts`), there and back;
 *   6. the shared reservoir errors given the ages, exactly.
 * Limits the sea keeps clear of are not in it (`loose-limits.ts`). Linear in the number of points but for the neighbours
 * an age may jump over. Each move leaves the others' state as they expect it.
 */
import { giveSharedDates } from '@stillstand/science/dating';
import { restart } from '../process/messages.ts';
import { sortByAge } from '../process/observations.ts';
import { moveAgesTogether } from './ages-together.ts';
import { moveBreaks } from './breaks.ts';
import type { Chain } from './chain.ts';
import { moveHistories } from './histories.ts';
import { stepHyperparameters } from './hyperparameters.ts';
import { drawLooseAge, updatePoint } from './point-move.ts';
import { releaseHeights } from './release.ts';
import { moveScatter } from './scatter-move.ts';
import { drawOffset, drawShared } from './shared-errors.ts';
import { drawSlowing } from './slowing.ts';

export function sweep(chain: Chain): void {
  const { problem, o, limits } = chain;
  for (const i of limits.points) drawLooseAge(chain, i);
  if (limits.leftOut !== -1) drawLooseAge(chain, limits.leftOut);
  sortByAge(o);
  drawShared(chain);
  drawSlowing(chain);
  moveAgesTogether(chain, moveScatter(chain, moveBreaks(chain, stepHyperparameters(chain))));
  moveHistories(chain);
  const older = chain.sweeps % 2 === 0;
  if (chain.release !== null) releaseHeights(chain.release, o, chain, chain.rates, chain.stream);
  restart(chain.messages, chain.rates, !older);
  const { visit, ages } = problem;
  const n = visit.length;
  for (let k = 0; k < 2 * n; k++) {
    const back = k >= n;
    const i = visit[older !== back ? k % n : n - 1 - (k % n)]!;
    // On the way back those whose proposals are blind to the height: they need more tries.
    if (limits.isLoose[i] === 0 && (!back || ages[i]!.kind === 'cells')) updatePoint(chain, i);
  }
  for (let g = 0; g < problem.offsets.length; g++) drawOffset(chain, g);
  giveSharedDates(chain.walks, problem.offsets, chain.offset);
  chain.sweeps++;
}

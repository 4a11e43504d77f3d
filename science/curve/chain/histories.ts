/** Histories of holes move with the ages and depths of their points, the latent heights as they are and the path integrated out. */
import { giveSharedDates, sweepWalk } from '@stillstand/science/dating';
import { setByHistory } from '../histories/walks.ts';
import { logLikelihood } from '../process/likelihood.ts';
import { sortByAge } from '../process/observations.ts';
import type { Chain } from './chain.ts';
import { setHeights } from './shared-errors.ts';

/** One sweep of each; leaves ages sorted and heights set. */
export function moveHistories(chain: Chain): void {
  const { o, rates, work, walks, problem } = chain;
  if (walks.length === 0) return;
  const likelihood = (): number => {
    sortByAge(o);
    setHeights(chain);
    return logLikelihood(o, o.height_m, 0, rates, work);
  };
  giveSharedDates(walks, problem.offsets, chain.offset);
  let here = likelihood();
  for (const each of walks) {
    let before = here;
    sweepWalk(
      each.walk,
      here,
      () => {
        before = here;
        if (setByHistory(chain, each)) here = likelihood();
        return here;
      },
      () => {
        here = before;
        setByHistory(chain, each);
      },
    );
    setByHistory(chain, each);
    here = likelihood();
  }
}

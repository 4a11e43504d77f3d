/** The chains of holes together as the engine sweeps them. */
import type { Sampler } from '@stillstand/science/base';
import { type Draws, emptyDraws, keepDraw } from '../draws.ts';
import {
  type ChainTogether,
  endWarmUpTogether,
  type HolesReady,
  startTogether,
  sweepTogether,
} from './chain.ts';

export interface DrawsTogether {
  /** By hole. */
  holes: Draws[];
  /** [error][draw]: above what was stated, yr (of a reservoir 14C yr). */
  error_yr: Float64Array[];
}

export const togetherSampler: Sampler<HolesReady, ChainTogether, DrawsTogether> = {
  name: 'ages against depth together',
  start: startTogether,
  sweep: sweepTogether,
  endWarmUp: endWarmUpTogether,
  room: ({ holes, groups }, draws) => ({
    holes: holes.map(({ model }) => emptyDraws(model.hole, draws)),
    error_yr: groups.map(() => new Float64Array(draws)),
  }),
  keep: ({ walks, error, sigma_yr }, draws, at) => {
    for (const [h, { walk }] of walks.entries()) keepDraw(walk.chain, draws.holes[h]!, at);
    error.forEach((shift, g) => {
      draws.error_yr[g]![at] = shift * sigma_yr[g]!;
    });
    return true;
  },
};

/** A hole's chains as the engine sweeps them. */
import type { Sampler } from '@stillstand/science/base';
import { type Chain, endWarmUp, startChain, sweep } from './chain.ts';
import { type Draws, emptyDraws, keepDraw } from './draws.ts';
import type { Hole } from './hole.ts';

export const ageDepthSampler: Sampler<Hole, Chain, Draws> = {
  name: 'age against depth',
  start: startChain,
  sweep,
  endWarmUp,
  room: emptyDraws,
  keep: (chain, draws, at) => {
    keepDraw(chain, draws, at);
    return true;
  },
};

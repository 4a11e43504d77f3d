/** Room for the draw of how much the mean rate slowed. */
import { type LikelihoodWork, likelihoodWork } from '../process/likelihood.ts';

/** Room of its own, nodes of one column. */
export interface SlowingRoom {
  work: LikelihoodWork;
  height_m: Float64Array;
  loading_m: Float64Array;
  drawn: Float64Array;
}

export const slowingRoom = (nodes: number): SlowingRoom => ({
  work: likelihoodWork(1),
  height_m: new Float64Array(nodes),
  loading_m: new Float64Array(nodes),
  drawn: new Float64Array(1),
});

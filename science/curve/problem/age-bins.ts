/** All ages that a date allows, outliers among them, parted into bins. */
import { exp, log } from '@stillstand/science/base';
import type { AgePrior } from '@stillstand/science/clocks';
import { type AgeOutliers, logAge } from './outliers.ts';

const KA = 1000;
/** Bins of the date itself, two sd wide; beyond them each is this much farther from the mean than the one before. */
const CORE_SD = 3;
const GROWS = 1.6;

export interface Bins {
  /** One more than there are bins; ascending. */
  edge_ka: Float64Array;
  /** Log of the date's density times the width. */
  log_weight: Float64Array;
}

export function binsOf(prior: AgePrior, out: AgeOutliers | null): Bins | null {
  if (out === null || prior.kind === 'fixed') return null;
  const { mean_cal_bp: mean, sd_yr: sd } = prior;
  const youngest = Math.min(out.youngest, mean - 6 * sd);
  const edges: number[] = [];
  for (let z = -CORE_SD; z <= CORE_SD; z += 2) edges.push(mean + z * sd);
  for (let far = GROWS * CORE_SD * sd; edges.at(-1)! < out.oldest && edges.length < 60; far *= GROWS)
    edges.push(Math.min(out.oldest, mean + far));
  for (let far = GROWS * CORE_SD * sd; edges[0]! > youngest && edges.length < 120; far *= GROWS)
    edges.unshift(Math.max(youngest, mean - far));
  const edge_ka = Float64Array.from(edges, (edge) => edge / KA);
  const log_weight = Float64Array.from({ length: edges.length - 1 }, (_, b) => {
    const [from, to] = [edges[b]!, edges[b + 1]!];
    let sum = 0;
    for (const at of [1 / 6, 0.5, 5 / 6]) sum += exp(logAge(prior, out, from + at * (to - from))) / 3;
    return log(sum * (to - from));
  });
  return { edge_ka, log_weight };
}

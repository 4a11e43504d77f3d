/**
 * A proposal for an age anywhere it could be: into an outlier's tail and out of it at once. All ages that the date allows
 * are parted into bins; each weighs by the date's density and the height's at its middle, the point itself left out. It is
 * independent of where the age stands, so that Metropolis and Hastings' ratio needs the weights of two bins alone.
 *
 * It costs a walk along all nodes and is kept for the points that may be outliers, which a chain learns in its warm-up.
 */
import { exp, log, type RandomStream } from '@stillstand/science/base';
import type { Bins } from '../problem/age-bins.ts';
import { logHeightOf, type Problem } from '../problem/problem.ts';
import { type Messages, predictLevel } from '../process/messages.ts';

/** Room for the weights of the bins of one point. */
export interface Anywhere {
  weight: Float64Array;
}

/**
 * An age drawn, ka, and the log of the density it was drawn with less that of `age_ka`. Null where the age stands in no
 * bin. The point must be taken out of the messages.
 */
export function proposeAnywhere(
  problem: Problem,
  i: number,
  { edge_ka, log_weight }: Bins,
  m: Messages,
  at: { age_ka: number; centre_m: number; shift_m: number },
  room: Anywhere,
  stream: RandomStream,
): { age_ka: number; log_ratio: number } | null {
  const bins = log_weight.length;
  if (!(at.age_ka >= edge_ka[0]! && at.age_ka <= edge_ka[bins]!)) return null;
  const { weight } = room;
  const rate_mean = problem.settings.priors.rate_mean_mm_yr;
  let most = -Infinity;
  for (let b = 0; b < bins; b++) {
    const middle = (edge_ka[b]! + edge_ka[b + 1]!) / 2;
    predictLevel(m, middle);
    const mean = m.level_m - rate_mean * middle + at.shift_m;
    weight[b] = log_weight[b]! + logHeightOf(problem, i, at.centre_m, mean, m.variance_m2);
    if (weight[b]! > most) most = weight[b]!;
  }
  if (most === -Infinity) return null;
  let sum = 0;
  for (let b = 0; b < bins; b++) {
    weight[b] = exp(weight[b]! - most);
    sum += weight[b]!;
  }
  let left = stream.uniform() * sum;
  let to = 0;
  while (to < bins - 1 && left >= weight[to]!) left -= weight[to++]!;
  const age_ka = edge_ka[to]! + stream.uniform() * (edge_ka[to + 1]! - edge_ka[to]!);
  let from = 0;
  while (from < bins - 1 && at.age_ka > edge_ka[from + 1]!) from++;
  const density = (b: number): number => log(weight[b]!) - log(edge_ka[b + 1]! - edge_ka[b]!);
  return { age_ka, log_ratio: density(to) - density(from) };
}

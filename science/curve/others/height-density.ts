/** How probable a point's height is where all else expects a level, its own errors and their kinds summed out. */
import { exp, log } from '@stillstand/science/base';
import { EXACT, LOWERED, UNIFORM } from '../problem/height.ts';
import { logHeightOf, type Problem } from '../problem/problem.ts';

const LOG_ROOT_2_PI = 0.5 * log(2 * Math.PI);
/** Of the narrower of two soft parts of a height error. */
const PARTS = 8;
/** Middles of eight equally probable parts of a half-normal (quantiles of the normal at (17 + 2k)/32). */
const HALF_NORMAL = [0.0784, 0.2372, 0.4023, 0.5791, 0.7764, 1.01, 1.318, 1.8627];

/**
 * Of point `i`, where its latent height has this mean, m, and variance, m², its own error not in it. Index points: log
 * density up to `logUnit`. Limits: log of the probability that the sea keeps to their side.
 */
export function logHeightAmong(problem: Problem, i: number, mean_m: number, variance_m2: number): number {
  const { height_m, half_range_m, lowering_m } = problem.points[i]!;
  if (problem.explicit[i] === 0) return logHeightOf(problem, i, height_m, mean_m, variance_m2);
  const isLowering = problem.explicit[i] === 1;
  let most = -Infinity;
  let sum = 0;
  for (let k = 0; k < PARTS; k++) {
    const part = isLowering ? lowering_m * HALF_NORMAL[k]! : half_range_m * ((2 * k + 1) / PARTS - 1);
    const l = logHeightOf(problem, i, height_m + part, mean_m, variance_m2);
    if (l > most) {
      sum *= most === -Infinity ? 0 : exp(most - l);
      most = l;
    }
    sum += exp(l - most);
  }
  return most + log(sum / PARTS);
}

/** What makes `logHeightAmong` the log of a density per metre: a sampler needs none of it. Of a limit, a probability, 0. */
export function logUnit({ kind, width_m }: Problem, i: number): number {
  switch (kind[i]) {
    case EXACT:
      return -LOG_ROOT_2_PI;
    case UNIFORM:
      return -log(2 * width_m[i]!);
    case LOWERED:
      return Math.LN2 - LOG_ROOT_2_PI;
    default:
      return 0;
  }
}

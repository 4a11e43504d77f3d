import { square } from '@stillstand/science/base';
import type { CurvePoint } from './problem/model.ts';
import { makeProblem } from './problem/problem.ts';
import { likelihoodWork, logLikelihood } from './process/likelihood.ts';
import { type Observations, sortByAge } from './process/observations.ts';
import { smoothRates } from './process/rates.ts';
import type { CurveSettings } from './result/result.ts';

/**
 * The log marginal likelihood of σ (mm/yr) and ℓ (ka) with every age at its prior mean and every height exact, the level,
 * the rate and the shared errors integrated out: what the sampler evaluates at each step, in time linear in the points.
 */
export function curveLikelihood(
  points: readonly CurvePoint[],
  settings: CurveSettings,
): (rate_sd_mm_yr: number, length_ka: number) => number {
  const problem = makeProblem(points, settings);
  const { tie, priors } = settings;
  const age_cal_bp = problem.ages.map((a) => a.mean_cal_bp);
  const nodes = [
    ...problem.points.map((p, i) => ({ age: age_cal_bp[i]!, height_m: p.height_m, sigma_m: p.sigma_m })),
    { age: 0, height_m: 0, sigma_m: priors.level_sd_m },
    ...(tie === null ? [] : [{ age: 1950 - tie.year_ce, height_m: 0, sigma_m: tie.sd_m }]),
  ];
  const age_ka = Float64Array.from(nodes, (x) => x.age / 1000);
  const raw_m = Float64Array.from(nodes, (x) => x.height_m + (priors.rate_mean_mm_yr * x.age) / 1000);
  const o: Observations = {
    count: problem.nodes,
    age_ka,
    raw_m,
    height_m: raw_m,
    variance_m2: Float64Array.from(nodes, (x) => square(x.sigma_m)),
    order: Int32Array.from(nodes.keys()),
    place: new Int32Array(problem.nodes),
    groups: problem.groups.length,
    loading_m: problem.loading_m,
  };
  sortByAge(o);
  const work = likelihoodWork(o.groups);
  return (rate_sd_mm_yr, length_ka) =>
    logLikelihood(o, raw_m, o.groups, smoothRates(rate_sd_mm_yr, length_ka, priors.rate_mean_mm_yr), work);
}

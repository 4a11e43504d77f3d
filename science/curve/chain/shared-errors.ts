/** Errors that points share, drawn exactly given all else: of heights through the likelihood, of dates given the ages. */
import { log } from '@stillstand/science/base';
import { shownOfShared } from '@stillstand/science/clocks';
import { holesIn, logOfSharedDates } from '@stillstand/science/dating';
import { ageOutlierProbability, logAgeUnder } from '../problem/outliers.ts';
import { drawSharedErrors, logLikelihood } from '../process/likelihood.ts';
import { trend_m } from '../process/rates.ts';
import type { Chain } from './chain.ts';

const KA = 1000;

/** All shared height errors, given σ, ℓ and the latent heights. */
export function drawShared(chain: Chain): void {
  const { o, shared, shift_m, work, stream } = chain;
  setHeights(chain);
  if (o.groups === 0) return;
  logLikelihood(o, o.raw_m, o.groups, chain.rates, work);
  drawSharedErrors(o.groups, chain.problem.burials, work, stream, shared);
  shift_m.set(chain.lowered_m);
  for (let g = 0; g < o.groups; g++) {
    const b = shared[g]!;
    for (let i = 0; i < shift_m.length; i++) shift_m[i] = shift_m[i]! + b * o.loading_m[g * o.count + i]!;
  }
  setHeights(chain);
}

/** Heights with the mean rate's trend taken off, as the states of their holes have them, and the shared errors. */
export function setHeights(chain: Chain): void {
  const { o, latent_m, shift_m, lowered_m, rates } = chain;
  for (let i = 0; i < o.count; i++) {
    const height = (latent_m[i] ?? 0) + trend_m(rates, o.age_ka[i]!);
    o.raw_m[i] = height - (lowered_m[i] ?? 0);
    o.height_m[i] = height - (shift_m[i] ?? 0);
  }
}

/** A shared error of dates given the ages that carry it, of which outliers say nothing: normal. */
export function drawOffset(chain: Chain, g: number): void {
  const { problem, o } = chain;
  if (holesIn(chain.walks, problem.offsets[g]!).length > 0) {
    stepOffset(chain, g);
    return;
  }
  const members = problem.offsetMembers[g]!;
  let precision = 1;
  let weighted = 0;
  for (let k = 0; k < members.length; k++) {
    const i = members[k]!;
    const prior = problem.ages[i]!;
    if (prior.shared === null || isOutlier(chain, i)) continue;
    const { loading_yr } = prior.shared;
    const shown = shownOfShared(prior, KA * o.age_ka[i]!);
    const weight = loading_yr * shown.precision;
    precision += loading_yr * weight;
    weighted += weight * shown.miss_yr;
  }
  chain.offset[g] = weighted / precision + chain.stream.normal() / Math.sqrt(precision);
}

/** Steps of an error that dates of holes share, in its sds, a sweep: from once over to a sixth of it. */
const STEPS = [1, 0.4, 0.16, 0.4];

/** The same where dates of holes carry it too, whose densities are not normal in it: by random walk. */
function stepOffset(chain: Chain, g: number): void {
  const { problem, o, walks, stream } = chain;
  const members = problem.offsetMembers[g]!;
  const logOf = (shift: number): number => {
    let sum = -0.5 * shift * shift + logOfSharedDates(walks, problem.offsets[g]!, shift);
    for (let k = 0; k < members.length; k++) {
      const i = members[k]!;
      sum += logAgeUnder(problem.ages[i]!, problem.ageOutliers, KA * o.age_ka[i]!, shift);
    }
    return sum;
  };
  let here = logOf(chain.offset[g]!);
  for (const length of STEPS) {
    const shift = chain.offset[g]! + length * stream.normal();
    const there = logOf(shift);
    if (!(log(stream.uniform()) < there - here)) continue;
    chain.offset[g] = shift;
    here = there;
  }
}

/** Whether the date of a point is an outlier, drawn given its age and the shared error. */
export function isOutlier({ problem, offset, o, stream }: Chain, i: number): boolean {
  if (problem.ageOutliers === null) return false;
  const shift = problem.offsetOf[i]! >= 0 ? offset[problem.offsetOf[i]!]! : 0;
  return (
    stream.uniform() < ageOutlierProbability(problem.ages[i]!, problem.ageOutliers, KA * o.age_ka[i]!, shift)
  );
}

/**
 * Ages that move together, the latent heights as they are and the path integrated out: all that carry a shared error,
 * with it; and two of a hole whose dates contradict their depths, so that either may be the outlier.
 */
import { exp, log } from '@stillstand/science/base';
import { logAgeGiven } from '@stillstand/science/clocks';
import {
  giveSharedDates,
  holesIn,
  logOfSharedDates,
  shiftHoles,
  unshiftHoles,
} from '@stillstand/science/dating';
import { setByHistory } from '../histories/walks.ts';
import { atSameQuantile } from '../problem/age-quantiles.ts';
import { isInOrder } from '../problem/depth-order.ts';
import { logAgeUnder } from '../problem/outliers.ts';
import { sortByAge } from '../process/observations.ts';
import { proposeLearnt } from './anywhere.ts';
import type { Chain } from './chain.ts';
import { logPosterior } from './hyperparameters.ts';
import { isOutlier, setHeights } from './shared-errors.ts';
import { tuned } from './tuning.ts';

const KA = 1000;
/** Steps of each error that ages share a sweep. */
const STEPS = 3;
/** A long step of one, in its sds. */
const FAR = 2;
/** Log of the longest other: no longer than its grid. */
const LONGEST = 1;
/** Two dates that contradict each other are tried so often a sweep, pairs in turn where there are many. */
const PAIRS = 4;

/** `current`: log posterior of where the chain stands. */
export function moveAgesTogether(chain: Chain, current: number): void {
  const { problem } = chain;
  let log_posterior = current;
  for (let g = 0; g < problem.offsets.length; g++) {
    for (let step = 0; step < STEPS; step++) {
      log_posterior = shiftTogether(chain, g, log_posterior);
      log_posterior = shiftAtQuantiles(chain, g, exp(chain.logQuantileScale[g]!), log_posterior);
    }
    // The curve winds: the error may have peaks far apart, between which no short step leads.
    log_posterior = shiftAtQuantiles(chain, g, FAR, log_posterior);
    // A hole may have dates of another error too, which move with it.
    giveSharedDates(chain.walks, problem.offsets, chain.offset);
  }
  if (problem.order === null || problem.ageOutliers === null) return;
  const pairs = problem.order.contradicting;
  for (let k = 0; k < Math.min(PAIRS, 2 * pairs.length); k++) {
    const pair = pairs[(PAIRS * chain.sweeps + k) % pairs.length]!;
    log_posterior = exchange(chain, pair.upper, pair.lower, log_posterior);
  }
}

/** Moves a shared reservoir error and all ages that carry it, the ages by as many years as the error. Returns the log
 * posterior of where the chain then stands. */
function shiftTogether(chain: Chain, g: number, current: number): number {
  const { problem, stream, o, savedAge_ka, walks } = chain;
  const members = problem.offsetMembers[g]!;
  const before = chain.offset[g]!;
  const after = before + exp(chain.logShiftScale[g]!) * stream.normal();
  savedAge_ka.set(o.age_ka);
  let ratio = 0.5 * (before * before - after * after);
  for (let k = 0; k < members.length; k++) {
    const i = members[k]!;
    const prior = problem.ages[i]!;
    // An outlier knows nothing of the shared error and stays where it is.
    if (prior.shared === null || isOutlier(chain, i)) continue;
    const was = KA * o.age_ka[i]!;
    const is = was - prior.shared.loading_yr * (after - before);
    o.age_ka[i] = is / KA;
    ratio += logAgeGiven(prior, is, after) - logAgeGiven(prior, was, before);
  }
  const group = problem.offsets[g]!;
  const holes = holesIn(walks, group);
  if (holes.length > 0) ratio += shiftHoles(holes, group, before, after);
  for (const hole of holes) setByHistory(chain, hole);
  const proposed = settle(chain, ratio, current);
  if (proposed === null) {
    unshiftHoles(holes);
    for (const hole of holes) setByHistory(chain, hole);
  }
  chain.logShiftScale[g] = tuned(chain, chain.logShiftScale[g]!, proposed !== null, LONGEST);
  if (proposed !== null) chain.offset[g] = after;
  return proposed ?? current;
}

/**
 * Moves a shared reservoir error, and each age that carries it to where it lies at its date's same quantile. Where heights
 * say little of the ages it is kept as often as the dates together allow, however the curve winds; where heights hold
 * the ages apart, the shift in years is.
 */
function shiftAtQuantiles(chain: Chain, g: number, step: number, current: number): number {
  const { problem, stream, o, savedAge_ka, walks } = chain;
  const members = problem.offsetMembers[g]!;
  const group = problem.offsets[g]!;
  const before = chain.offset[g]!;
  const after = before + step * stream.normal();
  savedAge_ka.set(o.age_ka);
  let ratio = 0.5 * (before * before - after * after);
  ratio += logOfSharedDates(walks, group, after) - logOfSharedDates(walks, group, before);
  for (let k = 0; k < members.length && ratio > -Infinity; k++) {
    const i = members[k]!;
    const prior = problem.ages[i]!;
    if (prior.shared === null || isOutlier(chain, i)) continue;
    const was = KA * o.age_ka[i]!;
    const quantiles = problem.quantiles[i]!;
    const moved =
      quantiles === null
        ? { age_cal_bp: was - prior.shared.loading_yr * (after - before), log_stretch: 0 }
        : atSameQuantile(quantiles, was, before, after);
    if (moved === null) {
      ratio = -Infinity;
      break;
    }
    o.age_ka[i] = moved.age_cal_bp / KA;
    ratio += moved.log_stretch;
    ratio += logAgeGiven(prior, moved.age_cal_bp, after) - logAgeGiven(prior, was, before);
  }
  const proposed = settle(chain, ratio, current);
  if (step !== FAR)
    chain.logQuantileScale[g] = tuned(chain, chain.logQuantileScale[g]!, proposed !== null, LONGEST);
  if (proposed !== null) chain.offset[g] = after;
  return proposed ?? current;
}

/** Both ages drawn again, as what was learnt in the warm-up has them: one of them goes back to its date as the other leaves its own. */
function exchange(chain: Chain, upper: number, lower: number, current: number): number {
  const { problem, stream, o, anywhere, limits, savedAge_ka } = chain;
  if (anywhere.learnt === null || limits.isLoose[upper] === 1 || limits.isLoose[lower] === 1) return current;
  savedAge_ka.set(o.age_ka);
  let ratio = 0;
  for (const i of [upper, lower]) {
    const bins = problem.bins[i]!;
    if (bins === null) continue;
    const offset = problem.offsetOf[i]! >= 0 ? chain.offset[problem.offsetOf[i]!]! : 0;
    const drawn = proposeLearnt(bins, anywhere.learnt[i]!, o.age_ka[i]!, stream);
    if (drawn === null) {
      ratio = -Infinity;
      break;
    }
    const prior = problem.ages[i]!;
    ratio -= drawn.log_ratio;
    ratio += logAgeUnder(prior, problem.ageOutliers, KA * drawn.age_ka, offset);
    ratio -= logAgeUnder(prior, problem.ageOutliers, KA * o.age_ka[i]!, offset);
    o.age_ka[i] = drawn.age_ka;
  }
  return settle(chain, ratio, current) ?? current;
}

/** Keeps the ages as they now are with the probability that `ratio` and the likelihood give, and returns the log posterior;
 * else takes them back to where they were saved, and returns null. */
function settle(chain: Chain, ratio: number, current: number): number | null {
  const { problem, stream, o } = chain;
  if (ratio > -Infinity && (problem.order === null || isInOrder(problem.order, o.age_ka))) {
    sortByAge(o);
    setHeights(chain);
    const proposed = logPosterior(chain);
    if (log(stream.uniform()) < ratio + proposed - current) return proposed;
  }
  o.age_ka.set(chain.savedAge_ka);
  sortByAge(o);
  setHeights(chain);
  return null;
}

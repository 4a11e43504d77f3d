/** A point's age and latent height together, given all other points (`process/messages.ts`). */
import { exp, log, truncatedNormal } from '@stillstand/science/base';
import { normalGiven } from '@stillstand/science/clocks';
import { ANY_AGE, boundsOf, isWithin } from '../problem/depth-order.ts';
import { drawHeight, EXACT, LOWERED, MARINE, TERRESTRIAL } from '../problem/height.ts';
import { ageOutlierProbability, drawAgeOf, drawReach, logAge, logAgeUnder } from '../problem/outliers.ts';
import { errorKindOf, logHeightOf } from '../problem/problem.ts';
import { predictLevel, putBack, takeOut } from '../process/messages.ts';
import { meanRate, trend_m } from '../process/rates.ts';
import { type Drawn, learnDoubt, proposeAsked, proposeLearnt } from './anywhere.ts';
import type { Chain } from './chain.ts';

const KA = 1000;

/** The age of a loose limit, or of the point left out: what was known of it, but for an error it shares. */
export function drawLooseAge(chain: Chain, i: number): void {
  const { problem, stream, o } = chain;
  const prior = problem.ages[i]!;
  const out = problem.ageOutliers;
  if (prior.kind === 'fixed') return;
  const bounds = boundsOf(problem.order, o.age_ka, i);
  const age = KA * o.age_ka[i]!;
  const offset = problem.offsetOf[i]! >= 0 ? chain.offset[problem.offsetOf[i]!]! : 0;
  if (bounds !== ANY_AGE) {
    // Between neighbours in its hole a draw from the date seldom lands: a step as well.
    const step = age + exp(chain.logAgeScale[i]!) * stream.normal();
    const ratio = logAgeUnder(prior, out, step, offset) - logAgeUnder(prior, out, age, offset);
    if (isWithin(bounds, step / KA) && log(stream.uniform()) < ratio) o.age_ka[i] = step / KA;
  }
  const proposal = drawAgeOf(prior, out, stream);
  if (!isWithin(bounds, proposal / KA)) return;
  if (problem.offsetOf[i]! >= 0) {
    const at = KA * o.age_ka[i]!;
    const ratio =
      logAgeUnder(prior, out, proposal, offset) -
      logAgeUnder(prior, out, at, offset) +
      logAge(prior, out, at) -
      logAge(prior, out, proposal);
    if (!(log(stream.uniform()) < ratio)) return;
  } else if (!(logAge(prior, out, proposal) > -Infinity)) return;
  o.age_ka[i] = proposal / KA;
}

export function updatePoint(chain: Chain, i: number): void {
  const { problem, stream, o, messages: m, rates } = chain;
  const prior = problem.ages[i]!;
  const kind = problem.kind[i]!;
  const { log_share, variance_m2: own_m2 } = problem.heightOutliers;
  const kinds = log_share.length;
  if (prior.kind === 'fixed' && kind === EXACT && kinds === 1) return;
  const out = problem.ageOutliers;
  const width = problem.width_m[i]!;
  const centre = chain.centre_m[i]!;
  const shift = chain.shift_m[i]!;
  // Proposals go by the point's own error, whichever it has now: so they are the same there and back.
  const noise = own_m2[kinds * i]!;
  const offset = problem.offsetOf[i]! >= 0 ? chain.offset[problem.offsetOf[i]!]! : 0;

  takeOut(m, i);
  let age = o.age_ka[i]!;
  predictLevel(m, age);
  let younger = m.younger;
  let older = m.older;
  let mean = m.level_m - trend_m(rates, age) + shift;
  let variance = m.variance_m2 + noise;
  let rate = meanRate(rates, age) + rates.sd_mm_yr * m.rate;
  let height = logHeightOf(problem, i, centre, mean, variance - noise);

  // Where sea level turned, a height can mean two ages: now and then the prior is asked instead of the slope.
  const guided = prior.kind === 'normal' && kind !== TERRESTRIAL && kind !== MARINE && chain.sweeps % 4 !== 3;
  // Between neighbours in its hole the slope's proposal seldom lands: a step as well.
  const bounds = boundsOf(problem.order, o.age_ka, i);
  const near = guided && bounds === ANY_AGE ? 1 : 2;
  const bins = problem.bins[i]!;
  const tries = prior.kind === 'fixed' ? 0 : bins === null ? near : near + 1;
  // Log density of the age by its date, the shared error summed out or given; worked out where a proposal needs it.
  const isShared = problem.offsetOf[i]! >= 0;
  const byDate = (at_ka: number): number => logAge(prior, out, KA * at_ka);
  const given = (at_ka: number): number =>
    isShared ? logAgeUnder(prior, out, KA * at_ka, offset) : byDate(at_ka);
  let here = Number.NaN;
  for (let attempt = 0; attempt < tries; attempt++) {
    let proposal: number;
    let there = Number.NaN;
    let ratio: number;
    let walk = false;
    const isGuided = guided && attempt === 0;
    const date = prior.kind === 'normal' ? normalGiven(prior, offset) : prior;
    const sd = date.sd_yr / KA;
    const known = date.mean_cal_bp / KA;
    // What the height says of the age, linearised here: a normal with this centre and precision, times the prior.
    const spread = variance + (kind === LOWERED ? 0.36 * width * width : (width * width) / 3);
    const observed = kind === LOWERED ? centre + 0.8 * width : centre;
    let precision = 0;
    let target = 0;
    if (isGuided) {
      precision = 1 / (sd * sd) + (rate * rate) / spread;
      target = (known / (sd * sd) + (rate * rate * age + rate * (mean - observed)) / spread) / precision;
      proposal = target + stream.normal() / Math.sqrt(precision);
      there = given(proposal);
      if (Number.isNaN(here)) here = given(age);
      ratio = there - here;
    } else if (attempt === near) {
      const drawn = proposeElsewhere(chain, i, age, centre, shift);
      if (drawn === null) break;
      proposal = drawn.age_ka;
      there = given(proposal);
      if (Number.isNaN(here)) here = given(age);
      ratio = there - here - drawn.log_ratio;
    } else if (attempt === 0) {
      proposal = drawAgeOf(prior, out, stream) / KA;
      there = given(proposal);
      // Drawn from the date itself: only a shared error makes a difference. Beyond the range is no age.
      ratio = there > -Infinity ? 0 : -Infinity;
      if (isShared) {
        if (Number.isNaN(here)) here = given(age);
        ratio = there - here + byDate(age) - byDate(proposal);
      }
    } else {
      walk = true;
      proposal = age + (exp(chain.logAgeScale[i]!) / KA) * stream.normal();
      there = given(proposal);
      if (Number.isNaN(here)) here = given(age);
      ratio = there - here;
    }
    let accepted = false;
    if (ratio > -Infinity && isWithin(bounds, proposal)) {
      predictLevel(m, proposal);
      const newMean = m.level_m - trend_m(rates, proposal) + shift;
      const newVariance = m.variance_m2 + noise;
      const newRate = meanRate(rates, proposal) + rates.sd_mm_yr * m.rate;
      const newHeight = logHeightOf(problem, i, centre, newMean, newVariance - noise);
      ratio += newHeight - height;
      if (isGuided) {
        // The proposal's density there and back.
        const newSpread = newVariance + spread - variance;
        const back = 1 / (sd * sd) + (newRate * newRate) / newSpread;
        const backTarget =
          (known / (sd * sd) + (newRate * newRate * proposal + newRate * (newMean - observed)) / newSpread) /
          back;
        const there = proposal - target;
        const here = age - backTarget;
        ratio += 0.5 * (there * there * precision - here * here * back + log(back / precision));
      }
      accepted = ratio >= 0 || log(stream.uniform()) < ratio;
      if (accepted) {
        age = proposal;
        here = there;
        mean = newMean;
        variance = newVariance;
        rate = newRate;
        height = newHeight;
        younger = m.younger;
        older = m.older;
      }
    }
    if (walk && chain.adapting) {
      const gain = Math.min(0.5, 10 / (chain.sweeps + 10));
      chain.logAgeScale[i] = chain.logAgeScale[i]! + gain * ((accepted ? 1 : 0) - 0.4);
    }
  }
  if (chain.adapting && bins !== null)
    learnDoubt(chain.anywhere, i, ageOutlierProbability(prior, out, KA * age, offset));
  if (kinds > 1) {
    const which = errorKindOf(problem, i, centre, mean, variance - noise, stream.uniform());
    chain.errorKind[i] = which;
    o.variance_m2[i] = own_m2[kinds * i + which]!;
    variance += o.variance_m2[i]! - noise;
  }
  putBack(m, age, younger, older);
  if (kind !== EXACT) {
    const z = drawHeight(kind, centre, width, mean, variance, stream);
    chain.latent_m[i] = z;
    if (problem.explicit[i] !== 0) redrawExplicit(chain, i, z);
  }
  const height_m = chain.latent_m[i]! + trend_m(rates, age);
  o.raw_m[i] = height_m - chain.lowered_m[i]!;
  o.height_m[i] = height_m - shift;
}

/** In the warm-up so many points a sweep are asked where else they could be, by a walk along all nodes. */
const askedInWarmUp = (points: number): number => 8 + points / 100;
/** Every so many sweeps a point tries a step of an outlier's length instead. */
const FAR_EVERY = 4;

/** An age out of the date and into an outlier's tail, or back; null for no try this time. */
function proposeElsewhere(
  chain: Chain,
  i: number,
  age_ka: number,
  centre_m: number,
  shift_m: number,
): Drawn | null {
  const { problem, messages: m, anywhere: room, stream, adapting, sweeps } = chain;
  const n = problem.points.length;
  const bins = problem.bins[i]!;
  // A preview has learnt nothing: it asks all along.
  const isAsked =
    adapting || room.learnt === null
      ? stream.uniform() * n < askedInWarmUp(n)
      : room.often[i]! > 0 && stream.uniform() < room.often[i]!;
  if (isAsked) return proposeAsked(problem, i, bins, m, { age_ka, centre_m, shift_m }, room.weight, stream);
  if (sweeps % FAR_EVERY === i % FAR_EVERY) {
    const side = stream.uniform() < 0.5 ? 1 : -1;
    return { age_ka: age_ka + (side * drawReach(problem.ageOutliers!, stream)) / KA, log_ratio: 0 };
  }
  return room.learnt === null ? null : proposeLearnt(bins, room.learnt[i]!, age_ka, stream);
}

/** The part of a height error held explicitly, given the latent height. */
function redrawExplicit(chain: Chain, i: number, z: number): void {
  const p = chain.problem.points[i]!;
  const y = p.height_m;
  const h = p.half_range_m;
  if (chain.problem.explicit[i] === 1) {
    // z = y + lowering + uniform part: half-normal lowering that leaves the rest within ± h.
    const low = Math.max(0, z - y - h);
    chain.centre_m[i] = y + truncatedNormal(chain.stream, 0, p.lowering_m, low, Math.max(low, z - y + h));
  } else {
    // z = y − u + lowering: the uniform part u weighs by the half-normal of what remains.
    const low = Math.min(h, Math.max(-h, y - z));
    chain.centre_m[i] = y - truncatedNormal(chain.stream, y - z, p.lowering_m, low, h);
  }
}

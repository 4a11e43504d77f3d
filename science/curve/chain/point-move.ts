/** A point's age and latent height together, given all other points (`process/messages.ts`). */
import { exp, log, truncatedNormal } from '@stillstand/science/base';
import { drawAge, logAgeDensity, logAgeGiven } from '../problem/age-prior.ts';
import { drawHeight, EXACT, LOWERED, logHeight, MARINE, TERRESTRIAL } from '../problem/height.ts';
import { predictLevel, putBack, takeOut } from '../process/messages.ts';
import type { Chain } from './chain.ts';

const KA = 1000;

/** The age of a loose limit, or of the point left out: what was known of it, but for a reservoir error it shares. */
export function drawLooseAge(chain: Chain, i: number): void {
  const { problem, stream, o } = chain;
  const prior = problem.ages[i]!;
  const proposal = drawAge(prior, stream);
  if (problem.offsetOf[i]! >= 0) {
    const offset = chain.offset[problem.offsetOf[i]!]!;
    const age = KA * o.age_ka[i]!;
    const ratio =
      logAgeGiven(prior, proposal, offset) -
      logAgeGiven(prior, age, offset) +
      logAgeDensity(prior, age) -
      logAgeDensity(prior, proposal);
    if (!(log(stream.uniform()) < ratio)) return;
  }
  o.age_ka[i] = proposal / KA;
}

export function updatePoint(chain: Chain, i: number): void {
  const { problem, stream, o, messages: m } = chain;
  const prior = problem.ages[i]!;
  const kind = problem.kind[i]!;
  if (prior.kind === 'fixed' && kind === EXACT) return;
  const rate_mean = problem.settings.priors.rate_mean_mm_yr;
  const rate_sd = exp(chain.log_rate_sd);
  const width = problem.width_m[i]!;
  const centre = chain.centre_m[i]!;
  const shift = chain.shift_m[i]!;
  const noise = o.variance_m2[i]!;
  const offset = problem.offsetOf[i]! >= 0 ? chain.offset[problem.offsetOf[i]!]! : 0;

  takeOut(m, i);
  let age = o.age_ka[i]!;
  predictLevel(m, age);
  let younger = m.younger;
  let older = m.older;
  let mean = m.level_m - rate_mean * age + shift;
  let variance = m.variance_m2 + noise;
  let rate = rate_mean + rate_sd * m.rate;
  let height = logHeight(kind, centre, width, mean, variance);

  // Where sea level turned, a height can mean two ages: now and then the prior is asked instead of the slope.
  const guided = prior.kind === 'normal' && kind !== TERRESTRIAL && kind !== MARINE && chain.sweeps % 4 !== 3;
  const tries = prior.kind === 'fixed' ? 0 : guided ? 1 : 2;
  for (let attempt = 0; attempt < tries; attempt++) {
    let proposal: number;
    let ratio: number;
    let walk = false;
    const sd = prior.sd_yr / KA;
    const known = prior.mean_cal_bp / KA;
    // What the height says of the age, linearised here: a normal with this centre and precision, times the prior.
    const spread = variance + (kind === LOWERED ? 0.36 * width * width : (width * width) / 3);
    const observed = kind === LOWERED ? centre + 0.8 * width : centre;
    let precision = 0;
    let target = 0;
    if (guided) {
      precision = 1 / (sd * sd) + (rate * rate) / spread;
      target = (known / (sd * sd) + (rate * rate * age + rate * (mean - observed)) / spread) / precision;
      proposal = target + stream.normal() / Math.sqrt(precision);
      ratio = 0;
    } else if (attempt === 0) {
      proposal = drawAge(prior, stream) / KA;
      ratio =
        logAgeGiven(prior, KA * proposal, offset) -
        logAgeGiven(prior, KA * age, offset) +
        logAgeDensity(prior, KA * age) -
        logAgeDensity(prior, KA * proposal);
    } else {
      walk = true;
      proposal = age + (exp(chain.logAgeScale[i]!) / KA) * stream.normal();
      ratio = logAgeGiven(prior, KA * proposal, offset) - logAgeGiven(prior, KA * age, offset);
    }
    let accepted = false;
    if (ratio > -Infinity) {
      predictLevel(m, proposal);
      const newMean = m.level_m - rate_mean * proposal + shift;
      const newVariance = m.variance_m2 + noise;
      const newRate = rate_mean + rate_sd * m.rate;
      const newHeight = logHeight(kind, centre, width, newMean, newVariance);
      ratio += newHeight - height;
      if (guided) {
        // Prior, and the proposal's density there and back.
        const newSpread = newVariance + spread - variance;
        const back = 1 / (sd * sd) + (newRate * newRate) / newSpread;
        const backTarget =
          (known / (sd * sd) + (newRate * newRate * proposal + newRate * (newMean - observed)) / newSpread) /
          back;
        const there = proposal - target;
        const here = age - backTarget;
        const z0 = (age - known) / sd;
        const z1 = (proposal - known) / sd;
        ratio +=
          0.5 * (z0 * z0 - z1 * z1 + there * there * precision - here * here * back + log(back / precision));
      }
      accepted = ratio >= 0 || log(stream.uniform()) < ratio;
      if (accepted) {
        age = proposal;
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
  putBack(m, age, younger, older);
  if (kind !== EXACT) {
    const z = drawHeight(kind, centre, width, mean, variance, stream);
    chain.latent_m[i] = z;
    if (problem.explicit[i] !== 0) redrawExplicit(chain, i, z);
  }
  o.raw_m[i] = chain.latent_m[i]! + rate_mean * age;
  o.height_m[i] = o.raw_m[i]! - shift;
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

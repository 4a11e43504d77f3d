/**
 * One Markov chain over ages, latent heights, shared errors, σ and ℓ, the path of level and rate integrated out of every
 * step. A sweep is
 *   1. the shared height errors, exactly;
 *   2. (log σ, log ℓ) by random walk on the likelihood, its shape learnt during warm-up only (Haario, Saksman & Tamminen
 *      2001, Bernoulli 7:223–242; step by Andrieu & Thoms 2008, Stat. Comput. 18:343–373), and a joint shift of each
 *      shared reservoir error with the ages that carry it;
 *   3. the latent heights all at once (`release.ts`);
 *   4. each point's age and latent height together, given all other points (`messages.ts`), there and back;
 *   5. the shared reservoir errors given the ages, exactly.
 * Limits the sea keeps clear of are not in it (`loose-limits.ts`). Linear in the number of points but for the neighbours
 * an age may jump over. Long because a chain and its moves are one thing: each move leaves the others' state as they
 * expect it.
 */
import { exp, log, type RandomStream, square, truncatedNormal } from '@stillstand/science/base';
import { drawAge, logAgeDensity, logAgeGiven } from '../problem/age-prior.ts';
import { drawHeight, EXACT, LOWERED, logHeight, MARINE, TERRESTRIAL, UNIFORM } from '../problem/height.ts';
import type { Problem } from '../problem/problem.ts';
import {
  drawSharedErrors,
  type LikelihoodWork,
  likelihoodWork,
  logLikelihood,
} from '../process/likelihood.ts';
import { type Messages, messages, predictLevel, putBack, restart, takeOut } from '../process/messages.ts';
import { type Observations, sortByAge } from '../process/observations.ts';
import { type LooseLimits, looseLimits } from './loose-limits.ts';
import { type Release, release, releaseHeights } from './release.ts';

const KA = 1000;
const ROOT_3 = Math.sqrt(3);
/** Steps in (σ, ℓ), and of each shared reservoir error, a sweep. */
const STEPS = 3;

export interface Chain {
  problem: Problem;
  stream: RandomStream;
  o: Observations;
  messages: Messages;
  release: Release | null;
  limits: LooseLimits;
  work: LikelihoodWork;
  log_rate_sd: number;
  log_length: number;
  /** Latent height, height the sample's kind refers to (y, moved by an explicit error part), and shared errors, m. */
  latent_m: Float64Array;
  centre_m: Float64Array;
  shift_m: Float64Array;
  /** Shared height errors and shared reservoir errors, in their sds. */
  shared: Float64Array;
  offset: Float64Array;
  sweeps: number;
  adapting: boolean;
  /** Learnt: covariance of (log σ, log ℓ) and log of the step's scale; log scale of each age's walk (yr), of each shift. */
  shape: Float64Array;
  centreOfWalk: Float64Array;
  logScale: number;
  logAgeScale: Float64Array;
  logShiftScale: Float64Array;
  savedAge_ka: Float64Array;
}

/** A chain started from the priors: σ, ℓ and every age drawn from what was known before the heights. */
export function startChain(problem: Problem, stream: RandomStream): Chain {
  const { settings, points, ages, nodes, groups, offsets } = problem;
  const { priors, tie } = settings;
  const n = points.length;
  const o: Observations = {
    count: nodes,
    age_ka: new Float64Array(nodes),
    raw_m: new Float64Array(nodes),
    height_m: new Float64Array(nodes),
    variance_m2: new Float64Array(nodes),
    order: Int32Array.from({ length: nodes }, (_, i) => i),
    place: new Int32Array(nodes),
    groups: groups.length,
    loading_m: problem.loading_m,
  };
  const latent_m = new Float64Array(n);
  const centre_m = new Float64Array(n);
  const logAgeScale = new Float64Array(n);
  points.forEach((p, i) => {
    o.age_ka[i] = drawAge(ages[i]!, stream) / KA;
    o.variance_m2[i] = p.sigma_m * p.sigma_m;
    logAgeScale[i] = log(ages[i]!.sd_yr > 0 ? ages[i]!.sd_yr : 1);
    centre_m[i] = p.height_m;
    latent_m[i] = startHeight(problem, i, centre_m, stream);
  });
  o.variance_m2[n] = square(priors.level_sd_m);
  if (tie !== null) {
    o.age_ka[n + 1] = (1950 - tie.year_ce) / KA;
    o.variance_m2[n + 1] = square(tie.sd_m);
  }
  const limits = looseLimits(problem, o);
  const chain: Chain = {
    problem,
    stream,
    o,
    messages: messages(o),
    release: release(problem, o, limits.isLoose),
    limits,
    work: likelihoodWork(groups.length),
    log_rate_sd: log(priors.rate_sd_scale_mm_yr * Math.max(0.02, Math.abs(stream.normal()))),
    log_length: log(priors.length_median_ka) + priors.length_log_sd * stream.normal(),
    latent_m,
    centre_m,
    shift_m: new Float64Array(n),
    shared: new Float64Array(groups.length).map(() => stream.normal()),
    offset: new Float64Array(offsets.length).map(() => stream.normal()),
    sweeps: 0,
    adapting: true,
    shape: Float64Array.of(0.25, 0, 0.1),
    centreOfWalk: new Float64Array(2),
    logScale: 0,
    logAgeScale,
    logShiftScale: new Float64Array(offsets.length).fill(log(0.5)),
    savedAge_ka: new Float64Array(nodes),
  };
  chain.centreOfWalk[0] = chain.log_rate_sd;
  chain.centreOfWalk[1] = chain.log_length;
  return chain;
}

/** A latent height the sample allows; a limit has none until it is held. */
function startHeight(problem: Problem, i: number, centre_m: Float64Array, stream: RandomStream): number {
  const p = problem.points[i]!;
  switch (problem.kind[i]) {
    case UNIFORM:
      if (problem.explicit[i] === 1) centre_m[i] = p.height_m + p.lowering_m * Math.abs(stream.normal());
      return centre_m[i]! + p.half_range_m * (2 * stream.uniform() - 1);
    case LOWERED:
      if (problem.explicit[i] === 2) centre_m[i] = p.height_m - p.half_range_m * (2 * stream.uniform() - 1);
      return centre_m[i]! + p.lowering_m * Math.abs(stream.normal());
    default:
      return p.height_m;
  }
}

export function sweep(chain: Chain): void {
  const { problem, o, limits } = chain;
  for (const i of limits.points) drawLooseAge(chain, i);
  if (limits.leftOut !== -1) drawLooseAge(chain, limits.leftOut);
  sortByAge(o);
  drawShared(chain);
  stepHyperparameters(chain);
  const older = chain.sweeps % 2 === 0;
  const rate_sd = exp(chain.log_rate_sd);
  const lambda = ROOT_3 * exp(-chain.log_length);
  if (chain.release !== null) releaseHeights(chain.release, o, chain, rate_sd, lambda, chain.stream);
  restart(chain.messages, rate_sd, lambda, !older);
  const { visit, ages } = problem;
  const n = visit.length;
  for (let k = 0; k < 2 * n; k++) {
    const back = k >= n;
    const i = visit[older !== back ? k % n : n - 1 - (k % n)]!;
    // On the way back those whose proposals are blind to the height: they need more tries.
    if (limits.isLoose[i] === 0 && (!back || ages[i]!.kind === 'cells')) updatePoint(chain, i);
  }
  for (let g = 0; g < problem.offsets.length; g++) drawOffset(chain, g);
  chain.sweeps++;
}

/** The age of a loose limit, or of the point left out: what was known of it, but for a reservoir error it shares. */
function drawLooseAge(chain: Chain, i: number): void {
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

/** All shared height errors, given σ, ℓ and the latent heights. */
function drawShared(chain: Chain): void {
  const { o, shared, shift_m, work, stream } = chain;
  setHeights(chain);
  if (o.groups === 0) return;
  logLikelihood(o, o.raw_m, o.groups, exp(chain.log_rate_sd), ROOT_3 * exp(-chain.log_length), work);
  drawSharedErrors(o.groups, work, stream, shared);
  shift_m.fill(0);
  for (let g = 0; g < o.groups; g++) {
    const b = shared[g]!;
    for (let i = 0; i < shift_m.length; i++) shift_m[i] = shift_m[i]! + b * o.loading_m[g * o.count + i]!;
  }
  setHeights(chain);
}

/** Heights with the mean rate's trend taken off, and the shared errors. */
function setHeights(chain: Chain): void {
  const { o, latent_m, shift_m } = chain;
  const mean = chain.problem.settings.priors.rate_mean_mm_yr;
  for (let i = 0; i < o.count; i++) {
    o.raw_m[i] = (latent_m[i] ?? 0) + mean * o.age_ka[i]!;
    o.height_m[i] = o.raw_m[i]! - (shift_m[i] ?? 0);
  }
}

/** Log posterior of (log σ, log ℓ) and the ages, up to what neither changes. */
function logPosterior(chain: Chain, log_rate_sd: number, log_length: number): number {
  const { priors } = chain.problem.settings;
  const rate_sd = exp(log_rate_sd);
  const z = rate_sd / priors.rate_sd_scale_mm_yr;
  const l = (log_length - log(priors.length_median_ka)) / priors.length_log_sd;
  const prior = log_rate_sd - 0.5 * (z * z + l * l);
  const { o } = chain;
  return prior + logLikelihood(o, o.height_m, 0, rate_sd, ROOT_3 * exp(-log_length), chain.work);
}

function stepHyperparameters(chain: Chain): void {
  const { stream, shape, centreOfWalk } = chain;
  let current = logPosterior(chain, chain.log_rate_sd, chain.log_length);
  for (let step = 0; step < STEPS; step++) {
    const scale = exp(chain.logScale);
    const l00 = Math.sqrt(shape[0]!);
    const l10 = shape[1]! / l00;
    const l11 = Math.sqrt(Math.max(1e-8, shape[2]! - l10 * l10));
    const e0 = scale * stream.normal();
    const e1 = scale * stream.normal();
    const log_rate_sd = chain.log_rate_sd + l00 * e0;
    const log_length = chain.log_length + l10 * e0 + l11 * e1;
    // Beyond any use, and where exp would lose its meaning.
    const proposed =
      Math.abs(log_rate_sd) < 25 && Math.abs(log_length) < 25
        ? logPosterior(chain, log_rate_sd, log_length)
        : -Infinity;
    const accepted = log(stream.uniform()) < proposed - current;
    if (accepted) {
      chain.log_rate_sd = log_rate_sd;
      chain.log_length = log_length;
      current = proposed;
    }
    if (chain.adapting) {
      const gain = Math.min(0.3, 3 / (chain.sweeps + 10));
      chain.logScale += gain * ((accepted ? 1 : 0) - 0.35);
      const d0 = chain.log_rate_sd - centreOfWalk[0]!;
      const d1 = chain.log_length - centreOfWalk[1]!;
      centreOfWalk[0] = centreOfWalk[0]! + gain * d0;
      centreOfWalk[1] = centreOfWalk[1]! + gain * d1;
      shape[0] = Math.max(1e-4, shape[0]! + gain * (d0 * d0 - shape[0]!));
      shape[1] = shape[1]! + gain * (d0 * d1 - shape[1]!);
      shape[2] = Math.max(1e-4, shape[2]! + gain * (d1 * d1 - shape[2]!));
      // Kept a covariance where few draws are nearly aligned.
      const most = 0.99 * Math.sqrt(shape[0]! * shape[2]!);
      shape[1] = Math.min(most, Math.max(-most, shape[1]!));
    }
  }
  for (let g = 0; g < chain.problem.offsets.length; g++) {
    for (let step = 0; step < STEPS; step++) current = shiftTogether(chain, g, current);
  }
}

/** Moves a shared reservoir error and all ages that carry it, the ages by as many years as the error. Returns the log
 * posterior of where the chain then stands. */
function shiftTogether(chain: Chain, g: number, current: number): number {
  const { problem, stream, o, savedAge_ka } = chain;
  const members = problem.offsetMembers[g]!;
  const before = chain.offset[g]!;
  const after = before + exp(chain.logShiftScale[g]!) * stream.normal();
  savedAge_ka.set(o.age_ka);
  let ratio = 0.5 * (before * before - after * after);
  for (let k = 0; k < members.length; k++) {
    const i = members[k]!;
    const prior = problem.ages[i]!;
    if (prior.kind !== 'cells' || prior.shared === null) continue;
    const was = KA * o.age_ka[i]!;
    const is = was - prior.shared.loading_yr * (after - before);
    o.age_ka[i] = is / KA;
    ratio += logAgeGiven(prior, is, after) - logAgeGiven(prior, was, before);
  }
  let accepted = false;
  let proposed = current;
  if (ratio > -Infinity) {
    sortByAge(o);
    setHeights(chain);
    proposed = logPosterior(chain, chain.log_rate_sd, chain.log_length);
    accepted = log(stream.uniform()) < ratio + proposed - current;
  }
  if (chain.adapting) {
    const gain = Math.min(0.3, 3 / (chain.sweeps + 10));
    chain.logShiftScale[g] = chain.logShiftScale[g]! + gain * ((accepted ? 1 : 0) - 0.4);
  }
  if (accepted) {
    chain.offset[g] = after;
    return proposed;
  }
  o.age_ka.set(savedAge_ka);
  sortByAge(o);
  setHeights(chain);
  return current;
}

function updatePoint(chain: Chain, i: number): void {
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

/** A shared reservoir error given the ages that carry it: normal. */
function drawOffset(chain: Chain, g: number): void {
  const { problem, o } = chain;
  const members = problem.offsetMembers[g]!;
  let precision = 1;
  let weighted = 0;
  for (let k = 0; k < members.length; k++) {
    const i = members[k]!;
    const prior = problem.ages[i]!;
    if (prior.kind !== 'cells' || prior.shared === null) continue;
    const s = prior.shared;
    const cell = Math.round(KA * o.age_ka[i]! - prior.from_cal_bp);
    const weight = s.loading_yr * s.precision[cell]!;
    precision += s.loading_yr * weight;
    weighted += weight * (s.c14_age - s.expected_yr[cell]!);
  }
  chain.offset[g] = weighted / precision + chain.stream.normal() / Math.sqrt(precision);
}

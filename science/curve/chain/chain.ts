/** Where one Markov chain of the curve stands, and how it starts. How it moves is in `sweep.ts`. */
import { log, type RandomStream, square } from '@stillstand/science/base';
import { drawAge } from '@stillstand/science/clocks';
import { setByHistory, startWalks, type WalkInCurve } from '../histories/walks.ts';
import { isInOrder, putInOrder } from '../problem/depth-order.ts';
import { LOWERED, UNIFORM } from '../problem/height.ts';
import { drawAgeOf, logAge } from '../problem/outliers.ts';
import type { Problem } from '../problem/problem.ts';
import { type LikelihoodWork, likelihoodWork } from '../process/likelihood.ts';
import { type Messages, messages } from '../process/messages.ts';
import type { Observations } from '../process/observations.ts';
import { copyOf, type Rates } from '../process/rates.ts';
import { type Anywhere, anywhere } from './anywhere.ts';
import { type BreakRoom, breakRoom } from './break-room.ts';
import { type LooseLimits, looseLimits } from './loose-limits.ts';
import { setScale, startRates } from './rates.ts';
import { type Release, release } from './release.ts';
import { type Scatter, scatterOf, setScatter } from './scatter.ts';
import { type SlowingRoom, slowingRoom } from './slowing-room.ts';

const KA = 1000;

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
  /** How the rate varies, as these and all else now have it; and room for another. */
  rates: Rates;
  proposed: Rates;
  slowing: SlowingRoom;
  scatter: Scatter;
  breaks: BreakRoom | null;
  /** Latent height, height the sample's kind refers to (y, moved by an explicit error part), and what it is off by with others: shared errors, depth; m. */
  latent_m: Float64Array;
  centre_m: Float64Array;
  shift_m: Float64Array;
  /** How much deeper the state of its hole has each sample than its height was made for, m; in `shift_m` too. */
  lowered_m: Float64Array;
  /** Histories of holes that points have their ages from. */
  walks: WalkInCurve[];
  /** Which of the kinds of height error a point has: 0 its own. */
  errorKind: Uint8Array;
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
  logQuantileScale: Float64Array;
  savedAge_ka: Float64Array;
  /** Where else each age could be. */
  anywhere: Anywhere;
}

/** A chain started from the priors: σ, ℓ and every age drawn from what was known before the heights. */
export function startChain(given: Problem, stream: RandomStream): Chain {
  const { problem, scatter } = scatterOf(given);
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
    const drawn = drawAgeOf(ages[i]!, problem.ageOutliers, stream);
    const isAge = logAge(ages[i]!, problem.ageOutliers, drawn) > -Infinity;
    o.age_ka[i] = (isAge ? drawn : drawAge(ages[i]!, stream)) / KA;
    o.variance_m2[i] = p.sigma_m * p.sigma_m;
    logAgeScale[i] = log(ages[i]!.sd_yr > 0 ? ages[i]!.sd_yr : 1);
    centre_m[i] = p.height_m;
    latent_m[i] = startHeight(problem, i, centre_m, stream);
  });
  const lowered_m = new Float64Array(n);
  const shift_m = new Float64Array(n);
  const walks = startWalks(problem.holes, stream);
  for (const walk of walks) setByHistory({ o, lowered_m, shift_m }, walk);
  keepOrder(problem, o, stream);
  o.variance_m2[n] = square(priors.level_sd_m);
  if (tie !== null) {
    o.age_ka[n + 1] = (1950 - tie.year_ce) / KA;
    o.variance_m2[n + 1] = square(tie.sd_m);
  }
  const limits = looseLimits(problem, o);
  const log_rate_sd = log(priors.rate_sd_scale_mm_yr * Math.max(0.02, Math.abs(stream.normal())));
  const log_length = log(priors.length_median_ka) + priors.length_log_sd * stream.normal();
  const rates = startRates(problem, stream);
  setScale(rates, problem, log_rate_sd, log_length);
  const chain: Chain = {
    problem,
    stream,
    o,
    messages: messages(o, rates),
    release: release(problem, o, limits.isLoose),
    limits,
    work: likelihoodWork(groups.length),
    log_rate_sd,
    log_length,
    rates,
    proposed: copyOf(rates),
    slowing: slowingRoom(nodes),
    scatter,
    breaks: breakRoom(problem, rates),
    latent_m,
    centre_m,
    shift_m,
    lowered_m,
    walks,
    errorKind: new Uint8Array(n),
    shared: new Float64Array(groups.length).map((_, g) => {
      const error = stream.normal();
      return g < groups.length - problem.burials ? error : Math.abs(error);
    }),
    offset: new Float64Array(offsets.length).map(() => stream.normal()),
    sweeps: 0,
    adapting: true,
    shape: Float64Array.of(0.25, 0, 0.1),
    centreOfWalk: new Float64Array(2),
    logScale: 0,
    logAgeScale,
    logShiftScale: new Float64Array(offsets.length).fill(log(0.5)),
    logQuantileScale: new Float64Array(offsets.length).fill(log(0.5)),
    savedAge_ka: new Float64Array(nodes),
    anywhere: anywhere(problem),
  };
  if (scatter.scale_m > 0) setScatter(chain, scatter.scale_m * Math.max(0.02, Math.abs(stream.normal())));
  chain.centreOfWalk[0] = chain.log_rate_sd;
  chain.centreOfWalk[1] = chain.log_length;
  return chain;
}

/** Ages in the order of their depths: as they are where they are so, else as near to it as a date's draws come. */
export function keepOrder(
  { order, ages, ageOutliers }: Problem,
  o: Observations,
  stream: RandomStream,
): void {
  if (order === null || isInOrder(order, o.age_ka)) return;
  if (putInOrder(order, ages, ageOutliers, o.age_ka, stream)) return;
  for (const i of order.ordered) o.age_ka[i] = order.start_ka[i]!;
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

/**
 * Where chains stand, as plain data by the names of points and shared errors, so that a chain through other points may go
 * on from there. Whatever the points are, a chain so begun has the same posterior; only how soon it is there differs.
 */
import { log } from '@stillstand/science/base';
import { type WalkState, walkOnFrom, walkState } from '@stillstand/science/dating';
import { setByHistory } from '../histories/walks.ts';
import { LOWERED, MARINE, TERRESTRIAL, UNIFORM } from '../problem/height.ts';
import { logAge } from '../problem/outliers.ts';
import type { Problem } from '../problem/problem.ts';
import { type Chain, keepOrder } from './chain.ts';
import { hold } from './loose-limits.ts';
import { goOnWith, setScale } from './rates.ts';
import { release } from './release.ts';
import { setScatter } from './scatter.ts';

const KA = 1000;
/** An age further from what is known of it now, or a limit further from the sea, is forgotten; sd. */
const FAR = 6;
const CLEAR = 3;

export interface ChainState {
  log_rate_sd: number;
  log_length: number;
  /** Ages at which the rate starts afresh, ka; by how much the mean rate slowed, mm/yr per ka. */
  break_ka: readonly number[];
  slowing_mm_yr_ka: number;
  /** Extra scatter, m; 0 where the model had none. */
  scatter_m: number;
  /** As tuned: covariance of the two above, log of the step. */
  shape: readonly [number, number, number];
  log_scale: number;
  points: ReadonlyMap<string, PointState>;
  /** In their sds. */
  shared: ReadonlyMap<string, number>;
  offsets: ReadonlyMap<string, { error: number; log_scale: number; log_quantile_scale: number }>;
  /** Histories of holes. */
  holes: ReadonlyMap<string, WalkState>;
}

interface PointState {
  age_cal_bp: number;
  /** Latent height, and the height the sample's kind refers to, both above the sample's own height. */
  latent_above_m: number;
  centre_above_m: number;
  /** A limit that the chain walks with. */
  isHeld: boolean;
  log_age_scale: number;
  error_kind: number;
}

export function stateOf(chain: Chain): ChainState {
  const { problem, o, limits, latent_m, centre_m } = chain;
  const points = problem.points.map(({ id, height_m }, i): [string, PointState] => [
    id,
    {
      age_cal_bp: KA * o.age_ka[i]!,
      latent_above_m: latent_m[i]! - height_m,
      centre_above_m: centre_m[i]! - height_m,
      isHeld: isLimit(problem.kind[i]!) && limits.isLoose[i] === 0,
      log_age_scale: chain.logAgeScale[i]!,
      error_kind: chain.errorKind[i]!,
    },
  ]);
  return {
    log_rate_sd: chain.log_rate_sd,
    log_length: chain.log_length,
    break_ka: [...chain.rates.break_ka.subarray(0, chain.rates.breaks)],
    slowing_mm_yr_ka: chain.rates.slowing_mm_yr_ka,
    scatter_m: chain.scatter.sd_m,
    shape: [chain.shape[0]!, chain.shape[1]!, chain.shape[2]!],
    log_scale: chain.logScale,
    points: new Map(points),
    shared: new Map(problem.groups.map((name, g) => [groupKey(problem, name, g), chain.shared[g]!])),
    offsets: new Map(
      problem.offsets.map((name, g) => [
        name,
        {
          error: chain.offset[g]!,
          log_scale: chain.logShiftScale[g]!,
          log_quantile_scale: chain.logQuantileScale[g]!,
        },
      ]),
    ),
    holes: new Map(chain.walks.map(({ of, walk }) => [of.hole, walkState(walk)])),
  };
}

/** Takes a chain as started to where another stood; what the other did not know stays as started. */
export function goOnFrom(chain: Chain, state: ChainState): void {
  const { problem, o, limits } = chain;
  chain.log_rate_sd = state.log_rate_sd;
  chain.log_length = state.log_length;
  goOnWith(chain.rates, problem, state);
  setScale(chain.rates, problem, chain.log_rate_sd, chain.log_length);
  chain.shape.set(state.shape);
  chain.logScale = state.log_scale;
  chain.adapting = false;
  if (chain.scatter.scale_m > 0 && state.scatter_m > 0) setScatter(chain, state.scatter_m);
  for (const each of chain.walks) {
    const known = state.holes.get(each.of.hole);
    if (known !== undefined && walkOnFrom(each.walk, known)) setByHistory(chain, each);
  }
  const held: number[] = [];
  problem.points.forEach((point, i) => {
    const known = state.points.get(point.id);
    if (known === undefined) return;
    const prior = problem.ages[i]!;
    if (prior.kind !== 'fixed' && logAge(prior, problem.ageOutliers, known.age_cal_bp) > -0.5 * FAR * FAR) {
      o.age_ka[i] = known.age_cal_bp / KA;
      chain.logAgeScale[i] = Math.min(known.log_age_scale, log(2 * prior.sd_yr));
    }
    const latent = point.height_m + known.latent_above_m;
    const centre = point.height_m + known.centre_above_m;
    if (!allows(problem, i, centre, latent)) return;
    const kinds = problem.heightOutliers.log_share.length;
    if (known.error_kind < kinds) {
      chain.errorKind[i] = known.error_kind;
      o.variance_m2[i] = problem.heightOutliers.variance_m2[kinds * i + known.error_kind]!;
    }
    chain.latent_m[i] = latent;
    chain.centre_m[i] = centre;
    if (known.isHeld && Math.abs(known.latent_above_m) < CLEAR * point.sigma_m) held.push(i);
  });
  keepOrder(problem, o, chain.stream);
  if (held.length > 0) {
    hold(
      limits,
      o,
      held.filter((i) => limits.isLoose[i] === 1),
    );
    chain.release = release(problem, o, limits.isLoose);
  }
  problem.groups.forEach((name, g) => {
    chain.shared[g] = state.shared.get(groupKey(problem, name, g)) ?? chain.shared[g]!;
  });
  problem.offsets.forEach((name, g) => {
    const known = state.offsets.get(name);
    if (known === undefined) return;
    chain.offset[g] = known.error;
    chain.logShiftScale[g] = known.log_scale;
    chain.logQuantileScale[g] = known.log_quantile_scale;
  });
}

/** A hole may be called as a shared error is. */
const groupKey = ({ groups, burials }: Problem, name: string, g: number): string =>
  g < groups.length - burials ? `shared ${name}` : `burial ${name}`;

const isLimit = (kind: number): boolean => kind === TERRESTRIAL || kind === MARINE;

/** Whether the sample, as it is now, lets these heights be. */
function allows(problem: Problem, i: number, centre_m: number, latent_m: number): boolean {
  const { height_m, half_range_m } = problem.points[i]!;
  const width = problem.width_m[i]!;
  switch (problem.explicit[i]) {
    case 1:
      if (centre_m < height_m) return false;
      break;
    case 2:
      if (Math.abs(centre_m - height_m) > half_range_m) return false;
      break;
    default:
      if (centre_m !== height_m) return false;
  }
  switch (problem.kind[i]) {
    case TERRESTRIAL:
      return latent_m <= centre_m;
    case MARINE:
      return latent_m >= centre_m;
    case UNIFORM:
      return Math.abs(latent_m - centre_m) <= width;
    case LOWERED:
      return latent_m >= centre_m;
    default:
      return latent_m === height_m;
  }
}

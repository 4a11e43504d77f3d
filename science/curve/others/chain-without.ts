/** A chain like another, that goes on without the height of one point. */
import type { RandomStream } from '@stillstand/science/base';
import type { Chain } from '../chain/chain.ts';
import { release } from '../chain/release.ts';
import { scatterApart } from '../chain/scatter.ts';
import { walksApart } from '../histories/walks.ts';
import { likelihoodWork } from '../process/likelihood.ts';
import { messages } from '../process/messages.ts';
import { type Observations, sortByAge } from '../process/observations.ts';
import { copyOf } from '../process/rates.ts';

/** The point stays loose: it is not walked, and its age is drawn from what its date says. The other chain stays as it is. */
export function chainWithout(chain: Chain, i: number, stream: RandomStream): Chain {
  const { limits } = chain;
  const { problem, scatter } = scatterApart(chain);
  const o: Observations = {
    ...chain.o,
    age_ka: chain.o.age_ka.slice(),
    raw_m: chain.o.raw_m.slice(),
    height_m: chain.o.height_m.slice(),
    variance_m2: chain.o.variance_m2.slice(),
    order: chain.o.order.filter((node) => node !== i),
    place: new Int32Array(chain.o.count),
  };
  sortByAge(o);
  const rates = copyOf(chain.rates);
  const isLoose = limits.isLoose.slice();
  isLoose[i] = 1;
  const variance_m2 = limits.all.variance_m2.slice();
  variance_m2[i] = Infinity;
  const { order, place } = limits.all;
  // Each number by itself: see `copyWith` of `process/rates.ts`.
  const { log_rate_sd, log_length, slowing, breaks, sweeps, adapting, logScale } = chain;
  return {
    log_rate_sd,
    log_length,
    slowing,
    breaks,
    sweeps,
    adapting,
    logScale,
    problem,
    scatter,
    stream,
    o,
    messages: messages(o, rates),
    rates,
    proposed: copyOf(chain.proposed),
    release: release(problem, o, isLoose),
    limits: {
      points: limits.points.filter((limit) => limit !== i),
      leftOut: i,
      isLoose,
      all: { ...o, order: order.slice(), place: place.slice(), variance_m2 },
      failing: limits.failing.slice(),
      paths: limits.paths,
    },
    work: likelihoodWork(problem.groups.length),
    latent_m: chain.latent_m.slice(),
    centre_m: chain.centre_m.slice(),
    shift_m: chain.shift_m.slice(),
    lowered_m: chain.lowered_m.slice(),
    walks: walksApart(chain.walks, stream),
    errorKind: chain.errorKind.slice(),
    shared: chain.shared.slice(),
    offset: chain.offset.slice(),
    shape: chain.shape.slice(),
    centreOfWalk: chain.centreOfWalk.slice(),
    logAgeScale: chain.logAgeScale.slice(),
    logShiftScale: chain.logShiftScale.slice(),
    logQuantileScale: chain.logQuantileScale.slice(),
    savedAge_ka: chain.savedAge_ka.slice(),
    anywhere: { ...chain.anywhere, weight: chain.anywhere.weight.slice() },
  };
}

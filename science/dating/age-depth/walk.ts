/** The history of a hole's dates that walks within another chain, which asks it for the ages of depths and has a say in them. */
import { exp, type RandomStream } from '@stillstand/science/base';
import { type Chain, endWarmUp, startChain, sweep } from './chain.ts';
import { outOfPlaceAt } from './date-likelihood.ts';
import { bareAge, gapsAbove, tell } from './history.ts';
import { type Hole, makeHole } from './hole.ts';
import { memory } from './law.ts';
import type { AgeDepthInput, NotEnough } from './model.ts';
import { type Places, placesOf } from './places.ts';
import { copyOfHistory, roomToSave, type Saved } from './saved.ts';
import { type AgeDepthSettings, demandSettings } from './settings.ts';

/** A hole ready to walk. */
export interface HoleToWalk {
  kind: 'hole';
  hole: Hole;
  /** Joint draws of its depths: states of the hole. */
  states: number;
  bottom_m: number;
}

/** @throws RangeError as `ageDepth`. */
export function holeToWalk(input: AgeDepthInput, settings: AgeDepthSettings): HoleToWalk | NotEnough {
  demandSettings(settings);
  const hole = makeHole(input, settings);
  if ('kind' in hole) return hole;
  return { kind: 'hole', hole, states: hole.states, bottom_m: hole.grid.depth_m.at(-1)! };
}

/** Depths in a hole, joint draws of each, that a walk is asked the ages of. */
export const depthsIn = ({ hole }: HoleToWalk, depths_m: readonly Float64Array[]): Places =>
  placesOf(
    hole.axis,
    hole.breaks.map(({ below_ground_m }) => below_ground_m),
    depths_m,
    hole.states,
  );

export interface Walk {
  chain: Chain;
  places: Places;
  saved: Saved;
}

/** Started from the dates, as every chain of a hole. */
export function startWalk({ hole }: HoleToWalk, places: Places, stream: RandomStream): Walk {
  const chain = startChain(hole, stream);
  return { chain, places, saved: roomToSave(chain.history) };
}

/** State of the hole that the walk is in. */
export const stateOfWalk = ({ chain }: Walk): number => chain.history.state;

/** Ages of the places as they are, cal BP. */
export function agesOfWalk({ chain: { history }, places }: Walk, into_cal_bp: Float64Array): void {
  const { state } = history;
  for (let i = 0; i < places.count; i++)
    into_cal_bp[i] = bareAge(history, i, state, places) + gapsAbove(history, i, state, places);
}

/** Probability that each date is out of place, as the history is, by the names of the dates. */
export function outOfPlaceOfWalk({ chain: { history } }: Walk, date: string): number {
  const { hole, bare_cal_bp, gaps_yr } = history;
  const i = hole.horizons.findIndex(({ id }) => id === date);
  return i < 0 ? 0 : outOfPlaceAt(hole.dates[i]!, bare_cal_bp[i]! + gaps_yr[i]!);
}

/**
 * One sweep. `log`: log of what else depends on the ages, as they are; `ask`: the same of the ages as they then are; where
 * it is too little the change is taken back, and `refused` is called.
 */
export function sweepWalk({ chain, saved }: Walk, log: number, ask: () => number, refused: () => void): void {
  sweep(chain, { stream: chain.stream, saved, log, ask, refused });
}

/** Steps stay as they are from here on. */
export const endWarmUpOfWalk = ({ chain }: Walk): void => endWarmUp(chain);

/** One that goes on by itself from where another is. */
export function copyOfWalk({ chain, places }: Walk, stream: RandomStream): Walk {
  const history = copyOfHistory(chain.history);
  const copy: Chain = { ...chain, history, stream, steps: chain.steps.slice(), ages: chain.ages.slice() };
  return { chain: copy, places, saved: roomToSave(history) };
}

/** Where a walk is, as plain data. */
export interface WalkState {
  state: number;
  ground_cal_bp: number;
  gap_yr: Float64Array;
  u: Float64Array;
  law: { mean: number; log_variation: number; log_persistence: number };
  /** As tuned. */
  steps: Float64Array;
  stretchStep: number;
  stateDraws: number;
  doubt: Pick<Chain['doubt'], 'share' | 'runs' | 'ages'>;
}

export const walkState = ({ chain }: Walk): WalkState => {
  const { history: h, steps, stretchStep, stateDraws, doubt } = chain;
  return {
    state: h.state,
    ground_cal_bp: h.ground_cal_bp,
    gap_yr: h.gap_yr.slice(),
    u: h.u.slice(),
    law: { ...h.law },
    steps: steps.slice(),
    stretchStep,
    stateDraws,
    doubt: { share: doubt.share.slice(), runs: doubt.runs, ages: doubt.ages },
  };
};

/** Takes a walk to where another was; false, and nothing is changed, where the hole has become another. */
export function walkOnFrom({ chain }: Walk, from: WalkState): boolean {
  const { history: h, steps, doubt } = chain;
  const isAlike =
    from.u.length === h.u.length &&
    from.gap_yr.length === h.gap_yr.length &&
    from.steps.length === steps.length &&
    from.doubt.share.length === doubt.share.length &&
    from.state < h.hole.states;
  if (!isAlike) return false;
  h.state = from.state;
  h.ground_cal_bp = from.ground_cal_bp;
  h.gap_yr.set(from.gap_yr);
  h.u.set(from.u);
  Object.assign(h.law, from.law);
  h.variation = exp(from.law.log_variation);
  h.memory = memory(h.hole, exp(from.law.log_persistence), h.memory);
  steps.set(from.steps);
  chain.stretchStep = from.stretchStep;
  chain.stateDraws = from.stateDraws;
  doubt.share.set(from.doubt.share);
  doubt.runs = from.doubt.runs;
  doubt.ages = from.doubt.ages;
  chain.tuning = null;
  tell(h);
  return true;
}

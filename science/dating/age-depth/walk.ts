/** The history of a hole's dates that walks within another chain, which asks it for the ages of depths and has a say in them. */
import { exp, log, type RandomStream } from '@stillstand/science/base';
import { type Chain, endWarmUp, startChain, sweep } from './chain.ts';
import { giveInPlace, logLikelihood, logOutOfPlace, outOfPlaceAt, ownDate } from './date-likelihood.ts';
import { accept, bareAge, gapsAbove, propose, tell } from './history.ts';
import { type Hole, makeHole } from './hole.ts';
import { memory } from './law.ts';
import type { AgeDepthInput, NotEnough } from './model.ts';
import { type Places, placesOf } from './places.ts';
import { copyOfHistory, roomToSave, type Saved, save, takeBack } from './saved.ts';
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
  const chain = startChain({ ...hole, dates: hole.dates.map(ownDate) }, stream);
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

/** Number of a date in a hole by its name; −1 for none that is used. */
export const dateInHole = ({ hole }: HoleToWalk, id: string): number =>
  hole.horizons.findIndex((each) => each.id === id);

/** Probability that the date numbered i is out of place, as the history is. */
export function outOfPlaceOfWalk({ chain: { history } }: Walk, i: number): number {
  const { hole, bare_cal_bp, gaps_yr } = history;
  return outOfPlaceAt(hole.dates[i]!, bare_cal_bp[i]! + gaps_yr[i]!);
}

/** Age of the horizon of the date numbered i, cal BP. */
export const ageOfDateInWalk = ({ chain: { history } }: Walk, i: number): number =>
  history.bare_cal_bp[i]! + history.gaps_yr[i]!;

/** Log likelihood of an age by the date numbered i, the log of its density in place being this. */
export function logOfDateInWalk(
  { chain: { history } }: Walk,
  i: number,
  age_cal_bp: number,
  logInPlace: number,
): number {
  const { dates, settings } = history.hole;
  return log((1 - settings.outlier) * exp(logInPlace) + exp(logOutOfPlace(dates[i]!, age_cal_bp)));
}

/** From here on the date numbered i has this log density in place, by year: an error that it shares is known. */
export function giveDateInWalk(
  { chain: { history } }: Walk,
  i: number,
  logInPlace: (age_cal_bp: number) => number,
): void {
  const { hole, bare_cal_bp, gaps_yr, level } = history;
  giveInPlace(hole.dates[i]!, 1 - hole.settings.outlier, logInPlace);
  level[i] = logLikelihood(hole.dates[i]!, bare_cal_bp[i]! + gaps_yr[i]!);
}

/**
 * One sweep. `log`: log of what else depends on the ages, as they are; `ask`: the same of the ages as they then are; where
 * it is too little the change is taken back, and `refused` is called.
 */
export function sweepWalk({ chain, saved }: Walk, log: number, ask: () => number, refused: () => void): void {
  sweep(chain, { stream: chain.stream, saved, log, ask, refused });
}

/**
 * Shifts all dated horizons, and all below the first, by so many years: the ground with them where its age is not known, else
 * the time above the first is another. Returns how much that changes the log density of the history and its dates, but for
 * those set apart; −∞, and nothing is changed, where it cannot be. `unshiftWalk` takes it back.
 */
export function shiftWalk(
  { chain: { history: h }, saved }: Walk,
  years: number,
  isApart: (date: number) => boolean,
): number {
  save(h, saved);
  const { hole, change, level, top_cal_bp } = h;
  let gain: number;
  if (hole.surface === null) {
    const ground = h.ground_cal_bp + years;
    const { youngest, oldest } = hole.settings.age_range_cal_bp;
    if (!(ground >= youngest && ground <= oldest)) return -Infinity;
    gain = propose(h, 0, 0, 0, 1, 1, 0, 0, false, ground);
  } else {
    let first = hole.sections;
    for (let i = 0; i < level.length; i++) first = Math.min(first, hole.section[h.state * level.length + i]!);
    // A date in the first section moves with its end.
    first = Math.max(1, first);
    const time = top_cal_bp[first]! - top_cal_bp[0]!;
    const longer = (time + years) / time;
    if (!(longer > 0 && longer < Infinity)) return -Infinity;
    const logLonger = log(longer);
    // In u of the block the measure is that of its time over the time.
    gain = propose(h, 0, first, first, longer, 1, logLonger, 0, false) - logLonger;
  }
  for (let n = 0; n < change.count; n++) {
    const i = change.horizon[n]!;
    if (isApart(i)) gain -= change.level[n]! - level[i]!;
  }
  accept(h);
  return gain;
}

export const unshiftWalk = ({ chain, saved }: Walk): void => takeBack(chain.history, saved);

/** Steps stay as they are from here on. */
export const endWarmUpOfWalk = ({ chain }: Walk): void => endWarmUp(chain);

/** One that goes on by itself from where another is. */
export function copyOfWalk({ chain, places }: Walk, stream: RandomStream): Walk {
  const { hole } = chain.history;
  const history = copyOfHistory(chain.history, { ...hole, dates: hole.dates.map(ownDate) });
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

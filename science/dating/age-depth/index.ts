/** Age against depth in one hole. */
export { ageDepth, ageDepthWithDraws, ageDepthWork } from './age-depth.ts';
export type {
  AgeDepth,
  AgeDepthInput,
  Break,
  DatedHorizon,
  NotEnough,
  Profile,
} from './model.ts';
export { datesApart } from './modes.ts';
export type { Places } from './places.ts';
export { type History, historyShape, type Mode } from './result.ts';
export { ageDepthSampler } from './sampler.ts';
export { type AgeDepthSettings, ageDepthDefaults, isProbableOutlier } from './settings.ts';
export {
  ageOfDateInWalk,
  agesOfWalk,
  copyOfWalk,
  dateInHole,
  depthsIn,
  endWarmUpOfWalk,
  giveDateInWalk,
  type HoleToWalk,
  holeToWalk,
  logOfDateInWalk,
  outOfPlaceOfWalk,
  shiftWalk,
  startWalk,
  stateOfWalk,
  sweepWalk,
  unshiftWalk,
  type Walk,
  type WalkState,
  walkOnFrom,
  walkState,
} from './walk.ts';

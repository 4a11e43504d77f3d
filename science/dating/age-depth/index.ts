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
  type DateSharing,
  logDateGiven,
  type NormalSharing,
  type OffsetSharing,
  shownBy,
} from './together/date-given.ts';
export { doseGroup, groupOfDoses } from './together/dose-group.ts';
export { type HoleTogether, holesApart, sharedGroups } from './together/model.ts';
export { togetherSampler } from './together/sampler.ts';
export {
  giveSharedDates,
  holesIn,
  logOfSharedDates,
  nothingGiven,
  type SharedDate,
  type SharingWalk,
  shiftHoles,
  unshiftHoles,
} from './together/shared-dates.ts';
export { ageDepthTogether, ageDepthTogetherWork } from './together/together.ts';
export {
  ageOfDateInWalk,
  agesOfWalk,
  copyOfWalk,
  dateInHole,
  depthsIn,
  endWarmUpOfWalk,
  type HoleToWalk,
  holeToWalk,
  outOfPlaceOfWalk,
  startWalk,
  stateOfWalk,
  sweepWalk,
  type Walk,
  type WalkState,
  walkOnFrom,
  walkState,
} from './walk.ts';

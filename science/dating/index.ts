/** Laboratory results to calendar ages. */
export { ageBetween } from './age-between.ts';
export { ageBound } from './age-bound.ts';
export {
  type AgeDepth,
  type AgeDepthInput,
  type AgeDepthSettings,
  ageDepth,
  ageDepthDefaults,
  ageDepthSampler,
  ageDepthTogether,
  ageDepthTogetherWork,
  ageDepthWithDraws,
  ageDepthWork,
  ageOfDateInWalk,
  agesOfWalk,
  copyOfWalk,
  type DatedHorizon,
  type DateSharing,
  dateInHole,
  datesApart,
  depthsIn,
  doseGroup,
  endWarmUpOfWalk,
  giveSharedDates,
  groupOfDoses,
  type History,
  type HoleTogether,
  type HoleToWalk,
  historyShape,
  holesApart,
  holesIn,
  holeToWalk,
  isProbableOutlier,
  logDateGiven,
  logOfSharedDates,
  type Mode,
  type NormalSharing,
  nothingGiven,
  type OffsetSharing,
  outOfPlaceOfWalk,
  type Places,
  type SharedDate,
  type SharingWalk,
  sharedGroups,
  shiftHoles,
  shownBy,
  startWalk,
  stateOfWalk,
  sweepWalk,
  togetherSampler,
  unshiftHoles,
  type Walk,
  type WalkState,
  walkOnFrom,
  walkState,
} from './age-depth/index.ts';
export { ageOfDraws } from './age-of-draws.ts';
export type { CalibratedColumns } from './batch.ts';
export { calibrateMany } from './batch.ts';
export type { AgeInterval, Calibration, NotCalibrated, RadiocarbonAge } from './calibration.ts';
export { calibrate, calibrationSets } from './calibration.ts';
export { ageLikelihood, type WeightedAge, weightedAge } from './density-age.ts';
export { evenAge } from './even-age.ts';
export type { AgeFromF14C } from './f14c.ts';
export { ageFromF14C, f14cFromAge } from './f14c.ts';
export type { Finding } from './finding.ts';
export { mixedCurve } from './mixed-curve.ts';
export { before1950, normalAge } from './normal-age.ts';
export type { PooledAge } from './pooled-age.ts';
export { pooledAge } from './pooled-age.ts';
export {
  FEW_SHELLS,
  type Measured,
  offsetOfKnownAge,
  offsetOfPair,
  type PooledOffset,
  pooledOffset,
  type ReservoirOffset,
} from './reservoir/index.ts';
export { type OfEvent, type SameEvent, sameEvent } from './same-event.ts';
export { DISAGREES, matchSequence, type Sequence, type SequenceMember } from './sequence/index.ts';
export { probabilityOlder } from './succession.ts';
export { type CurveRows, onWholeYears, type YearlyCurve } from './yearly-curve.ts';

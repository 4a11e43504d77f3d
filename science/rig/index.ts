/** The rig: string, drives, soundings, sampler, water and line pull, from the readings of one hole in order. */

export { CAUTIONS } from './caution.ts';
export type { FindingCode, RigFinding } from './finding.ts';
export { type ReducedHole, type RigState, reduceHole } from './hole/hole.ts';
export { type InHole, inHole, type LevelRead, type WaterInHole } from './hole/in-hole.ts';
export type { ReducedDrive, Stand } from './hole/open-hole.ts';
export { type HoleLink, type LinkedHole, linkHoles } from './hole/replacement.ts';
export { type ReplayChange, type ReplayStep, replayHole } from './hole/replay.ts';
export {
  type Bearing,
  FRICTION,
  type LineLoad,
  lineLoad,
  type PullCase,
  type PullEstimate,
  type PullInput,
  pullEstimate,
  type Range,
  type RatedLoad,
  type Reeving,
  reevingEfficiency,
  SHEAVE_K,
  shaftFriction_kn,
} from './pull/line-pull.ts';
export { loadWords, massWords, rangeMassWords, rangeWords, ratingWords } from './pull/load-words.ts';
export { OVERHEAD_CLEARANCES, overheadClearance } from './pull/overhead-line.ts';
export { type ReadRating, readRating } from './pull/rating.ts';
export {
  type DriveReading,
  type GroundReading,
  isSounded,
  type JointReading,
  type RigReading,
  type RunReading,
  type SoundingReading,
  type WaterReading,
} from './reading.ts';
export { type CableInput, type CableTape, cableTape, type TapeMark, USUAL_RUN_M } from './sampler/cable.ts';
export {
  alongRemoved,
  type EnteredPlace,
  type PlacedPiece,
  placePiece,
  type ReducedRun,
} from './sampler/run.ts';
export { type CableMark, type Clearance, cableMarks, clearanceOf, marksBetween } from './sampler/sampler.ts';
export { type Pace, type PaceTrend, paceTrend } from './sediment/pace.ts';
export type { Inflow, Registration } from './sediment/sediment.ts';
export { type RigSettings, rigDefaults } from './settings.ts';
export { itemName, type Reconciliation, reconcile } from './string/account.ts';
export { type JointsNeeded, type JointsNeededInput, jointsNeeded } from './string/joints-needed.ts';
export { bore_mm, hvorslevRatios, massPerMetre, type PipeKind, type TubeShape } from './string/pipe.ts';
export { type AccountItem, type Fate, sameLabel, threadLoss } from './string/string.ts';
export { fastestLift_m_s, type Suction, suctionOf } from './water/suction.ts';
export {
  boreVolume_l,
  CRITICAL_GRADIENTS,
  criticalGradient,
  type ExitGradient,
  exitGradient,
  levelForHead_m,
  type PlugKind,
  pressureHead_m,
  runLowers_m,
  type SamplerShape,
  WATER_KG_M3,
  type WaterColumns,
  type WaterKind,
  waterToAdd_l,
} from './water/water.ts';

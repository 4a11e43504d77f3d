/** The rig: string, drives, soundings, sampler, water and line pull, from the readings of one hole in order. */
export { type Reconciliation, reconcile } from './account.ts';
export { type CableInput, type CableTape, cableTape, type TapeMark, USUAL_RUN_M } from './cable.ts';
export { CAUTIONS } from './caution.ts';
export type { FindingCode, RigFinding } from './finding.ts';
export { type ReducedHole, type RigState, reduceHole } from './hole.ts';
export { type InHole, inHole, type LevelRead, type WaterInHole } from './in-hole.ts';
export { type JointsNeeded, type JointsNeededInput, jointsNeeded } from './joints-needed.ts';
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
} from './line-pull.ts';
export type { ReducedDrive, Stand } from './open-hole.ts';
export { OVERHEAD_CLEARANCES, overheadClearance } from './overhead-line.ts';
export { type Pace, type PaceTrend, paceTrend } from './pace.ts';
export { bore_mm, hvorslevRatios, massPerMetre, type PipeKind, type TubeShape } from './pipe.ts';
export type {
  DriveReading,
  GroundReading,
  JointReading,
  RigReading,
  RunReading,
  SoundingReading,
  WaterReading,
} from './reading.ts';
export { type HoleLink, type LinkedHole, linkHoles } from './replacement.ts';
export { type ReplayChange, type ReplayStep, replayHole } from './replay.ts';
export { alongRemoved, type EnteredPlace, type PlacedPiece, placePiece, type ReducedRun } from './run.ts';
export { type CableMark, type Clearance, cableMarks, clearanceOf } from './sampler.ts';
export type { Inflow, Registration } from './sediment.ts';
export { type RigSettings, rigDefaults } from './settings.ts';
export type { AccountItem, Fate } from './string.ts';
export { fastestLift_m_s, type Suction, suctionOf } from './suction.ts';
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
} from './water.ts';

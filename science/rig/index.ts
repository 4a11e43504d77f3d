/** The rig: string, drives, soundings, sampler, from the readings of one hole in order. */
export type { FindingCode, RigFinding } from './finding.ts';
export { type DriveReckoning, foldHole, type HoleFold, type RigState } from './hole.ts';
export type {
  DriveReading,
  GroundReading,
  JointReading,
  RigReading,
  RunReading,
  SoundingReading,
  WaterReading,
} from './reading.ts';
export { type EnteredPlace, type PlacedPiece, placePiece, type RunReckoning } from './run.ts';
export { type CableMark, type Clearance, cableMarks, clearanceOf } from './sampler.ts';
export type { Inflow, Registration } from './sediment.ts';
export { type RigSettings, rigDefaults } from './settings.ts';
export type { AccountItem, Fate } from './string.ts';

/** Heights and places: levelling loops, shifts between zeros of heights, geodesics, holes on a section line. */
export { type BentLine, bentLine } from './along-line.ts';
export { type DatumShift, type ShiftPath, shiftBetween } from './datum-shift.ts';
export { type Geodesic, geodesic, type Position } from './geodesic.ts';
export { type Height, orthometric } from './height.ts';
export type { FixedPoint, LevelledPoint } from './level-adjustment.ts';
export type { LevelSight } from './level-book.ts';
export type { LevellingFinding } from './level-finding.ts';
export {
  type LevelLine,
  type LevelLoop,
  type LevelSettings,
  levelDefaults,
  reduceLoop,
} from './levelling.ts';
export { type Among, amongOthers, hasNeighbour, isFarOff } from './position/among-others.ts';
export { readHalf, withPlainSigns } from './position/degrees.ts';
export { readPosition } from './position/read-position.ts';
export type { Area, PlaneGrid, PositionReading, ReadPosition } from './position/reading.ts';
export { onLine, type SectionPlace, sectionThrough } from './section.ts';
export { likelySlips, type Slip } from './slips.ts';
export { LONGEST_STAFF_M, slippedPoint, staffDoubt } from './staff-reading.ts';
export { fromUtm, type UtmPlace } from './utm.ts';

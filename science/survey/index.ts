/** Heights and places: levelling loops, shifts between zeros of heights, geodesics, holes on a section line. */
export { type DatumShift, type ShiftPath, shiftBetween } from './datum-shift.ts';
export { type Geodesic, geodesic, type Position } from './geodesic.ts';
export { type Height, orthometric } from './height.ts';
export {
  type FixedPoint,
  type LevelLine,
  type LevelLoop,
  type LevelledPoint,
  type LevellingFinding,
  type LevelSettings,
  type LevelSight,
  levelDefaults,
  reduceLoop,
} from './levelling.ts';
export { onLine, type SectionPlace, sectionThrough } from './section.ts';

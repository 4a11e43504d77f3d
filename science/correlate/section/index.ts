/** The section as a geologist draws it. Geometry, assumptions and limits: docs/methods/section.md. */
export { fillUnits } from './fill.ts';
export { heightAt, held } from './ground.ts';
export type {
  Body,
  ContactLine,
  Ending,
  FilledSection,
  Point,
  ProfilePoint,
  SectionBoundary,
  SectionColumn,
  SectionFinding,
  SectionTie,
  SectionUnit,
} from './shape.ts';
export { type AgedHole, type TimeLine, timeLines } from './time-lines.ts';

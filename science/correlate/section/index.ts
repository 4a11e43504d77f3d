/** The section as a geologist draws it. Geometry, assumptions and limits: docs/methods/section.md. */
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

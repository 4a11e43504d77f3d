/** Units of one hole found again in another. Formulae, assumptions and limits: docs/methods/correlation.md. */
export type { Pair } from './align.ts';
export {
  type AgeBounds,
  type CorrelatedColumn,
  type CorrelatedUnit,
  type DatedContact,
  type Measured,
  yearsApart,
} from './column.ts';
export {
  type Correlated,
  type CorrelateInput,
  correlate,
  crossings,
  type ProposedTie,
} from './correlate.ts';
export { type Likeness, likeness } from './likeness.ts';
export type { ScoreParts } from './score.ts';
export {
  type AgedHole,
  type Body,
  type ContactLine,
  type Ending,
  type FilledSection,
  fillUnits,
  heightAt,
  held,
  type Point,
  type ProfilePoint,
  type SectionBoundary,
  type SectionColumn,
  type SectionFinding,
  type SectionTie,
  type SectionUnit,
  type TimeLine,
  timeLines,
} from './section/index.ts';
export { type CorrelationSettings, correlationDefaults } from './settings.ts';

/** Units of one hole found again in another. Formulae, assumptions and limits: docs/methods/correlation.md. */
export {
  type AgeBounds,
  type CorrelatedColumn,
  type CorrelatedUnit,
  type Measured,
  yearsApart,
} from './column.ts';
export {
  type CorrelateInput,
  type Correlated,
  correlate,
  crossings,
  type Pair,
  type ProposedTie,
} from './correlate.ts';
export { type Likeness, likeness } from './likeness.ts';
export type { ScoreParts } from './score.ts';
export { type CorrelationSettings, correlationDefaults } from './settings.ts';

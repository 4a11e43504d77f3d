/**
 * What comes out of a campaign: plain data, one shape for figures, tables, report and screens. Units are in the names.
 * `sigma` is always 1 sigma; `lower95` and `upper95` bound the central 95 %. A number that could not be computed is
 * null and a problem says why. Types, published schema and its page, reader and tables follow from one description
 * (docs/methods/results.md).
 */
export type { CorrelationResult, HorizonResult, ProposalResult } from './correlation.ts';
export type { DateResult } from './date.ts';
export type { DoseRateResult } from './dose-rate.ts';
export type { EnvironmentResult, LineThroughTime } from './environment.ts';
export type { ExpectationResult } from './expectation.ts';
export type { GrainSizeResult } from './grain-size.ts';
export type { HoleHistory } from './history.ts';
export type {
  AlternativeModel,
  DriveResult,
  HoleResult,
  HoleState,
  PaceTrendResult,
  RunResult,
  UnitResult,
} from './hole.ts';
export type { LeadProfileResult } from './lead-profile.ts';
export type { LogPoint, LogResult } from './log.ts';
export type { MeasurementResult } from './measurement.ts';
export type { OtherCurveResult } from './other-curve.ts';
export { type AgeInterval, type ErrorComponent, type Estimate, isAssumed } from './parts.ts';
export type { PhotographResult } from './photograph.ts';
export type { PointResult, UndatedResult } from './point.ts';
export type { PublishedPointResult } from './published-point.ts';
export { readResults } from './read.ts';
export type { SampleResult } from './sample.ts';
export {
  curveLookedAt,
  curveOf,
  fromEachCurve,
  type GaugeResult,
  gaugesOf,
  inNoCurve,
  MAIN_CURVE,
  nameInTrace,
  nameOfCurve,
  othersBeside,
  ratesComparedOf,
  type SeaResult,
  seenFrom,
  siteName,
  sitesNamed,
  sitesOfCurve,
  withCurve,
  withOlderCurves,
} from './sea.ts';
export type { SectionResult } from './section.ts';
export { type Results, resultsShape } from './shape.ts';
export type { SiteTideResult } from './site-tide.ts';
export { answerOf, curveNamed, type Interval, intervalOf, type TraceId, traceId } from './trace-id.ts';
export type { TraceNode } from './trace-node.ts';
export { writeResults } from './write.ts';

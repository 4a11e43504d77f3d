/** What a dated sample says about the sea: index and limiting points, every part of their height error named. */
export { type AssumedCircumstances, assumedErrors, DEPTH_ERRORS, type SamplingMethod } from './assumed.ts';
export {
  curveError,
  type DeclaredError,
  declaredError,
  type ErrorShape,
  type HeightError,
  protocolError,
} from './error.ts';
export { type CurveParts, forCurve } from './for-curve.ts';
export { type IndexPoint, type IndexPointInput, indexPoint } from './index-point.ts';
export { type LimitingPoint, type LimitingPointInput, limitingPoint } from './limiting-point.ts';
export type { NotUsable } from './not-usable.ts';
export { type PlainCells, type PlainPoint, type PlainProblem, plainPoint } from './plain-point.ts';
export {
  ASSUMED_TIDE_LEVEL_SIGMA_M,
  levelThen,
  meanTideLevel,
  type SiteTideLevel,
  type TideBound,
  type TideThen,
} from './tide-bound.ts';
export {
  type AgeDensity,
  type RangeThen,
  rangeThen,
  type TideRange,
  type TideRangeFault,
  tideRangeTable,
} from './tide-range.ts';

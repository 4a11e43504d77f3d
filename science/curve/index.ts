/** Sea level and its rate from dated points. */
export { computeCurve, curveWithDraws, curveWork } from './compute-curve.ts';
export { curveLikelihood } from './curve-likelihood.ts';
export { curveSampler } from './curve-sampler.ts';
export {
  type Disagreement,
  disagreeing,
  disagreementBelow,
  type LoneEnd,
  loneEnds,
  probabilityAmongOthers,
} from './disagreement.ts';
export { type IntervalRate, intervalRate, pointsDeciding } from './interval-rate.ts';
export { type CurveState, type Look, lookAtCurve } from './look.ts';
export type { AgeKnowledge, CurvePoint } from './model.ts';
export {
  isWorthDating,
  type Next,
  nextDates,
  type RateWith,
  rateWithLayer,
  rateWithPointAt,
} from './new-point.ts';
export { unusablePoints } from './problem.ts';
export { type CurvePriors, type CurveResult, type CurveSettings, curveShape } from './result.ts';
export { curveWithSensitivity } from './sensitivity.ts';
export { DEFAULT_CURVE_SETTINGS, DEFAULT_PRIORS } from './settings.ts';

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
export { type IntervalRate, intervalRate, pointInfluence } from './interval-rate.ts';
export { type CurveState, type Look, previewCurve } from './look.ts';
export type { AgeConstraint, CurvePoint } from './model.ts';
export {
  isWorthDating,
  type Next,
  type RateWith,
  rankCandidateDates,
  rateWithLayer,
  rateWithPointAt,
} from './new-point.ts';
export { unusablePoints } from './problem.ts';
export { type CurvePriors, type CurveResult, type CurveSettings, curveShape } from './result.ts';
export { curveWithSensitivity } from './sensitivity.ts';
export { DEFAULT_CURVE_SETTINGS, DEFAULT_PRIORS } from './settings.ts';

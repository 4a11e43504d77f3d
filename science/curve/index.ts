/** Sea level and its rate from dated points. */

export {
  type Amount,
  type AnsweredQuestion,
  answerTo,
  type Beside,
  besideCurve,
  besidePrediction,
  besideShape,
  type Chance,
  type Difference,
  type DifferenceFrom,
  differenceFrom,
  isAnswer,
  lessPrediction,
  type NoAnswer,
  type PublishedCurve,
  type Question,
  questionOf,
  questionText,
  type TooWide,
  usualAnswers,
} from './answers/index.ts';
export { curveSampler } from './chain/curve-sampler.ts';
export {
  compareRates,
  compareRatesWork,
  isSameRate,
  ratesToChoose,
  ratesToCompare,
  settingsToCompare,
} from './compare-rates.ts';
export { computeCurve, curveWithDraws, curveWork } from './compute-curve.ts';
export { curveLikelihood } from './curve-likelihood.ts';
export { type GaugeZero, gaugePoints } from './gauge-points.ts';
export {
  type DatePlan,
  DEFAULT_DATE_PLAN,
  type Layer,
} from './next-date/candidates.ts';
export type { Readings } from './next-date/readings.ts';
export {
  type Choice,
  datedTogether,
  MOST_DATES,
  type Pair,
  usualReadings,
  type WhatToDate,
  whatToDate,
} from './next-date/what-to-date.ts';
export {
  type CurveComparison,
  type CurveRank,
  compareCurves,
  rankCurves,
  type ScoredCurve,
} from './others/compare.ts';
export {
  type Disagreement,
  disagreeing,
  disagreementBelow,
  type LoneEnd,
  loneEnds,
  probabilityAmongOthers,
} from './others/disagreement.ts';
export { type ProbableOutlier, probableOutliers } from './others/probable-outliers.ts';
export { type MovedError, movedAbove, movedErrors } from './others/shared-moved.ts';
export { type CurvePreview, type CurveState, previewCurve } from './preview.ts';
export { type SampleInHole, surelyBelow } from './problem/depth-order.ts';
export type { AgeOfHole, CurvePoint } from './problem/model.ts';
export { unusablePoints } from './problem/problem.ts';
export { DEFAULT_CURVE_SETTINGS, DEFAULT_OUTLIERS, DEFAULT_PRIORS, SMOOTH_RATE } from './problem/settings.ts';
export { isAbrupt } from './result/abrupt.ts';
export {
  type IntervalRate,
  intervalRate,
  intervalRateWithin,
  pointInfluence,
} from './result/interval-rate.ts';
export { type RatesCompared, ratesComparedShape } from './result/rates-compared.ts';
export {
  type CurvePriors,
  type CurveResult,
  type CurveSettings,
  curveShape,
  type RateModel,
} from './result/result.ts';
export { curveWithSensitivity } from './result/sensitivity.ts';

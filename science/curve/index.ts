/** Sea level and its rate from dated points. */
export type {
  AgeKnowledge,
  Band,
  CurvePoint,
  CurvePriors,
  CurveResult,
  CurveSettings,
  Summary,
} from './model.ts';

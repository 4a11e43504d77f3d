/** The published radiocarbon curves, each beside its citation; loaded one at a time. */
export type { BombCurve, BombName, CurveDescription, CurveName, CurveRows } from './curves.ts';
export {
  BOMB_CURVES,
  bombRows,
  CURVE_NAMES,
  CURVES,
  curveRows,
  isCurveName,
  loadCurve,
  loadCurves,
} from './curves.ts';
export { encodeDifferences } from './difference-text.ts';

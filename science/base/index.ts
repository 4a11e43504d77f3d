/** What every other room computes with: elementary functions, random streams, distributions, algebra, diagnostics. */
export { cholesky, solveCholesky } from './algebra.ts';
export { type Plan, type Run, runChains } from './chains/chains.ts';
export { chainServer, crewOf, type Port } from './chains/crew.ts';
export { essBulk, essTail, mcseMean, rHat, summarize } from './chains/diagnostics.ts';
export { paretoSmoothed, type SmoothedWeights } from './chains/pareto-smoothing.ts';
export { type RandomStream, randomStream, type StreamKey, streamOf } from './chains/random.ts';
export type { Sampler } from './chains/sampler.ts';
export { ChainError, type Crew, inProcess, type OnProgress, type Work, withCrew } from './chains/work.ts';
export { chiSquareUpperTail } from './functions/chi-square.ts';
export { exp, expm1, log, log1p } from './functions/elementary.ts';
export { erf } from './functions/error-function.ts';
export { logGamma } from './functions/gamma-function.ts';
export { logAdd } from './functions/log-add.ts';
export {
  logNormalDensity,
  normalCdf,
  normalDensity,
  normalLogCdf,
  normalQuantile,
} from './functions/normal.ts';
export { inQuadrature, power, square } from './functions/powers.ts';
export { atan2, cos, sin } from './functions/trigonometry.ts';
export { truncatedNormal } from './functions/truncated-normal.ts';
export {
  bandOf,
  diagnosis,
  hasSettled,
  type Quantity,
  quantity,
  summaryOf,
  unsettled,
} from './quantity.ts';
export {
  agreement,
  type Band,
  bandShape,
  type Range,
  rangeShape,
  type Summary,
  summaryShape,
} from './result.ts';
export { pooled } from './summaries/columns.ts';
export type { GridDensity } from './summaries/grid-density.ts';
export { gridMoments, highestDensitySets, sampleGrid } from './summaries/grid-density.ts';
export { highestDensityLevel } from './summaries/highest-density.ts';
export { median, quantileSorted, quantiles, quantilesBySelection } from './summaries/quantiles.ts';
export {
  atLeast,
  atMost,
  minuteAtLeast,
  minuteAtMost,
  type Side,
  type TapeUnit,
  tapeLength,
} from './summaries/shown.ts';
export { mean, standardDeviation } from './summaries/summaries.ts';
export { thousands } from './summaries/thousands.ts';
export { type Unions, unions } from './unions.ts';
export { FOOT_M, INCH_M, lookLikeKa } from './units.ts';

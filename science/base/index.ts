/** What every other room computes with: elementary functions, random streams, distributions, algebra, diagnostics. */
export { cholesky, solveCholesky } from './algebra.ts';
export { type Plan, type Run, runChains } from './chains.ts';
export { chiSquareUpperTail } from './chi-square.ts';
export { pooled } from './columns.ts';
export { chainServer, crewOf, type Port } from './crew.ts';
export { essBulk, essTail, mcseMean, rHat, summarize } from './diagnostics.ts';
export { exp, expm1, log, log1p } from './elementary.ts';
export { erf } from './error-function.ts';
export { logGamma } from './gamma-function.ts';
export type { GridDensity } from './grid-density.ts';
export { gridMoments, highestDensitySets, sampleGrid } from './grid-density.ts';
export { highestDensityLevel } from './highest-density.ts';
export { logNormalDensity, normalCdf, normalDensity, normalLogCdf, normalQuantile } from './normal.ts';
export { paretoSmoothed, type SmoothedWeights } from './pareto-smoothing.ts';
export { power, square } from './powers.ts';
export { median, quantileSorted, quantiles, quantilesBySelection } from './quantiles.ts';
export {
  bandOf,
  diagnosis,
  hasSettled,
  type Quantity,
  quantity,
  summaryOf,
  unsettled,
} from './quantity.ts';
export { type RandomStream, randomStream, type StreamKey, streamOf } from './random.ts';
export {
  type Band,
  bandShape,
  type Range,
  rangeShape,
  type Summary,
  summaryShape,
} from './result.ts';
export type { Sampler } from './sampler.ts';
export {
  atLeast,
  atMost,
  minuteAtLeast,
  minuteAtMost,
  type Side,
  type TapeUnit,
  tapeLength,
} from './shown.ts';
export { mean, standardDeviation } from './summaries.ts';
export { atan2, cos, sin } from './trigonometry.ts';
export { truncatedNormal } from './truncated-normal.ts';
export { FOOT_M, INCH_M } from './units.ts';
export { ChainError, type Crew, inProcess, type OnProgress, type Work, withCrew } from './work.ts';

/**
 * The tide: prediction from harmonic constants, high and low waters, tide levels, analysis of a record, comparison
 * with a reference station, and when the ground is dry. Metres, degrees of Greenwich phase, UTC in milliseconds since
 * 1970; 1 sigma.
 */
export { type AnalysedConstant, type Analysis, analyse } from './analysis.ts';
export {
  type AnnualBlocks,
  type AnnualMean,
  annualBlocks,
  BLOCK_YR,
  type LevelBlock,
} from './annual-blocks.ts';
export {
  type AnnualFault,
  type AnnualRow,
  readAnnualMeans,
} from './annual-means.ts';
export { meanLongitudes } from './astronomy.ts';
export { TIDE_CAUTION } from './caution.ts';
export { type ComparedLevels, type ComparisonMethod, compareSimultaneously } from './comparison.ts';
export { CONSTITUENTS, type Constituent, constituentNamed } from './constituent.ts';
export { afloatSpans, drySpans, type LevelSpan } from './dry.ts';
export { type Expected, expectedConstituents } from './expected.ts';
export { highAndLowWaters, type TideExtreme, tabulatedExtremes } from './extremes.ts';
export {
  type AstronomicalExtremes,
  astronomicalExtremes,
  formNumber,
  type PredictedLevels,
  predictedLevels,
  springsAndNeaps,
} from './harmonic-levels.ts';
export { type MeanLevels, meanLevels } from './levels.ts';
export { type ObservedLevels, observedLevels } from './observed-levels.ts';
export {
  predict,
  predictionSigma,
  type TidalConstant,
  type Tide,
  type TideCurve,
  tideCurve,
} from './prediction.ts';
export type { TideRecord } from './record.ts';
export { resolvableConstituents, type Separation, type Unresolved } from './separation.ts';
export { interpolateExtremes } from './through-extremes.ts';

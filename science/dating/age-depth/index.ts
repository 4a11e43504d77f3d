/** Age against depth in one hole. */
export { ageDepth, ageDepthWithDraws } from './age-depth.ts';
export type {
  AgeDepth,
  AgeDepthInput,
  Break,
  DatedHorizon,
  NotEnough,
} from './model.ts';
export { type History, historyShape } from './result.ts';
export { type AgeDepthSettings, ageDepthDefaults, isProbableOutlier } from './settings.ts';

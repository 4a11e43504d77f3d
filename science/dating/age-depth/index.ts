/** Age against depth in one hole. */
export { ageDepth, ageDepthWithDraws } from './age-depth.ts';
export type {
  AgeDepth,
  AgeDepthBand,
  AgeDepthInput,
  Break,
  DatedHorizon,
  HorizonAge,
  NotEnough,
} from './model.ts';
export { type AgeDepthSettings, ageDepthDefaults, isLikelyOutOfPlace } from './settings.ts';

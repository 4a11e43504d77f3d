/** Age against depth in one hole. */
export { ageDepth, ageDepthWithDraws, ageDepthWork } from './age-depth.ts';
export type {
  AgeDepth,
  AgeDepthInput,
  Break,
  DatedHorizon,
  HorizonAge,
  NotEnough,
} from './model.ts';
export { ageDepthSampler } from './sampler.ts';
export { type AgeDepthSettings, ageDepthDefaults, isLikelyOutOfPlace } from './settings.ts';

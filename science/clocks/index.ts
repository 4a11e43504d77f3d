/** All clocks of a hole in one history of it. */
export { type AgeConstraint, sharedErrorOf } from './age-constraint.ts';
export {
  type AgePrior,
  type AgeRange,
  cumulativeAt,
  drawAge,
  logAgeDensity,
  logAgeGiven,
  normalGiven,
  priorOfAge,
  quantileOf,
  shownOfShared,
} from './age-prior.ts';
export { type HoleOfClocks, inHistory } from './hole-of-clocks.ts';
export { sharingOf } from './sharing.ts';

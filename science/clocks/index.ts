/** All clocks of a hole in one history of it. */
export { type AgeConstraint, sharedErrorOf } from './age-constraint.ts';
export { type HoleOfClocks, inHistory } from './hole-of-clocks.ts';

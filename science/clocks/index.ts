/** All clocks of a hole in one history of it. */
export { type HoleOfClocks, inHistory } from './hole-of-clocks.ts';

/** What is expected in a hole, in words. */
import { printed } from './number.ts';

/** Never certain, and never impossible. */
export const percentExpected = (share: number): string =>
  `${Math.min(99, Math.max(1, Math.round(share * 100)))} %`;

/** Holes that are named; the others are farther away. */
const NAMED = 3;

/** "M2 (126 m), T3 (156 m)": the nearest holes that say it. */
export const askedInWords = (asked: readonly { hole: string; distance_m: number }[]): string =>
  asked
    .slice(0, NAMED)
    .map(({ hole, distance_m }) => `${hole} (${printed(distance_m, 0)} m)`)
    .join(', ');

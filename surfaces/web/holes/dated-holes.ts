/** Which holes have dates, and how many of them can say how old a depth is. */
import type { Results } from '@stillstand/campaign/results';

/** Holes with dates in the campaign's order, and how many of those are in use at a known depth. */
export function datedHoles(results: Results | null): ReadonlyMap<string, number> {
  const holes = new Map<string, number>();
  if (results === null) return holes;
  const placed = new Set(results.samples.flatMap((s) => (s.depth_m === null ? [] : [s.sample])));
  for (const { hole } of results.holes) {
    const dates = results.dates.filter((date) => date.hole === hole);
    const inUse = dates.filter(({ status, sample }) => status === 'accepted' && placed.has(sample));
    if (dates.length > 0) holes.set(hole, inUse.length);
  }
  return holes;
}

/** Where the truth lies among the draws of a number, hole by hole: even ranks, and how often 95 % intervals hold it. */
import type { TestContext } from 'node:test';
import { quantileSorted } from '@stillstand/science/base';

const BINS = 10;
/** Upper 1e-5 quantile of χ² at 9 degrees of freedom. */
const MOST_CHI = 39.3;

export interface Ranks {
  /** By number: share of the draws below the truth, one of each hole; how many intervals hold it. */
  places: Map<string, number[]>;
  held: Map<string, number>;
  outOfPlace: { said: number; were: number; dates: number };
}

export const noRanks = (): Ranks => ({
  places: new Map(),
  held: new Map(),
  outOfPlace: { said: 0, were: 0, dates: 0 },
});

export function rank({ places, held }: Ranks, name: string, is: number, draws: Float64Array): void {
  const sorted = draws.slice().sort();
  let below = 0;
  while (sorted[below]! < is) below++;
  places.set(name, [...(places.get(name) ?? []), (below + 0.5) / (sorted.length + 1)]);
  const holds = is >= quantileSorted(sorted, 0.025) && is <= quantileSorted(sorted, 0.975);
  held.set(name, (held.get(name) ?? 0) + (holds ? 1 : 0));
}

/** What dates were said to be, and were. */
export function countOutOfPlace(
  { outOfPlace }: Ranks,
  clocks: readonly { outlier_probability: number }[],
  were: readonly boolean[],
): void {
  for (const [i, { outlier_probability }] of clocks.entries()) {
    outOfPlace.dates++;
    outOfPlace.said += outlier_probability;
    if (were[i]) outOfPlace.were++;
  }
}

/** Prints all of it; the numbers whose ranks are uneven or whose intervals miss 0.95 by four binomial sds. */
export function missedBy({ places, held, outOfPlace }: Ranks, t: TestContext): string[] {
  let worst = 0;
  const missed: string[] = [];
  for (const [name, of] of places) {
    const bins = new Float64Array(BINS);
    for (const p of of) bins[Math.floor(p * BINS)]!++;
    const expected = of.length / BINS;
    const chi = bins.reduce((sum, n) => sum + (n - expected) ** 2 / expected, 0);
    worst = Math.max(worst, chi);
    const share = held.get(name)! / of.length;
    t.diagnostic(
      `${name}: χ² ${chi.toFixed(1)} at ${BINS - 1}, 95 % hold ${share.toFixed(3)}, ranks ${bins.join(' ')}`,
    );
    if (!(chi < MOST_CHI)) missed.push(`${name}: χ² ${chi}`);
    if (!(Math.abs(share - 0.95) < 4 * Math.sqrt((0.95 * 0.05) / of.length)))
      missed.push(`${name}: ${share} held`);
  }
  t.diagnostic(`worst χ² ${worst.toFixed(1)}`);
  const { said, were, dates } = outOfPlace;
  t.diagnostic(`out of place: said ${said.toFixed(1)}, were ${were} of ${dates}`);
  return missed;
}

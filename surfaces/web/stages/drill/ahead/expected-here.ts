/** What the results expect of one hole, with what is said where something else came up. */
import type { Problem } from '@stillstand/campaign/problems';
import type { ExpectationResult, Results } from '@stillstand/campaign/results';

export interface ExpectedHere {
  /** Elevation of its ground at the start, m; null: not levelled. */
  ground_m: number | null;
  /** Holes that say it, the nearest first, m away. */
  asked: ExpectationResult['asked'];
  /** What is not met yet, from the uppermost down. */
  contacts: ExpectationResult['contacts'];
  /** Thickness of the layer above each contact in the nearest hole that has it, m, by the row of that layer. */
  thickness: ReadonlyMap<string, number>;
  /** What came up otherwise, the most serious and deepest first. */
  contradictions: Contradiction[];
}

type Contradiction = Pick<Problem, 'row_id' | 'severity' | 'found' | 'expected'> & {
  /** The layer that is not as expected; null: one that was expected was not met. */
  unit: string | null;
};

/** Null where nothing is expected of it. */
export function expectedHere(results: Results | null, hole: string | null): ExpectedHere | null {
  const of = results?.expectations.find((each) => each.hole === hole);
  if (results == null || of === undefined) return null;
  const units = results.holes.flatMap((each) => each.units);
  const own = results.holes.find((each) => each.hole === hole)?.units ?? [];
  const layer = new Map(own.map(({ row_id, unit }) => [row_id, unit]));
  const [other, missed] = ['not-as-expected', 'expected-not-met'].map((code) =>
    results.problems.filter((p) => p.code === code),
  );
  return {
    ground_m: of.ground_m,
    asked: of.asked,
    contacts: of.contacts.filter(({ met }) => met === null),
    thickness: new Map(units.map((u) => [u.row_id, u.depth_bottom_m.value - u.depth_top_m.value])),
    contradictions: [
      ...other!.filter(({ row_id }) => layer.has(row_id ?? '')).reverse(),
      ...missed!.filter(({ row_id }) => row_id === of.hole_row_id).reverse(),
    ].map(({ row_id, severity, found, expected }) => ({
      ...{ row_id, severity, found, expected },
      unit: layer.get(row_id ?? '') ?? null,
    })),
  };
}

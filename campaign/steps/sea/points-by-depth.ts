/** Which points have their ages from all clocks of their hole, and what is known of these. */
import type { Campaign } from '@stillstand/campaign/document';
import type { Row } from '@stillstand/campaign/tables';
import type { AgesAgainstDepth } from '../ages/age-depth.ts';
import { type AgeByDepth, ageByDepth } from '../ages/by-depth.ts';
import type { Samples } from '../hole/samples.ts';
import type { Runner } from '../runner/runner.ts';

export type ByDepth =
  | { kind: 'made'; age: AgeByDepth }
  /** The ages of the hole are not computed yet. */
  | { kind: 'waits' }
  | { kind: 'none'; expected: string };

interface PointsByDepth {
  /** Null for a point whose age comes from elsewhere. */
  of(row: Row<'points'>): ByDepth | null;
  /** The points of a hole that ask for it. */
  askedBy(hole: string | null): string;
}

/** One point of a hole asks for all: a date read with its hole and by itself would count twice. */
export function pointsByDepth(
  run: Runner,
  { rows }: Campaign,
  samples: Samples,
  againstDepth: AgesAgainstDepth['of'],
): PointsByDepth {
  const holeOf = (row: Row<'points'>): string | null => samples.of.get(row.sample)?.value.hole ?? null;
  const asking = Map.groupBy(
    rows.points.filter((row) => row.age_from === 'age_depth' && row.status !== 'rejected'),
    holeOf,
  );
  return {
    of(row) {
      const hole = holeOf(row);
      const sample = samples.of.get(row.sample);
      const isAsking = row.age_from === 'age_depth';
      if (sample === undefined || !(isAsking || asking.has(hole))) return null;
      const none = (expected: string): ByDepth | null => (isAsking ? { kind: 'none', expected } : null);
      if (hole === null || sample.value.depth_draws === null) return none('a sample at a depth in a hole');
      const found = againstDepth.get(hole);
      if (found === undefined) return none(`ages against depth in ${hole}`);
      if (typeof found === 'string') return none(found);
      if (found.history === null) return { kind: 'waits' };
      const age = ageByDepth(run, found, found.history, sample);
      return typeof age === 'string' ? none(age) : { kind: 'made', age };
    },
    askedBy: (hole) => (asking.get(hole) ?? []).map(({ point }) => point).join(', '),
  };
}

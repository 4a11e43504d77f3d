/** Depths that ages are reported at: where sections meet, and the top and base of every bed that took no time. */
import type { Axis } from './axis.ts';
import { medianBeds, withBeds, withoutBeds } from './beds.ts';
import type { Bed } from './model.ts';
import { sectionAt } from './section.ts';

export interface Grid {
  /** Below the ground, beds at their median depths. */
  depth_m: Float64Array;
  /** Sections that meet there, twice the same within one. */
  above: Int16Array;
  below: Int16Array;
}

/** Depths nearer to each other than this are one. */
const SAME_M = 1e-9;

export function gridOf({ ground_m }: Axis, beds: readonly Bed[], deepest_m: number): Grid {
  const at = medianBeds(beds);
  const { top_m, bottom_m } = at[0]!;
  const inside = [...ground_m.subarray(0, -1)].map((edge) => withBeds(at, edge, 0));
  const all = [...inside, ...top_m, ...bottom_m].filter((d) => d < deepest_m - SAME_M);
  const depth_m = [...all.sort((a, b) => a - b), deepest_m].filter(
    (d, i, sorted) => i === 0 || d - sorted[i - 1]! > SAME_M,
  );
  const section = (off: number): Int16Array =>
    Int16Array.from(depth_m, (d) => sectionAt(ground_m, withoutBeds(at, d, 0) + off));
  return { depth_m: Float64Array.from(depth_m), above: section(-SAME_M), below: section(SAME_M) };
}

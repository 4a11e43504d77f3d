/** Where depths lie in a hole: by state of it, the section, metres below its top, and the breaks above. */
import type { Break } from './model.ts';
import { sectionAt } from './section.ts';

export interface Places {
  count: number;
  /** [state × depths]. */
  section: Int16Array;
  below_m: Float64Array;
  /** [state × depths × breaks]: 1 where the depth lies below the break. */
  isBelow: Uint8Array;
}

/** `depths_m`: joint draws of each, one a state; above the ground counts as at it. */
export function placesOf(
  edge_m: Float64Array,
  breaks: readonly Break[],
  depths_m: readonly Float64Array[],
  states: number,
): Places {
  const count = depths_m.length;
  const section = new Int16Array(states * count);
  const below_m = new Float64Array(states * count);
  const isBelow = new Uint8Array(states * count * breaks.length);
  depths_m.forEach((depth_m, i) => {
    for (let k = 0; k < states; k++) {
      const d = Math.max(0, depth_m[k]!);
      const at = k * count + i;
      const j = sectionAt(edge_m, d);
      section[at] = j;
      below_m[at] = d - edge_m[j]!;
      breaks.forEach((b, n) => {
        if (d > b.depth_m[k]!) isBelow[at * breaks.length + n] = 1;
      });
    }
  });
  return { count, section, below_m, isBelow };
}

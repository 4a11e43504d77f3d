/** Where depths lie in a hole: by state of it, the section, metres below its top, and the breaks above. */
import { type Axis, counted } from './axis.ts';
import { sectionAt } from './section.ts';

export interface Places {
  count: number;
  /** [state × depths]: as metres count. */
  section: Int16Array;
  below_m: Float64Array;
  /** [state × depths × breaks]: 1 where the depth lies below the break. */
  isBelow: Uint8Array;
}

/** `depths_m`, of breaks too: joint draws of each, m below the ground, one a state; above the ground counts as at it. */
export function placesOf(
  axis: Axis,
  breaks_m: readonly Float64Array[],
  depths_m: readonly Float64Array[],
  states: number,
): Places {
  const count = depths_m.length;
  const section = new Int16Array(states * count);
  const below_m = new Float64Array(states * count);
  const isBelow = new Uint8Array(states * count * breaks_m.length);
  depths_m.forEach((depth_m, i) => {
    for (let k = 0; k < states; k++) {
      const d = Math.max(0, depth_m[k]!);
      const at = k * count + i;
      const c = counted(axis, d, k);
      const j = sectionAt(axis.counted_m, c);
      section[at] = j;
      below_m[at] = c - axis.counted_m[j]!;
      breaks_m.forEach((b, n) => {
        if (d > b[k]!) isBelow[at * breaks_m.length + n] = 1;
      });
    }
  });
  return { count, section, below_m, isBelow };
}

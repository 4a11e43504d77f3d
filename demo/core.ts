/** Sediment on its way up: slices of ground that know where they lay and how long they are now. */

export interface Slice {
  /** True depth of its middle below the ground at the start of the hole, metres; null for what fell in. */
  depth_m: number | null;
  /** Length now, metres. */
  length_m: number;
}

/** What one run or push brought up, from its top. */
export interface Core {
  hole: string;
  label: string;
  basis: 'run' | 'push';
  slices: Slice[];
}

export const lengthOf = (slices: readonly Slice[]): number => {
  let sum = 0;
  for (const slice of slices) sum += slice.length_m;
  return sum;
};

/** Parts the first `length_m` from the rest, cutting the slice that lies across. */
export function cutAt(slices: readonly Slice[], length_m: number): [Slice[], Slice[]] {
  const above: Slice[] = [];
  const below: Slice[] = [];
  let left = length_m;
  for (const slice of slices) {
    if (left >= slice.length_m) above.push(slice);
    else if (left > 0) {
      above.push({ depth_m: slice.depth_m, length_m: left });
      below.push({ depth_m: slice.depth_m, length_m: slice.length_m - left });
    } else below.push(slice);
    left -= slice.length_m;
  }
  return [above, below];
}

export const stretched = (slices: readonly Slice[], factor: number): Slice[] =>
  slices.map(({ depth_m, length_m }) => ({ depth_m, length_m: length_m * factor }));

/** Where in the core a true depth is to be found, metres from its top; null where it did not come up. */
export function placeInCore(core: Core, depth_m: number): number | null {
  let top = 0;
  let found: number | null = null;
  let nearest = 0.006;
  for (const slice of core.slices) {
    if (slice.depth_m !== null && Math.abs(slice.depth_m - depth_m) < nearest) {
      nearest = Math.abs(slice.depth_m - depth_m);
      found = top + slice.length_m / 2;
    }
    top += slice.length_m;
  }
  return found;
}

/** True depth of a place in the core; null for fall-in or beyond its end. */
export function depthInCore(core: Core, from_top_m: number): number | null {
  let top = 0;
  for (const slice of core.slices) {
    top += slice.length_m;
    if (from_top_m <= top) return slice.depth_m;
  }
  return null;
}

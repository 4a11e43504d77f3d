/** Where depths lie among the sections of a hole. Depths m below the ground. */

/** The section that a depth lies in; the last one for what lies below. */
export function sectionAt(edge_m: Float64Array, depth_m: number): number {
  let low = 0;
  let high = edge_m.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (edge_m[middle]! <= depth_m) low = middle;
    else high = middle;
  }
  return low;
}

/** The boundary that a depth is nearest to. */
export function nearestEdge(edge_m: Float64Array, depth_m: number): number {
  const j = sectionAt(edge_m, depth_m);
  return depth_m - edge_m[j]! < edge_m[j + 1]! - depth_m ? j : j + 1;
}

/** Finest sections that a profile is worth: more resolve nothing that persists over decimetres, and cost time. */
const MOST_OF_A_PROFILE = 20;

/** So many even sections, where nothing reads slices; else that many below the profile, and finer ones in it. */
export function edgesOf(deepest_m: number, sections: number, ends_m: readonly Float64Array[]): Float64Array {
  const even = (from: number, to: number, n: number): number[] =>
    Array.from({ length: n }, (_, k) => from + ((to - from) * k) / n);
  const bottom = Math.min(deepest_m, Math.max(0, ...ends_m.map((ends) => ends.at(-1)!)));
  const usual = deepest_m / sections;
  const slices = Math.min(MOST_OF_A_PROFILE, Math.max(0, ...ends_m.map((ends) => ends.length - 1)));
  if (!(slices * usual > bottom)) return Float64Array.from([...even(0, deepest_m, sections), deepest_m]);
  const below = Math.ceil((deepest_m - bottom) / usual);
  return Float64Array.from([...even(0, bottom, slices), ...even(bottom, deepest_m, below), deepest_m]);
}

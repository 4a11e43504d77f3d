/** Numbers for places between two others, and the fewest moves that bring readings into an order for good. */

/** Most decimals a place is given: 12. Nobody moves readings between one pair of neighbours so often. */
const FINEST = 1e12;

/**
 * So many places after `low` and before `high` in rising order, both left free, with as few decimals as there is room
 * for: between 4 and 5 there is 4.5; behind everything (`high` infinite) whole numbers.
 */
export function placesBetween(low: number, high: number, count: number): number[] {
  if (count === 0) return [];
  if (!(low < high)) throw new RangeError(`no place between ${low} and ${high}: expected a rising pair`);
  if (high === Number.POSITIVE_INFINITY) {
    return Array.from({ length: count }, (_, i) => Math.floor(low) + 1 + i);
  }
  for (let parts = 1; parts <= FINEST; parts *= 10) {
    let first = Math.floor(low * parts) + 1;
    let last = Math.ceil(high * parts) - 1;
    while (first / parts <= low) first++;
    while (last / parts >= high) last--;
    const room = last - first + 1;
    if (room < count) continue;
    const step = (room + 1) / (count + 1);
    return Array.from({ length: count }, (_, i) => (first - 1 + Math.round((i + 1) * step)) / parts);
  }
  return Array.from({ length: count }, (_, i) => low + ((high - low) * (i + 1)) / (count + 1));
}

/** A free place just before or after `at`, whatever others have that one; null where there is none before it. */
export function placeNextTo(at: number, side: 'before' | 'after', others: readonly number[]): number | null {
  if (side === 'after') return placesBetween(at, Math.min(...others.filter((seq) => seq > at)), 1)[0]!;
  const low = Math.max(0, ...others.filter((seq) => seq < at));
  return low < at ? placesBetween(low, at, 1)[0]! : null;
}

/** A reading and the place it is to have. */
export interface Moved<R> {
  reading: R;
  seq: number;
}

/**
 * The moves after which these readings are in this order between their neighbours, each with a place of its own: as many
 * as can keep the place they have. The same order gives the same moves on every device.
 */
export function movesFor<R extends { seq: number }>(
  order: readonly R[],
  low: number | null,
  high: number | null,
): Moved<R>[] {
  const kept = longestRising(order);
  const moves: Moved<R>[] = [];
  let from = 0;
  for (const until of [...kept, order.length]) {
    const before = from === 0 ? (low ?? 0) : order[from - 1]!.seq;
    const behind = until < order.length ? order[until]!.seq : (high ?? Number.POSITIVE_INFINITY);
    for (const [k, seq] of placesBetween(before, behind, until - from).entries()) {
      moves.push({ reading: order[from + k]!, seq });
    }
    from = until + 1;
  }
  return moves;
}

/** Positions of a longest strictly rising run of `seq`; of a place 0 only the first, since nothing goes before it. */
function longestRising(order: readonly { seq: number }[]): number[] {
  /** Of each length the position that ends such a run with the smallest seq. */
  const ends: number[] = [];
  const before = new Int32Array(order.length).fill(-1);
  for (const [i, { seq }] of order.entries()) {
    if (seq === 0 && i > 0) continue;
    const at = ends.findLastIndex((end) => order[end]!.seq < seq) + 1;
    before[i] = at === 0 ? -1 : ends[at - 1]!;
    // Of two that have one place the first keeps it.
    if (ends[at] === undefined || seq < order[ends[at]]!.seq) ends[at] = i;
  }
  const run: number[] = [];
  for (let at = ends.at(-1) ?? -1; at !== -1; at = before[at]!) run.push(at);
  return run.reverse();
}

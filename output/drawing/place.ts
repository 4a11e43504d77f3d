/** Where labels go when there are more of them than room: along a line, and beside marks in a plane. */

export interface Wanted {
  /** Where its centre would best be. */
  at: number;
  /** Room it needs along the line. */
  size: number;
}

/**
 * Centres of labels along a line, in the order given, none overlapping, as near as can be (least squares) to where
 * they were wanted: pooled neighbours, as in isotonic regression. Wishes must be in ascending order. Labels that need
 * more room than there is are pressed together evenly.
 */
export function placeAlong(wanted: readonly Wanted[], from: number, to: number): number[] {
  const need = wanted.reduce((sum, w) => sum + w.size, 0);
  const squeeze = need > to - from ? (to - from) / need : 1;
  const sizes = wanted.map((w) => w.size * squeeze);
  // Centre i = common start of its pool + half-sizes before it.
  const offsets: number[] = [];
  let sum = 0;
  for (const size of sizes) {
    offsets.push(sum + size / 2);
    sum += size;
  }
  const pools: { start: number; count: number }[] = [];
  for (const [i, w] of wanted.entries()) {
    let pool = { start: w.at - offsets[i]!, count: 1 };
    let before = pools.at(-1);
    while (before !== undefined && before.start > pool.start) {
      const count = before.count + pool.count;
      pool = { start: (before.start * before.count + pool.start * pool.count) / count, count };
      pools.pop();
      before = pools.at(-1);
    }
    pools.push(pool);
  }
  const centres: number[] = [];
  const latest = to - sum;
  for (const pool of pools) {
    const start = Math.max(from, Math.min(pool.start, latest));
    for (let i = 0; i < pool.count; i++) centres.push(start + offsets[centres.length]!);
  }
  return centres;
}

export interface Rect {
  x1: number;
  y1: number;
  x2: number;
  y2: number;
}

export const overlaps = (a: Rect, b: Rect): boolean =>
  a.x1 < b.x2 && b.x1 < a.x2 && a.y1 < b.y2 && b.y1 < a.y2;

const area = (a: Rect, b: Rect): number =>
  Math.max(0, Math.min(a.x2, b.x2) - Math.max(a.x1, b.x1)) *
  Math.max(0, Math.min(a.y2, b.y2) - Math.max(a.y1, b.y1));

/** How much of `rect` the others cover, in square points (covered twice counts twice). */
export const covered = (rect: Rect, others: readonly Rect[]): number =>
  others.reduce((sum, other) => sum + area(rect, other), 0);

export interface PlacedLabel extends Rect {
  /** Whether it stands away from its mark and needs a leader. */
  far: boolean;
}

/**
 * A free place for a label of the given size beside `mark`, inside `bounds` and clear of everything in `taken`;
 * null where there is none near enough. Tries beside, above, below, at the corners, then a little farther out.
 */
export function placeBeside(
  mark: Rect,
  size: { width: number; height: number },
  bounds: Rect,
  taken: readonly Rect[],
): PlacedLabel | null {
  const cx = (mark.x1 + mark.x2) / 2;
  const cy = (mark.y1 + mark.y2) / 2;
  const { width: w, height: h } = size;
  const at = (x: number, y: number): Rect => ({ x1: x, y1: y, x2: x + w, y2: y + h });
  for (const gap of [2, 8]) {
    const right = mark.x2 + gap;
    const left = mark.x1 - gap - w;
    const above = mark.y1 - gap - h;
    const below = mark.y2 + gap;
    // Off a corner a label is soon too far to be its mark's.
    const tucked = gap === 2 ? -2.4 : 0;
    const tries: [number, number][] = [
      [right, cy - h / 2],
      [left, cy - h / 2],
      [cx - w / 2, below],
      [cx - w / 2, above],
      [right, below + tucked],
      [left, above - tucked],
      [left, below + tucked],
      [right, above - tucked],
    ];
    for (const [x, y] of tries) {
      const place = at(x, y);
      const inside =
        place.x1 >= bounds.x1 && place.x2 <= bounds.x2 && place.y1 >= bounds.y1 && place.y2 <= bounds.y2;
      if (inside && !taken.some((t) => overlaps(place, t))) return { ...place, far: gap > 2 };
    }
  }
  return null;
}

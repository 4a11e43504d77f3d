/** Closed outlines on paper: the box around one, whether a place is within it, and the room inside along a level. */
import type { Rect } from './place.ts';

type Outline = readonly (readonly [x: number, y: number])[];

/** Around an outline of at least one point. */
export function boxAround(outline: Outline): Rect {
  const box = { x1: Infinity, y1: Infinity, x2: -Infinity, y2: -Infinity };
  for (const [x, y] of outline) {
    box.x1 = Math.min(box.x1, x);
    box.x2 = Math.max(box.x2, x);
    box.y1 = Math.min(box.y1, y);
    box.y2 = Math.max(box.y2, y);
  }
  return box;
}

/** Whether a place lies within a closed outline (crossings of a ray counted; what lies on an edge may be either). */
export function isWithin(x: number, y: number, outline: Outline): boolean {
  let within = false;
  let before = outline[outline.length - 1];
  for (const point of outline) {
    const [x1, y1] = before!;
    const [x2, y2] = point;
    if (y1 > y !== y2 > y && x < x1 + ((y - y1) / (y2 - y1)) * (x2 - x1)) within = !within;
    before = point;
  }
  return within;
}

/** Stretches of a level that are within a closed outline, from left to right. */
export function levelWithin(y: number, outline: Outline): [from: number, to: number][] {
  const crossings: number[] = [];
  let before = outline[outline.length - 1];
  for (const point of outline) {
    const [x1, y1] = before!;
    const [x2, y2] = point;
    if (y1 > y !== y2 > y) crossings.push(x1 + ((y - y1) / (y2 - y1)) * (x2 - x1));
    before = point;
  }
  crossings.sort((a, b) => a - b);
  const out: [number, number][] = [];
  for (let i = 0; i + 1 < crossings.length; i += 2) out.push([crossings[i]!, crossings[i + 1]!]);
  return out;
}

/** Where a box of this size has most room within an outline, tried every `step` down it; its upper left corner, or null. */
export function roomWithin(
  outline: Outline,
  size: { width: number; height: number },
  isFree: (box: Rect) => boolean,
  step = 2,
): { x: number; y: number } | null {
  const { y1, y2 } = boxAround(outline);
  let best: { x: number; y: number; room: number } | null = null;
  for (let top = y1 + 1; top + size.height <= y2 - 1; top += step) {
    for (const [from, to] of sharedBy([top, top + size.height / 2, top + size.height], outline)) {
      if (to - from < size.width) continue;
      const middle = (from + to - size.width) / 2;
      for (const x of [
        middle,
        from + 1,
        to - size.width - 1,
        (from + middle) / 2,
        (to - size.width + middle) / 2,
      ]) {
        // The middle of the longest stretch before its ends.
        const room = to - from - Math.abs(x - middle);
        if (best !== null && room <= best.room) continue;
        if (isFree({ x1: x, x2: x + size.width, y1: top, y2: top + size.height })) best = { x, y: top, room };
      }
    }
  }
  return best;
}

/** Stretches that are within at each of the levels. */
function sharedBy(levels: readonly number[], outline: Outline): [number, number][] {
  let shared: [number, number][] = [[-Infinity, Infinity]];
  for (const level of levels) {
    const own = levelWithin(level, outline);
    shared = shared.flatMap(([a, b]) =>
      own.flatMap(([c, d]): [number, number][] => {
        const [from, to] = [Math.max(a, c), Math.min(b, d)];
        return from < to ? [[from, to]] : [];
      }),
    );
  }
  return shared;
}

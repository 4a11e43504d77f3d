/** Names next to their holes on the map: none over a hole, another name or the line, and over the coast only at need. */
import { overlaps, placeBeside, type Rect, textWidth } from '@stillstand/output/drawing';
import { square } from '@stillstand/science/base';
import type { Mapped } from './mapped.ts';

type Point = readonly [x: number, y: number];

export interface NamedHole {
  hole: Mapped;
  x: number;
  y: number;
  /** Null where it has no room. */
  name: (Rect & { lead: Point[] | null }) | null;
}

/** Of a hole's mark, points. */
export const RING = 2.3;
export const NAME_HEIGHT = 7.4;

export const around = (x: number, y: number, half: number): Rect => ({
  x1: x - half,
  x2: x + half,
  y1: y - half,
  y2: y + half,
});

/** Small boxes along a line, for what must keep clear of it. */
export function along([[x1, y1], [x2, y2]]: readonly [Point, Point]): Rect[] {
  const steps = Math.max(1, Math.ceil(Math.sqrt(square(x2 - x1) + square(y2 - y1)) / 2));
  return Array.from({ length: steps + 1 }, (_, i) =>
    around(x1 + ((x2 - x1) * i) / steps, y1 + ((y2 - y1) * i) / steps, 1),
  );
}

export const alongAll = (points: readonly Point[]): Rect[] =>
  points.slice(1).flatMap((to, i) => along([points[i]!, to]));

/**
 * A name next to its hole where one is free, or led off a little; none over a hole, a name or the line, and over the
 * coast only where it has no other place.
 */
export function named(
  holes: readonly Mapped[],
  points: readonly Point[],
  frame: Rect,
  taken: readonly Rect[],
  coast: readonly Rect[],
): NamedHole[] {
  const bounds = { x1: frame.x1 + 2, y1: frame.y1 + 2, x2: frame.x2 - 2, y2: frame.y2 - 2 };
  const used = [...taken];
  return holes.map((hole, i) => {
    const [x, y] = points[i]!;
    const ring = around(x, y, RING);
    const size = { width: textWidth(hole.label) + 2, height: NAME_HEIGHT };
    const place =
      placeBeside(ring, size, bounds, [...used, ...coast]) ?? placeBeside(ring, size, bounds, used);
    if (place === null) return { hole, x, y, name: null };
    const { x1, x2, y1, y2, far } = place;
    const end: Point = [Math.max(x1, Math.min(x2, x)), Math.max(y1, Math.min(y2, y))];
    const lead: Point[] | null = far ? [[x, y], end] : null;
    // No name rather than one whose lead may be taken for that of another hole.
    const others = used.filter((rect) => !overlaps(rect, ring));
    if (lead !== null && along([[x, y], end]).some((piece) => others.some((rect) => overlaps(piece, rect))))
      return { hole, x, y, name: null };
    used.push(place);
    return { hole, x, y, name: { x1, x2, y1, y2, lead } };
  });
}

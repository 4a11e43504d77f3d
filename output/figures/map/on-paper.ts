/** Lines of many places on a map: what lies in its frame, no finer than is seen, with the places where hachures begin. */
import type { Rect } from '@stillstand/output/drawing';
import type { CoastLine } from '@stillstand/output/shapes';
import { square } from '@stillstand/science/base';
import type { Position } from '@stillstand/science/survey';

type Point = readonly [x: number, y: number];

/** Nearer to the last place than this, one is not drawn, points. */
const FINEST = 0.3;
/** Drawn beyond the frame, of its size, so that a line leaves it as it goes. */
const BEYOND = 0.25;

/**
 * The pieces of a line that lie in the frame or near it. `at` is exact and slow, `near` as good as the eye at the size
 * of a map: of many places only those are asked for exactly that are drawn.
 */
export function piecesOf(
  places: readonly Position[],
  isClosed: boolean,
  { frame, near, at }: { frame: Rect; near: (place: Position) => Point; at: (place: Position) => Point },
): Point[][] {
  const [dx, dy] = [BEYOND * (frame.x2 - frame.x1), BEYOND * (frame.y2 - frame.y1)];
  const around = { x1: frame.x1 - dx, x2: frame.x2 + dx, y1: frame.y1 - dy, y2: frame.y2 + dy };
  const round = isClosed && places.length > 0 ? [...places, places[0]!] : places;
  const rough = round.map(near);
  const isNear = rough.slice(1).map((to, i) => meets(rough[i]!, to, around));
  const pieces: Point[][] = [];
  for (let from = 0; from < isNear.length; from++) {
    if (!isNear[from]) continue;
    let to = from + 1;
    while (isNear[to]) to++;
    pieces.push(thinned(rough, from, to).map((i) => at(round[i]!)));
    from = to;
  }
  return pieces;
}

/** Of the places from one to another both, and between them those far enough from the last. */
function thinned(points: readonly Point[], from: number, to: number): number[] {
  const kept = [from];
  let [x, y] = points[from]!;
  for (let i = from + 1; i < to; i++) {
    const [x2, y2] = points[i]!;
    if (square(x2 - x) + square(y2 - y) < square(FINEST)) continue;
    kept.push(i);
    [x, y] = [x2, y2];
  }
  return [...kept, to];
}

/** Whether the box about a step touches the frame. */
const meets = ([x1, y1]: Point, [x2, y2]: Point, frame: Rect): boolean =>
  Math.min(x1, x2) <= frame.x2 &&
  Math.max(x1, x2) >= frame.x1 &&
  Math.min(y1, y2) <= frame.y2 &&
  Math.max(y1, y2) >= frame.y1;

/** Between hachures, and their length, points. */
const HACHURE = { apart: 2.4, long: 4.2 } as const;

/** Short strokes off a line to the side of the sea, at right angles, evenly along it. */
export function hachures(piece: readonly Point[], sea: NonNullable<CoastLine['sea']>): [Point, Point][] {
  // On paper y goes down: the left of a step east is up.
  const side = sea === 'left' ? 1 : -1;
  const strokes: [Point, Point][] = [];
  let left = HACHURE.apart / 2;
  for (let i = 1; i < piece.length; i++) {
    const [[x1, y1], [x2, y2]] = [piece[i - 1]!, piece[i]!];
    const length = Math.sqrt(square(x2 - x1) + square(y2 - y1));
    if (length === 0) continue;
    const [ux, uy] = [(x2 - x1) / length, (y2 - y1) / length];
    for (; left <= length; left += HACHURE.apart) {
      const [x, y] = [x1 + ux * left, y1 + uy * left];
      strokes.push([
        [x, y],
        [x + side * uy * HACHURE.long, y - side * ux * HACHURE.long],
      ]);
    }
    left -= length;
  }
  return strokes;
}

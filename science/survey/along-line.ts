/** Holes on a line that bends at each of its own: metres along it, and off it. */
import { square } from '@stillstand/science/base';
import type { Position } from './geodesic.ts';
import { onLine, type SectionPlace } from './section.ts';

/** Metres east and north of the first corner. */
type Plane = readonly [east_m: number, north_m: number];

export interface BentLine {
  length_m: number;
  /**
   * Place of a position: the nearest on the line, or straight on beyond its ends; `offset_m` how far it is from the line, to
   * the right of the way there (+), or to the left (−).
   */
  placeOf: (position: Position) => SectionPlace;
  /** Corners, metres along the line from the first. */
  corners_m: readonly number[];
  /** Pairs of its pieces (by number, from 0) that cross each other. */
  crossings: readonly (readonly [number, number])[];
}

/**
 * Through positions in their order, in the plane that touches at the first (`onLine`: 1 mm to 5 km).
 * @throws RangeError without a position
 */
export function bentLine(corners: readonly Position[]): BentLine {
  const origin = corners[0];
  if (origin === undefined) throw new RangeError('a line has at least one corner');
  const inPlane = (position: Position): Plane => {
    const { along_m, offset_m } = onLine(origin, 0, position);
    return [offset_m, along_m];
  };
  const at = corners.map(inPlane);
  const pieces = at.slice(1).map((to, i) => ({ from: at[i]!, to }));
  const corners_m = [0];
  for (const { from, to } of pieces) corners_m.push(corners_m.at(-1)! + lengthOf(from, to));
  const placeOf = (position: Position): SectionPlace => {
    const p = inPlane(position);
    const places = pieces.map(({ from, to }, i) => {
      const way = lengthOf(from, to);
      const [ux, uy] = way === 0 ? [0, 1] : [(to[0] - from[0]) / way, (to[1] - from[1]) / way];
      const [dx, dy] = [p[0] - from[0], p[1] - from[1]];
      const free = dx * ux + dy * uy;
      const along = Math.min(way, Math.max(0, free));
      const off = lengthOf(p, [from[0] + along * ux, from[1] + along * uy]);
      // Beyond its ends the line goes straight on.
      const isBeyond = (i === 0 && free < 0) || (i === pieces.length - 1 && free > way);
      return {
        along_m: corners_m[i]! + (isBeyond ? free : along),
        offset_m: dx * uy - dy * ux < 0 ? -off : off,
      };
    });
    if (places.length === 0) return { along_m: 0, offset_m: lengthOf(p, at[0]!) };
    return places.reduce((best, place) =>
      Math.abs(place.offset_m) < Math.abs(best.offset_m) ? place : best,
    );
  };
  const crossings = pieces.flatMap((one, i) =>
    pieces
      .slice(i + 2)
      .flatMap((other, j): (readonly [number, number])[] => (doCross(one, other) ? [[i, i + 2 + j]] : [])),
  );
  return { length_m: corners_m.at(-1)!, placeOf, corners_m, crossings };
}

const lengthOf = (p: Plane, q: Plane): number => Math.sqrt(square(q[0] - p[0]) + square(q[1] - p[1]));

interface Piece {
  from: Plane;
  to: Plane;
}

/** Twice the signed area of a triangle: above 0 where it turns left. */
const turn = (p: Plane, q: Plane, r: Plane): number =>
  (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);

function doCross(a: Piece, b: Piece): boolean {
  return (
    turn(a.from, a.to, b.from) * turn(a.from, a.to, b.to) < 0 &&
    turn(b.from, b.to, a.from) * turn(b.from, b.to, a.to) < 0
  );
}

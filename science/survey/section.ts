import { atan2, cos as cosine, sin as sine, square } from '@stillstand/science/base';
import { geodesic, type Position } from './geodesic.ts';

/** Where a hole stands on a section: metres along the line, and to the right (+) or left (−) of it. */
export interface SectionPlace {
  along_m: number;
  offset_m: number;
}

const RADIAN = Math.PI / 180;

/**
 * Place of a position on the line that leaves `start` towards `azimuth_deg` (clockwise from north). The triangle is
 * solved in the plane; its error stays below 1 mm to 5 km and 1 cm to 15 km from `start` (checks/survey).
 */
export function onLine(start: Position, azimuth_deg: number, position: Position): SectionPlace {
  const line = geodesic(start, position);
  if (line.distance_m === 0) return { along_m: 0, offset_m: 0 };
  const turn = (line.azimuth_deg - azimuth_deg) * RADIAN;
  return { along_m: line.distance_m * cosine(turn), offset_m: line.distance_m * sine(turn) };
}

/**
 * Holes on the straight line nearest to them all (the principal axis of their positions), running from the first
 * given towards the last, 0 at the hole that comes first along it. Holes without a position get null.
 */
export function sectionThrough(positions: readonly (Position | null)[]): (SectionPlace | null)[] {
  const known = positions.filter((p) => p !== null && isPosition(p)) as Position[];
  const origin = known[0];
  const last = known[known.length - 1];
  if (origin === undefined || last === undefined) return positions.map(() => null);

  // east and north of the first hole, then the axis of largest spread
  const plane = known.map((p) => onLine(origin, 0, p));
  const n = plane.length;
  const north = plane.reduce((s, p) => s + p.along_m, 0) / n;
  const east = plane.reduce((s, p) => s + p.offset_m, 0) / n;
  let nn = 0;
  let ee = 0;
  let ne = 0;
  for (const p of plane) {
    nn += square(p.along_m - north);
    ee += square(p.offset_m - east);
    ne += (p.along_m - north) * (p.offset_m - east);
  }
  let axis = atan2(2 * ne, nn - ee) / 2;
  const towards = plane[n - 1]!;
  if (towards.along_m * cosine(axis) + towards.offset_m * sine(axis) < 0) axis += Math.PI;

  const cos = cosine(axis);
  const sin = sine(axis);
  const places = positions.map((p) => {
    if (p === null || !isPosition(p)) return null;
    const q = onLine(origin, 0, p);
    const dn = q.along_m - north;
    const de = q.offset_m - east;
    return { along_m: dn * cos + de * sin, offset_m: de * cos - dn * sin };
  });
  const first = Math.min(...places.flatMap((p) => (p === null ? [] : [p.along_m])));
  return places.map((p) => (p === null ? null : { along_m: p.along_m - first, offset_m: p.offset_m }));
}

function isPosition(p: Position): boolean {
  return Math.abs(p.latitude_deg) <= 90 && Number.isFinite(p.longitude_deg);
}

/** Where on the Earth a map lies: the land around it, as it is seen from above its middle (azimuthal equidistant, on a sphere). */
import type { Rect } from '@stillstand/output/drawing';
import type { Land } from '@stillstand/output/shapes';
import { atan2, cos, sin, square } from '@stillstand/science/base';
import type { Position } from '@stillstand/science/survey';
import { freePlace } from './free-place.ts';

type Point = readonly [x: number, y: number];

export interface Inset {
  /** Middle and radius, points. */
  x: number;
  y: number;
  r: number;
  /** Rings to be filled, from the middle of the inset; those that hold no land run the other way. */
  land: Point[][];
}

/** Of the inset, points; and what it shows, degrees from its middle: half a continent. */
export const RADIUS = 24;
export const SHOWN_DEG = 40;
const INDENT = 4;
const RADIAN = Math.PI / 180;

/** In a corner of the frame that is free, one off the shore first; null where none is, or no land is known. */
export function insetIn(
  frame: Rect,
  middle: Position,
  land: readonly Land[],
  { taken, shore }: { taken: readonly Rect[]; shore: readonly Rect[] },
): Inset | null {
  const size = 2 * RADIUS + 2 * INDENT;
  if (land.length === 0 || frame.x2 - frame.x1 < 2.5 * size || frame.y2 - frame.y1 < 2 * size) return null;
  const cornerAt = (x1: number, y1: number): Rect => ({ x1, y1, x2: x1 + size, y2: y1 + size });
  const corners = [
    cornerAt(frame.x2 - size, frame.y1),
    cornerAt(frame.x1, frame.y1),
    cornerAt(frame.x2 - size, frame.y2 - size),
    cornerAt(frame.x1, frame.y2 - size),
  ];
  const corner = freePlace(corners, taken, shore);
  if (corner === null) return null;
  return {
    x: corner.x1 + size / 2,
    y: corner.y1 + size / 2,
    r: RADIUS,
    land: land.flatMap((piece) => ringsOf(piece, middle)),
  };
}

export const insetRect = ({ x, y, r }: Inset): Rect => ({ x1: x - r, x2: x + r, y1: y - r, y2: y + r });

/** The whole Earth lies within this of the middle, points. */
const ALL = (RADIUS / SHOWN_DEG) * 180;

function ringsOf(piece: Land, middle: Position): Point[][] {
  const rings = piece.map((ring) => ring.map(([lon, lat]) => seen(lon, lat, middle)));
  const [outer] = rings;
  // What has the other side of the Earth in it comes out turned inside out: the Earth's rim makes it whole.
  const isTurned = outer !== undefined && signedArea(outer) < 0;
  const drawn = rings.filter((ring) => ring.some(([x, y]) => square(x) + square(y) < square(1.2 * RADIUS)));
  return isTurned ? [...rings, RIM] : drawn;
}

const RIM: Point[] = Array.from({ length: 36 }, (_, i) => [
  1.1 * ALL * cos(10 * i * RADIAN),
  1.1 * ALL * sin(10 * i * RADIAN),
]);

/** Twice the area, positive for a ring that runs as the outer rings of the land do on paper. */
const signedArea = (ring: readonly Point[]): number =>
  ring.reduce((sum, [x2, y2], i) => {
    const [x1, y1] = ring.at(i - 1)!;
    return sum + (x1 * y2 - x2 * y1);
  }, 0);

function seen(longitude_deg: number, latitude_deg: number, middle: Position): Point {
  const [lat, lat0] = [latitude_deg * RADIAN, middle.latitude_deg * RADIAN];
  const lon = (longitude_deg - middle.longitude_deg) * RADIAN;
  const east = cos(lat) * sin(lon);
  const north = cos(lat0) * sin(lat) - sin(lat0) * cos(lat) * cos(lon);
  const up = sin(lat0) * sin(lat) + cos(lat0) * cos(lat) * cos(lon);
  const across = Math.sqrt(square(east) + square(north));
  const k = across === 0 ? 0 : ((RADIUS / SHOWN_DEG) * (atan2(across, up) / RADIAN)) / across;
  return [east * k, -north * k];
}

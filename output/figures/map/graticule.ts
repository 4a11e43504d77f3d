/** Meridians and parallels of the plate's map at round decimal degrees, and what is written at them. */
import { multiples, type Rect, roundLength, textWidth } from '@stillstand/output/drawing';
import { printed } from '@stillstand/output/words';
import type { Position } from '@stillstand/science/survey';
import { freePlace } from './free-place.ts';

type Point = readonly [x: number, y: number];

export interface Degrees extends Rect {
  words: string;
}

/** Under the frame, for the degrees of the meridians, points. */
export const DEGREES_ROOM = 9;
const HEIGHT = 7.4;

/** Degrees within ±180, so that a map may lie across the date line. */
export const turned = (deg: number): number => deg - 360 * Math.round(deg / 360);

/** Of a line across the map: so many pieces, for it is curved where the map is large. */
const PIECES = 8;
const POLE = 89.9;
/** Degrees from the middle at which its scales are taken. */
const NEAR = 0.01;

/** The middle on paper, and points to a degree there, east and north. */
export function scalesAt(middle: Position, at: (place: Position) => Point) {
  const [x0, y0] = at(middle);
  // Towards the equator: no pole is in the way.
  const step = middle.latitude_deg > 0 ? -NEAR : NEAR;
  const [, y] = at({ ...middle, latitude_deg: middle.latitude_deg + step });
  const [x] = at({ ...middle, longitude_deg: middle.longitude_deg + NEAR });
  return { x0, y0, east_k: (x - x0) / NEAR, north_k: (y0 - y) / step };
}

/** Two or more lines of each kind, and the places where what is written at them may stand, the best first. */
export function graticule(middle: Position, at: (place: Position) => Point, frame: Rect) {
  const { y0, east_k, north_k } = scalesAt(middle, at);
  // Next to a pole no meridian is straight enough to be drawn so.
  if (!(east_k > 0 && north_k > 0)) return { meridians: [], parallels: [], degrees: [] };
  const half = Math.min(180, frame.x2 / 2 / east_k);
  const [west, east] = [middle.longitude_deg - half, middle.longitude_deg + half];
  const south = Math.max(-POLE, middle.latitude_deg - (frame.y2 - y0) / north_k);
  const north = Math.min(POLE, middle.latitude_deg + y0 / north_k);
  const between = (low: number, high: number): number[] =>
    Array.from({ length: PIECES + 1 }, (_, i) => low + ((high - low) * i) / PIECES);
  const [across, up] = [roundLength((east - west) / 2), roundLength((north - south) / 2)];
  const meridians = multiples(west, east, across).map((longitude_deg) => ({
    words: degrees(turned(longitude_deg), across, 'E', 'W'),
    points: between(south, north).map((latitude_deg) => at({ latitude_deg, longitude_deg })),
  }));
  const parallels = multiples(south, north, up).map((latitude_deg) => ({
    words: degrees(latitude_deg, up, 'N', 'S'),
    points: between(west, east).map((longitude_deg) => at({ latitude_deg, longitude_deg })),
  }));
  return {
    meridians: meridians.map(({ points }) => points),
    parallels: parallels.map(({ points }) => points),
    degrees: [
      ...meridians.map(({ words, points }) => [under(frame, words, points[0]![0])]),
      // Inside the frame over its line, at the left or at the right.
      ...parallels.map(({ words, points }) => [
        box(words, frame.x1 + 3, points[0]![1] - 8.4),
        box(words, frame.x2 - 3 - textWidth(words), points.at(-1)![1] - 8.4),
      ]),
    ].map((places) =>
      places.filter(
        (r) => r.x1 >= frame.x1 && r.x2 <= frame.x2 && r.y1 >= frame.y1 && r.y2 <= frame.y2 + DEGREES_ROOM,
      ),
    ),
  };
}

/** Under the line, or as near to it as the ends of the frame let it. */
const under = ({ x1, x2, y2 }: Rect, words: string, x: number): Degrees => {
  const width = textWidth(words);
  return box(words, Math.max(x1, Math.min(x2 - width, x - width / 2)), y2 + 1.6);
};

const box = (words: string, x1: number, y1: number): Degrees => ({
  words,
  x1,
  x2: x1 + textWidth(words),
  y1,
  y2: y1 + HEIGHT,
});

/** 46.41° S, with the decimals of the step. */
function degrees(deg: number, step: number, plus: string, minus: string): string {
  const decimals = String(Number(step.toFixed(6))).split('.')[1]?.length ?? 0;
  return `${printed(Math.abs(deg), decimals)}°${deg === 0 ? '' : ` ${deg < 0 ? minus : plus}`}`;
}

/** Between the degrees of two meridians, points. */
const APART = 5;

/** Of each label the first place that is free, one off the shore before one over it, if any. */
export function freeDegrees(
  labels: readonly Degrees[][],
  taken: readonly Rect[],
  shore: readonly Rect[],
): Degrees[] {
  const used = [...taken];
  return labels.flatMap((places) => {
    const free = freePlace(places, used, shore, APART);
    if (free === null) return [];
    used.push(free);
    return [free];
  });
}

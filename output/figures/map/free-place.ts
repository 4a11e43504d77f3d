/** Where there is room on a map. */
import { overlaps, type Rect } from '@stillstand/output/drawing';

/** The first place that is free, one off the shore before one over it; null where none is. `apart`: to the left and right, points. */
export function freePlace<Place extends Rect>(
  places: readonly Place[],
  taken: readonly Rect[],
  shore: readonly Rect[] = [],
  apart = 0,
): Place | null {
  const isOff =
    (rects: readonly Rect[]) =>
    (place: Place): boolean =>
      !rects.some((rect) => overlaps({ ...place, x1: place.x1 - apart, x2: place.x2 + apart }, rect));
  const free = places.filter(isOff(taken));
  return free.find(isOff(shore)) ?? free[0] ?? null;
}

/** Where the names on the map are written: beside their hole where that is free, else led off to where it is, never on another. */
import { SIZE, textWidth } from '@stillstand/output/drawing';

/** Names on the map, pixels. */
const FONT = 16;
const LINE = 20;
/** From the middle of a hole to its name, and the ring that no name covers. */
const AWAY = 12;
const RING = 9;

export interface Labelled {
  name: string;
  x: number;
  y: number;
}

interface Box {
  left: number;
  right: number;
  top: number;
  bottom: number;
}

/** No lead is longer than so many lines. */
const FARTHEST = 12;

export interface PlacedName {
  /** Left end and baseline. */
  x: number;
  y: number;
  width: number;
}

/**
 * Where each name is written, the outermost holes first; null where the map has no room left near it: the hole is then named
 * when it is pointed at, and in the table.
 */
export function placeNames(
  holes: readonly Labelled[],
  frame: Box,
  /** What else is written there. */
  others: readonly Box[] = [],
): (PlacedName | null)[] {
  const taken: Box[] = [
    ...others,
    ...holes.map(({ x, y }) => ({ left: x - RING, right: x + RING, top: y - RING, bottom: y + RING })),
  ];
  const isFree = (box: Box): boolean =>
    box.left >= frame.left &&
    box.right <= frame.right &&
    box.top >= frame.top &&
    box.bottom <= frame.bottom &&
    taken.every(
      (other) =>
        box.right <= other.left ||
        box.left >= other.right ||
        box.bottom <= other.top ||
        box.top >= other.bottom,
    );
  const place = ({ name, x, y }: Labelled): PlacedName | null => {
    const width = Math.ceil((textWidth(name, { weight: 600 }) * FONT * 1.04) / SIZE.text);
    for (let step = 0; step < 2 * FARTHEST; step++) {
      // Level with the hole first, then a line down, a line up, two lines down …
      const down = Math.ceil(step / 2) * (step % 2 === 1 ? LINE : -LINE);
      for (const left of [x + AWAY, x - AWAY - width]) {
        const box = { left, right: left + width, top: y + down - 10, bottom: y + down + 9 };
        if (!isFree(box)) continue;
        taken.push(box);
        return { x: left, y: y + down + 5, width };
      }
    }
    return null;
  };
  const middle = {
    x: holes.reduce((sum, { x }) => sum + x, 0) / holes.length,
    y: holes.reduce((sum, { y }) => sum + y, 0) / holes.length,
  };
  const placed = new Map<Labelled, PlacedName | null>();
  const away = ({ x, y }: Labelled): number => Math.hypot(x - middle.x, y - middle.y);
  for (const hole of [...holes].sort((a, b) => away(b) - away(a))) placed.set(hole, place(hole));
  return holes.map((hole) => placed.get(hole) ?? null);
}

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
const FARTHEST = 3;

export interface PlacedName {
  /** Left end and baseline. */
  x: number;
  y: number;
  width: number;
}

/** Where each name is written; null where the map has no room near it: it is then shown when its hole is pointed at, and in the table. */
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
  const placed = new Map<Labelled, PlacedName>();
  // Level with the holes first, then a line down, a line up, two lines down …: the shortest leads of all before any longer one.
  for (let step = 0; step <= 2 * FARTHEST; step++) {
    const down = Math.ceil(step / 2) * (step % 2 === 1 ? LINE : -LINE);
    for (const hole of holes) {
      if (placed.has(hole)) continue;
      const { name, x, y } = hole;
      const width = Math.ceil((textWidth(name, { weight: 600 }) * FONT * 1.04) / SIZE.text);
      const left = [x + AWAY, x - AWAY - width].find((at) =>
        isFree({ left: at, right: at + width, top: y + down - 10, bottom: y + down + 9 }),
      );
      if (left === undefined) continue;
      taken.push({ left, right: left + width, top: y + down - 10, bottom: y + down + 9 });
      placed.set(hole, { x: left, y: y + down + 5, width });
    }
  }
  return holes.map((hole) => placed.get(hole) ?? null);
}

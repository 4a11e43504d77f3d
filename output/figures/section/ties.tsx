/** Contacts correlated between two holes of a section: a line from the base of a unit to that of another. */
import type { CorrelationResult } from '@stillstand/campaign/results';
import type { Rect, Scale } from '@stillstand/output/drawing';
import { square } from '@stillstand/science/base';
import type { Stand } from './layout.ts';

/** How a line is broken by how certain the correlation is; one that is not said is drawn as probable. */
export const tieDashes = (confidence: string | null): string | undefined =>
  confidence === 'certain' ? undefined : confidence === 'possible' ? '0.01 2.2' : '4 2.4';

type Point = [x: number, y: number];
/** Of a piece of a broken line, points. */
const SHORTEST = 4;

type Ends = Pick<CorrelationResult, 'hole_a' | 'unit_a_row_id' | 'hole_b' | 'unit_b_row_id'>;

/**
 * From the edge of the left staff to the next one, points, broken where it would run through what is written; null where
 * one of the two is not drawn.
 */
export function tieLine(
  { hole_a, unit_a_row_id, hole_b, unit_b_row_id }: Ends,
  stands: readonly Stand[],
  y: Scale,
  written: readonly Rect[],
): [Point, Point][] | null {
  const a = baseAt(stands, hole_a, unit_a_row_id, y);
  const b = baseAt(stands, hole_b, unit_b_row_id, y);
  if (a === null || b === null) return null;
  const [left, right] = a.x <= b.x ? [a, b] : [b, a];
  return outside(
    [
      [left.edge, left.y],
      [right.x, right.y],
    ],
    written,
  );
}

function baseAt(stands: readonly Stand[], label: string, row_id: string, y: Scale) {
  const stand = stands.find((s) => s.hole.hole === label);
  const unit = stand?.hole.units.find((u) => u.row_id === row_id);
  if (stand === undefined || unit === undefined) return null;
  return {
    x: stand.x,
    edge: stand.x + stand.width,
    y: y(stand.ground_m - unit.depth_bottom_m.value),
  };
}

/** The parts of a line outside all of the boxes, in order along it; pieces too short to be seen as a line are left out. */
export function outside(
  [[x1, y1], [x2, y2]]: readonly [Point, Point],
  boxes: readonly Rect[],
  least = SHORTEST,
): [Point, Point][] {
  const inside = boxes
    .flatMap((box): [number, number][] => {
      const [dx, dy] = [x2 - x1, y2 - y1];
      const [a, b] = [between(x1, dx, box.x1, box.x2), between(y1, dy, box.y1, box.y2)];
      const span: [number, number] = [Math.max(0, a[0], b[0]), Math.min(1, a[1], b[1])];
      return span[0] < span[1] ? [span] : [];
    })
    .sort((a, b) => a[0] - b[0]);
  const at = (share: number): Point => [x1 + share * (x2 - x1), y1 + share * (y2 - y1)];
  const shortest = least / Math.max(least, Math.sqrt(square(x2 - x1) + square(y2 - y1)));
  const parts: [Point, Point][] = [];
  let from = 0;
  for (const [start, end] of [...inside, [1, 1]] as const) {
    if (start - from >= shortest) parts.push([at(from), at(start)]);
    from = Math.max(from, end);
  }
  return parts;
}

/** The same of a line of many vertices: its parts outside all of the boxes; pieces too short to be seen are left out. */
export function linesOutside(
  line: readonly (readonly [number, number])[],
  boxes: readonly Rect[],
): (readonly [number, number])[][] {
  const parts: (readonly [number, number])[][] = [];
  let open = false;
  for (const [i, [x2, y2]] of line.slice(1).entries()) {
    const [x1, y1] = line[i]!;
    const own = outside(
      [
        [x1, y1],
        [x2, y2],
      ],
      boxes,
      0.001,
    );
    for (const [from, to] of own) {
      const last = parts.at(-1);
      const goesOn = open && last !== undefined && from[0] === x1 && from[1] === y1;
      if (goesOn) last.push(to);
      else parts.push([from, to]);
      open = true;
    }
    const end = own.at(-1)?.[1];
    open = end !== undefined && Math.abs(end[0] - x2) < 1e-9 && Math.abs(end[1] - y2) < 1e-9;
  }
  return parts.filter((part) => {
    const long = part
      .slice(1)
      .reduce((sum, [x, y], i) => sum + Math.sqrt(square(x - part[i]![0]) + square(y - part[i]![1])), 0);
    return long >= SHORTEST || part.length === line.length;
  });
}

/** Shares of the way along one axis, from `start` over `length`, between which it is within low and high. */
function between(start: number, length: number, low: number, high: number): [number, number] {
  if (length === 0) return start > low && start < high ? [-Infinity, Infinity] : [Infinity, -Infinity];
  const [a, b] = [(low - start) / length, (high - start) / length];
  return [Math.min(a, b), Math.max(a, b)];
}

/** Contacts correlated between two holes of a section: a line from the base of a unit to that of another. */
import type { CorrelationResult } from '@stillstand/campaign/results';
import { LINE, polyline, type Rect, type Scale, sedimentOfUnit, useInk } from '@stillstand/output/drawing';
import { square } from '@stillstand/science/base';
import { unitWidth } from './hung-column.tsx';
import type { Stand } from './layout.ts';

/** How a line is broken by how certain the correlation is; one that is not said is drawn as probable. */
export const tieDashes = (confidence: string | null): string | undefined =>
  confidence === 'certain' ? undefined : confidence === 'possible' ? '0.01 2.2' : '4 2.4';

type Point = [x: number, y: number];
/** Of a piece of a broken line, points. */
const SHORTEST = 4;

type Ends = Pick<CorrelationResult, 'hole_a' | 'unit_a_row_id' | 'hole_b' | 'unit_b_row_id'>;

/**
 * From the edge of the left column to the next one, points, broken where it would run through what is written; null where
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
    edge: stand.x + unitWidth(sedimentOfUnit(unit).grain, stand.width),
    y: y(stand.ground_m - unit.depth_bottom_m.value),
  };
}

/** The parts of a line outside all of the boxes, in order along it; pieces too short to be seen as a line are left out. */
export function outside(
  [[x1, y1], [x2, y2]]: readonly [Point, Point],
  boxes: readonly Rect[],
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
  const shortest = SHORTEST / Math.max(SHORTEST, Math.sqrt(square(x2 - x1) + square(y2 - y1)));
  const parts: [Point, Point][] = [];
  let from = 0;
  for (const [start, end] of [...inside, [1, 1]] as const) {
    if (start - from >= shortest) parts.push([at(from), at(start)]);
    from = Math.max(from, end);
  }
  return parts;
}

/** Shares of the way along one axis, from `start` over `length`, between which it is within low and high. */
function between(start: number, length: number, low: number, high: number): [number, number] {
  if (length === 0) return start > low && start < high ? [-Infinity, Infinity] : [Infinity, -Infinity];
  const [a, b] = [(low - start) / length, (high - start) / length];
  return [Math.min(a, b), Math.max(a, b)];
}

export function Ties({
  ties,
  stands,
  y,
  written,
}: {
  ties: readonly CorrelationResult[];
  stands: readonly Stand[];
  y: Scale;
  written: readonly Rect[];
}) {
  const ink = useInk();
  if (ties.length === 0) return null;
  return (
    <g id="section-ties" fill="none" stroke={ink.ink2} strokeWidth={LINE.edge} strokeLinecap="round">
      {ties.map((tie) => {
        const parts = tieLine(tie, stands, y, written);
        return parts === null ? null : (
          <path
            key={tie.row_id}
            d={parts.map(polyline).join('')}
            strokeDasharray={tieDashes(tie.confidence)}
          />
        );
      })}
    </g>
  );
}

/** The ground between the holes of a section, and what is clear of it. */
import { LINE, polyline, type Rect, type Scale, useInk } from '@stillstand/output/drawing';
import type { Stand } from './layout.ts';

export type Ground = readonly (readonly [x: number, y: number])[];

/** A fall over a hole's ages beyond this is left to the gap behind them, points: ages would hang far below it. */
const STEEP = 12;

/** Level over each hole and the marks beside it, straight between; points of paper from left to right. */
export function groundLine(stands: readonly Stand[], y: Scale, left: number, right: number): Ground {
  const first = stands[0];
  const last = stands.at(-1);
  if (first === undefined || last === undefined) return [];
  return [
    [Math.max(left - 8, first.x - 10), y(first.ground_m)],
    ...stands.flatMap((s, i): [number, number][] => {
      const next = stands[i + 1];
      const over = s.labels.length > 0 ? s.width : s.width * 0.8;
      const end = s.x + s.width + s.lane;
      const start = next === undefined ? end : next.x - 2;
      const fall = next === undefined ? 0 : y(next.ground_m) - y(s.ground_m);
      const share = Math.min(1, (end - s.x - over) / Math.max(1, start - s.x - over));
      const flat = fall * share > STEEP ? Math.min(end, start) : Math.min(s.x + over, start);
      return [
        [s.x - 2, y(s.ground_m)],
        [Math.max(s.x, flat), y(s.ground_m)],
      ];
    }),
    [Math.min(right, last.x + last.width + 26), y(last.ground_m)],
  ];
}

/** The lowest the ground lies between two places across, as y. */
export function lowestGround(ground: Ground, x1: number, x2: number): number {
  const inside = ground.filter(([x]) => x > x1 && x < x2).map(([, y]) => y);
  return Math.max(...inside, groundAt(ground, x1), groundAt(ground, x2));
}

/** As y; beyond its ends that of the nearest. */
export function groundAt(ground: Ground, x: number): number {
  const after = ground.findIndex(([at]) => at >= x);
  if (after <= 0) return ground[after === 0 ? 0 : ground.length - 1]?.[1] ?? 0;
  const [a, b] = [ground[after - 1]!, ground[after]!];
  return b[0] === a[0] ? b[1] : a[1] + ((x - a[0]) / (b[0] - a[0])) * (b[1] - a[1]);
}

/** Whether a box touches the ground line. */
export function touchesGround(ground: Ground, { x1, x2, y1, y2 }: Rect): boolean {
  const first = ground[0]?.[0] ?? Infinity;
  const last = ground.at(-1)?.[0] ?? -Infinity;
  if (x2 < first || x1 > last) return false;
  const ys = [
    groundAt(ground, Math.max(x1, first)),
    groundAt(ground, Math.min(x2, last)),
    ...ground.filter(([x]) => x > x1 && x < x2).map(([, y]) => y),
  ];
  return Math.max(...ys) > y1 && Math.min(...ys) < y2;
}

export function GroundLine({ ground }: { ground: Ground }) {
  const ink = useInk();
  return (
    <g id="section-ground">
      <path
        d={polyline(ground)}
        stroke={ink.ink}
        strokeWidth={LINE.page}
        strokeLinejoin="round"
        fill="none"
      />
    </g>
  );
}

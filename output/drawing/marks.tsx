/** The marks of points, samples and states. Shape first, then word, then colour: any one of them is enough. */
import type { PointResult } from '@stillstand/campaign/results';
import { LINE, useInk } from './ink.ts';
import { box, dot, horizontal, line, move, polygon, polyline, r2, vertical, wave } from './path.ts';

/** Filled when dated, open when not. */
export function Lozenge({
  x,
  y,
  filled,
  size = 3.2,
}: {
  x: number;
  y: number;
  filled: boolean;
  size?: number;
}) {
  const ink = useInk();
  return (
    <path
      d={polygon([
        [x - size * 1.2, y],
        [x, y - size],
        [x + size * 1.2, y],
        [x, y + size],
      ])}
      fill={filled ? ink.ink : ink.paper}
      stroke={ink.ink}
      strokeWidth={LINE.edge}
    />
  );
}

/** Where a point stands on paper: 95 % of its age across, 2 sd of its height up and down. */
export interface PointPlace {
  x1: number;
  x2: number;
  /** Median of the age. */
  x: number;
  y: number;
  /** 2 sd of the height, in points of paper. */
  spread: number;
}

const ticks = (p: PointPlace, towards: number): string => {
  const n = Math.max(2, Math.min(9, Math.round((p.x2 - p.x1) / 3)));
  let d = '';
  for (let i = 0; i < n; i++) {
    const x = p.x1 + ((p.x2 - p.x1) * (i + (n === 2 ? 0.25 + i * -0.5 + 0.25 : 0.5))) / n;
    d += vertical(x, p.y, p.y + towards * p.spread);
  }
  return d;
};

type PointKind = Pick<PointResult, 'kind' | 'position' | 'status'>;

/** The least a mark may shrink to, so that a very good point is still seen. */
const LEAST_WIDTH = 3;
const LEAST_SPREAD = 1.6;

export function PointMark({ point, at }: { point: PointKind; at: PointPlace }) {
  const ink = useInk();
  const half = Math.max(at.x2 - at.x1, LEAST_WIDTH) / 2;
  const middle = (at.x1 + at.x2) / 2;
  const p: PointPlace = {
    ...at,
    x1: middle - half,
    x2: middle + half,
    spread: Math.max(at.spread, LEAST_SPREAD),
  };
  const rejected = point.status === 'rejected';
  const dotted = { strokeLinecap: 'round' as const, strokeDasharray: '0.01 1.3' };
  if (point.kind === 'index') {
    const d = box(p.x1, p.y - p.spread, p.x2, p.y + p.spread);
    if (rejected) {
      return (
        <g fill="none" stroke={ink.ink2}>
          <path d={d} strokeWidth={LINE.edge} {...dotted} />
          <Struck at={p} up={p.spread} down={p.spread} />
        </g>
      );
    }
    const basal = point.position === 'basal' || point.position === 'base_of_basal';
    return (
      <g>
        <path d={d} fill={ink.paper} fillOpacity={0.78} stroke={ink.ink} strokeWidth={LINE.edge} />
        {basal ? (
          <path
            d={horizontal(p.x1 - 0.9, p.x2 + 0.9, p.y + p.spread + 0.3)}
            stroke={ink.ink}
            strokeWidth={1.9}
            fill="none"
          />
        ) : null}
        <path d={dot(p.x, p.y)} stroke={ink.ink} strokeWidth={1.7} strokeLinecap="round" />
      </g>
    );
  }
  const terrestrial = point.kind === 'terrestrial';
  const colour = rejected ? ink.ink2 : terrestrial ? ink.ink : ink.sea;
  const towards = terrestrial ? 1 : -1;
  const bar = terrestrial ? horizontal(p.x1, p.x2, p.y) : wave(p.x1, p.x2, p.y, 2.2, 0.7);
  return (
    <g fill="none" stroke={colour}>
      <path d={bar} strokeWidth={rejected ? LINE.bold : 1.5} {...(rejected ? dotted : {})} />
      <path d={ticks(p, towards)} strokeWidth={LINE.edge} {...(rejected ? dotted : {})} />
      {rejected ? <Struck at={p} up={terrestrial ? 0 : p.spread} down={terrestrial ? p.spread : 0} /> : null}
    </g>
  );
}

function Struck({ at, up, down }: { at: PointPlace; up: number; down: number }) {
  return (
    <path
      d={`${move(at.x1 - 1.8, at.y + down + 1.8)}${line(at.x2 + 1.8, at.y - up - 1.8)}`}
      strokeWidth={LINE.edge}
    />
  );
}

/** Length of an arrow to what lies beyond an edge, points. */
export const EDGE_ARROW = 13;

/** To what lies beyond the edge at x: its left one, else its right. */
export function EdgeArrow({
  x,
  y,
  isLeft,
  voice = 'ink',
  rejected = false,
}: {
  x: number;
  y: number;
  isLeft: boolean;
  voice?: 'ink' | 'sea';
  rejected?: boolean;
}) {
  const ink = useInk();
  const way = isLeft ? 1 : -1;
  const colour = rejected ? ink.ink2 : ink[voice];
  return (
    <g>
      <path
        d={polyline([
          [x + way * EDGE_ARROW, y],
          [x + way * 2, y],
        ])}
        stroke={colour}
        strokeWidth={LINE.bold}
        fill="none"
        {...(rejected ? { strokeDasharray: '0.01 1.6', strokeLinecap: 'round' as const } : {})}
      />
      <path
        d={polygon([
          [x, y],
          [x + way * 4.4, y - 2],
          [x + way * 4.4, y + 2],
        ])}
        fill={colour}
      />
    </g>
  );
}

/** Upright triangle: look out. */
export function CautionMark({ x, y }: { x: number; y: number }) {
  const ink = useInk();
  return (
    <g>
      <path
        d={polygon([
          [x, y - 6],
          [x + 3.6, y],
          [x - 3.6, y],
        ])}
        fill={ink.caution}
      />
      <path
        d={`${vertical(x, y - 4, y - 2.1)}${dot(x, y - 1)}`}
        stroke={ink.paper}
        strokeWidth={0.7}
        strokeLinecap="round"
        fill="none"
      />
    </g>
  );
}

/** Octagon: stop. */
export function StopMark({ x, y }: { x: number; y: number }) {
  const ink = useInk();
  // Half the width of an octagon 7 points across, and half its side.
  const [w, h] = [3.5, 1.45];
  const corners = [
    [h, -w],
    [w, -h],
    [w, h],
    [h, w],
    [-h, w],
    [-w, h],
    [-w, -h],
    [-h, -w],
  ].map(([dx, dy]): [number, number] => [x + dx!, y + dy!]);
  return (
    <g>
      <path d={polygon(corners)} fill={ink.caution} />
      <path d={horizontal(x - 1.9, x + 1.9, y)} stroke={ink.paper} strokeWidth={1} fill="none" />
    </g>
  );
}

/** Two waves out of step: not converged. */
export function NotConvergedMark({ x, y }: { x: number; y: number }) {
  const ink = useInk();
  return (
    <g fill="none" stroke={ink.caution} strokeWidth={0.9} strokeLinecap="round">
      <path d={wave(x - 4, x + 4, y - 3.8, 4, 0.9)} />
      <path d={`M${r2(x - 4)} ${r2(y - 1)}q2 1.8 4 0t4 0`} />
    </g>
  );
}

/** Broken ring: assumed, not measured. */
export function AssumedMark({ x, y }: { x: number; y: number }) {
  const ink = useInk();
  return (
    <circle
      cx={r2(x)}
      cy={r2(y)}
      r={2.4}
      fill="none"
      stroke={ink.ink}
      strokeWidth={0.9}
      strokeDasharray="1.5 1.01"
    />
  );
}

/** Two links: shared with other points. */
export function SharedMark({ x, y }: { x: number; y: number }) {
  const ink = useInk();
  return (
    <g fill="none" stroke={ink.ink} strokeWidth={0.8}>
      <circle cx={r2(x - 1.5)} cy={r2(y)} r={2.1} />
      <circle cx={r2(x + 1.5)} cy={r2(y)} r={2.1} />
    </g>
  );
}

/** Lines across a shape, for what has not converged; drawn inside the clip named `id`. */
export function Hatching({
  id,
  d,
  x1,
  x2,
  y1,
  y2,
  apart = 3,
}: {
  id: string;
  d: string;
  x1: number;
  x2: number;
  y1: number;
  y2: number;
  apart?: number;
}) {
  const ink = useInk();
  let lines = '';
  const height = y2 - y1;
  for (let x = x1 - height; x < x2; x += apart)
    lines += polyline([
      [x, y2],
      [x + height, y1],
    ]);
  return (
    <g>
      <clipPath id={id}>
        <path d={d} />
      </clipPath>
      <g clipPath={`url(#${id})`}>
        <path d={lines} stroke={ink.caution} strokeWidth={0.6} fill="none" />
      </g>
    </g>
  );
}

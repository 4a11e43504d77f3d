/** A lane of a log: a quantity across on a lying staff, depth down beside an upright one. */

import {
  horizontal,
  LINE,
  LyingStaff,
  multiples,
  Ruling,
  type Scale,
  scale,
  staffStep,
  Text,
  UprightStaff,
  useInk,
  vertical,
} from '@stillstand/output/drawing';
import type { ReactNode } from 'react';

/** Room above the ground for heads and lying staffs, points. */
export const TRACK_HEAD = 38;
/** Left edge of the staff of depth, and of the first lane. */
const DEPTH_STAFF = 20;
export const FIRST_LANE = 34;

/** Depth down the page, from the ground to `bottom_m`. */
export function depthScale(bottom_m: number, least: number, most: number, perMetre = 24): Scale {
  const height = Math.min(most, Math.max(least, bottom_m * perMetre));
  return scale(0, bottom_m, TRACK_HEAD, TRACK_HEAD + height);
}

/** Two lines over a lane. */
export function Head({ x, first, second }: { x: number; first: string; second: string }) {
  return (
    <g>
      <Text x={x} y={7} weight={600}>
        {first}
      </Text>
      {second === '' ? null : (
        <Text x={x} y={15.5} voice="ink2">
          {second}
        </Text>
      )}
    </g>
  );
}

export function DepthStaff({ depth }: { depth: Scale }) {
  return (
    <g>
      <Head x={0} first="depth" second="m" />
      <UprightStaff
        x={DEPTH_STAFF}
        scale={depth}
        low={0}
        high={depth.to}
        sign={false}
        {...staffStep(depth.k, 14, 18)}
      />
    </g>
  );
}

interface TrackProps {
  /** Across; its range is drawn whole. */
  across: Scale;
  depth: Scale;
  first: string;
  second: string;
  /** Least points of a block of the staff, and between its labels. */
  least?: number;
  room?: number;
  children: ReactNode;
}

/** The ground is the bold line on top; faint lines stand at the labels of the staff. */
export function Track({ across, depth, first, second, least = 9, room = 20, children }: TrackProps) {
  const ink = useInk();
  const x1 = across(across.from);
  const x2 = across(across.to);
  const y1 = depth(0);
  const y2 = depth(depth.to);
  const step = staffStep(across.k, least, room);
  return (
    <g>
      <Head x={x1} first={first} second={second} />
      <Ruling
        at={multiples(across.from, across.to, step.step * step.every)}
        d={(value) => vertical(across(value), y1, y2)}
      />
      {children}
      <path
        d={vertical(x1, y1, y2) + horizontal(x1, x2, y2)}
        stroke={ink.ink}
        strokeWidth={LINE.fine}
        fill="none"
      />
      <LyingStaff y={y1 - 3.4} scale={across} low={across.from} high={across.to} labels="above" {...step} />
    </g>
  );
}

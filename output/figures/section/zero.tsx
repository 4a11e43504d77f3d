/** The zero of the heights across a section, called by its datum where a gap between columns has room for the words. */
import {
  DASHED,
  horizontal,
  LINE,
  type Rect,
  type Scale,
  Text,
  textWidth,
  useInk,
} from '@stillstand/output/drawing';
import { type Ground, touchesGround } from './ground.tsx';
import type { Stand } from './layout.ts';

const WATER = { face: 'water', size: 7.5 } as const;

/** Ages of samples no nearer the zero than this are not written on it, points. */
const NEAR = 24;

interface ZeroProps {
  y: Scale;
  label: string;
  stands: readonly Stand[];
  ground: Ground;
  left: number;
  right: number;
}

/** Where its words stand; null where no gap has room for them. */
export function zeroWords({ y, label, stands, ground, left, right }: ZeroProps): Rect | null {
  const width = textWidth(label, WATER);
  const isNear = ({ dates }: Stand): boolean =>
    dates.some(({ elevation_m }) => Math.abs(y(elevation_m) - y(0)) < NEAR);
  const ends = [left - 6, ...stands.map((s) => s.x + s.width + (isNear(s) ? s.lane : 4))];
  const starts = [...stands.map((s) => s.x), right];
  // The widest gap first, under the line before over it.
  const place = ends
    .map((end, i) => ({ room: starts[i]! - end, middle: (starts[i]! + end) / 2 }))
    .filter(({ room }) => room > width + 4)
    .sort((a, b) => b.room - a.room)
    .flatMap(({ middle }): Rect[] =>
      [y(0) + 1.5, y(0) - 9].map((y1) => ({
        x1: middle - width / 2,
        x2: middle + width / 2,
        y1,
        y2: y1 + 7.5,
      })),
    )
    .find((rect) => !touchesGround(ground, { ...rect, y1: rect.y1 - 1, y2: rect.y2 + 1 }));
  return place ?? null;
}

export function Zero(props: ZeroProps) {
  const ink = useInk();
  const { y, label, right } = props;
  const place = zeroWords(props);
  return (
    <g>
      <path
        d={horizontal(30, right, y(0))}
        stroke={ink.sea}
        strokeWidth={LINE.edge}
        {...DASHED}
        fill="none"
      />
      {place === null ? null : (
        <Text x={place.x1} y={place.y2 - 1.6} {...WATER} voice="sea" halo>
          {label}
        </Text>
      )}
    </g>
  );
}

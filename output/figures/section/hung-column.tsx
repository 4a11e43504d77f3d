/** One hole of a section: a staff by metre of depth, or calmly what is known of a lost one. */

import { isGivenUp } from '@stillstand/campaign/holes';
import {
  box,
  crossed,
  DOTTED,
  horizontal,
  LINE,
  move,
  type Rect,
  type Scale,
  Text,
  textWidth,
  useInk,
  vertical,
} from '@stillstand/output/drawing';
import { printed } from '@stillstand/output/words';
import { AXIS, type Stand } from './layout.ts';

/** Blocks of the staff are no shorter than this, points. */
const LEAST_BLOCK = 2;

/** Metres of depth to a black or white block. */
export const blockOfStaff = (y: Scale): number =>
  [1, 2, 5, 10, 20, 50, 100].find((metres) => metres * Math.abs(y.k) >= LEAST_BLOCK) ?? 200;

interface ColumnProps {
  stand: Stand;
  y: Scale;
  /** Its place in the section, for ids and patterns. */
  number: number;
  /** Where the next hole begins, or the drawing ends. */
  limit: number;
}

export function SectionLog({ stand, y, number, limit }: ColumnProps) {
  const ink = useInk();
  const { hole, x, width } = stand;
  const [ground, foot] = [y(stand.ground_m), y(stand.bottom_m)];
  const stringX = x + width * AXIS;
  const lost = isGivenUp(hole.state);
  const fate = fateOf(stand, y, limit);
  return (
    <g id={`section-hole-${number}`}>
      {hole.units.length > 0 ? (
        <Staff stand={stand} y={y} />
      ) : (
        <g fill="none" stroke={ink.ink2}>
          <path
            d={vertical(stringX - 2, ground, foot) + vertical(stringX + 2, ground, foot)}
            strokeWidth={LINE.edge}
            {...DOTTED}
          />
          {lost ? <path d={`${move(stringX - 3, foot - 3)}l6 6m0 -6l-6 6`} strokeWidth={LINE.edge} /> : null}
        </g>
      )}
      {fate === null ? null : (
        <Text x={fate.x1} y={foot + 9} voice="ink2" halo>
          {fate.words}
        </Text>
      )}
    </g>
  );
}

/** What became of a hole that was given up, under it, where there is room; the caption says it in any case. */
function fateOf(stand: Stand, y: Scale, limit: number): (Rect & { words: string }) | null {
  const { hole, x, width } = stand;
  if (!isGivenUp(hole.state) || stand.labels.length > 0) return null;
  const words = `${hole.state} at ${printed(stand.ground_m - stand.bottom_m, 2)} m`;
  const x1 = hole.units.length > 0 ? x : x + width * AXIS - 3;
  const x2 = x1 + textWidth(words);
  const foot = y(stand.bottom_m);
  return x2 + 2 < limit ? { words, x1, x2, y1: foot + 3, y2: foot + 11 } : null;
}

/** Boxes of all such words. */
export const fates = (stands: readonly Stand[], y: Scale, right: number): Rect[] =>
  stands.flatMap((stand, i) => fateOf(stand, y, stands[i + 1]?.x ?? right) ?? []);

/** Black and white from the ground down, closed at the foot; crossed where no core is. */
function Staff({ stand: { hole, x, width, ground_m, bottom_m }, y }: { stand: Stand; y: Scale }) {
  const ink = useInk();
  const metres = blockOfStaff(y);
  const depth = ground_m - bottom_m;
  const at = (m: number): number => y(ground_m - Math.min(m, depth));
  const black = Array.from({ length: Math.ceil(depth / metres) }, (_, i) => i)
    .filter((i) => i % 2 === 0)
    .map((i) => box(x, at(i * metres), x + width, at((i + 1) * metres)));
  return (
    <g>
      <path
        d={box(x, at(0), x + width, at(depth))}
        fill={ink.paper}
        stroke={ink.ink}
        strokeWidth={LINE.edge}
      />
      <path d={black.join('')} fill={ink.ink} />
      {hole.not_represented.map((gap) => (
        <path
          key={gap.top_m}
          d={crossed(x, at(gap.top_m), x + width, at(gap.bottom_m))}
          fill={ink.paper}
          stroke={ink.ink}
          strokeWidth={0.5}
        />
      ))}
      <path d={horizontal(x - 2.5, x + width + 2.5, at(depth))} stroke={ink.ink} strokeWidth={LINE.bold} />
    </g>
  );
}

/** Names of horizons on the lines of their correlations, each once, where it runs over nothing that is written. */
import type { CorrelationResult } from '@stillstand/campaign/results';
import { overlaps, type Rect, type Scale, Text, textWidth } from '@stillstand/output/drawing';
import { type DrawnContact, lengthOf, pointAlong } from './contacts.tsx';
import { type Ground, lowestGround } from './ground.tsx';
import type { Stand } from './layout.ts';
import type { Paper } from './on-paper.ts';
import { tieLine } from './ties.tsx';

type Named = Pick<
  CorrelationResult,
  'row_id' | 'hole_a' | 'unit_a_row_id' | 'hole_b' | 'unit_b_row_id' | 'horizon'
>;

/** Above and below the middle of a line, and at both ends of a name, points. */
const [ABOVE, BELOW, ENDS] = [4.5, 5, 2];

interface PlacedHorizon {
  name: string;
  x: number;
  y: number;
  /** The lines of correlations are broken by it. */
  box: Rect;
}

/** A name that has room on none of its lines is left out. */
export function placedHorizons(
  ties: readonly Named[],
  contacts: readonly DrawnContact[],
  stands: readonly Stand[],
  y: Scale,
  ground: Ground,
  written: readonly Rect[],
): PlacedHorizon[] {
  const columns = stands.map(
    ({ x, width, ground_m, bottom_m }): Rect => ({ x1: x, x2: x + width, y1: y(ground_m), y2: y(bottom_m) }),
  );
  const taken = [...written, ...columns];
  const named = Map.groupBy(
    ties.filter(({ horizon }) => horizon !== null),
    ({ horizon }) => horizon!.toLowerCase(),
  );
  return [...named.values()].flatMap((of) => {
    const name = of[0]!.horizon!;
    const half = textWidth(name) / 2 + ENDS;
    const places = of
      .flatMap((tie): (readonly Paper[])[] => {
        const own = contacts.filter(({ contact }) => contact.tie === tie.row_id).map(({ line }) => line);
        return own.length > 0 ? own : (tieLine(tie, stands, y, written) ?? []);
      })
      .map((line) => ({ line, length: lengthOf(line) }))
      .filter(({ length }) => length >= 2 * half)
      .flatMap(({ line, length }) =>
        [0.5, 0.35, 0.65].map((share) => {
          const [x, y] = pointAlong(line, share * length);
          return { x, y };
        }),
      );
    const at = places.find((place) => {
      const box = boxOf(place, half);
      return box.y1 > lowestGround(ground, box.x1, box.x2) && !taken.some((other) => overlaps(box, other));
    });
    if (at === undefined) return [];
    const box = boxOf(at, half);
    taken.push(box);
    return [{ name, ...at, box }];
  });
}

const boxOf = ({ x, y }: { x: number; y: number }, half: number): Rect => ({
  x1: x - half,
  x2: x + half,
  y1: y - ABOVE,
  y2: y + BELOW,
});

export function HorizonNames({ placed }: { placed: readonly PlacedHorizon[] }) {
  if (placed.length === 0) return null;
  return (
    <g id="section-horizons">
      {placed.map(({ name, x, y }) => (
        <Text key={name} x={x} y={y + 2.4} anchor="middle" halo>
          {name}
        </Text>
      ))}
    </g>
  );
}

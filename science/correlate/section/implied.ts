/** Ties that follow from others: two contacts tied to a third in another hole are one. */
import { unions } from '@stillstand/science/base';
import type { SectionTie } from './shape.ts';
import type { Layer, Stack } from './stack.ts';

const WEAKEST = ['certain', 'probable', 'possible'];

/**
 * Between neighbours that no row ties: each takes the first row of those it follows from, their name, and the least
 * certain word of them. A contact that would be tied to two of one hole is left out.
 */
export function impliedTies(stacks: readonly Stack[], ties: readonly SectionTie[]): SectionTie[] {
  const { root, join } = unions();
  for (const { unit_a, unit_b } of ties) join(unit_a, unit_b);
  const groups = Map.groupBy(ties, ({ unit_a }) => root(unit_a));
  return stacks.slice(1).flatMap((right, i): SectionTie[] => {
    const left = stacks[i]!;
    return [...groups].flatMap(([id, rows]): SectionTie[] => {
      const inGroup = ({ layers }: Stack): Layer[] =>
        layers.filter((layer) => layer.id !== null && root(layer.id) === id);
      const [ofLeft, ofRight] = [inGroup(left), inGroup(right)];
      if (ofLeft.length !== 1 || ofRight.length !== 1) return [];
      const holes = [left.hole, right.hole];
      if (rows.some(({ hole_a, hole_b }) => holes.includes(hole_a) && holes.includes(hole_b))) return [];
      return [
        {
          row_id: rows[0]!.row_id,
          hole_a: left.hole,
          unit_a: ofLeft[0]!.id!,
          hole_b: right.hole,
          unit_b: ofRight[0]!.id!,
          confidence: weakest(rows),
          horizon: rows.find(({ horizon }) => horizon !== null)?.horizon ?? null,
        },
      ];
    });
  });
}

function weakest(rows: readonly SectionTie[]): string | null {
  if (rows.some(({ confidence }) => confidence === null)) return null;
  return WEAKEST[Math.max(...rows.map(({ confidence }) => WEAKEST.indexOf(confidence!)))] ?? null;
}

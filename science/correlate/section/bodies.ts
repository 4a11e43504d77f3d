/** Pieces that share a unit of a hole as one body. */
import type { Piece } from './pieces.ts';
import type { Body, Point } from './shape.ts';

/** @param hole of a unit by its id */
export function bodiesOf(pieces: readonly Piece[], hole: ReadonlyMap<string, string>): Body[] {
  const startsAt = new Map(pieces.flatMap((piece) => (piece.a === null ? [] : [[piece.a, piece] as const])));
  const endsAt = new Set(pieces.flatMap(({ b }) => (b === null ? [] : [b])));
  return pieces.flatMap((first): Body[] => {
    if (first.a !== null && endsAt.has(first.a)) return [];
    const chain = [first];
    for (let next = after(first, startsAt); next !== undefined; next = after(next, startsAt))
      chain.push(next);
    const ids = [...new Set(chain.flatMap(({ a, b }) => [a, b]).filter((id) => id !== null))];
    const outline = [
      ...chain.flatMap(({ upper }) => upper),
      ...chain.at(-1)!.rightSide,
      ...chain.toReversed().flatMap(({ lower }) => lower.toReversed()),
      ...first.leftSide.toReversed(),
    ];
    return [
      {
        id: ids[0]!,
        units: ids.map((unit) => ({ hole: hole.get(unit)!, unit })),
        sediment: first.sediment,
        outline: withoutRepeats(outline),
      },
    ];
  });
}

const after = ({ b }: Piece, startsAt: ReadonlyMap<string, Piece>): Piece | undefined =>
  b === null ? undefined : startsAt.get(b);

function withoutRepeats(points: readonly Point[]): Point[] {
  const same = (p: Point, q: Point | undefined): boolean => p[0] === q?.[0] && p[1] === q[1];
  return points.filter((p, i) => !same(p, i === 0 ? points.at(-1) : points[i - 1]) || points.length === 1);
}

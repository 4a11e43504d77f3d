/** What lies below the lowest correlated contact, or beyond the last hole: drawn a short way, then queried. */
import { held } from './ground.ts';
import type { Piece } from './pieces.ts';
import type { Ending, Point } from './shape.ts';
import type { Said } from './shapes-between.ts';
import { NEAREST } from './shapes-between.ts';
import { type Layer, thickness } from './stack.ts';

/** Share of the way to the next hole that an uncorrelated unit is drawn. */
export const STUB = 0.15;

export interface StubAsked {
  /** Layers from the top down. */
  layers: readonly Layer[];
  /** Where the hole stands, and the way from it to the next one, negative to the left; m. */
  from_m: number;
  way_m: number;
  /** What they hang from, by the share of the way: a line from the top of the first of them; it may run in the air. */
  roof: (t: number) => number;
  /** The line they are drawn up to. */
  top: (t: number) => number;
  ground: readonly Point[];
  /** Of each layer, what a row says of its end. */
  said: readonly (Said | null)[];
  /** Furthest share of the way at which one of them may be said to end. */
  furthest: number;
  /** Shares at which the roof or the ground bends. */
  bends: readonly number[];
}

export interface Stub {
  pieces: Piece[];
  bases: { layer: Layer; line: Point[]; ending: Ending; said: Said | null }[];
  queries: Point[];
}

export function stubOf({ layers, from_m, way_m, roof, top, ground, said, furthest, bends }: StubAsked): Stub {
  const made: Stub = { pieces: [], bases: [], queries: [] };
  const isLeft = way_m < 0;
  const ends = layers.map((_, i) => endOf(said[i] ?? null, furthest));
  const far = Math.max(STUB, ...ends.map((end) => end.at));
  const inside = [...bends, ...ends.map((end) => end.at)].filter((share) => share > 0 && share < far);
  const t = [...new Set([0, ...inside, STUB, far])].sort((a, b) => a - b);
  const place = (share: number): number => from_m + share * way_m;
  /** Where the base of layer i, or for −1 the top of the first one, lies at a share of the way. */
  const elevation = (i: number, share: number): number => {
    const real = held(ground, place(share));
    if (share === 0) return i === -1 ? (layers[0]?.top_m ?? real) : layers[i]!.bottom_m;
    if (i === -1) return top(share);
    let drop = 0;
    for (let j = 0; j <= i; j++) {
      const { at, isTapered } = ends[j]!;
      drop += thickness(layers[j]!) * (isTapered ? Math.max(0, 1 - share / at) : 1);
    }
    return Math.min(real, top(share), roof(share) - drop);
  };
  const line = (i: number, upTo: number): Point[] =>
    t.filter((share) => share <= upTo).map((share): Point => [place(share), elevation(i, share)]);
  layers.forEach((layer, i) => {
    const { at, isTapered, ending } = ends[i]!;
    const [upper, lower] = [line(i - 1, at), line(i, at)];
    if (layer.id === null) return;
    made.pieces.push({
      a: isLeft ? null : layer.id,
      b: isLeft ? layer.id : null,
      sediment: layer.sediment,
      upper: isLeft ? upper.toReversed() : upper,
      lower: isLeft ? lower.toReversed() : lower,
      rightSide: [],
      leftSide: [],
    });
    if (layer.isBaseSeen || isTapered)
      made.bases.push({ layer, line: isLeft ? lower.toReversed() : lower, ending, said: said[i] ?? null });
    if (!isTapered) {
      const [x, high] = upper.at(-1)!;
      made.queries.push([x, (high + lower.at(-1)![1]) / 2]);
    }
  });
  return made;
}

/** A row may say that an uncorrelated unit ends; then it does, at its place. */
function endOf(said: Said | null, furthest: number): { at: number; isTapered: boolean; ending: Ending } {
  if (said?.ending !== 'pinch_out' && said?.ending !== 'truncated')
    return { at: STUB, isTapered: false, ending: 'unknown' };
  const at = Math.min(furthest, Math.max(NEAREST, said.at ?? 0.5));
  return { at, isTapered: true, ending: said.ending };
}

/** How far each slot between two holes runs, and how thick it would be were nothing else there. */
import type { Ending } from './shape.ts';
import { isOneSided, type Slot } from './slots.ts';
import { type Stack, thickness } from './stack.ts';

/** What is said of a slot by a row of the boundaries, its fraction from the left hole to the right one. */
export interface Said {
  row_id: string;
  ending: Ending;
  at: number | null;
  lift_m: number | null;
}

export interface Shape {
  /** Share of the way at which a one-sided slot ends, or the two sides meet. */
  at: number;
  ending: Ending;
  /** Thickness at a share of the way, m. */
  weight: (t: number) => number;
}

/** No nearer to a hole than this share of the way does anything end. */
export const NEAREST = 0.05;
const HALF_WAY = 0.5;
/** Where nobody says how far a unit reaches: half way, or the first of these at which the others need not swell. */
const WAYS = [HALF_WAY, 0.55, 0.6, 0.65, 0.7, 0.75, 0.8, 0.85, 0.9, 0.95, 1];
/** What goes on is drawn at most this many times as thick as straight between its holes, to fill what has ended. */
const MOST_SWELL = 1.3;

const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));

/** Of every slot between two holes. */
export function shapesOf(
  left: Stack,
  right: Stack,
  slots: readonly Slot[],
  said: readonly (Said | null)[],
): Shape[] {
  for (const half of WAYS) {
    const shapes = shapesAt(half, left, right, slots, said);
    if (half === 1 || swell(shapes) <= MOST_SWELL) return shapes;
  }
  return [];
}

/** How many times the room between the holes is wider, at most, than what is in it. */
function swell(shapes: readonly Shape[]): number {
  const all = (t: number): number => shapes.reduce((m, { weight }) => m + weight(t), 0);
  const [from, to] = [all(0), all(1)];
  const inside = [0.125, 0.25, 0.375, 0.5, 0.625, 0.75, 0.875, ...shapes.map(({ at }) => at)];
  return Math.max(
    1,
    ...inside.map((t) => {
      const room = (1 - t) * from + t * to;
      return room > 0 ? room / all(t) : 1;
    }),
  );
}

function shapesAt(
  half: number,
  left: Stack,
  right: Stack,
  slots: readonly Slot[],
  said: readonly (Said | null)[],
): Shape[] {
  return slots.map((slot, k) => {
    const [ha, hb] = [sum(left, slot.a), sum(right, slot.b)];
    const own_at = said[k]?.at ?? null;
    if (!isOneSided(slot)) {
      const weight = (t: number): number => (1 - t) * ha + t * hb;
      const fallback = slot.isOneBody ? 'continuous' : 'unknown';
      return {
        at: clamp(own_at ?? HALF_WAY, NEAREST, 1 - NEAREST),
        ending: said[k]?.ending ?? fallback,
        weight,
      };
    }
    const [stack, place, isLeft] =
      slot.b.length === 0 ? [left, slot.a[0]!, true] : [right, slot.b[0]!, false];
    const cut = cutBy(slots, said, k, stack, isLeft);
    const way = clamp(own_at === null ? half : isLeft ? own_at : 1 - own_at, NEAREST, 1);
    const own = thickness(stack.layers[place]!);
    const end = cut === null || cut.all === 0 ? way : way * (1 - cut.below / cut.all);
    const weightAt = (u: number): number => {
      const left_m = Math.max(0, 1 - u / way);
      return cut === null ? own * left_m : clamp(cut.all * left_m - cut.below, 0, own);
    };
    const named = said[k]?.ending;
    const ending =
      named === 'pinch_out' || named === 'truncated' || named === 'unknown'
        ? named
        : cut === null
          ? 'pinch_out'
          : 'truncated';
    return {
      at: isLeft ? end : 1 - end,
      ending,
      weight: (t) => weightAt(isLeft ? t : 1 - t),
    };
  });
}

/**
 * Under an erosional base a whole group of units is cut from the top down: what all of them together have left, less what
 * lies below this one. Null where nothing erosional lies above, or a row says where this unit ends.
 */
function cutBy(
  slots: readonly Slot[],
  said: readonly (Said | null)[],
  k: number,
  stack: Stack,
  isLeft: boolean,
): { all: number; below: number } | null {
  const placeOf = (slot: Slot | undefined): number | null =>
    slot === undefined || !isOneSided(slot) ? null : ((isLeft ? slot.a : slot.b)[0] ?? null);
  const isOfGroup = (at: number): boolean =>
    placeOf(slots[at]) !== null && (said[at]?.at ?? null) === null && said[at]?.ending !== 'pinch_out';
  if (!isOfGroup(k)) return null;
  let [first, last] = [k, k];
  while (isOfGroup(first - 1)) first--;
  while (isOfGroup(last + 1)) last++;
  const above = stack.layers[placeOf(slots[first])! - 1];
  if (above?.isErosional !== true) return null;
  const rest = (start: number): number =>
    slots.slice(start, last + 1).reduce((m, slot) => m + thickness(stack.layers[placeOf(slot)!]!), 0);
  return { all: rest(first), below: rest(k + 1) };
}

const sum = ({ layers }: Stack, places: readonly number[]): number =>
  places.reduce((m, i) => m + thickness(layers[i]!), 0);

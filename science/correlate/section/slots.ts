/**
 * What lies between two holes from the top down, above their lowest correlated contact: units that are in both, in one,
 * or that meet on the way. Ground and ties are contacts common to both; between two of them a band.
 */
import type { Layer, Stack } from './stack.ts';

/** A tie between two neighbouring holes, by places in their stacks. */
export interface PanelTie {
  row_id: string;
  a: number;
  b: number;
  confidence: 'certain' | 'probable' | 'possible' | null;
  horizon: string | null;
}

export interface Slot {
  /** Places of its layers in the stacks of the two holes; one of the two may be empty. */
  a: readonly number[];
  b: readonly number[];
  /** One layer of each hole, and they are one body. */
  isOneBody: boolean;
  /** Whether the band above which it is the last ends with a tie. */
  tie: PanelTie | null;
}

/** What is divided into bands: the layers of two holes, and places of those that are said to end. */
interface Sides {
  left: readonly Layer[];
  right: readonly Layer[];
  ended: { a: ReadonlySet<number>; b: ReadonlySet<number> };
}

/** `ties` from the top down, none crossing another; a tied unit does not end, whatever is said. */
export function slotsOf(
  { layers: left }: Stack,
  { layers: right }: Stack,
  ties: readonly PanelTie[],
  ended: Sides['ended'] = { a: new Set(), b: new Set() },
): Slot[] {
  const slots: Slot[] = [];
  let [a, b] = [0, 0];
  for (const tie of ties) {
    const free = { a: without(ended.a, tie.a), b: without(ended.b, tie.b) };
    const made = band({ left, right, ended: free }, from(a, tie.a), from(b, tie.b));
    const last = made.pop();
    if (last === undefined) continue;
    slots.push(...made, { ...last, tie });
    [a, b] = [Math.max(a, tie.a + 1), Math.max(b, tie.b + 1)];
  }
  return slots;
}

const without = (places: ReadonlySet<number>, place: number): ReadonlySet<number> =>
  new Set([...places].filter((each) => each !== place));

const from = (first: number, last: number): number[] =>
  Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => first + i);

/**
 * Layers between two common contacts. Those said to end go first, from outside inwards. Two of one sediment that lie next to a common contact are taken for one body, and
 * their other contact is then common too. What is left on one side only ends on the way; what is left on both sides meets.
 */
function band(sides: Sides, a: readonly number[], b: readonly number[]): Slot[] {
  const { left, right, ended } = sides;
  if (a.length === 0 || b.length === 0)
    return [...a.map((i) => slot([i], [])), ...b.map((j) => slot([], [j]))];
  const isOne = (i: number, j: number): boolean => left[i]!.sediment === right[j]!.sediment;
  const one = (i: number, j: number): Slot => ({ ...slot([i], [j]), isOneBody: true });
  const within = (p: readonly number[], q: readonly number[]): Slot[] => band(sides, p, q);
  const [lastA, lastB] = [a.at(-1)!, b.at(-1)!];
  if (ended.a.has(a[0]!)) return [slot([a[0]!], []), ...within(a.slice(1), b)];
  if (ended.b.has(b[0]!)) return [slot([], [b[0]!]), ...within(a, b.slice(1))];
  if (ended.a.has(lastA)) return [...within(a.slice(0, -1), b), slot([lastA], [])];
  if (ended.b.has(lastB)) return [...within(a, b.slice(0, -1)), slot([], [lastB])];
  if (isOne(lastA, lastB)) return [...within(a.slice(0, -1), b.slice(0, -1)), one(lastA, lastB)];
  if (isOne(a[0]!, b[0]!)) return [one(a[0]!, b[0]!), ...within(a.slice(1), b.slice(1))];
  // A single unit is that one of the other hole that is of its sediment, the lowest of several.
  const i = b.length === 1 ? a.findLastIndex((at) => isOne(at, lastB)) : -1;
  if (i !== -1) return [...within(a.slice(0, i), []), one(a[i]!, lastB), ...within(a.slice(i + 1), [])];
  const j = a.length === 1 ? b.findLastIndex((at) => isOne(lastA, at)) : -1;
  if (j !== -1) return [...within([], b.slice(0, j)), one(lastA, b[j]!), ...within([], b.slice(j + 1))];
  return [slot(a, b)];
}

const slot = (a: readonly number[], b: readonly number[]): Slot => ({ a, b, isOneBody: false, tie: null });

export const isOneSided = ({ a, b }: Slot): boolean => a.length === 0 || b.length === 0;

/** Cubics on a stretch, in u from 0 to 1: where they turn, and where they pass a value. */

/** c₀ + c₁u + c₂u² + c₃u³. */
export type Cubic = readonly [number, number, number, number];

export const valueAt = ([c0, c1, c2, c3]: Cubic, u: number): number => c0 + u * (c1 + u * (c2 + u * c3));

/** d/du. */
export const derivative = ([, c1, c2, c3]: Cubic): Cubic => [c1, 2 * c2, 3 * c3, 0];

/** With these values and derivatives (by u) at both ends (Hermite). */
export const cubicThrough = (f0: number, f1: number, d0: number, d1: number): Cubic => [
  f0,
  d0,
  3 * (f1 - f0) - 2 * d0 - d1,
  2 * (f0 - f1) + d0 + d1,
];

/** Where it turns strictly between `from` and `to`, ascending. */
export function turns([, c1, c2, c3]: Cubic, from: number, to: number): number[] {
  // 3c₃u² + 2c₂u + c₁ = 0, by the form that does not cancel.
  const q = c2 * c2 - 3 * c3 * c1;
  if (q < 0) return [];
  const s = -(c2 + (c2 < 0 ? -1 : 1) * Math.sqrt(q));
  const roots = [s / (3 * c3), c1 / s].filter((u) => u > from && u < to);
  return roots.length === 2 && roots[0]! > roots[1]! ? [roots[1]!, roots[0]!] : roots;
}

export interface Passing {
  u: number;
  isRising: boolean;
}

/** Where it passes `value` between `from` and `to`, ascending; at the value counts as above. */
export function passings(cubic: Cubic, value: number, from: number, to: number): Passing[] {
  const found: Passing[] = [];
  let low = from;
  let isAbove = valueAt(cubic, from) >= value;
  for (const high of [...turns(cubic, from, to), to]) {
    const isAboveThen = valueAt(cubic, high) >= value;
    if (isAboveThen !== isAbove)
      found.push({ u: bisected(cubic, value, low, high, isAboveThen), isRising: isAboveThen });
    low = high;
    isAbove = isAboveThen;
  }
  return found;
}

/** A stretch of 10,000 yr to within a second. */
const HALVINGS = 40;

function bisected(cubic: Cubic, value: number, from: number, to: number, isRising: boolean): number {
  let [low, high] = [from, to];
  for (let k = 0; k < HALVINGS; k++) {
    const middle = (low + high) / 2;
    if (valueAt(cubic, middle) >= value === isRising) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}

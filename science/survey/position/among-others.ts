/** Whether a position lies among the others of a campaign, and how it would, were it written in another order or sign. */
import { geodesic, type Position } from '../geodesic.ts';

/** Holes cored on foot or by boat from one base lie nearer to each other than this (common practice, no source). */
const FAR_M = 50_000;

export interface Among {
  /** The nearest of the others, and the way to it, metres. */
  nearest: string;
  distance_m: number;
  /** The same two numbers as they would lie among the others, where these lie far: what is other, and the way then. */
  instead: (Position & { change: string; distance_m: number }) | null;
}

const CHANGES: readonly [string, (at: Position) => Position][] = [
  ['latitude and longitude exchanged', ({ latitude_deg: a, longitude_deg: b }) => place(b, a)],
  ['the other side of the equator', ({ latitude_deg: a, longitude_deg: b }) => place(-a, b)],
  ['the other side of Greenwich', ({ latitude_deg: a, longitude_deg: b }) => place(a, -b)],
  ['both signs turned', ({ latitude_deg: a, longitude_deg: b }) => place(-a, -b)],
  ['exchanged, and the other side of the equator', ({ latitude_deg: a, longitude_deg: b }) => place(-b, a)],
  ['exchanged, and the other side of Greenwich', ({ latitude_deg: a, longitude_deg: b }) => place(b, -a)],
];
const place = (latitude_deg: number, longitude_deg: number): Position => ({ latitude_deg, longitude_deg });

/** Null where there are no others, or it is none of WGS 84. */
export function amongOthers(at: Position, others: readonly (Position & { label: string })[]): Among | null {
  const nearest = nearestOf(at, others);
  if (nearest === null || nearest.distance_m <= FAR_M) return nearest && { ...nearest, instead: null };
  for (const [change, changed] of CHANGES) {
    const other = changed(at);
    if (Math.abs(other.latitude_deg) > 90) continue;
    const near = nearestOf(other, others);
    if (near !== null && near.distance_m <= FAR_M)
      return { ...nearest, instead: { ...other, change, distance_m: near.distance_m } };
  }
  return { ...nearest, instead: null };
}

/** Whether any of the others lies near; the first that does is enough. */
export const hasNeighbour = (at: Position, others: readonly Position[]): boolean =>
  others.some((other) => (geodesic(at, other)?.distance_m ?? Number.POSITIVE_INFINITY) <= FAR_M);

/** Whether it lies so far from all others that it may be a slip. */
export const isFarOff = (among: Among | null): boolean => among !== null && among.distance_m > FAR_M;

function nearestOf(
  at: Position,
  others: readonly (Position & { label: string })[],
): { nearest: string; distance_m: number } | null {
  let found: { nearest: string; distance_m: number } | null = null;
  for (const other of others) {
    const distance_m = geodesic(at, other)?.distance_m ?? Number.NaN;
    if (distance_m < (found?.distance_m ?? Number.POSITIVE_INFINITY))
      found = { nearest: other.label, distance_m };
  }
  return found;
}

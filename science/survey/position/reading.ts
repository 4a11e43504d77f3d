/** What is made of a written position. */
import type { Position } from '../geodesic.ts';

export interface ReadPosition extends Position {
  /** How it was read: "degrees and minutes", "UTM zone 10 south". */
  read_as: string;
  /** Half of what its last digit counts, metres; of the coarser of the two. */
  resolution_m: number;
  /** What speaks against reading it so, as a sentence without its end; null for nothing. */
  doubt: string | null;
  /** It lies where its grid or zone is not used, which `doubt` says. */
  isOutside: boolean;
  /** What its grid leaves open, as a sentence without its end; null for nothing. */
  caution: string | null;
}

/** Least and greatest of longitude and latitude, degrees; from west to east. */
export interface Area {
  west: number;
  south: number;
  east: number;
  north: number;
}

/** A grid of eastings and northings that a campaign has chosen. */
export interface PlaneGrid {
  name: string;
  /** Where it is used; null where its definition does not say. */
  area: Area | null;
  /** How far it may be off on WGS 84 and why, as a sentence without its end; null for less than 2 m. */
  caution: string | null;
  /** In the units of the grid; null for what is no place of it. */
  toDegrees(easting: number, northing: number): Position | null;
}

export type PositionReading =
  | { ok: true; readings: readonly [ReadPosition, ...ReadPosition[]] }
  | { ok: false; expected: string; fix: string };

const EXPECTED =
  'a position: 46° 24.653′ S 121° 18.891′ W, −46.41088, −121.31485, or 10 south 475811 4860093';
export const refused = (fix: string, expected = EXPECTED): PositionReading => ({ ok: false, expected, fix });

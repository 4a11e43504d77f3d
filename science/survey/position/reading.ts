/** What is made of a written position. */
import type { Position } from '../geodesic.ts';

export interface ReadPosition extends Position {
  /** How it was read: "degrees and minutes", "UTM zone 10 south". */
  read_as: string;
  /** Half of what its last digit counts, metres; of the coarser of the two. */
  resolution_m: number;
  /** What speaks against reading it so, as a sentence without its end; null for nothing. */
  doubt: string | null;
}

export type PositionReading =
  | { ok: true; readings: readonly [ReadPosition, ...ReadPosition[]] }
  | { ok: false; expected: string; fix: string };

const EXPECTED =
  'a position: 46° 24.653′ S 121° 18.891′ W, −46.41088, −121.31485, or 10 south 475811 4860093';
export const refused = (fix: string, expected = EXPECTED): PositionReading => ({ ok: false, expected, fix });

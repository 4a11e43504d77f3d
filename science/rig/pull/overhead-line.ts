/**
 * Least distance of derrick, pipe and line from a live overhead line: 29 CFR 1926.1408 Table A (United States), which
 * states feet. Law where you are comes first.
 */
import { FOOT_M } from '@stillstand/science/base';
import { CAUTIONS } from '../caution.ts';

/** Up to this voltage, this many feet. */
export const OVERHEAD_CLEARANCES: readonly { up_to_kv: number; feet: number }[] = [
  { up_to_kv: 50, feet: 10 },
  { up_to_kv: 200, feet: 15 },
  { up_to_kv: 350, feet: 20 },
  { up_to_kv: 500, feet: 25 },
  { up_to_kv: 750, feet: 35 },
  { up_to_kv: 1000, feet: 45 },
];

/** Null above 1000 kV or where the voltage is not known: its owner, or an engineer qualified for it, sets the distance. */
export function overheadClearance(kv: number | null): { distance_m: number | null; caution: string } {
  const row = kv === null || !(kv >= 0) ? undefined : OVERHEAD_CLEARANCES.find((c) => kv <= c.up_to_kv);
  return { distance_m: row === undefined ? null : row.feet * FOOT_M, caution: CAUTIONS.overhead };
}

/** A change of the ages of a hole in numbers. */
import { printed } from '@stillstand/output/words';
import type { AgesChange } from './change.ts';

/** "base (14.32 m) 120 yr younger; most at 6.30 m, 340 yr older." */
export function changeInWords({ base, base_m, most }: AgesChange): string {
  if (most === null) return 'no age changed by more than chance.';
  const foot = `base (${printed(base_m, 2)} m) ${base === null ? 'unchanged' : yearsInWords(base.yr)}`;
  if (base !== null && most.depth_m === base.depth_m) return `${foot}; less elsewhere.`;
  return `${foot}; most at ${printed(most.depth_m, 2)} m, ${yearsInWords(most.yr)}.`;
}

/** Above 100 in tens: the draws give no more. */
function yearsInWords(yr: number): string {
  const size = Math.abs(yr);
  return `${printed(size >= 100 ? Math.round(size / 10) * 10 : size, 0)} yr ${yr > 0 ? 'older' : 'younger'}`;
}

/** The number of a node of the trace as people read it. */
import type { TraceNode } from '@stillstand/campaign/results';
import { printed, signed } from './number.ts';

/** "−3.12 ± 0.41 m"; of a calendar age its median and sd; a word as it is; nothing where there is none. ± is 2 sigma. */
export function tracedNumber({
  value,
  sigma,
  unit,
  signed: isSigned,
}: Pick<TraceNode, 'value' | 'sigma' | 'unit' | 'signed'>): string {
  if (typeof value !== 'number') return value ?? '';
  // A calendar age is no normal law: ± of it would be read as a range it is not.
  if (unit === 'cal BP' && sigma !== null)
    return `median ${printed(value, 0)}, sd ${printed(sigma, 0)}, cal BP`;
  const decimals = unit === 'cal BP' || unit === 'yr' ? 0 : 2;
  const spread = sigma === null ? '' : ` ± ${printed(2 * sigma, decimals)}`;
  return `${isSigned ? signed(value, decimals) : printed(value, decimals)}${spread}${unit === '' ? '' : ` ${unit}`}`;
}

/** An age and its error as the laboratory gave them, for tables and figures. */
import type { DateResult } from '@stillstand/campaign/results';
import { isLimit } from './limit.ts';
import { printed, yearRange, years } from './number.ts';

/** "4,780" and "± 30"; F14C where there is one; of a range its ends, and no error. */
export function statedAge(date: DateResult): [string, string] {
  const { value, error, f14c, f14c_sigma, error_shape } = date;
  if (f14c !== null) return [`F14C ${printed(f14c, 4)}`, `± ${printed(f14c_sigma, 4)}`];
  if (isLimit(date)) return [years(value), 'limit'];
  if (error_shape === 'uniform') return [yearRange(value + error, value - error), ''];
  return [years(value), `± ${years(error)}`];
}

/** "yr before 1950, 2019 or 2023": what the calendar ages of some dates count back from, 1950 if there are none. */
export function countedFrom(dates: readonly DateResult[]): string {
  const calendar = dates.filter(({ method }) => method !== 'radiocarbon');
  const found = [...new Set(calendar.map(({ counts_from_ce }) => counts_from_ce))].sort((a, b) => a - b);
  const all = found.length === 0 ? [1950] : found;
  const last = all.at(-1);
  return `yr before ${all.length === 1 ? last : `${all.slice(0, -1).join(', ')} or ${last}`}`;
}

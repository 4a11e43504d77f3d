/** What was there before the last change, while the next curve is being computed. */
import type { CurveResult, IntervalRate } from '@stillstand/science/curve';
import { useState } from 'react';
import type { Computation } from '../../compute/index.ts';
import { type Interval, written } from './interval.ts';

/** The last whole curve: a preview has too few draws to rank points by influence, and would rank them differently at every edit. */
export function useWhole(curve: CurveResult | null, isFinal: boolean): CurveResult | null {
  const [whole, setWhole] = useState<CurveResult | null>(null);
  if (isFinal && curve !== whole) setWhole(curve);
  return whole;
}

const isSameRate = (a: IntervalRate, b: IntervalRate | null): boolean =>
  a.rate_mm_yr.mean === b?.rate_mm_yr.mean && a.rate_mm_yr.sd === b.rate_mm_yr.sd;

/** The rate of the same interval before the last change, while it is another: what a change was worth. */
export function useBefore(
  rate: IntervalRate | null,
  interval: Interval | null,
  state: Computation['state'],
): IntervalRate | null {
  const of = interval === null ? '' : written(interval);
  const [seen, setSeen] = useState<{ of: string; now: IntervalRate | null; before: IntervalRate | null }>({
    of,
    now: null,
    before: null,
  });
  // Only whole curves are compared; a first look is none.
  if (seen.of !== of) setSeen({ of, now: state === 'final' ? rate : null, before: null });
  else if (state === 'final' && rate !== null && !isSameRate(rate, seen.now)) {
    setSeen({ of, now: rate, before: seen.now });
  }
  return state === 'final' ? seen.before : seen.now;
}

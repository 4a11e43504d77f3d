/** The history of a hole as it was before the last change of its dates. */
import type { HoleHistory } from '@stillstand/campaign/results';
import { useState } from 'react';

const isSame = (a: HoleHistory | null, b: HoleHistory | null): boolean =>
  a === b ||
  (a !== null &&
    b !== null &&
    a.age_cal_bp.median.length === b.age_cal_bp.median.length &&
    a.age_cal_bp.median.every((age, i) => age === b.age_cal_bp.median[i]));

/** Null until one has been replaced by another while the hole was looked at. `isFormer`: what is given no longer counts. */
export function useBefore(hole: string, history: HoleHistory | null, isFormer: boolean): HoleHistory | null {
  const fresh = isFormer ? null : history;
  const [seen, setSeen] = useState<{ hole: string; now: HoleHistory | null; before: HoleHistory | null }>({
    hole,
    now: fresh,
    before: null,
  });
  if (seen.hole !== hole) setSeen({ hole, now: fresh, before: null });
  else if (fresh !== null && !isSame(fresh, seen.now)) setSeen({ hole, now: fresh, before: seen.now });
  return isFormer || seen.hole !== hole ? null : seen.before;
}

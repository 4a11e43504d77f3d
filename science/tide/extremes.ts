/** High and low waters of a curve, and which of them a tide table would list. */
import type { TideCurve } from './prediction.ts';

export interface TideExtreme {
  kind: 'high' | 'low';
  time_ms: number;
  height_m: number;
}

/** A turn of the tide every few hours at most: half of the shortest period that is predicted, over five. */
const SCAN_MS = 20 * 60_000;
/** To the second. */
const FINE_MS = 1000;

/** Every turn of the water between two moments, in order. `through`: only where the curve is known. */
export function highAndLowWaters(curve: TideCurve, from_ms: number, to_ms: number): TideExtreme[] {
  const waters: TideExtreme[] = [];
  let before = from_ms;
  let rate = curve.rate_m_h(before);
  while (before < to_ms) {
    const now = Math.min(before + SCAN_MS, to_ms);
    const next = curve.rate_m_h(now);
    if (rate > 0 !== next > 0 && Number.isFinite(rate) && Number.isFinite(next)) {
      let low = before;
      let high = now;
      while (high - low > FINE_MS) {
        const middle = (low + high) / 2;
        if (curve.rate_m_h(middle) > 0 === rate > 0) low = middle;
        else high = middle;
      }
      const time_ms = (low + high) / 2;
      waters.push({ kind: rate > 0 ? 'high' : 'low', time_ms, height_m: curve.height_m(time_ms) });
    }
    before = now;
    rate = next;
  }
  return waters;
}

/**
 * Waters as they are tabulated: a high and a low that follow within two hours, or differ by less than 0.03 m (0.1 ft),
 * are no tide of their own and fall out together. Rule of the US tables (NOS CO-OPS 2, 2003; from memory).
 */
export function tabulatedExtremes(
  waters: readonly TideExtreme[],
  least_m = 0.03,
  least_h = 2,
): TideExtreme[] {
  const kept = [...waters];
  for (;;) {
    let at = -1;
    let smallest = Infinity;
    for (let i = 1; i < kept.length; i++) {
      const range = Math.abs(kept[i]!.height_m - kept[i - 1]!.height_m);
      const hours = (kept[i]!.time_ms - kept[i - 1]!.time_ms) / 3_600_000;
      if ((range < least_m || hours < least_h) && range < smallest) {
        smallest = range;
        at = i;
      }
    }
    if (at === -1) return kept;
    // At an end only the outer one goes, so that highs and lows go on taking turns.
    if (at === 1) kept.splice(0, 1);
    else if (at === kept.length - 1) kept.splice(at, 1);
    else kept.splice(at - 1, 2);
  }
}

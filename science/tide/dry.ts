/** When the ground, or the lowest point of the way to it, is dry. */
import type { TideCurve } from './prediction.ts';

export interface DrySpan {
  from_ms: number;
  to_ms: number;
  /** The water falls below the level at `from_ms`, else the span only begins with the time looked at. */
  falls: boolean;
  /** The water comes back to the level at `to_ms`, else the span only ends with the time looked at. */
  returns: boolean;
}

const SCAN_MS = 5 * 60_000;
const FINE_MS = 1000;

/**
 * Spans between two moments in which the water stands below a level: the lowest ground or point of the way, less the
 * margin that is to be kept. Times to the second; spans shorter than five minutes may be missed. A time for which the
 * curve knows nothing is not dry.
 */
export function drySpans(curve: TideCurve, level_m: number, from_ms: number, to_ms: number): DrySpan[] {
  const isDry = (time_ms: number): boolean => curve.height_m(time_ms) < level_m;
  const isKnown = (time_ms: number): boolean => Number.isFinite(curve.height_m(time_ms));
  /** The moment at which dry turns to wet, or wet to dry, between two that differ. */
  const turn = (a: number, b: number): number => {
    const was = isDry(a);
    let low = a;
    let high = b;
    while (high - low > FINE_MS) {
      const middle = (low + high) / 2;
      if (isDry(middle) === was) low = middle;
      else high = middle;
    }
    // The safe side of the second.
    return was ? low : high;
  };
  const spans: DrySpan[] = [];
  let open: { from_ms: number; falls: boolean } | null = isDry(from_ms) ? { from_ms, falls: false } : null;
  for (let before = from_ms; before < to_ms; before += SCAN_MS) {
    const now = Math.min(before + SCAN_MS, to_ms);
    const dry = isDry(now);
    if (dry === (open !== null)) continue;
    const at = turn(before, now);
    if (open === null) open = { from_ms: at, falls: isKnown(before) };
    else {
      spans.push({ ...open, to_ms: at, returns: isKnown(now) });
      open = null;
    }
  }
  if (open !== null) spans.push({ ...open, to_ms, returns: false });
  return spans;
}

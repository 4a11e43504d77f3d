/** When the ground, or the lowest point of the way to it, is dry; or when a boat floats over it. */
import type { TideCurve } from './prediction.ts';

export interface LevelSpan {
  from_ms: number;
  to_ms: number;
  /** The water passes the level at `from_ms`, else the span only begins with the time looked at. */
  begins: boolean;
  /** The water passes the level again at `to_ms`, else the span only ends with the time looked at. */
  ends: boolean;
}

const SCAN_MS = 5 * 60_000;
const FINE_MS = 1000;

/**
 * Spans between two moments in which the water stands below a level: the lowest ground or point of the way, less the
 * margin that is to be kept. Times to the second, on the side of caution; spans shorter than five minutes may be
 * missed. A time for which the curve knows nothing is in no span.
 */
export const drySpans = (curve: TideCurve, level_m: number, from_ms: number, to_ms: number): LevelSpan[] =>
  spansIn((time_ms) => curve.height_m(time_ms) < level_m, curve, from_ms, to_ms);

/** Spans in which it stands above a level: the highest ground a boat must pass, with its draught and the margin. */
export const afloatSpans = (curve: TideCurve, level_m: number, from_ms: number, to_ms: number): LevelSpan[] =>
  spansIn((time_ms) => curve.height_m(time_ms) > level_m, curve, from_ms, to_ms);

function spansIn(
  isIn: (time_ms: number) => boolean,
  curve: TideCurve,
  from_ms: number,
  to_ms: number,
): LevelSpan[] {
  const isKnown = (time_ms: number): boolean => Number.isFinite(curve.height_m(time_ms));
  /** The last moment in the span, or the first, between one in and one out of it. */
  const turn = (a: number, b: number): number => {
    const wasIn = isIn(a);
    let low = a;
    let high = b;
    while (high - low > FINE_MS) {
      const middle = (low + high) / 2;
      if (isIn(middle) === wasIn) low = middle;
      else high = middle;
    }
    return wasIn ? low : high;
  };
  const spans: LevelSpan[] = [];
  let open: { from_ms: number; begins: boolean } | null = isIn(from_ms) ? { from_ms, begins: false } : null;
  for (let before = from_ms; before < to_ms; before += SCAN_MS) {
    const now = Math.min(before + SCAN_MS, to_ms);
    if (isIn(now) === (open !== null)) continue;
    const at = turn(before, now);
    if (open === null) open = { from_ms: at, begins: isKnown(before) };
    else {
      spans.push({ ...open, to_ms: at, ends: isKnown(now) });
      open = null;
    }
  }
  if (open !== null) spans.push({ ...open, to_ms, ends: false });
  return spans;
}

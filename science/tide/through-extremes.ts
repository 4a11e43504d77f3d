/** The water between the high and low waters of an official table: half a cosine from each to the next. */
import { cos, sin } from '@stillstand/science/base';
import type { TideExtreme } from './extremes.ts';
import type { TideCurve } from './prediction.ts';

const HOUR_MS = 3_600_000;

/**
 * Standard practice of printed tide tables. It is right at the waters themselves and off by some centimetres to a
 * decimetre between them where the tide stands or runs unevenly (estuaries, shallow bays). NaN before the first and
 * after the last water. `waters` in order of time.
 */
export function interpolateExtremes(waters: readonly Pick<TideExtreme, 'time_ms' | 'height_m'>[]): TideCurve {
  let found = 0;
  const between = (time_ms: number): { a: (typeof waters)[number]; b: (typeof waters)[number] } | null => {
    if (waters.length < 2 || !(time_ms >= waters[0]!.time_ms && time_ms <= waters.at(-1)!.time_ms))
      return null;
    if (waters[found]!.time_ms > time_ms) found = 0;
    while (found < waters.length - 2 && waters[found + 1]!.time_ms < time_ms) found++;
    return { a: waters[found]!, b: waters[found + 1]! };
  };
  return {
    height_m(time_ms) {
      const pair = between(time_ms);
      if (pair === null) return Number.NaN;
      const { a, b } = pair;
      const turn = (Math.PI * (time_ms - a.time_ms)) / (b.time_ms - a.time_ms);
      return (a.height_m + b.height_m) / 2 + ((a.height_m - b.height_m) / 2) * cos(turn);
    },
    rate_m_h(time_ms) {
      const pair = between(time_ms);
      if (pair === null) return Number.NaN;
      const { a, b } = pair;
      const per_ms = Math.PI / (b.time_ms - a.time_ms);
      return ((b.height_m - a.height_m) / 2) * per_ms * sin(per_ms * (time_ms - a.time_ms)) * HOUR_MS;
    },
  };
}

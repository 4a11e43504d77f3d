/** Water levels read at a gauge. */
import { median } from '@stillstand/science/base';

export interface TideRecord {
  /** UTC, in order; gaps are allowed. */
  time_ms: ArrayLike<number>;
  height_m: ArrayLike<number>;
}

/** The middle of the steps between readings, ms. */
export function usualStep(time_ms: ArrayLike<number>): number {
  return median(Float64Array.from({ length: time_ms.length - 1 }, (_, i) => time_ms[i + 1]! - time_ms[i]!));
}

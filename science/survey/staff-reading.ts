/** What is odd about one staff reading by itself: a longer staff than is carried, or one held upside down. */

/** Longest telescopic staff in common use, m (common practice, no source). */
export const LONGEST_STAFF_M = 5;

/**
 * `inverted`: negative, the foot of the staff held against a point above the line of sight; allowed. `long`: more than
 * the longest staff, most often a slipped decimal point or millimetres. Null where nothing is odd.
 */
export function staffDoubt(reading_m: number): 'inverted' | 'long' | null {
  if (Math.abs(reading_m) > LONGEST_STAFF_M) return 'long';
  return reading_m < 0 ? 'inverted' : null;
}

/** What a reading beyond the staff most likely was, m: its point one, two or three places on; null where none fits. */
export function slippedPoint(reading_m: number): number | null {
  for (const by of [10, 100, 1000]) {
    const meant = reading_m / by;
    if (Math.abs(meant) <= LONGEST_STAFF_M && Math.abs(reading_m) > LONGEST_STAFF_M) return meant;
  }
  return null;
}

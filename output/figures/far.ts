/** Ages so far from all others that an axis with them would press the rest together: they are shown as arrows at its edge. */

export interface AgeRange {
  older_cal_bp: number;
  younger_cal_bp: number;
}

/** Fewer ages than this are all kept: none of them is the exception. */
const LEAST = 6;
/** At each end at most this share of the ages is left off, one at least. */
const MOST = 1 / 8;
/** Ages are left off where the others then span no more than this share of the axis. */
const SQUEEZED = 0.3;

/**
 * Which ages to leave off an axis: at either end the fewest, at most an eighth of all, without which the others take less
 * than three tenths of it (common practice, no source). In the order given.
 */
export function farOff(ages: readonly AgeRange[]): boolean[] {
  const kept = [...ages.keys()].sort(
    (a, b) =>
      ages[a]!.older_cal_bp + ages[a]!.younger_cal_bp - ages[b]!.older_cal_bp - ages[b]!.younger_cal_bp,
  );
  const far = ages.map(() => false);
  if (ages.length < LEAST) return far;
  const most = Math.max(1, Math.floor(ages.length * MOST));
  const span = (places: readonly number[]): number =>
    Math.max(...places.map((i) => ages[i]!.older_cal_bp)) -
    Math.min(...places.map((i) => ages[i]!.younger_cal_bp));
  for (const end of ['oldest', 'youngest'] as const) {
    const all = span(kept);
    for (let left = 1; left <= most; left++) {
      const rest = end === 'oldest' ? kept.slice(0, -left) : kept.slice(left);
      if (span(rest) > SQUEEZED * all) continue;
      const off = end === 'oldest' ? kept.splice(-left) : kept.splice(0, left);
      for (const i of off) far[i] = true;
      break;
    }
  }
  return far;
}

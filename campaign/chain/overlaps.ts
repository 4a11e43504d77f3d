/** Samples that took the same centimetre of a core: one of them is written wrong, or shares its material. */
import type { Campaign } from '@stillstand/campaign/document';
import type { Row } from '@stillstand/campaign/tables';

export interface Overlap {
  /** In the order of the table. */
  first: Row<'samples'>;
  second: Row<'samples'>;
  /** What both took, m on their basis. */
  from_m: number;
  to_m: number;
}

/** Two cuts of one knife, m: depths are read to a centimetre, and the next sample begins where the last ended. */
const TOUCH_M = 0.001;

type Ends = { row: Row<'samples'>; order: number; top_m: number; bottom_m: number };

/**
 * Of samples of one hole on one basis, and of one run or push; a piece of a sample may share its depths, and so may two
 * pieces of one sample. A sample with one depth alone is that depth.
 */
export function sampleOverlaps({ rows }: Pick<Campaign, 'rows'>): Overlap[] {
  const root = rootsOf(rows.samples);
  const placed = rows.samples.flatMap((row, order): (Ends & { where: string })[] => {
    const { hole, depth_basis, run } = row;
    const one = row.top_m ?? row.bottom_m;
    const other = row.bottom_m ?? row.top_m;
    if (hole === null || depth_basis === null || depth_basis === 'elevation') return [];
    if (one === null || other === null) return [];
    const isCore = depth_basis === 'run' || depth_basis === 'push';
    const where = JSON.stringify([hole, depth_basis, isCore ? run : null]);
    return [{ row, order, where, top_m: Math.min(one, other), bottom_m: Math.max(one, other) }];
  });
  const found: Overlap[] = [];
  for (const near of Map.groupBy(placed, ({ where }) => where).values()) {
    near.sort((a, b) => a.top_m - b.top_m);
    for (const [i, upper] of near.entries()) {
      for (let j = i + 1; j < near.length; j++) {
        const lower = near[j]!;
        if (lower.top_m > upper.bottom_m + TOUCH_M) break;
        if (!share(upper, lower) || root.get(upper.row) === root.get(lower.row)) continue;
        const [first, second] = upper.order < lower.order ? [upper, lower] : [lower, upper];
        found.push({
          first: first.row,
          second: second.row,
          from_m: lower.top_m,
          to_m: Math.min(upper.bottom_m, lower.bottom_m),
        });
      }
    }
  }
  return found;
}

/** Points share a depth where they are one; lengths where they have more than a knife's cut in common. */
function share(upper: Ends, lower: Ends): boolean {
  const common_m = Math.min(upper.bottom_m, lower.bottom_m) - lower.top_m;
  if (common_m > TOUCH_M) return true;
  const isPoint = ({ top_m, bottom_m }: Ends): boolean => bottom_m - top_m <= TOUCH_M;
  if (isPoint(upper) && isPoint(lower)) return lower.top_m - upper.top_m < TOUCH_M;
  // A point at the edge of a length touches it; within, it is of it.
  return isPoint(lower) && lower.top_m - upper.top_m > TOUCH_M && upper.bottom_m - lower.top_m > TOUCH_M;
}

/** The sample that each was first cut from. */
function rootsOf(samples: readonly Row<'samples'>[]): Map<Row<'samples'>, Row<'samples'>> {
  const byLabel = new Map(samples.map((row) => [row.sample, row]));
  return new Map(
    samples.map((row) => {
      const seen = new Set([row]);
      let at = row;
      for (
        let up = byLabel.get(at.parent ?? '');
        up !== undefined && !seen.has(up);
        up = byLabel.get(at.parent ?? '')
      ) {
        seen.add(up);
        at = up;
      }
      return [row, at];
    }),
  );
}

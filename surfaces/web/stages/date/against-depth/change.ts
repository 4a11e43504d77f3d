/** What a change of the dates did to the ages of a hole. */
import type { HoleHistory } from '@stillstand/campaign/results';
import { square } from '@stillstand/science/base';

interface At {
  depth_m: number;
  /** Years older; younger below 0. */
  yr: number;
}

export interface AgesChange {
  /** At the deepest place that both histories reach; null where it changed by no more than chance. */
  base: At | null;
  base_m: number;
  /** Where the median changed most; null where it changed nowhere by more than chance. */
  most: At | null;
}

/** So many Monte-Carlo standard errors are chance (common practice, no source). */
const CHANCE = 4;

/**
 * Medians of the new history less those of the one before. A difference counts where it is more than the draws of both
 * may give by chance: four standard errors, each sd ÷ √(effective draws).
 */
export function changeOf(before: HoleHistory, now: HoleHistory): AgesChange {
  const base_m = Math.min(before.depth_m.at(-1)!, now.depth_m.at(-1)!);
  const depths = [...Array.from(now.depth_m).filter((m) => m < base_m), base_m];
  const changed = depths.flatMap((depth_m): At[] => {
    const [a, b] = [at(before, depth_m), at(now, depth_m)];
    const yr = b.median - a.median;
    return Math.abs(yr) > CHANCE * Math.sqrt(square(a.error) + square(b.error)) ? [{ depth_m, yr }] : [];
  });
  const last = changed.at(-1);
  let most: At | null = null;
  for (const each of changed) if (most === null || Math.abs(each.yr) > Math.abs(most.yr)) most = each;
  return { base_m, base: last?.depth_m === base_m ? last : null, most };
}

/** Straight between the depths of its bands. */
function at(
  { depth_m, age_cal_bp, diagnostics }: HoleHistory,
  depth: number,
): { median: number; error: number } {
  const draws = Math.max(1, Math.min(diagnostics.ess_bulk_min, diagnostics.ess_tail_min));
  const below = depth_m.findIndex((m) => m >= depth);
  const i = below === -1 ? depth_m.length - 1 : below;
  const before = Math.max(0, i - 1);
  const span = depth_m[i]! - depth_m[before]!;
  const share = span === 0 ? 0 : (depth - depth_m[before]!) / span;
  const between = (values: Float64Array): number => values[before]! + share * (values[i]! - values[before]!);
  return { median: between(age_cal_bp.median), error: between(age_cal_bp.sd) / Math.sqrt(draws) };
}

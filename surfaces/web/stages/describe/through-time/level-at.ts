/** Sea level of the report's curve at an age, between the ages of its run. */
import { curveOf, type Results } from '@stillstand/campaign/results';
import { betweenAges } from '@stillstand/output/words';
import type { Range } from '@stillstand/science/base';

/** m above the campaign datum; null without a curve, or beyond it. */
export function levelAt(results: Results, age_cal_bp: number): Range | null {
  const curve = curveOf(results);
  if (curve === null || curve.ages_cal_bp.length === 0) return null;
  const order = [...curve.ages_cal_bp.keys()].sort((a, b) => curve.ages_cal_bp[a]! - curve.ages_cal_bp[b]!);
  const ages = order.map((i) => curve.ages_cal_bp[i]!);
  if (age_cal_bp < ages[0]! || age_cal_bp > ages.at(-1)!) return null;
  const at = (values: ArrayLike<number>): number =>
    betweenAges(
      ages,
      order.map((i) => values[i]!),
      age_cal_bp,
    );
  const { median, lower95, upper95 } = curve.level_m;
  return { median: at(median), lower95: at(lower95), upper95: at(upper95) };
}

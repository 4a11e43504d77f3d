/** The same job as plainly as JavaScript can say it: Math.exp over every year of the curve, a full sort for the set.
 * What one would write first; the yardstick, and a check on the fast way. */
import type { RadiocarbonAge, YearlyCurve } from '@stillstand/science/dating';

export interface PlainAnswer {
  median_cal_bp: number;
  older_cal_bp: number;
  younger_cal_bp: number;
}

export function calibratePlainly(age: RadiocarbonAge, curve: YearlyCurve, mass: number): PlainAnswer {
  const density: number[] = [];
  for (let i = 0; i < curve.c14_age.length; i++) {
    const variance = age.error_yr ** 2 + age.offset_sd_yr ** 2 + curve.sigma_yr[i]! ** 2;
    const difference = age.c14_age - age.offset_yr - curve.c14_age[i]!;
    density.push(Math.exp((-0.5 * difference * difference) / variance) / Math.sqrt(variance));
  }
  const total = density.reduce((sum, p) => sum + p, 0);
  let below = 0;
  let median = NaN;
  for (let i = 0; i < density.length; i++) {
    if (below < total / 2 && below + density[i]! >= total / 2)
      median = i - 0.5 + (total / 2 - below) / density[i]!;
    below += density[i]!;
  }
  const order = density.map((_, i) => i).filter((i) => density[i]! > 0);
  order.sort((a, b) => density[b]! - density[a]!);
  let inside = 0;
  let oldest = -1;
  let youngest = density.length;
  let level = 0;
  for (const i of order) {
    // Years of equal density go in together.
    if (inside >= mass * total && density[i]! < level) break;
    level = density[i]!;
    inside += level;
    oldest = Math.max(oldest, i);
    youngest = Math.min(youngest, i);
  }
  return {
    median_cal_bp: curve.from_cal_bp + median,
    older_cal_bp: curve.from_cal_bp + oldest,
    younger_cal_bp: curve.from_cal_bp + youngest,
  };
}

/** What is known of the age of a point before the heights are seen. */
import { type AgeConstraint, type AgePrior, type AgeRange, priorOfAge } from '@stillstand/science/clocks';
import type { AgeOfHole } from './model.ts';

/** As of any age (`priorOfAge`); that of a hole is its history's, and not drawn by itself: its moments are those without the heights. */
export function agePrior(age: AgeConstraint | AgeOfHole, range: AgeRange): AgePrior | null {
  if (age.kind !== 'of_hole') return priorOfAge(age, range);
  const { mean, sd_yr } = age.alone_cal_bp;
  return { kind: 'fixed', mean_cal_bp: mean, sd_yr, log_mass: 0, shared: null };
}

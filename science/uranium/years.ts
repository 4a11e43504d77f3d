/** How probable each calendar year is by the activity ratios of a sample. */
import { exp, square } from '@stillstand/science/base';
import { ageLikelihood, type Calibration } from '@stillstand/science/dating';
import { type NotDated, uraniumAge } from './age.ts';
import type { DecayConstants } from './decay-constants.ts';
import { growthOf, lastOf, ratioAt, slopeAt, solved } from './growth.ts';
import type { ActivityRatios, InitialThorium } from './ratios.ts';

/** Ages farther than so many sigma are left off. */
const REACH_SD = 6;

/**
 * p(t) ∝ exp(−(r(t) − r)²/2s²), r(t) the 230Th/238U of a closed system of that age, s the error of the age taken to the ratio, for
 * every t of 0 and more, all equally likely beforehand. Its ends are those of `uraniumAge`: the older side is longer where the
 * ratio hardly grows any more, and stops at the reach of the method. The error is taken whole, that of the initial thorium with it.
 * @param counted_from_ce year of the measurement; null counts from 1950
 */
export function uraniumYears(
  ratios: ActivityRatios,
  decay: DecayConstants,
  initial: InitialThorium | null,
  counted_from_ce: number | null,
): Calibration | NotDated {
  const age = uraniumAge(ratios, decay, initial);
  if (age.kind !== 'age') return age;
  const model = growthOf(ratios, decay, initial);
  const ratio = ratios.th230_u238.value;
  const sd = slopeAt(model, age.age_yr) * age.error_yr;
  const years = ageLikelihood(
    (yr) => exp(-0.5 * square((ratioAt(model, yr) - ratio) / sd)),
    solved(model, ratio - REACH_SD * sd) ?? 0,
    solved(model, ratio + REACH_SD * sd) ?? lastOf(model),
    counted_from_ce,
  );
  if (years.kind === 'calibrated') return years;
  const found = `an age of ${Math.round(age.age_yr)} ± ${Math.round(age.error_yr)} yr`;
  const finding = { of: 'th230_u238', found, expected: years.reason, fix: 'Check the ratios.' };
  return { kind: 'not_dated', findings: [finding] };
}

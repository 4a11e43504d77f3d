/**
 * A curve beside another one, or beside a prediction of a part of its level: what lies between them, as results carry it.
 * A prediction is taken off draw by draw (`less-prediction.ts`); another curve is independent of this one (`difference.ts`).
 */
import { as, list, number, orNull, record, type ShapeValue } from '@stillstand/science/shape';
import type { CurveResult } from '../result/result.ts';
import { allDifferences, bothOf, differenceShape, type PublishedCurve } from './difference.ts';
import { lessPrediction } from './less-prediction.ts';
import { isAnswer, type NoAnswer } from './paths.ts';

export const besideShape = {
  at: list(
    'at each age that both know, the oldest first',
    record('one age', {
      age_cal_bp: number('age', 'cal BP'),
      level_m: orNull(
        as('level, m: this curve less the other; null where they are not on one datum', differenceShape),
      ),
      rate_mm_yr: orNull(
        as('mean rate to the next younger age, mm/yr; null at the youngest', differenceShape),
      ),
    }),
  ),
  intervals: list(
    'intervals of the report whose two ends both know',
    record('one interval', {
      older_cal_bp: number('older end', 'cal BP'),
      younger_cal_bp: number('younger end', 'cal BP'),
      rate_mm_yr: as('mean rate, mm/yr: this curve less the other', differenceShape),
    }),
  ),
  mean_rate_mm_yr: orNull(
    as('mean rate over all the time that both know, mm/yr; null where that is one age', differenceShape),
  ),
};
const whole = record('what lies between a curve and another', besideShape);
export type Beside = ShapeValue<typeof whole>;

/** This curve less another; levels only where both count from one zero. */
export function besideCurve(
  curve: CurveResult,
  other: PublishedCurve,
  onOneDatum: boolean,
): Beside | NoAnswer {
  const both = bothOf(curve, other);
  if (!isAnswer(both)) return both;
  const intervals = curve.intervals
    .filter(({ older_cal_bp, younger_cal_bp }) =>
      [older_cal_bp, younger_cal_bp].every((age) => both.shared.includes(age)),
    )
    .map(({ older_cal_bp, younger_cal_bp }) => ({
      older_cal_bp,
      younger_cal_bp,
      rate_mm_yr: both.rate(older_cal_bp, younger_cal_bp),
    }));
  return { ...allDifferences(both, onOneDatum), intervals };
}

/** What remains of this curve without a prediction: the difference from a curve that is 0 throughout. */
export function besidePrediction(curve: CurveResult, prediction: PublishedCurve): Beside | NoAnswer {
  const left = lessPrediction(curve, prediction);
  if (!isAnswer(left)) return left;
  const ages_cal_bp = [...left.ages_cal_bp];
  return besideCurve(left, { ages_cal_bp, level_m: ages_cal_bp.map(() => 0), sd_m: null }, true);
}

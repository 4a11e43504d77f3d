/**
 * A curve beside another one, or beside a prediction of a part of its level: what lies between them, as results carry it.
 * A prediction is taken off draw by draw (`less-prediction.ts`); another curve is independent of this one (`difference.ts`).
 */
import { as, list, number, orNull, record, type ShapeValue } from '@stillstand/science/shape';
import type { CurveResult } from '../result/result.ts';
import { differenceFrom, differenceShape, inQuadrature, type PublishedCurve } from './difference.ts';
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

/**
 * This curve less another. `shift_sigma_m`: 1 sigma of what brought the other to the datum of this one, the same for all
 * its levels, so that it is in no rate; null where they are not on one datum, and levels are not compared.
 */
export function besideCurve(
  curve: CurveResult,
  other: PublishedCurve,
  shift_sigma_m: number | null,
): Beside | NoAnswer {
  const rates = differenceFrom(curve, other, false);
  if (!isAnswer(rates)) return rates;
  const levels = shift_sigma_m === null ? null : differenceFrom(curve, widened(other, shift_sigma_m), true);
  if (levels !== null && !isAnswer(levels)) return levels;
  return {
    ...rates,
    at: rates.at.map((each, i) => ({ ...each, level_m: levels?.at[i]?.level_m ?? null })),
    intervals: intervalsBeside(curve, other),
  };
}

/** What remains of this curve without a prediction: differences are from nothing. */
export function besidePrediction(curve: CurveResult, prediction: PublishedCurve): Beside | NoAnswer {
  const left = lessPrediction(curve, prediction);
  if (!isAnswer(left)) return left;
  const nothing = nothingAt([
    ...new Set([
      ...left.ages_cal_bp,
      ...left.intervals.flatMap((interval) => [interval.older_cal_bp, interval.younger_cal_bp]),
    ]),
  ]);
  const remains = differenceFrom(left, nothing, true);
  if (!isAnswer(remains)) return remains;
  return { ...remains, intervals: intervalsBeside(left, nothing) };
}

const nothingAt = (ages_cal_bp: readonly number[]): PublishedCurve => ({
  ages_cal_bp,
  level_m: ages_cal_bp.map(() => 0),
  sd_m: null,
});

const widened = (curve: PublishedCurve, sigma_m: number): PublishedCurve =>
  sigma_m === 0
    ? curve
    : { ...curve, sd_m: curve.level_m.map((_, i) => inQuadrature(curve.sd_m?.[i] ?? 0, sigma_m)) };

function intervalsBeside(curve: CurveResult, other: PublishedCurve): Beside['intervals'] {
  return curve.intervals.flatMap(({ older_cal_bp, younger_cal_bp }) => {
    const ends = [older_cal_bp, younger_cal_bp];
    const rows = ends.map((age) => other.ages_cal_bp.indexOf(age));
    if (rows.includes(-1)) return [];
    const difference = differenceFrom(curve, rowsOf(other, rows), false);
    const rate_mm_yr = isAnswer(difference) ? difference.mean_rate_mm_yr : null;
    return rate_mm_yr === null ? [] : [{ older_cal_bp, younger_cal_bp, rate_mm_yr }];
  });
}

const rowsOf = ({ ages_cal_bp, level_m, sd_m }: PublishedCurve, rows: readonly number[]): PublishedCurve => ({
  ages_cal_bp: rows.map((i) => ages_cal_bp[i]!),
  level_m: rows.map((i) => level_m[i]!),
  sd_m: sd_m === null ? null : rows.map((i) => sd_m[i]!),
});

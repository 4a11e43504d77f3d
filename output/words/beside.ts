/** What lies between a curve and another, or is left without a prediction, in words and cells. */
import type { OtherCurveResult } from '@stillstand/campaign/results';
import type { Difference } from '@stillstand/science/curve';
import { share } from './curve-answers.ts';
import { decimalsFor, range, signed } from './number.ts';

export const besideTitle = ({ name, use }: Pick<OtherCurveResult, 'name' | 'use'>): string =>
  use === 'subtract' ? `What remains without ${name}` : `This curve less ${name}`;

/** Differences of mean rates: over the intervals of the report, then over all the time that both know. */
export function besideRates({
  intervals,
  mean_rate_mm_yr,
  at,
}: Pick<OtherCurveResult, 'intervals' | 'mean_rate_mm_yr' | 'at'>): OtherCurveResult['intervals'] {
  const [oldest, youngest] = [at[0], at.at(-1)];
  if (mean_rate_mm_yr === null || oldest === undefined || youngest === undefined) return intervals;
  const whole = { older_cal_bp: oldest.age_cal_bp, younger_cal_bp: youngest.age_cal_bp };
  return [...intervals, { ...whole, rate_mm_yr: mean_rate_mm_yr }];
}

/** What the probability is of. */
export const besideLarger = ({ use }: Pick<OtherCurveResult, 'use'>): { level: string; rate: string } =>
  use === 'subtract' ? { level: 'p above 0', rate: 'p above 0' } : { level: 'p higher', rate: 'p faster' };

/** What is assumed of its errors, and what stands in the way of a comparison: sentences. */
export function besideDoubts({
  use,
  datum,
  shift_sigma_m,
  levels,
}: Pick<OtherCurveResult, 'use' | 'datum' | 'shift_sigma_m' | 'levels'>): string[] {
  return [
    use === 'subtract'
      ? 'The error of the prediction is taken as one for all ages.'
      : 'The errors of the two curves, and those of its rows, are taken as independent: where the two share one, the differences are better known than this; where the rows share one, so are the differences of rates.',
    ...(levels.every(({ level_sigma_m }) => level_sigma_m === null)
      ? ['Its levels have no errors: what follows from them is given too narrow.']
      : []),
    ...(use === 'subtract' || (datum !== null && shift_sigma_m !== null)
      ? []
      : [
          datum === null
            ? 'Its datum is not known: differences of level hold only if it is that of the campaign; those of the rates hold.'
            : 'No shift leads from its datum to that of the campaign: only rates are compared.',
        ]),
  ];
}

/** Pairs of draws are many, but of no more than some hundred effective draws of each: no share is said below 0.01. */
const PAIRS = 100;

export const shareOfPairs = (p: number): string => share(p, PAIRS);

/** "+1.2", "+0.4 to +2.0", "0.97" or ">0.99"; empty where there is none. */
export function differenceCells(difference: Difference | null): { median: string; range: string; p: string } {
  if (difference === null) return { median: '', range: '', p: '' };
  const { median, lower95, upper95, sd, p_larger } = difference;
  const decimals = decimalsFor(2 * sd, 1, 2);
  return {
    median: signed(median, decimals),
    range: range(lower95, upper95, decimals),
    p: shareOfPairs(p_larger).replace('less than ', '<').replace('more than ', '>'),
  };
}

/** Whether the sea rose faster than a given rate: on the mean over a stretch of time, and at an age. */
import type { CurveResult } from '../result/result.ts';
import { type Amount, amountOf, type Chance, chanceOf } from './amount.ts';
import {
  ageWithin,
  areReported,
  betweenAges,
  errorOfMeanRate,
  isAnswer,
  meanRates,
  type NoAnswer,
  pathsOf,
  ratesAt,
  type TooWide,
  tooWide,
  type Window,
  wholeOf,
  windowWithin,
} from './paths.ts';

export interface RateAbove {
  rate_mm_yr: Amount;
  /** That it is more than what was asked. */
  above: Chance;
  too_wide: TooWide | null;
}

/** Of the mean rate over a window within the reported ages (null: all of them). */
export function meanRateAbove(
  curve: CurveResult,
  mm_yr: number,
  asked: Window | null,
): (RateAbove & { window: Window }) | NoAnswer {
  const paths = pathsOf(curve);
  const window = windowWithin(paths, asked);
  if (!isAnswer(window)) return window;
  const { older_cal_bp, younger_cal_bp } = window;
  const found = rateAbove(meanRates(paths, window), mm_yr, paths.chains);
  const between = betweenAges(curve, paths, window);
  const error = areReported(paths, [older_cal_bp, younger_cal_bp])
    ? 0
    : errorOfMeanRate(between, older_cal_bp - younger_cal_bp);
  return { ...found, window, too_wide: tooWide(between.gap_yr, error, found.rate_mm_yr.sd, 'mm/yr') };
}

/** Of the rate at an age within those reported. */
export function rateAboveAt(curve: CurveResult, mm_yr: number, age_cal_bp: number): RateAbove | NoAnswer {
  const paths = pathsOf(curve);
  const refused = ageWithin(paths, age_cal_bp);
  if (refused !== null) return refused;
  const found = rateAbove(
    ratesAt(paths, age_cal_bp).map((rate) => 1000 * rate),
    mm_yr,
    paths.chains,
  );
  const whole = wholeOf(paths);
  if (whole === null || areReported(paths, [age_cal_bp])) return { ...found, too_wide: null };
  const { gap_yr, rate_mm_yr } = betweenAges(curve, paths, whole);
  return { ...found, too_wide: tooWide(gap_yr, rate_mm_yr, found.rate_mm_yr.sd, 'mm/yr') };
}

const rateAbove = (
  rates_mm_yr: Float64Array,
  mm_yr: number,
  chains: number,
): Omit<RateAbove, 'too_wide'> => ({
  rate_mm_yr: amountOf(rates_mm_yr, chains),
  above: chanceOf(rates_mm_yr.length, chains, (d) => rates_mm_yr[d]! > mm_yr),
});

/** Whether the rise quickened: the mean rate of the younger half of a window against that of the older. */
import type { CurveResult } from '../result/result.ts';
import { type Amount, amountOf, type Chance, chanceOf } from './amount.ts';
import {
  areReported,
  betweenAges,
  errorOfMeanRate,
  isAnswer,
  meanRates,
  type NoAnswer,
  pathsOf,
  type TooWide,
  tooWide,
  type Window,
  windowWithin,
} from './paths.ts';

export interface Acceleration {
  window: Window;
  older_mm_yr: Amount;
  younger_mm_yr: Amount;
  /** Mean rate of the younger half less that of the older, over the time between their middles: mm/yr per 1,000 yr. */
  mm_yr_per_ka: Amount;
  quickened: Chance;
  too_wide: TooWide | null;
}

export function acceleration(curve: CurveResult, asked: Window | null): Acceleration | NoAnswer {
  const paths = pathsOf(curve);
  const window = windowWithin(paths, asked);
  if (!isAnswer(window)) return window;
  const { older_cal_bp, younger_cal_bp } = window;
  const { draws, chains } = paths;
  const middle = (older_cal_bp + younger_cal_bp) / 2;
  const older = meanRates(paths, { older_cal_bp, younger_cal_bp: middle });
  const younger = meanRates(paths, { older_cal_bp: middle, younger_cal_bp });
  const change = younger.map((rate, d) => rate - older[d]!);
  const halfYears = (older_cal_bp - younger_cal_bp) / 2;
  const between = betweenAges(curve, paths, window);
  const isOn = areReported(paths, [older_cal_bp, middle, younger_cal_bp]);
  // The level in the middle enters twice.
  const error = isOn ? 0 : Math.sqrt(3) * errorOfMeanRate(between, halfYears);
  return {
    window,
    older_mm_yr: amountOf(older, chains),
    younger_mm_yr: amountOf(younger, chains),
    mm_yr_per_ka: amountOf(
      change.map((mm_yr) => (1000 * mm_yr) / halfYears),
      chains,
    ),
    quickened: chanceOf(draws, chains, (d) => change[d]! > 0),
    too_wide: tooWide(between.gap_yr, error, amountOf(change, chains).sd, 'mm/yr'),
  };
}

/** When the rate fell below a value: for the first time, and for good. */
import type { CurveResult } from '../result/result.ts';
import { type Amount, amountWhere, type Chance, chanceOf } from './amount.ts';
import {
  betweenAges,
  isAnswer,
  type NoAnswer,
  pathsOf,
  stretch,
  stretchesOf,
  type TooWide,
  tooWide,
  usualSd,
  type Window,
  windowWithin,
} from './paths.ts';
import { derivative, passings, valueAt } from './polynomial.ts';

interface Fell {
  /** That it happened within the window. */
  happened: Chance;
  /** When, of the draws in which it did; null where too few show it. */
  age_cal_bp: Amount | null;
}

export interface WhenSlowed {
  window: Window;
  /** The first time, from the older end on, that it fell from above the value to below it. It may have risen again. */
  first: Fell;
  /** The last such time, where it then stayed below up to the younger end. */
  for_good: Fell;
  /** That it was below the value at the older end, so that an earlier fall is not in the window. */
  below_at_start: Chance;
  /** That it was below the value in all of the window. */
  below_throughout: Chance;
  too_wide: TooWide | null;
}

/** The rate itself, at each moment, not a mean over years. */
export function whenSlowed(curve: CurveResult, mm_yr: number, asked: Window | null): WhenSlowed | NoAnswer {
  const paths = pathsOf(curve);
  const window = windowWithin(paths, asked);
  if (!isAnswer(window)) return window;
  const { draws, chains } = paths;
  const stretches = stretchesOf(paths, window);
  const first = new Float64Array(draws).fill(Number.NaN);
  const forGood = new Float64Array(draws).fill(Number.NaN);
  const isBelowFirst = new Uint8Array(draws);
  const isBelowAll = new Uint8Array(draws);
  for (let d = 0; d < draws; d++) {
    let isBelow = false;
    let rose = false;
    for (const [i, { k, older_cal_bp, years, from, to }] of stretches.entries()) {
      const rate = derivative(stretch(paths, d, k));
      const value = (mm_yr / 1000) * years;
      if (i === 0) {
        isBelow = valueAt(rate, from) < value;
        isBelowFirst[d] = isBelow ? 1 : 0;
      }
      for (const { u, isRising } of passings(rate, value, from, to)) {
        isBelow = !isRising;
        if (isRising) rose = true;
        else {
          forGood[d] = older_cal_bp - u * years;
          if (Number.isNaN(first[d]!)) first[d] = forGood[d]!;
        }
      }
    }
    if (!isBelow) forGood[d] = Number.NaN;
    isBelowAll[d] = isBelowFirst[d] === 1 && !rose ? 1 : 0;
  }
  const fell = (age: Float64Array): Fell => ({
    happened: chanceOf(draws, chains, (d) => !Number.isNaN(age[d]!)),
    age_cal_bp: amountWhere(age, chains),
  });
  const { gap_yr, rate_mm_yr } = betweenAges(curve, paths, window);
  return {
    window,
    first: fell(first),
    for_good: fell(forGood),
    below_at_start: chanceOf(draws, chains, (d) => isBelowFirst[d] === 1),
    below_throughout: chanceOf(draws, chains, (d) => isBelowAll[d] === 1),
    too_wide: tooWide(gap_yr, rate_mm_yr, usualSd(curve, 'rate', window), 'mm/yr'),
  };
}

/** When the rising sea first passed a level. */
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
import { passings, valueAt } from './polynomial.ts';

export interface WhenPassed {
  window: Window;
  /** That it rose through the level at all within the window. */
  passed: Chance;
  /** When it first did, of the draws in which it did; null where too few show it. */
  age_cal_bp: Amount | null;
  /** That it rose through it more than once. */
  more_than_once: Chance;
  /** That it stood at or above the level at the older end, so that an earlier passing is not in the window. */
  above_at_start: Chance;
  too_wide: TooWide | null;
}

/** The first time, from the oldest age on, that it rises from below `level_m` (m, campaign datum) to it. */
export function whenPassed(curve: CurveResult, level_m: number, asked: Window | null): WhenPassed | NoAnswer {
  const paths = pathsOf(curve);
  const window = windowWithin(paths, asked);
  if (!isAnswer(window)) return window;
  const { draws, chains } = paths;
  const stretches = stretchesOf(paths, window);
  const age = new Float64Array(draws).fill(Number.NaN);
  const times = new Uint8Array(draws);
  const isAbove = new Uint8Array(draws);
  for (let d = 0; d < draws; d++) {
    for (const [i, { k, older_cal_bp, years, from, to }] of stretches.entries()) {
      const level = stretch(paths, d, k);
      if (i === 0) isAbove[d] = valueAt(level, from) >= level_m ? 1 : 0;
      for (const { u, isRising } of passings(level, level_m, from, to)) {
        if (!isRising) continue;
        if (times[d] === 0) age[d] = older_cal_bp - u * years;
        times[d] = Math.min(255, times[d]! + 1);
      }
    }
  }
  const { gap_yr, level_m: error } = betweenAges(curve, paths, window);
  return {
    window,
    passed: chanceOf(draws, chains, (d) => times[d]! > 0),
    age_cal_bp: amountWhere(age, chains),
    more_than_once: chanceOf(draws, chains, (d) => times[d]! > 1),
    above_at_start: chanceOf(draws, chains, (d) => isAbove[d] === 1),
    too_wide: tooWide(gap_yr, error, usualSd(curve, 'level', window), 'm'),
  };
}

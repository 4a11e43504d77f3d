/** The highest stand of the sea within a window: how high, when, and whether above today's. */
import type { CurveResult } from '../result/result.ts';
import { type Amount, amountOf, type Chance, chanceOf } from './amount.ts';
import {
  betweenAges,
  isAnswer,
  levelsAt,
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
import { turns, valueAt } from './polynomial.ts';

export interface HighestStand {
  window: Window;
  level_m: Amount;
  age_cal_bp: Amount;
  /** That it was at an end of the window: the sea may have stood higher before, or later. */
  at_older_end: Chance;
  at_younger_end: Chance;
  /** That it lies above 0 of the campaign datum. */
  above_zero: Chance;
  /** How far it lies above the same draw's level at the youngest reported age: errors that both share cancel. */
  youngest_cal_bp: number;
  above_youngest_m: Amount;
  too_wide: TooWide | null;
}

export function highestStand(curve: CurveResult, asked: Window | null): HighestStand | NoAnswer {
  const paths = pathsOf(curve);
  const window = windowWithin(paths, asked);
  if (!isAnswer(window)) return window;
  const { draws, chains, ages_cal_bp } = paths;
  const stretches = stretchesOf(paths, window);
  const level = new Float64Array(draws).fill(-Infinity);
  const age = new Float64Array(draws);
  for (let d = 0; d < draws; d++) {
    for (const { k, older_cal_bp, years, from, to } of stretches) {
      const path = stretch(paths, d, k);
      for (const u of [from, ...turns(path, from, to), to]) {
        const at = valueAt(path, u);
        if (at > level[d]!) {
          level[d] = at;
          // The end itself, not what a product makes of it.
          age[d] =
            u === to && to < 1
              ? window.younger_cal_bp
              : u === 1
                ? ages_cal_bp[k + 1]!
                : older_cal_bp - u * years;
        }
      }
    }
  }
  const youngest_cal_bp = ages_cal_bp.at(-1)!;
  const youngest = levelsAt(paths, youngest_cal_bp);
  const { gap_yr, level_m: error } = betweenAges(curve, paths, window);
  return {
    window,
    level_m: amountOf(level, chains),
    age_cal_bp: amountOf(age, chains),
    at_older_end: chanceOf(draws, chains, (d) => age[d]! >= window.older_cal_bp),
    at_younger_end: chanceOf(draws, chains, (d) => age[d]! <= window.younger_cal_bp),
    above_zero: chanceOf(draws, chains, (d) => level[d]! > 0),
    youngest_cal_bp,
    above_youngest_m: amountOf(
      level.map((m, d) => m - youngest[d]!),
      chains,
    ),
    too_wide: tooWide(gap_yr, error, usualSd(curve, 'level', window), 'm'),
  };
}

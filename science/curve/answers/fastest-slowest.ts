/** The fastest and the slowest stretch of a stated length. */
import type { CurveResult } from '../result/result.ts';
import { type Amount, amountOf } from './amount.ts';
import {
  betweenAges,
  errorOfMeanRate,
  isAnswer,
  levelsAt,
  type NoAnswer,
  pathsOf,
  ratesAt,
  type TooWide,
  tooWide,
  type Window,
  windowWithin,
} from './paths.ts';
import { cubicThrough, turns, valueAt } from './polynomial.ts';

interface Stretch {
  /** Mean rate over it, mm/yr. */
  rate_mm_yr: Amount;
  /** Its middle. */
  middle_cal_bp: Amount;
}

export interface FastestSlowest {
  window: Window;
  years: number;
  /** Of all stretches of that length in the window, the one with the largest mean rate, and the one with the least. */
  fastest: Stretch;
  slowest: Stretch;
  too_wide: TooWide | null;
}

/** @param years length of the stretches, above 0 and no longer than the window */
export function fastestSlowest(
  curve: CurveResult,
  years: number,
  asked: Window | null,
): FastestSlowest | NoAnswer {
  const paths = pathsOf(curve);
  const window = windowWithin(paths, asked);
  if (!isAnswer(window)) return window;
  const span = window.older_cal_bp - window.younger_cal_bp;
  if (!(years > 0 && years <= span))
    return {
      found: `stretches of ${years} yr`,
      expected: `above 0, at most the ${span} yr that are looked at`,
    };
  const { draws, chains } = paths;
  // Between two of these beginnings neither end of a stretch passes a reported age, so the rise over it is one cubic.
  const last = window.younger_cal_bp + years;
  const begins = [
    ...new Set(
      [...paths.ages_cal_bp]
        .flatMap((age) => [age, age + years])
        .filter((age) => age < window.older_cal_bp && age > last)
        .concat(window.older_cal_bp, last),
    ),
  ].sort((a, b) => b - a);
  const rise = begins.map((age) => {
    const before = levelsAt(paths, age);
    return levelsAt(paths, age - years).map((level, d) => level - before[d]!);
  });
  const slope = begins.map((age) => {
    const before = ratesAt(paths, age);
    return ratesAt(paths, age - years).map((rate, d) => rate - before[d]!);
  });
  const most = new Float64Array(draws).fill(-Infinity);
  const least = new Float64Array(draws).fill(Infinity);
  const mostBegins = new Float64Array(draws);
  const leastBegins = new Float64Array(draws);
  const hear = (d: number, rose: number, begin: number): void => {
    if (rose > most[d]!) [most[d], mostBegins[d]] = [rose, begin];
    if (rose < least[d]!) [least[d], leastBegins[d]] = [rose, begin];
  };
  for (let d = 0; d < draws; d++) {
    hear(d, rise[0]![d]!, begins[0]!);
    for (let i = 0; i + 1 < begins.length; i++) {
      const step = begins[i]! - begins[i + 1]!;
      const over = cubicThrough(
        rise[i]![d]!,
        rise[i + 1]![d]!,
        step * slope[i]![d]!,
        step * slope[i + 1]![d]!,
      );
      for (const u of turns(over, 0, 1)) hear(d, valueAt(over, u), begins[i]! - u * step);
      hear(d, rise[i + 1]![d]!, begins[i + 1]!);
    }
  }
  const of = (rose: Float64Array, begin: Float64Array): Stretch => ({
    rate_mm_yr: amountOf(
      rose.map((m) => (1000 * m) / years),
      chains,
    ),
    middle_cal_bp: amountOf(
      begin.map((age) => age - years / 2),
      chains,
    ),
  });
  const [fastest, slowest] = [of(most, mostBegins), of(least, leastBegins)];
  const between = betweenAges(curve, paths, window);
  const sd = Math.min(fastest.rate_mm_yr.sd, slowest.rate_mm_yr.sd);
  return {
    window,
    years,
    fastest,
    slowest,
    too_wide: tooWide(between.gap_yr, errorOfMeanRate(between, years), sd, 'mm/yr'),
  };
}

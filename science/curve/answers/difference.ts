/**
 * How far a curve lies from that of another site, or from a published one. Their draws know nothing of each other, so
 * every draw of one goes with every draw of the other: quantiles of the difference are those of all pairs. Errors that
 * the two share (a datum shift, the same calibration curve) are taken as independent and widen it.
 */
import { mean, normalQuantile, square, standardDeviation } from '@stillstand/science/base';
import { number, record, type ShapeValue } from '@stillstand/science/shape';
import type { CurveResult } from '../result/result.ts';
import { amountOf } from './amount.ts';
import { isAnswer, levelsAt, type NoAnswer, type Paths, pathsOf, tooFew, wholeOf } from './paths.ts';

/** A curve in a table: ages in any order. */
export interface PublishedCurve {
  ages_cal_bp: readonly number[];
  level_m: readonly number[];
  /** 1 sd of each level; null where none is stated: then it counts as exact, and the caller says so. */
  sd_m: readonly number[] | null;
  /** 1 sd of its zero (a datum shift): one error of all its levels, so that it is in no rate. Left out: 0. */
  zero_sd_m?: number;
}

const OF = 'unit of the property';

export const differenceShape = record('a number of one curve less the same of another', {
  median: number('median', OF),
  lower95: number('lower end of the central 95 %', OF),
  upper95: number('upper end of the central 95 %', OF),
  mean: number('mean', OF),
  sd: number('standard deviation', OF),
  mcse: number('Monte-Carlo standard error of the mean, of both sides', OF),
  p_larger: number('share of all pairs of draws in which this one is larger', '0 to 1'),
});
/** This curve less the other. */
export type Difference = ShapeValue<typeof differenceShape>;

interface DifferenceAtAge {
  age_cal_bp: number;
  /** Null where the two are not on one datum. */
  level_m: Difference | null;
  /** Mean rate from this age to the next younger one; null at the youngest. A constant shift of the datum is not in it. */
  rate_mm_yr: Difference | null;
}

export interface DifferenceFrom {
  /** Ages both know, the oldest first: of two curves those this one reports, of a table its rows. */
  at: DifferenceAtAge[];
  /** Of the mean rates over all the time they share; null where that is one age. */
  mean_rate_mm_yr: Difference | null;
}

/** Levels at shared ages, and mean rates between two of them, as draws; and the Monte-Carlo error of their means. */
interface Side {
  level(age_cal_bp: number): Draws;
  rate(older_cal_bp: number, younger_cal_bp: number): Draws;
}
interface Draws {
  draws: Float64Array;
  mcse: number;
}

/** Two curves, read once. */
interface Both {
  /** Ages both know, the oldest first. */
  shared: number[];
  level(age_cal_bp: number): Difference;
  rate(older_cal_bp: number, younger_cal_bp: number): Difference;
}

/** @param onOneDatum whether the heights of both count from the same zero */
export function differenceFrom(
  curve: CurveResult,
  other: CurveResult | PublishedCurve,
  onOneDatum: boolean,
): DifferenceFrom | NoAnswer {
  const both = bothOf(curve, other);
  return isAnswer(both) ? allDifferences(both, onOneDatum) : both;
}

/** What is reported of the two. */
export function allDifferences({ shared, level, rate }: Both, onOneDatum: boolean): DifferenceFrom {
  const [oldest, youngest] = [shared[0]!, shared.at(-1)!];
  return {
    at: shared.map((age_cal_bp, i) => ({
      age_cal_bp,
      level_m: onOneDatum ? level(age_cal_bp) : null,
      rate_mm_yr: i + 1 < shared.length ? rate(age_cal_bp, shared[i + 1]!) : null,
    })),
    mean_rate_mm_yr: oldest > youngest ? rate(oldest, youngest) : null,
  };
}

export function bothOf(curve: CurveResult, other: CurveResult | PublishedCurve): Both | NoAnswer {
  const paths = pathsOf(curve);
  const isTable = !('draws' in other);
  const others = isTable ? null : pathsOf(other);
  const few = tooFew(paths) ?? (others === null ? null : tooFew(others));
  if (few !== null) return few;
  const known = isTable ? Float64Array.from(other.ages_cal_bp).sort().reverse() : others!.ages_cal_bp;
  const from = isTable ? known : paths.ages_cal_bp;
  const to = isTable ? paths.ages_cal_bp : known;
  const shared = [...new Set(from)].filter(
    (age) => age <= (to[0] ?? -Infinity) && age >= (to.at(-1) ?? Infinity),
  );
  if (shared.length === 0)
    return {
      found: `ages from ${spanOf(known)}`,
      expected: `ages that overlap ${spanOf(paths.ages_cal_bp)}`,
    };
  const here = sideOf(paths);
  const there = isTable ? sideOfTable(other) : sideOf(others!);
  return {
    shared,
    level: (age) => lessOther(here.level(age), there.level(age)),
    rate: (older, younger) => lessOther(here.rate(older, younger), there.rate(older, younger)),
  };
}

function spanOf(ages: Float64Array): string {
  const whole = wholeOf({ ages_cal_bp: ages });
  if (whole !== null) return `${whole.older_cal_bp} to ${whole.younger_cal_bp} cal BP`;
  return ages.length === 0 ? 'no age' : `${ages[0]} cal BP`;
}

function sideOf(paths: Paths): Side {
  const withError = (draws: Float64Array): Draws => ({ draws, mcse: amountOf(draws, paths.chains).mcse });
  return {
    level: (age) => withError(levelsAt(paths, age)),
    rate: (older, younger) => {
      const before = levelsAt(paths, older);
      return withError(levelsAt(paths, younger).map((m, d) => (1000 * (m - before[d]!)) / (older - younger)));
    },
  };
}

/** Draws that a normal law is spread over evenly. */
const SPREAD = Float64Array.from({ length: 500 }, (_, i) => normalQuantile((i + 0.5) / 500));
/** Less than 1 by what the outermost lack. */
const SPREAD_SD = Math.sqrt(SPREAD.reduce((sum, z) => sum + square(z), 0) / SPREAD.length);

/** Errors of a table's rows are independent; where they are shared, its rates come out too wide. */
function sideOfTable({ ages_cal_bp, level_m, sd_m, zero_sd_m = 0 }: PublishedCurve): Side {
  const normal = (centre: number, sd: number): Draws => ({
    draws: sd > 0 ? SPREAD.map((z) => centre + (sd * z) / SPREAD_SD) : Float64Array.of(centre),
    mcse: 0,
  });
  const row = (age: number): { level: number; sd: number } => {
    const i = ages_cal_bp.indexOf(age);
    return { level: level_m[i]!, sd: sd_m?.[i] ?? 0 };
  };
  return {
    level: (age) => normal(row(age).level, inQuadrature(row(age).sd, zero_sd_m)),
    rate: (older, younger) => {
      const [a, b] = [row(older), row(younger)];
      const per = 1000 / (older - younger);
      return normal(per * (b.level - a.level), per * inQuadrature(a.sd, b.sd));
    },
  };
}

const inQuadrature = (a: number, b: number): number => Math.sqrt(square(a) + square(b));

function lessOther(here: Draws, there: Draws): Difference {
  const x = Float64Array.from(here.draws).sort();
  const y = Float64Array.from(there.draws).sort();
  const quantile = (p: number): number => pairQuantile(x, y, p);
  const sd = (draws: Float64Array): number => (draws.length < 2 ? 0 : standardDeviation(draws));
  return {
    median: quantile(0.5),
    lower95: quantile(0.025),
    upper95: quantile(0.975),
    mean: mean(x) - mean(y),
    sd: inQuadrature(sd(x), sd(y)),
    mcse: inQuadrature(here.mcse, there.mcse),
    p_larger: 1 - pairsBelow(x, y, 0) / (x.length * y.length),
  };
}

/** How many differences x − y of two ascending runs are at most d. */
function pairsBelow(x: Float64Array, y: Float64Array, d: number): number {
  let count = 0;
  let from = 0;
  for (let i = 0; i < x.length; i++) {
    // y of at least x − d, from the first such on.
    while (from < y.length && y[from]! < x[i]! - d) from++;
    count += y.length - from;
  }
  return count;
}

/** A hundred-millionth of the widest difference: far below any reported digit. */
const HALVINGS = 27;

function pairQuantile(x: Float64Array, y: Float64Array, p: number): number {
  let low = x[0]! - y.at(-1)!;
  let high = x.at(-1)! - y[0]!;
  const wanted = p * x.length * y.length;
  for (let k = 0; k < HALVINGS && high > low; k++) {
    const middle = (low + high) / 2;
    if (pairsBelow(x, y, middle) < wanted) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Kept draws: one column of numbers for each quantity and chain, taken from a chain every so many sweeps. */
import { exp } from '@stillstand/science/base';
import { datesOutOfPlace } from '../histories/walks.ts';
import { type Expected, noneExpected } from '../others/leave-one-out.ts';
import { ageOutlierProbability } from '../problem/outliers.ts';
import { errorKindOf, type Problem } from '../problem/problem.ts';
import { type Path, path } from '../process/path.ts';
import type { Chain } from './chain.ts';
import { letPass } from './loose-limits.ts';
import { oneBreakAges } from './one-break.ts';
import { drawPathOf } from './warm-up.ts';

const KA = 1000;

/** Columns [quantity][draw] of one chain. */
export interface Draws {
  level_m: Float64Array[];
  rate_mm_yr: Float64Array[];
  interval_mm_yr: Float64Array[];
  age_cal_bp: Float64Array[];
  /** What the shared height errors (m) and reservoir errors (14C yr) come to where they weigh most. */
  shift_m: Float64Array[];
  offset_yr: Float64Array[];
  rate_sd_mm_yr: Float64Array;
  length_ka: Float64Array;
  slowing_mm_yr_ka: Float64Array;
  scatter_m: Float64Array;
  /** How many breaks a rate has whose number is free. */
  breaks: Float64Array;
  /** Of a stepwise rate, the youngest change first: when; the rate before and after; the jump up at it. */
  change_cal_bp: Float64Array[];
  older_mm_yr: Float64Array[];
  younger_mm_yr: Float64Array[];
  jump_m: Float64Array[];
  /** Observed minus modelled height, shared errors off, by point. */
  residual_m: Float64Array[];
  /** Probability that its date, that its height is an outlier, by point. */
  age_outlier: Float64Array[];
  height_outlier: Float64Array[];
  /** What the others lead to expect of each point, of every so many draws; none where that is not asked. */
  expected: Expected;
  /** By how much one break would better the log likelihood, by age, of every so many draws. */
  one_break: Float64Array[];
}

/** Where the reported ages and ends of intervals stand among the stops of a path. */
export interface Reports {
  path: Path;
  age: Int32Array;
  older: Int32Array;
  younger: Int32Array;
  /** Probability that each point's date is out of place, of those in a history. */
  outOfPlace: Float64Array;
}

export function reports(problem: Problem): Reports {
  const { ages_cal_bp, intervals } = problem.settings;
  const ends = intervals.flatMap((i) => [i.older_cal_bp, i.younger_cal_bp]);
  const stops = Float64Array.from(new Set([...ages_cal_bp, ...ends])).sort();
  const at = new Map(Array.from(stops, (age, k) => [age, k]));
  const places = (ages: readonly number[]): Int32Array => Int32Array.from(ages, (age) => at.get(age)!);
  return {
    path: path(
      problem.nodes,
      stops.map((age) => age / KA),
      2 * stepsOf(problem),
    ),
    age: places(ages_cal_bp),
    older: places(intervals.map((i) => i.older_cal_bp)),
    younger: places(intervals.map((i) => i.younger_cal_bp)),
    outOfPlace: new Float64Array(problem.points.length),
  };
}

/** Changes whose number is known. */
export const stepsOf = ({ settings: { rate_model } }: Problem): number =>
  rate_model.kind === 'stepwise' ? rate_model.changes : 0;

/** Room for so many draws, and so many of what is expected of each point. */
export function emptyDraws(problem: Problem, draws: number, expected: number): Draws {
  const { settings, points, groups, offsets } = problem;
  const columns = (n: number): Float64Array[] => Array.from({ length: n }, () => new Float64Array(draws));
  return {
    level_m: columns(settings.ages_cal_bp.length),
    rate_mm_yr: columns(settings.ages_cal_bp.length),
    interval_mm_yr: columns(settings.intervals.length),
    age_cal_bp: columns(points.length),
    shift_m: columns(groups.length),
    offset_yr: columns(offsets.length),
    rate_sd_mm_yr: new Float64Array(draws),
    length_ka: new Float64Array(draws),
    slowing_mm_yr_ka: new Float64Array(draws),
    scatter_m: new Float64Array(draws),
    breaks: new Float64Array(draws),
    change_cal_bp: columns(stepsOf(problem)),
    older_mm_yr: columns(stepsOf(problem)),
    younger_mm_yr: columns(stepsOf(problem)),
    jump_m: columns(stepsOf(problem)),
    residual_m: columns(points.length),
    age_outlier: columns(points.length),
    height_outlier: columns(points.length),
    expected: noneExpected(problem, expected),
    one_break: Array.from(oneBreakAges(settings), () => new Float64Array(expected)),
  };
}

/** Draws a path and, where the loose limits let it pass, stores everything reported as draw number `at`; else false. */
export function keepDraw(chain: Chain, r: Reports, draws: Draws, at: number): boolean {
  const { problem, o } = chain;
  const { points } = problem;
  const length_ka = exp(chain.log_length);
  lookBesideChanges(r.path, chain, stepsOf(problem));
  drawPathOf(chain, r.path);
  if (!letPass(chain.limits, problem, r.path, chain.shift_m, chain.stream)) return false;
  const { level_m, rate_mm_yr, levelAtNode_m, age_ka } = r.path;
  for (let k = 0; k < r.age.length; k++) {
    draws.level_m[k]![at] = level_m[r.age[k]!]!;
    draws.rate_mm_yr[k]![at] = rate_mm_yr[r.age[k]!]!;
  }
  for (let k = 0; k < r.older.length; k++) {
    const a = r.older[k]!;
    const b = r.younger[k]!;
    // m/ka = mm/yr.
    draws.interval_mm_yr[k]![at] = (level_m[b]! - level_m[a]!) / (age_ka[a]! - age_ka[b]!);
  }
  datesOutOfPlace(chain.walks, r.outOfPlace);
  for (let i = 0; i < points.length; i++) {
    draws.age_cal_bp[i]![at] = KA * o.age_ka[i]!;
    const expected = levelAtNode_m[i]! + chain.shift_m[i]!;
    draws.residual_m[i]![at] = points[i]!.height_m - expected;
    const shift = problem.offsetOf[i]! >= 0 ? chain.offset[problem.offsetOf[i]!]! : 0;
    draws.age_outlier[i]![at] =
      points[i]!.age.kind === 'of_hole'
        ? r.outOfPlace[i]!
        : ageOutlierProbability(problem.ages[i]!, problem.ageOutliers, KA * o.age_ka[i]!, shift);
    draws.height_outlier[i]![at] = errorKindOf(problem, i, chain.centre_m[i]!, expected, 0, Number.NaN);
  }
  for (let g = 0; g < draws.shift_m.length; g++)
    draws.shift_m[g]![at] = chain.shared[g]! * problem.groupSigma_m[g]!;
  for (let g = 0; g < draws.offset_yr.length; g++)
    draws.offset_yr[g]![at] = chain.offset[g]! * problem.offsetSigma_yr[g]!;
  draws.rate_sd_mm_yr[at] = chain.rates.sd_mm_yr;
  draws.length_ka[at] = length_ka;
  draws.slowing_mm_yr_ka[at] = chain.rates.slowing_mm_yr_ka;
  draws.scatter_m[at] = chain.scatter.sd_m;
  draws.breaks[at] = chain.rates.breaks;
  keepChanges(r.path, chain, draws, at);
  return true;
}

/** Beside a change, ka: some hours. */
const BESIDE_KA = 1e-6;

/** The path is looked at on both sides of each change. */
function lookBesideChanges(path: Path, { rates }: Chain, changes: number): void {
  path.more = 2 * changes;
  for (let k = 0; k < changes; k++) {
    path.more_ka[2 * k] = rates.break_ka[k]! - BESIDE_KA;
    path.more_ka[2 * k + 1] = rates.break_ka[k]! + BESIDE_KA;
  }
}

function keepChanges(path: Path, { rates }: Chain, draws: Draws, at: number): void {
  const first = path.age_ka.length;
  for (let k = 0; k < draws.change_cal_bp.length; k++) {
    const younger = first + 2 * k;
    const older = younger + 1;
    draws.change_cal_bp[k]![at] = KA * rates.break_ka[k]!;
    draws.older_mm_yr[k]![at] = path.rate_mm_yr[older]!;
    draws.younger_mm_yr[k]![at] = path.rate_mm_yr[younger]!;
    draws.jump_m[k]![at] = path.level_m[younger]! - path.level_m[older]!;
  }
}

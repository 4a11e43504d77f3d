/**
 * What all other points have of the sea where one point is, and how probable the height found there is: by weight from
 * the draws that were asked, where the weights carry so far; else from chains that go on without the point's height.
 */
import { log, paretoSmoothed, pooled, square, type Work } from '@stillstand/science/base';
import type { CurveRun } from '../chain/curve-sampler.ts';
import type { Problem } from '../problem/problem.ts';
import type { FromOthers } from '../result/result.ts';
import { ASKED, SWEEPS_WITHOUT } from './expected-without.ts';
import type { Expected } from './leave-one-out.ts';

/** Means of so many draws by weight can be trusted below this shape of their tail (Vehtari et al. 2024, J. Mach. Learn.
 * Res. 25:72, section 3.2). */
const trusted = (draws: number): number => Math.min(1 - Math.LN10 / log(draws), 0.7);

/** The oldest and the youngest point, and index point: with nothing beyond them, the level without them has so wide a tail
 * that weights miss it and never say so. */
function ends({ points, visit }: Problem): Set<number> {
  const index = visit.filter((i) => points[i]!.kind === 'index');
  return new Set([visit, index].flatMap((of) => [...of.subarray(0, 1), ...of.subarray(-1)]));
}

/** One for each point. */
export function* fromOthers(problem: Problem, run: CurveRun): Work<FromOthers[]> {
  const { draws, expected } = run;
  const atEnd = ends(problem);
  const byWeight = problem.points.map((_, i) => {
    const columns = columnsOf(
      draws.map((d) => d.expected),
      expected,
      i,
    );
    const { weight, k } = paretoSmoothed(columns.logDensity.map((l) => -l));
    return { columns, weight, carries: k < trusted(columns.below.length) && !atEnd.has(i) };
  });
  const again = [...byWeight.keys()].filter((i) => !byWeight[i]!.carries);
  const sweeps = again.length * draws.length * SWEEPS_WITHOUT;
  const without = again.length === 0 ? [] : yield* run.without(again, sweeps);
  return byWeight.map(({ columns, weight, carries }, i) => {
    if (carries) return underWeights(columns, weight, 'weights');
    const asked = columnsOf(
      without.map((ofChain) => ofChain[again.indexOf(i)]!),
      ASKED,
      i,
    );
    return underWeights(
      asked,
      asked.below.map((_, __, all) => 1 / all.length),
      'chains',
    );
  });
}

interface Columns {
  logDensity: Float64Array;
  below: Float64Array;
  level_m: Float64Array;
  variance_m2: Float64Array;
}

/** The first `count` draws of each chain, one chain after another. */
function columnsOf(expected: readonly Expected[], count: number, i: number): Columns {
  const column = (name: keyof Expected): Float64Array =>
    pooled(expected.map((e) => e[name][i]!.subarray(0, count)));
  return {
    logDensity: column('logDensity'),
    below: column('below'),
    level_m: column('level_m'),
    variance_m2: column('variance_m2'),
  };
}

function underWeights(
  { below, level_m, variance_m2 }: Columns,
  weight: Float64Array,
  by: 'weights' | 'chains',
): FromOthers {
  const under = (values: Float64Array): number => values.reduce((sum, x, s) => sum + weight[s]! * x, 0);
  const mean = under(level_m);
  const variance = under(variance_m2) + under(level_m.map((x) => square(x - mean)));
  // Sums of weights miss 1 by a few ulps.
  return { predictive_p: Math.min(1, under(below)), level_m: { mean, sd: Math.sqrt(variance) }, by };
}

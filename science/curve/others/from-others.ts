/**
 * What all other points have of the sea where one point is, and how probable the height found there is: by weight from
 * the draws that were asked, where the weights carry so far; else from chains that go on without the point's height.
 */
import {
  essBulk,
  exp,
  log,
  mcseMean,
  mean,
  paretoSmoothed,
  pooled,
  square,
  type Work,
} from '@stillstand/science/base';
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

/** Scores by weight are taken below this shape of their tail (Vehtari, Gelman & Gabry 2017, Stat. Comput. 27:1413–1432). */
const SCORED = 0.7;
/** What weights as good as even have for a shape: −∞ is no number of a file. */
const NO_TAIL = -1;

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
    const { weight, k } = paretoSmoothed(pooled(columns.logDensity).map((l) => -l));
    const carries = k < trusted(weight.length) && !atEnd.has(i);
    const score = scoreByWeight(columns.score);
    return { columns, weight, carries, score, scored: carries && score.score_k <= SCORED };
  });
  const again = [...byWeight.keys()].filter((i) => !byWeight[i]!.scored);
  const sweeps = again.length * draws.length * SWEEPS_WITHOUT;
  const without = again.length === 0 ? [] : yield* run.without(again, sweeps);
  return byWeight.map(({ columns, weight, carries, score, scored }, i) => {
    if (scored) return { ...underWeights(columns, weight), by: 'weights', ...score };
    const asked = columnsOf(
      without.map((ofChain) => ofChain[again.indexOf(i)]!),
      ASKED,
      i,
    );
    const scoreOfChains = scoreByChains(asked.score);
    if (carries) return { ...underWeights(columns, weight), by: 'weights', ...scoreOfChains };
    const draws = asked.below.reduce((sum, { length }) => sum + length, 0);
    const even = new Float64Array(draws).fill(1 / draws);
    return { ...underWeights(asked, even), by: 'chains', ...scoreOfChains };
  });
}

/** By chain. */
type Columns = Record<keyof Expected, Float64Array[]>;

/** The first `count` draws of each chain. */
function columnsOf(expected: readonly Expected[], count: number, i: number): Columns {
  const column = (name: keyof Expected): Float64Array[] =>
    expected.map((e) => e[name][i]!.subarray(0, count));
  return {
    logDensity: column('logDensity'),
    score: column('score'),
    below: column('below'),
    level_m: column('level_m'),
    variance_m2: column('variance_m2'),
  };
}

function underWeights(columns: Columns, weight: Float64Array): Pick<FromOthers, 'predictive_p' | 'level_m'> {
  const below = pooled(columns.below);
  const level_m = pooled(columns.level_m);
  const variance_m2 = pooled(columns.variance_m2);
  const under = (values: Float64Array): number => values.reduce((sum, x, s) => sum + weight[s]! * x, 0);
  const mean = under(level_m);
  const variance = under(variance_m2) + under(level_m.map((x) => square(x - mean)));
  // Sums of weights miss 1 by a few ulps.
  return { predictive_p: Math.min(1, under(below)), level_m: { mean, sd: Math.sqrt(variance) } };
}

type Score = Pick<FromOthers, 'score' | 'score_mcse'>;

/** From draws given all points; the error by the weights and how far the draws are from independent (ibid., section 2.1). */
function scoreByWeight(chains: readonly Float64Array[]): Score & { score_k: number } {
  const all = pooled(chains);
  const { weight, k } = paretoSmoothed(all.map((l) => -l));
  const most = largest(all);
  const density = all.map((l) => exp(l - most));
  const mean = density.reduce((sum, p, s) => sum + weight[s]! * p, 0);
  const variance = density.reduce((sum, p, s) => sum + square(weight[s]! * (p - mean)), 0);
  const effective = Math.min(1, essBulk(chains) / all.length);
  return {
    score: most + log(mean),
    score_mcse: Math.sqrt(variance / (effective > 0 ? effective : 1)) / mean,
    score_k: Math.max(NO_TAIL, k),
  };
}

/** From draws given all other points. */
function scoreByChains(chains: readonly Float64Array[]): Score & { score_k: null } {
  const most = largest(pooled(chains));
  const density = chains.map((chain) => chain.map((l) => exp(l - most)));
  const average = mean(pooled(density));
  const error = mcseMean(density) / average;
  // Draws all alike, of a limit the sea keeps clear of, have no error.
  return { score: most + log(average), score_mcse: Number.isNaN(error) ? 0 : error, score_k: null };
}

const largest = (values: Float64Array): number => values.reduce((most, x) => Math.max(most, x), -Infinity);

/**
 * What all other points have of the sea where one point is, and how probable the height found there is: by weight from
 * the draws that were asked, where the weights carry so far; else from chains that go on without the point's height.
 */
import { log, paretoSmoothed, square } from '@stillstand/science/base';
import { type Chain, sweep } from './chain.ts';
import { chainWithout } from './chain-without.ts';
import { type Expected, keepExpectedOf, noneExpected, others } from './leave-one-out.ts';
import { letPass } from './loose-limits.ts';
import { path } from './path.ts';
import type { Problem } from './problem.ts';
import type { FromOthers } from './result.ts';
import { PATIENCE, type Run } from './run-chains.ts';
import { drawPathOf, holdLimits } from './warm-up.ts';

/** Means of so many draws by weight can be trusted below this shape of their tail (Vehtari et al. 2024, J. Mach. Learn.
 * Res. 25:72, section 3.2). */
const trusted = (draws: number): number => Math.min(1 - Math.LN10 / log(draws), 0.7);
/** Without a point: sweeps of each chain before it is asked, and how often it is asked, a sweep apart. */
const WARM_UP = 25;
const ASKED = 40;

/** The oldest and the youngest point, and index point: with nothing beyond them, the level without them has so wide a tail
 * that weights miss it and never say so. */
function ends({ points, visit }: Problem): Set<number> {
  const index = visit.filter((i) => points[i]!.kind === 'index');
  return new Set([visit, index].flatMap((of) => [...of.subarray(0, 1), ...of.subarray(-1)]));
}

/** One for each point; `swept` hears of each sweep without a point, and of how many there will be. */
export function fromOthers(run: Run, swept: (of: number) => void): FromOthers[] {
  const { chains, draws, expected } = run;
  const { problem } = chains[0]!;
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
  const again = byWeight.filter(({ carries }) => !carries).length;
  const sweeps = again * chains.length * (WARM_UP + ASKED);
  return byWeight.map(({ columns, weight, carries }, i) => {
    if (carries) return underWeights(columns, weight, 'weights');
    const without = chains.map((chain) => expectedWithout(i, chain, () => swept(sweeps)));
    const asked = columnsOf(without, ASKED, i);
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
  const pooled = (name: keyof Expected): Float64Array => {
    const all = new Float64Array(expected.length * count);
    for (const [c, e] of expected.entries()) all.set(e[name][i]!.subarray(0, count), c * count);
    return all;
  };
  return {
    logDensity: pooled('logDensity'),
    below: pooled('below'),
    level_m: pooled('level_m'),
    variance_m2: pooled('variance_m2'),
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

/** A chain gone on from where it stands, on a stream of its own, without the height of a point. */
function expectedWithout(i: number, chain: Chain, swept: () => void): Expected {
  const { problem } = chain;
  const without = chainWithout(chain, i, chain.stream.split('without').split(i));
  const room = others(without);
  const expected = noneExpected(problem, ASKED);
  const drawn = path(problem.nodes, new Float64Array(0));
  for (let k = 0; k < WARM_UP; k++) {
    sweep(without);
    swept();
  }
  for (let k = 0; k < ASKED; k++) {
    for (let turnedAway = 0; ; turnedAway++) {
      sweep(without);
      drawPathOf(without, drawn);
      if (letPass(without.limits, problem, drawn, without.shift_m, without.stream)) break;
      if (turnedAway === PATIENCE) holdLimits(without, without.limits.points, drawn);
    }
    swept();
    keepExpectedOf(i, without, drawn, room, expected, k);
  }
  return expected;
}

/** Limits, loose or held, against their plain meaning: draws without them, weighed by the probability of each. Seed 9. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { normalCdf, randomStream } from '@stillstand/science/base';
import { curveWithDraws } from '../compute-curve.ts';
import type { CurvePoint } from '../problem/model.ts';
import { makeProblem } from '../problem/problem.ts';
import { DEFAULT_CURVE_SETTINGS } from '../problem/settings.ts';
import { path } from '../process/path.ts';
import type { CurveSettings } from '../result/result.ts';
import { type Chain, startChain } from './chain.ts';
import { letPass } from './loose-limits.ts';
import { sweep } from './sweep.ts';
import { drawPathOf, holdLimits, learnLimits } from './warm-up.ts';

const settings: CurveSettings = {
  ...DEFAULT_CURVE_SETTINGS,
  ages_cal_bp: [2000, 3000, 4000, 5000],
  intervals: [{ older_cal_bp: 5000, younger_cal_bp: 2000 }],
  seed: 9,
  draws: 8000,
};

function at(
  id: string,
  kind: CurvePoint['kind'],
  age: number,
  height_m: number,
  sigma_m: number,
): CurvePoint {
  const known = { kind: 'normal', mean_cal_bp: age, sd_yr: 0 } as const;
  return { id, kind, height_m, sigma_m, half_range_m: 0, lowering_m: 0, shared: [], age: known };
}

const index = [1000, 2500, 6000].map((age) => at(`P${age}`, 'index', age, -0.001 * age, 0.25));
/** The first the sea keeps clear of, the second it presses against, the third now and then. */
const limits = [
  at('clear', 'terrestrial', 3000, 1, 0.3),
  at('pressing', 'terrestrial', 4000, -4.6, 0.2),
  at('near', 'marine', 5000, -6.5, 0.2),
];

test('levels and rates with limits are those without, weighed by the limits (seed 9)', (t) => {
  const free = curveWithDraws(index, settings);
  const columns = (name: string): Float64Array =>
    Float64Array.from(free.quantities.find((q) => q.name === name)!.chains.flatMap((c) => [...c]));
  const weight = new Float64Array(columns('sd of the rate').length).fill(1);
  for (const { kind, age, height_m, sigma_m } of limits) {
    if (age.kind !== 'normal') continue;
    columns(`level at ${age.mean_cal_bp} cal BP`).forEach((level, d) => {
      const z = (height_m - level) / sigma_m;
      weight[d] = weight[d]! * normalCdf(kind === 'marine' ? -z : z);
    });
  }
  const sum = weight.reduce((total, w) => total + w, 0);
  const worth = sum ** 2 / weight.reduce((total, w) => total + w * w, 0);
  const { result, quantities } = curveWithDraws([...index, ...limits], settings);
  assert.ok(result.diagnostics.converged);
  let worst = 0;
  for (const { name, chains } of quantities) {
    if (name.startsWith('age of')) continue;
    const found = Float64Array.from(chains.flatMap((c) => [...c]));
    const mean = found.reduce((total, x) => total + x, 0) / found.length;
    const sd = Math.sqrt(found.reduce((total, x) => total + (x - mean) ** 2, 0) / found.length);
    const expected = columns(name).reduce((total, x, d) => total + x * weight[d]!, 0) / sum;
    // Draws on either side are worth at least a quarter of their number or of their weights.
    const slack = 5 * sd * Math.sqrt(4 / found.length + 4 / worth);
    worst = Math.max(worst, (5 * Math.abs(mean - expected)) / slack);
    assert.ok(Math.abs(mean - expected) < slack, `${name}: ${mean}, weighed ${expected}, within ${slack}`);
  }
  t.diagnostic(`means at most ${worst.toFixed(1)} of their errors apart`);
});

function warmUp(chain: Chain, sweeps: number): void {
  const whole = path(chain.problem.nodes, new Float64Array(0));
  for (let k = 1; k <= sweeps; k++) {
    sweep(chain);
    learnLimits(chain, whole, k, sweeps);
  }
  chain.adapting = false;
}

test('a chain lets go of the limits the sea keeps clear of, holds the others, and may hold any (seed 9)', (t) => {
  const problem = makeProblem([...index, ...limits], settings);
  const run = (chain: Chain, sweeps: number): number => {
    const whole = path(problem.nodes, new Float64Array(0));
    let level = 0;
    let passed = 0;
    for (let k = 0; k < sweeps; k++) {
      sweep(chain);
      drawPathOf(chain, whole);
      if (!letPass(chain.limits, problem, whole, chain.shift_m, chain.stream)) continue;
      passed++;
      level += whole.levelAtNode_m[4]!;
    }
    return level / passed;
  };
  const chain = startChain(problem, randomStream(9));
  warmUp(chain, 300);
  assert.equal(chain.limits.isLoose[3], 1);
  assert.equal(chain.limits.isLoose[4], 0);
  const loose = run(chain, 6000);
  const all = startChain(problem, randomStream(9).split('all held'));
  const whole = path(problem.nodes, new Float64Array(0));
  sweep(all);
  drawPathOf(all, whole);
  holdLimits(all, all.limits.points, whole);
  warmUp(all, 300);
  const held = run(all, 6000);
  assert.deepEqual([...all.limits.isLoose], [0, 0, 0, 0, 0, 0]);
  t.diagnostic(`level with loose limits ${loose.toFixed(3)} m, with all held ${held.toFixed(3)} m`);
  // Five errors of the level at the pressing limit, sd 0.3 m; some 1,000 effective draws or more of each.
  assert.ok(Math.abs(loose - held) < 5 * 0.3 * Math.sqrt(2 / 1000), `${loose} and ${held}`);
});

/** The score at one draw of all else, against plain sums over every year of the date on dense algebra. Seeds 61 and 63. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { randomStream } from '@stillstand/science/base';
import { type Chain, startChain } from '../chain/chain.ts';
import { sweep } from '../chain/sweep.ts';
import { drawPathOf } from '../chain/warm-up.ts';
import type { CurvePoint } from '../problem/model.ts';
import { makeProblem } from '../problem/problem.ts';
import { dense } from '../process/dense-process.ts';
import { path } from '../process/path.ts';
import { mixed, settings } from './fixtures/mixed-points.ts';
import { ownDateDensity, ownHeightDensity } from './fixtures/own-density.ts';
import { logHeightAmong, logUnit } from './height-density.ts';
import { keepExpected, noneExpected, others } from './leave-one-out.ts';

test('the density of a height adds to 1 over all heights, the probabilities of both limits together', () => {
  const base = mixed()[0]!;
  const soft: [number, number][] = [
    [0, 0],
    [0.4, 0],
    [0, 0.3],
    [0.4, 0.1],
    [0.1, 0.3],
  ];
  for (const outliers of [settings.outliers, null])
    for (const [half_range_m, lowering_m] of soft) {
      const problem = makeProblem([{ ...base, half_range_m, lowering_m }], { ...settings, outliers });
      let sum = 0;
      // It depends on the height less the mean, so the mean is moved. Ten times the error is 5 m at most.
      for (let k = -4000; k <= 4000; k++)
        sum +=
          0.01 * Math.exp(logUnit(problem, 0) + logHeightAmong(problem, 0, base.height_m + 0.01 * k, 0.04));
      assert.ok(Math.abs(sum - 1) < 1e-6, `${half_range_m}, ${lowering_m}: ${sum}`);
    }
  for (const mean of [-2, -0.1, 0.3]) {
    const below = (kind: 'terrestrial' | 'marine'): number => {
      const problem = makeProblem([{ ...base, kind }], settings);
      return Math.exp(logUnit(problem, 0) + logHeightAmong(problem, 0, base.height_m + mean, 0.04));
    };
    assert.ok(Math.abs(below('terrestrial') + below('marine') - 1) < 1e-12);
  }
});

/** On a sea that rises by 13 mm/yr: a date too old for its depth, a certain year, a wide density. */
function hard(tooOld_yr: number): CurvePoint[] {
  const steep = (age: number): number => -0.013 * age;
  return mixed().map((p, i): CurvePoint => {
    const moved = { ...p, height_m: p.height_m + steep(300 + 450 * i) - -0.0012 * (300 + 450 * i) };
    if (i === 7) return { ...moved, older_below: ['P8', 'P9'] };
    if (i === 8)
      return {
        ...moved,
        age: { kind: 'normal', mean_cal_bp: 300 + 450 * i + tooOld_yr, sd_yr: 60 },
        older_below: ['P9'],
      };
    if (i === 11) return { ...moved, age: { kind: 'normal', mean_cal_bp: 300 + 450 * i, sd_yr: 0 } };
    if (i === 12)
      return {
        ...moved,
        age: {
          kind: 'density',
          from_cal_bp: 5200,
          density: Float64Array.from({ length: 1000 }, (_, k) => (k < 400 || k > 700 ? 1 : 0)),
        },
      };
    return moved;
  });
}

for (const [name, points, isWithOutliers] of [
  ['the mixed points', mixed(), true],
  ['points on a steep sea, in order, a date 1,200 yr too old', hard(1200), true],
  // A pair that dates without outliers forbid is not put into its order: here 200 yr, 2 sd and more.
  ['the same without outliers, a date 200 yr too old', hard(200), false],
] as const) {
  test(`at one draw of all else the score of each of ${name} is that of plain sums (seed 63)`, (t) => {
    const asked = { ...settings, outliers: isWithOutliers ? settings.outliers : null };
    const problem = makeProblem(points, asked);
    const chain = startChain(problem, randomStream(63));
    for (let k = 0; k < 60; k++) sweep(chain);
    const drawn = path(problem.nodes, new Float64Array(0));
    drawPathOf(chain, drawn);
    const room = others(chain);
    const expected = noneExpected(problem, 1);
    keepExpected(chain, drawn, room, expected, 0);
    let worst = 0;
    for (const [i, p] of points.entries()) {
      const found = expected.score[i]![0]!;
      const twin = Math.log(plainDensity(chain, room.o, points, i, asked));
      worst = Math.max(worst, Math.abs(found - twin));
      // 0.02, as of the coarse density behind predictive_p; what is far from everything, 1 % of its logarithm.
      const bound = 0.02 + 0.01 * Math.max(0, -twin - 3);
      assert.ok(Math.abs(found - twin) < bound, `${p.id}: ${found}, plainly ${twin}`);
    }
    t.diagnostic(`worst ${worst.toFixed(4)}`);
  });
}

/** Every fourth year of all a date allows; dense algebra on the latent heights of the others, limits held. */
function plainDensity(
  chain: Chain,
  walk: { height_m: Float64Array; variance_m2: Float64Array; age_ka: Float64Array },
  points: readonly CurvePoint[],
  i: number,
  asked: typeof settings,
): number {
  const p = points[i]!;
  const rate_mean = asked.priors.rate_mean_mm_yr;
  const model = {
    rate_sd: Math.exp(chain.log_rate_sd),
    lambda: Math.sqrt(3) * Math.exp(-chain.log_length),
    rate_mean,
    level_sd_m: asked.priors.level_sd_m,
    slowing: 0,
    break_ka: [],
    jump_sd_m: 0,
  };
  const heights = [...points.keys()]
    .filter((j) => j !== i)
    .map((j) => ({
      age_ka: walk.age_ka[j]!,
      // The walk has the mean rate taken off.
      height_m: walk.height_m[j]! - rate_mean * walk.age_ka[j]!,
      sigma_m: Math.sqrt(walk.variance_m2[j]!),
      loading_m: [],
    }));
  const tie = { age_ka: -0.042, height_m: 0, sigma_m: asked.tie!.sd_m, loading_m: [] };
  const density = ownHeightDensity(p, asked);
  const heightAt = (age: number): number => {
    const { mean, covariance } = dense(model, [...heights, tie], [{ kind: 'level', age_ka: age / 1000 }]);
    return density(mean[0]! + chain.shift_m[i]!, covariance[0]!);
  };
  if (p.age.kind === 'normal' && p.age.sd_yr === 0) return heightAt(p.age.mean_cal_bp);
  const dated = ownDateDensity(p, asked);
  const g = chain.problem.offsetOf[i]!;
  const shift = g < 0 ? 0 : chain.offset[g]!;
  const at = (id: string): number => 1000 * walk.age_ka[points.findIndex((other) => other.id === id)]!;
  const youngest = points
    .filter((other) => other.older_below?.includes(p.id))
    .reduce((most, other) => Math.max(most, at(other.id)), -500);
  const oldest = (p.older_below ?? []).reduce((least, id) => Math.min(least, at(id)), 12_000);
  let [sum, total] = [0, 0];
  const steps = Math.ceil((oldest - youngest) / 4);
  for (let k = 0; k < steps; k++) {
    const age = youngest + ((k + 0.5) * (oldest - youngest)) / steps;
    const weight = dated(age, shift);
    total += weight;
    if (weight > 1e-12 * total) sum += weight * heightAt(age);
  }
  return sum / total;
}

/**
 * What the others expect of a point, against its slow twins: dense algebra at one draw of all else; the curve computed
 * without the point, its level at a fine grid of ages, and plain sums over date and error. Seeds 61 and 62.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { normalCdf, randomStream } from '@stillstand/science/base';
import { startChain } from '../chain/chain.ts';
import { sweep } from '../chain/sweep.ts';
import { drawPathOf } from '../chain/warm-up.ts';
import { computeCurve } from '../compute-curve.ts';
import { agePrior } from '../problem/age-prior.ts';
import type { CurvePoint } from '../problem/model.ts';
import { makeProblem } from '../problem/problem.ts';
import { dense } from '../process/dense-process.ts';
import { path } from '../process/path.ts';
import { mixed, settings } from './fixtures/mixed-points.ts';
import { keepExpected, noneExpected, others } from './leave-one-out.ts';

test('at one draw of all else, level and probability are those of dense algebra, summed over the date', () => {
  // Without shared errors of height or age, so that the date's law is the one stated.
  const points = mixed().map(
    (p): CurvePoint => ({
      ...p,
      kind: 'index',
      half_range_m: 0,
      lowering_m: 0,
      shared: [],
      age: p.age.kind === 'radiocarbon' ? { ...p.age, delta_r_group: null } : p.age,
    }),
  );
  // The twin has every error as its point states it; the curve below has outliers too.
  const problem = makeProblem(points, { ...settings, outliers: null });
  const chain = startChain(problem, randomStream(62));
  for (let k = 0; k < 20; k++) sweep(chain);
  const drawn = path(problem.nodes, new Float64Array(0));
  drawPathOf(chain, drawn);
  const room = others(chain);
  const expected = noneExpected(problem, 1);
  keepExpected(chain, drawn, room, expected, 0);

  const model = {
    rate_sd: Math.exp(chain.log_rate_sd),
    lambda: Math.sqrt(3) * Math.exp(-chain.log_length),
    rate_mean: settings.priors.rate_mean_mm_yr,
    level_sd_m: settings.priors.level_sd_m,
    slowing: 0,
    break_ka: [],
    jump_sd_m: 0,
  };
  const tie = { age_ka: -0.042, height_m: 0, sigma_m: 0.05, loading_m: [] };
  points.forEach((p, i) => {
    const heights = points.flatMap((other, j) =>
      i === j
        ? []
        : [{ age_ka: chain.o.age_ka[j]!, height_m: other.height_m, sigma_m: other.sigma_m, loading_m: [] }],
    );
    const levelAt = (age_ka: number): { mean: number; variance: number } => {
      const found = dense(model, [...heights, tie], [{ kind: 'level', age_ka }]);
      return { mean: found.mean[0]!, variance: found.covariance[0]! };
    };
    const middle = levelAt(problem.ages[i]!.mean_cal_bp / 1000);
    assert.ok(Math.abs(expected.level_m[i]![0]! - middle.mean) < 1e-7, p.id);
    assert.ok(Math.abs(expected.variance_m2[i]![0]! - middle.variance) < 1e-7, p.id);
    // Every year of the date, where the product takes a grid of at most 21.
    let below = 0;
    let density = 0;
    let total = 0;
    for (const { age_cal_bp, weight } of yearly(p)) {
      const { mean, variance } = levelAt(age_cal_bp / 1000);
      const z = (p.height_m - mean) / Math.sqrt(variance + p.sigma_m ** 2);
      total += weight;
      below += weight * normalCdf(z);
      density += (weight * Math.exp(-0.5 * z * z)) / Math.sqrt(variance + p.sigma_m ** 2);
    }
    assert.ok(
      Math.abs(expected.below[i]![0]! - below / total) < 2e-3,
      `${p.id}: ${expected.below[i]![0]}, ${below / total}`,
    );
    assert.ok(Math.abs(expected.logDensity[i]![0]! - Math.log(density / total)) < 0.02, p.id);
  });
});

test('predictive p of every point is that of the curve computed without it', (t) => {
  const points = mixed();
  const curve = computeCurve(points, settings);
  assert.equal(curve.diagnostics.converged, true);
  const found = points.map((p, i) => {
    const { predictive_p, others_level_m, others_by } = curve.points[i]!;
    return { id: p.id, by: others_by!, p: predictive_p!, level: others_level_m!, twin: without(points, i) };
  });
  for (const { id, by, p, level, twin } of found)
    t.diagnostic(
      `${id} by ${by}: p ${p.toFixed(4)}, twin ${twin.p.toFixed(4)}; level ${level.mean.toFixed(2)} ± ${level.sd.toFixed(2)}, twin ${twin.mean.toFixed(2)} ± ${twin.sd.toFixed(2)}`,
    );
  // Both are means over some ten to some hundred effective draws. A probability: 0.06. A level is asked whether its sd is
  // more than twice the point's own error: 0.3 of its sd, a factor 1.5. These two were written as 0.2 and 1.2 first; what
  // seeds 63 to 68 gave, two of them beyond these bounds: docs/bounds.md.
  for (const { id, p, level, twin } of found) {
    assert.ok(Math.abs(p - twin.p) < 0.06, `${id}: ${p}, without it ${twin.p}`);
    assert.ok(Math.abs(level.mean - twin.mean) < 0.3 * twin.sd, `${id}: ${level.mean}, ${twin.mean}`);
    assert.ok(Math.abs(Math.log(level.sd / twin.sd)) < Math.log(1.5), `${id}: ${level.sd}, ${twin.sd}`);
  }
  const odd = found[6]!;
  assert.ok(odd.p < 1e-3 && odd.twin.p < 1e-3, `${odd.p}, ${odd.twin.p}`);
});

/** Ages of a date with their weights: whole years, or a fine grid of a normal. */
function yearly({ age }: CurvePoint): { age_cal_bp: number; weight: number }[] {
  const prior = agePrior(age, settings.age_range_cal_bp)!;
  if (prior.kind === 'cells') {
    return Array.from(prior.logDensity, (l, k) => ({
      age_cal_bp: prior.from_cal_bp + k,
      weight: Math.exp(l),
    })).filter(({ weight }) => weight > 1e-8);
  }
  return Array.from({ length: 121 }, (_, k) => ({
    age_cal_bp: prior.mean_cal_bp + prior.sd_yr * (k / 12 - 5),
    weight: Math.exp(-0.5 * (k / 12 - 5) ** 2),
  }));
}

/**
 * The general twin, by nothing but the door: the curve without the point gives levels, shared errors and the reservoir
 * offset; the height's law is summed by plain grids.
 */
function without(points: readonly CurvePoint[], i: number): { p: number; mean: number; sd: number } {
  const p = points[i]!;
  const rest = points.filter((_, j) => j !== i);
  const first = computeCurve(rest, { ...settings, ages_cal_bp: [], intervals: [], seed: 62 });
  const { age } = p;
  const offset = age.kind === 'radiocarbon' && first.offsets.find((o) => o.group === age.delta_r_group);
  const dated: CurvePoint =
    age.kind === 'radiocarbon' && offset
      ? {
          ...p,
          age: {
            ...age,
            offset_yr: age.offset_yr + offset.shift_yr.mean,
            offset_sd_yr: offset.shift_yr.sd,
            delta_r_group: null,
          },
        }
      : p;
  const every = yearly(dated);
  const step = Math.max(1, Math.floor(every.length / 60));
  const grid = every.filter((_, k) => k % step === 0);
  const middle = agePrior(age, settings.age_range_cal_bp)!.mean_cal_bp;
  const ages_cal_bp = [...grid.map((g) => g.age_cal_bp), middle];
  const curve = computeCurve(rest, { ...settings, ages_cal_bp, intervals: [], seed: 62 });
  let shift = 0;
  let variance = p.sigma_m ** 2;
  for (const { group, sigma_m } of p.shared) {
    const g = curve.groups.find((each) => each.group === group)!;
    shift += (g.shift_m.mean * sigma_m) / g.sigma_m;
    variance += ((g.shift_m.sd * sigma_m) / g.sigma_m) ** 2;
  }
  const sd = Math.sqrt(variance);
  const uniform =
    p.half_range_m > 0 ? Array.from({ length: 31 }, (_, k) => (p.half_range_m * (2 * k - 30)) / 31) : [0];
  const lowered = p.lowering_m > 0 ? Array.from({ length: 21 }, (_, k) => (k + 0.5) / 5) : [0];
  const probability = (level_m: number): number => {
    let sum = 0;
    let total = 0;
    for (const z of lowered) {
      const weight = Math.exp(-0.5 * z * z);
      for (const u of uniform) {
        const low = normalCdf((p.height_m - u + p.lowering_m * z - level_m - shift) / sd);
        sum += weight * (p.kind === 'marine' ? 1 - low : low);
        total += weight;
      }
    }
    return sum / total;
  };
  const total = grid.reduce((sum, g) => sum + g.weight, 0);
  const n = ages_cal_bp.length;
  const draws = curve.draws.level_m.length / n;
  let mean = 0;
  for (let d = 0; d < draws; d++)
    for (const [k, g] of grid.entries())
      mean += ((g.weight / total) * probability(curve.draws.level_m[d * n + k]!)) / draws;
  return { p: mean, mean: curve.level_m.mean[n - 1]!, sd: curve.level_m.sd[n - 1]! };
}

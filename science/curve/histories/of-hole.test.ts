/** Points that have their ages from the dates of their hole: against the dates alone, weighed by the heights. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { exp, log, mean, randomStream } from '@stillstand/science/base';
import type { HoleOfClocks } from '@stillstand/science/clocks';
import {
  ageDepthDefaults,
  agesOfWalk,
  depthsIn,
  endWarmUpOfWalk,
  startWalk,
  stateOfWalk,
  sweepWalk,
} from '@stillstand/science/dating';
import { computeCurve } from '../compute-curve.ts';
import { curveLikelihood } from '../curve-likelihood.ts';
import type { CurvePoint } from '../problem/model.ts';
import { unusablePoints } from '../problem/problem.ts';
import { DEFAULT_CURVE_SETTINGS } from '../problem/settings.ts';
import type { CurveSettings } from '../result/result.ts';
import { holeReady } from './histories.ts';

const STATES = 100;
const GROUND_M = -0.5;

const settings: CurveSettings = {
  ...DEFAULT_CURVE_SETTINGS,
  outliers: null,
  ages_cal_bp: [1000, 3000, 5000],
  intervals: [{ older_cal_bp: 5000, younger_cal_bp: 1000 }],
  seed: 5,
};

const normalOf = (mean_cal_bp: number, sd_yr: number) => ({
  from_cal_bp: Math.floor(mean_cal_bp - 6 * sd_yr),
  density: Float64Array.from({ length: 12 * sd_yr + 1 }, (_, i) =>
    exp(-0.5 * ((Math.floor(mean_cal_bp - 6 * sd_yr) + i - mean_cal_bp) / sd_yr) ** 2),
  ),
});

/** A hole of 6 m that gained 1 mm a year, the depths of its samples off alike by 10 cm (1 sigma) and each by 3 cm. */
function hole(stream = randomStream(8)): { clocks: HoleOfClocks; draws: (depth_m: number) => Float64Array } {
  const alike = Float64Array.from({ length: STATES }, () => stream.normal());
  const draws = (depth_m: number): Float64Array =>
    alike.map((shift) => depth_m + 0.1 * shift + 0.03 * stream.normal());
  const horizons = [1, 2, 3, 4.2, 5].map((depth_m, i) => ({
    id: `D${i + 1}`,
    depth_m: draws(depth_m),
    age: normalOf(1000 * depth_m + [40, -90, 60, 30, -50][i]!, 120),
  }));
  const input = { horizons, surface: { age_cal_bp: -60, sd_yr: 1 }, breaks: [], bottom_m: 6 };
  return { clocks: { hole: 'H1', input, lead: null, shared: [], settings: ageDepthDefaults }, draws };
}

const atDepth = (
  { clocks, draws }: ReturnType<typeof hole>,
  id: string,
  depth_m: number,
  off_m: number,
): CurvePoint => ({
  id,
  kind: 'index',
  // The sea rose as the ground did.
  height_m: GROUND_M - depth_m + 0.5 + off_m,
  sigma_m: 0.1,
  half_range_m: 0,
  lowering_m: 0,
  shared: [],
  age: {
    kind: 'of_hole',
    clocks,
    depth_m: draws(depth_m),
    height_at_m: depth_m,
    date: null,
    alone_cal_bp: { mean: 1000 * depth_m, sd_yr: 100 },
  },
});

test('ages of a hole within a curve are those of its dates alone weighed by the heights, seed 5', (t) => {
  const of = hole();
  const points = [1.2, 1.7, 2.3, 2.7, 3.3, 3.8, 4.5, 5.4].map((depth, i) =>
    atDepth(of, `P${i + 1}`, depth, [0.1, -0.2, 0.15, -0.1, 0.2, -0.1, -0.15, 0.1][i]!),
  );
  const found = computeCurve(points, settings);
  assert.deepEqual(found.diagnostics.remarks, []);

  // The other way: a walk of the dates alone, each draw weighed by the likelihood of the heights, summed over σ and ℓ.
  const model = holeReady(of.clocks);
  assert.ok(typeof model !== 'string');
  const depths = points.map(({ age }) => (age as { depth_m: Float64Array }).depth_m);
  const walk = startWalk(model, depthsIn(model, depths), randomStream(6));
  const sweep = (): void =>
    sweepWalk(
      walk,
      0,
      () => 0,
      () => {},
    );
  for (let k = 0; k < 300; k++) sweep();
  endWarmUpOfWalk(walk);
  const { priors } = settings;
  const grid = Array.from({ length: 14 }, (_, a) => -4 + (a * 7) / 13).flatMap((log_sd) =>
    Array.from({ length: 9 }, (_, b) => -2 + b / 2).map((z) => ({
      sd: exp(log_sd),
      length: priors.length_median_ka * exp(priors.length_log_sd * z),
      log_prior: log_sd - 0.5 * (exp(log_sd) / priors.rate_sd_scale_mm_yr) ** 2 - 0.5 * z * z,
    })),
  );
  const ages = points.map((): number[] => []);
  const logs: number[] = [];
  for (let k = 0; k < 3000; k++) {
    for (let s = 0; s < 3; s++) sweep();
    const now = new Float64Array(points.length);
    agesOfWalk(walk, now);
    const state = stateOfWalk(walk);
    const fixed = points.map((point, i): CurvePoint => {
      ages[i]!.push(now[i]!);
      const deeper = depths[i]![state]! - (point.age as { height_at_m: number }).height_at_m;
      return {
        ...point,
        height_m: point.height_m - deeper,
        age: { kind: 'normal', mean_cal_bp: now[i]!, sd_yr: 0 },
      };
    });
    const likelihood = curveLikelihood(fixed, settings);
    logs.push(
      log(grid.reduce((sum, { sd, length, log_prior }) => sum + exp(likelihood(sd, length) + log_prior), 0)),
    );
  }
  const most = Math.max(...logs);
  const weights = logs.map((l) => exp(l - most));
  const total = weights.reduce((a, b) => a + b, 0);
  const effective = total ** 2 / weights.reduce((a, b) => a + b * b, 0);
  t.diagnostic(`${effective.toFixed(0)} of 3000 draws of the dates alone carry the weight`);
  points.forEach(({ id }, i) => {
    const weighed = ages[i]!.reduce((sum, age, k) => sum + weights[k]! * age, 0) / total;
    const sd = Math.sqrt(
      ages[i]!.reduce((sum, age, k) => sum + weights[k]! * (age - weighed) ** 2, 0) / total,
    );
    const alone = mean(Float64Array.from(ages[i]!));
    const { age_cal_bp } = found.points[i]!;
    t.diagnostic(
      `${id}: ${age_cal_bp.mean.toFixed(0)} ± ${age_cal_bp.sd.toFixed(0)}, weighed ${weighed.toFixed(0)} ± ${sd.toFixed(0)}, by the dates alone ${alone.toFixed(0)}`,
    );
    // Five errors: draws of the walk three sweeps apart count half.
    const error = Math.hypot(sd / Math.sqrt(effective / 2), age_cal_bp.mcse);
    assert.ok(Math.abs(age_cal_bp.mean - weighed) < 5 * error, `${id}: means`);
    assert.ok(Math.abs(age_cal_bp.sd / sd - 1) < 0.15, `${id}: sd`);
  });
});

/** Half the variance of each date is one error of all, of a sea that says next to nothing of ages. */
const sharing = (points: readonly string[], group: string | null): CurvePoint[] => {
  const of = hole();
  const { horizons } = of.clocks.input;
  const shared = horizons.map(({ id, age: { from_cal_bp, density } }) => {
    const mean_cal_bp = from_cal_bp + density.indexOf(Math.max(...density));
    const systematic = { group: group!, sd_yr: 85 };
    return { id, age: { kind: 'normal' as const, mean_cal_bp, sd_yr: 120, systematic } };
  });
  const input = { ...of.clocks.input, surface: null };
  const clocks = { ...of.clocks, input, shared: group === null ? [] : shared };
  return points.map((id, i) => ({ ...atDepth({ ...of, clocks }, id, 2.5 + i, 0), sigma_m: 30 }));
};

test('an error that all dates of a hole share is one, of as many years in every age, seed 5', (t) => {
  const [alone, together] = [null, 'lamp'].map((group) =>
    computeCurve(sharing(['P1', 'P2'], group), settings),
  );
  const sdOf = (found: typeof alone): number => found!.points[0]!.age_cal_bp.sd;
  const [offset] = together!.offsets;
  t.diagnostic(`each by itself ± ${sdOf(alone).toFixed(0)}, shared ± ${sdOf(together).toFixed(0)}`);
  t.diagnostic(
    `the error ${offset!.shift_yr.mean.toFixed(0)} ± ${offset!.shift_yr.sd.toFixed(0)} yr of ± 85`,
  );
  // Nothing but dates that all share it could tell: the prior comes back, and no number of dates lessens it.
  assert.ok(Math.abs(offset!.shift_yr.sd / 85 - 1) < 0.1);
  assert.ok(Math.abs(offset!.shift_yr.mean) < 4 * offset!.shift_yr.mcse + 10);
  assert.ok(sdOf(together) > sdOf(alone));
});

test('a certain point elsewhere in the group tells the error to the hole, seed 5', (t) => {
  // A point of known height on a sea that is known there: its date shares the error, and is 150 years too old by it.
  const anchors: CurvePoint[] = [1800, 2000, 2200].map((age, i) => ({
    ...sharing([`A${i}`], null)[0]!,
    height_m: -0.003 * age,
    sigma_m: 0.02,
    age: { kind: 'normal', mean_cal_bp: age, sd_yr: 3 },
  }));
  const dated: CurvePoint = {
    ...anchors[1]!,
    id: 'in the group',
    age: { kind: 'normal', mean_cal_bp: 2150, sd_yr: 86, systematic: { group: 'lamp', sd_yr: 85 } },
  };
  const found = computeCurve([...sharing(['P1'], 'lamp'), ...anchors, dated], settings);
  const [offset] = found.offsets;
  t.diagnostic(`the error ${offset!.shift_yr.mean.toFixed(0)} ± ${offset!.shift_yr.sd.toFixed(0)} yr`);
  const without = computeCurve(sharing(['P1'], 'lamp'), settings);
  const moved = found.points[0]!.age_cal_bp.mean - without.points[0]!.age_cal_bp.mean;
  t.diagnostic(`the hole moved by ${moved.toFixed(0)} yr`);
  // The sea says 2,000: nearly all of the 150 years is the error, and the hole is as much younger.
  assert.ok(Math.abs(offset!.shift_yr.mean - 150) < 25, `${offset!.shift_yr.mean}`);
  assert.ok(Math.abs(moved + offset!.shift_yr.mean - without.offsets[0]!.shift_yr.mean) < 40, `${moved}`);
  assert.equal(found.offsets.length, 1);
});

test('an age of a hole that cannot be is a refusal that says why', () => {
  const of = hole();
  const point = atDepth(of, 'P1', 2, 0);
  const age = point.age as Extract<CurvePoint['age'], { kind: 'of_hole' }>;
  const refusedFor = (changed: Partial<typeof age>): string =>
    unusablePoints([{ ...point, age: { ...age, ...changed } }], settings)
      .map(({ found, expected }) => `${found}; ${expected}`)
      .join();
  assert.equal(refusedFor({}), '');
  assert.match(refusedFor({ depth_m: new Float64Array(3) }), /3 depths in H1; 100, as of its dates/);
  assert.match(
    refusedFor({ depth_m: new Float64Array(STATES).fill(9) }),
    /9.00 m in H1; a depth above its bottom/,
  );
  assert.match(refusedFor({ height_at_m: Number.NaN }), /NaN m; the depth it was made for/);
  const few = { ...of.clocks, input: { ...of.clocks.input, horizons: [] } };
  assert.match(refusedFor({ clocks: few }), /0 dated horizons/);
});

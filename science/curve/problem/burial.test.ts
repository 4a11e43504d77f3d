/** Lowering by burial: learnt where basal points stand beside, the prior where none do, and never upwards. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { exp, inProcess, randomStream, square } from '@stillstand/science/base';
import { computeCurve } from '../compute-curve.ts';
import { drawSharedErrors, likelihoodWork } from '../process/likelihood.ts';
import { curveSensitivity } from '../result/sensitivity.ts';
import type { CurvePoint } from './model.ts';
import { DEFAULT_CURVE_SETTINGS } from './settings.ts';

const settings = {
  ...DEFAULT_CURVE_SETTINGS,
  outliers: null,
  ages_cal_bp: [2000, 4000],
  intervals: [{ older_cal_bp: 5000, younger_cal_bp: 1000 }],
  draws: 1000,
  seed: 8,
};
const SIGMA_M = 0.1;
const point = (id: string, age: number, height_m: number, compressible_m = 0): CurvePoint => ({
  id,
  kind: 'index',
  height_m,
  sigma_m: SIGMA_M,
  half_range_m: 0,
  lowering_m: 0,
  shared: [],
  age: { kind: 'normal', mean_cal_bp: age, sd_yr: 20 },
  burial: compressible_m > 0 ? { hole: 'H', compressible_m } : null,
});
const basal = [500, 1500, 2500, 3500, 4500, 5500].map((age, i) => point(`B${i}`, age, -0.001 * age));
const buried = [1000, 2000, 3000, 4000, 5000].map((age, i) =>
  point(`I${i}`, age, -0.001 * age - 0.15 * (1 + i), 1 + i),
);

test('a share that basal points show is learnt: 15 % of one to five metres', () => {
  const found = computeCurve([...basal, ...buried], settings);
  const [burial] = found.burials;
  assert.equal(burial!.hole, 'H');
  assert.ok(Math.abs(burial!.thickest_m - 5) < 1e-9);
  assert.ok(
    Math.abs(burial!.lowering_m.mean - 0.75) < 2 * burial!.lowering_m.sd && burial!.lowering_m.sd < 0.15,
  );
  const rate = found.intervals[0]!.rate_mm_yr;
  assert.ok(Math.abs(rate.mean - 1) < 2 * rate.sd);
  assert.deepEqual(found.groups, []);
});

test('the rate as if nothing was lowered is another: the buried points make it steeper', () => {
  const points = [...basal, ...buried];
  const [interval] = inProcess(
    curveSensitivity(points, settings, computeCurve(points, settings), new Set()),
  ).intervals;
  assert.ok(interval!.no_burial_mm_yr! > interval!.rate_mm_yr.mean + 0.03, `${interval!.no_burial_mm_yr}`);
  const off = computeCurve(points, { ...settings, burial_percent: null });
  assert.deepEqual(off.burials, []);
  assert.ok(Math.abs(off.intervals[0]!.rate_mm_yr.mean - interval!.no_burial_mm_yr!) < 0.05);
});

test('without basal points the lowering is little more than its prior', () => {
  const [burial] = computeCurve(buried, settings).burials;
  // Half-normal of scale 10 % of 5 m: sd 0.5·√(1 − 2/π) = 0.30 m.
  assert.ok(burial!.lowering_m.sd > 0.15, `${burial!.lowering_m.sd}`);
});

test('points above all basal ones are not raised: the lowering stays above 0', () => {
  const high = buried.map((p, i) => ({ ...p, height_m: p.height_m + 0.15 * (1 + i) + 0.1 }));
  const [burial] = computeCurve([...basal, ...high], settings).burials;
  assert.ok(burial!.lowering_m.lower95 >= 0 && burial!.lowering_m.mean < 0.2);
});

test('errors of one sign are drawn from the normal law held above 0: two of three, against sums over a grid', () => {
  // A precision and c of three errors, the last two of one sign.
  const A = [
    [2, 0.5, -0.8],
    [0.5, 1.5, 0.6],
    [-0.8, 0.6, 1.8],
  ];
  const c = [0.4, -0.7, 0.9];
  const work = likelihoodWork(3);
  for (let i = 0; i < 3; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = A[i]![j]!;
      for (let k = 0; k < j; k++) sum -= work.factor[3 * i + k]! * work.factor[3 * j + k]!;
      work.factor[3 * i + j] = i === j ? Math.sqrt(sum) : sum / work.factor[3 * j + j]!;
    }
    let sum = c[i]!;
    for (let k = 0; k < i; k++) sum -= work.factor[3 * i + k]! * work.solved[k]!;
    work.solved[i] = sum / work.factor[3 * i + i]!;
  }
  const b = Float64Array.of(0, 1, 1);
  const stream = randomStream(4);
  const DRAWS = 40_000;
  const means = [0, 0, 0];
  for (let k = 0; k < DRAWS; k++) {
    drawSharedErrors(3, 2, work, stream, b);
    assert.ok(b[1]! >= 0 && b[2]! >= 0);
    for (let i = 0; i < 3; i++) means[i]! += b[i]! / DRAWS;
  }
  const expected = [0, 0, 0];
  let total = 0;
  for (let x = -6; x <= 6; x += 0.05)
    for (let y = 0.025; y <= 6; y += 0.05)
      for (let z = 0.025; z <= 6; z += 0.05) {
        const v = [x, y, z];
        let form = 0;
        for (let i = 0; i < 3; i++) {
          form -= 2 * c[i]! * v[i]!;
          for (let j = 0; j < 3; j++) form += v[i]! * A[i]![j]! * v[j]!;
        }
        const w = exp(-0.5 * form);
        total += w;
        for (let i = 0; i < 3; i++) expected[i]! += w * v[i]!;
      }
  // Five errors of the mean, sd at most 1, a few draws worth one.
  for (let i = 0; i < 3; i++)
    assert.ok(Math.abs(means[i]! - expected[i]! / total) < 5 * Math.sqrt(square(1.5) / DRAWS), `error ${i}`);
});

/** Ages in the order of depths: against order statistics, against sums over a grid, and where order and dates cannot both be. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { exp } from '@stillstand/science/base';
import { computeCurve } from '../compute-curve.ts';
import { previewCurve } from '../preview.ts';
import type { CurveResult, CurveSettings } from '../result/result.ts';
import { agePrior } from './age-prior.ts';
import { surelyBelow } from './depth-order.ts';
import type { CurvePoint } from './model.ts';
import { ageOutliers, logAge } from './outliers.ts';
import { DEFAULT_CURVE_SETTINGS } from './settings.ts';

const settings: CurveSettings = {
  ...DEFAULT_CURVE_SETTINGS,
  ages_cal_bp: [2000],
  intervals: [],
  outliers: null,
  chains: 4,
  draws: 2000,
  seed: 5,
};

/** A height that says nothing: 10 km. */
const dated = (id: string, mean_cal_bp: number, sd_yr: number, older_below: string[] = []): CurvePoint => ({
  id,
  kind: 'index',
  height_m: 0,
  sigma_m: 1e4,
  half_range_m: 0,
  lowering_m: 0,
  shared: [],
  age: { kind: 'normal', mean_cal_bp, sd_yr },
  older_below,
});
const ages = ({ points }: CurveResult): number[] => points.map((p) => p.age_cal_bp.mean);

test('three dates of one mean lie apart as the order statistics of three normals do', () => {
  const points = [dated('A', 5000, 100, ['B', 'C']), dated('B', 5000, 100, ['C']), dated('C', 5000, 100)];
  const found = computeCurve(points, settings);
  // Expected least, middle and largest of three standard normals: ∓0.84628 and 0; sd 0.74798 and 0.66983
  // (Harter 1961, Biometrika 48:151; the sds are the roots of 0.55947 and 0.44867; all four from memory).
  const expected = [5000 - 84.628, 5000, 5000 + 84.628];
  const sds = [74.798, 66.983, 74.798];
  found.points.forEach(({ age_cal_bp: age }, i) => {
    assert.ok(Math.abs(age.mean - expected[i]!) < 5 * age.mcse, `${age.mean} of ${expected[i]}`);
    assert.ok(Math.abs(age.sd / sds[i]! - 1) < 0.08, `${age.sd} of ${sds[i]}`);
  });
  assert.deepEqual(found.depth_order, { pairs: 3, contradicting: [] });
  const off = computeCurve(points, { ...settings, depth_order: false });
  assert.equal(off.depth_order, null);
  for (const age of ages(off)) assert.ok(Math.abs(age - 5000) < 15, `${age}`);
});

test('which of two dates that contradict their depths is the outlier: against a sum over a grid', () => {
  const outliers = DEFAULT_CURVE_SETTINGS.outliers!;
  const points = [dated('upper', 3000, 60, ['lower']), dated('lower', 2200, 60)];
  const found = computeCurve(points, { ...settings, outliers });
  const out = ageOutliers(outliers, settings.age_range_cal_bp)!;
  const [upper, lower] = points.map((p) => agePrior(p.age, settings.age_range_cal_bp)!);
  // Cells of 4 years over all that has weight; an outlier is what lies 6 sd off here.
  let total = 0;
  const wrong = [0, 0];
  const grid = Array.from({ length: 5000 }, (_, k) => 4 * k + 2);
  const of = (prior: typeof upper) => grid.map((age) => exp(logAge(prior!, out, age)));
  const [u, l] = [of(upper), of(lower)];
  grid.forEach((a, i) => {
    for (let j = i + 1; j < grid.length; j++) {
      const w = u[i]! * l[j]!;
      total += w;
      if (Math.abs(a - 3000) > 360) wrong[0]! += w;
      if (Math.abs(grid[j]! - 2200) > 360) wrong[1]! += w;
    }
  });
  found.points.forEach(({ age_outlier_p }, i) => {
    const expected = wrong[i]! / total;
    assert.ok(Math.abs(age_outlier_p - expected) < 0.04, `${age_outlier_p} of ${expected}`);
  });
  assert.ok(found.points[0]!.age_outlier_p > found.points[1]!.age_outlier_p, 'too old is the usual fault');
  const [pair] = found.depth_order!.contradicting;
  assert.equal(`${pair!.upper} ${pair!.lower} ${pair!.imposed}`, 'upper lower true');
  assert.ok(pair!.p_lower_older < 1e-9);
});

test('dates that cannot be in order are named and left as they are where no date may be an outlier', () => {
  const points = [
    dated('A', 3000, 30, ['B', 'C']),
    dated('B', 1000, 30, ['C']),
    dated('C', 3020, 30, ['nowhere', 'C']),
  ];
  const found = computeCurve(points, settings);
  assert.deepEqual(
    found.depth_order!.contradicting.map(({ upper, lower, imposed }) => [upper, lower, imposed]),
    [['A', 'B', false]],
  );
  const [a, b, c] = ages(found);
  assert.ok(Math.abs(a! - 2990) < 15 && Math.abs(b! - 1000) < 5 && c! > a!, `${a}, ${b}, ${c}`);
});

test('certain years stay what they are, and hold what lies between them', () => {
  const points = [
    dated('A', 1000, 0, ['B', 'C']),
    dated('B', 1100, 400, ['C']),
    dated('C', 1300, 0),
    dated('D', 900, 0),
  ];
  const found = computeCurve([{ ...points[0]!, older_below: ['B', 'C', 'D'] }, ...points.slice(1)], settings);
  const [a, b, c, d] = found.points.map((p) => p.age_cal_bp);
  assert.deepEqual([a!.mean, c!.mean, d!.mean], [1000, 1300, 900]);
  assert.ok(b!.lower95 > 1000 && b!.upper95 < 1300);
  assert.deepEqual(
    found.depth_order!.contradicting.map(({ lower, imposed }) => [lower, imposed]),
    [['D', false]],
  );
});

test('orders that contradict themselves are dropped, and nothing throws', () => {
  const points = [dated('A', 1000, 30, ['B']), dated('B', 1000, 30, ['A'])];
  const found = computeCurve(points, { ...settings, draws: 100 });
  assert.equal(found.depth_order!.pairs, 2);
  for (const age of ages(found)) assert.ok(Math.abs(age - 1000) < 10);
});

const LOOK = { chains: 4, warm_up: 12, draws: 200 };

test('a preview from chains without the order is in order', () => {
  const free = [dated('A', 3000, 60), dated('B', 2950, 60)];
  const before = previewCurve(free, settings, LOOK, null);
  const tied = [{ ...free[0]!, older_below: ['B'] }, free[1]!];
  const { curve } = previewCurve(tied, settings, LOOK, before.state);
  const [a, b] = ages(curve);
  assert.ok(b! > a! + 40, `${a} above ${b}`);
});

test('two samples are in an order where they overlap in no draw of their hole', () => {
  const at = (id: string, hole: string, ...tops: number[]) => ({
    id,
    hole,
    top_m: Float64Array.from(tops),
    base_m: Float64Array.from(tops, (top) => top + 0.1),
  });
  const below = surelyBelow([
    at('upper', 'H1', 1, 1.2, 1.1),
    at('lower', 'H1', 1.3, 1.5, 1.4),
    at('touching', 'H1', 1.15, 1.25, 1.3),
    at('elsewhere', 'H2', 5, 5, 5),
  ]);
  assert.deepEqual(Object.fromEntries(below), {
    upper: ['lower'],
    touching: [],
    lower: [],
    elsewhere: [],
  });
});

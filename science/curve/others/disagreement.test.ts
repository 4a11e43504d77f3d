import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { CurveResult } from '../result/result.ts';
import { disagreeing, disagreementBelow, loneEnds } from './disagreement.ts';

type Point = CurveResult['points'][number];

function point(id: string, age: number, more: Partial<Point> = {}): Point {
  const bounds = { lower68: age - 50, upper68: age + 50, lower95: age - 100, upper95: age + 100 };
  const summary = { mean: age, sd: 50, median: age, ...bounds };
  return {
    id,
    kind: 'index',
    height_m: 0,
    own_sigma_m: 0.2,
    age_cal_bp: { ...summary, mcse: 1, rhat: 1, ess_bulk: 1000, ess_tail: 1000 },
    residual_m: 0,
    age_shift_sd: 0,
    prior_age_cal_bp: { mean: age, sd: 60 },
    influence: 0,
    age_outlier_p: 0,
    height_outlier_p: 0,
    predictive_p: 0.5,
    others_level_m: { mean: 0, sd: 0.3 },
    others_by: 'weights',
    score: -0.5,
    score_mcse: 0.02,
    score_k: 0.3,
    ...more,
  };
}

const ids = (points: Point[]): string[] => disagreeing({ points }).map(({ id }) => id);

test('a point is named at 0.05 over the number of points, on both sides; a limit on its own', () => {
  const ten = Array.from({ length: 10 }, (_, i) => point(`P${i}`, 1000 * i));
  assert.equal(disagreementBelow({ points: ten }), 0.005);
  const named = (more: Partial<Point>): boolean => ids([...ten.slice(1), point('odd', 0, more)]).length > 0;
  assert.equal(named({ predictive_p: 0.0024 }), true);
  assert.equal(named({ predictive_p: 0.0026 }), false);
  assert.equal(named({ predictive_p: 1 - 0.0024 }), true);
  assert.equal(named({ predictive_p: 1 - 0.0026 }), false);
  assert.equal(named({ predictive_p: 0.0049, kind: 'marine' }), true);
  assert.equal(named({ predictive_p: 0.9999, kind: 'marine' }), false);
  assert.equal(named({ age_shift_sd: -2.1 }), true);
  assert.equal(named({ age_shift_sd: 1.9 }), false);
  assert.equal(named({ predictive_p: null, age_shift_sd: -5 }), false, 'a preview names nobody');
});

test('the worst is named first', () => {
  const points = [
    point('moved', 1000, { age_shift_sd: 4 }),
    point('bad', 2000, { predictive_p: 1e-4 }),
    point('worst', 3000, { predictive_p: 1 - 1e-7 }),
    point('sound', 4000),
  ];
  assert.deepEqual(ids(points), ['worst', 'bad', 'moved']);
});

test('an end is said to depend on one point where the others know less than half as much', () => {
  const ages_cal_bp = Float64Array.of(0, 2000, 4000, 6000);
  const curve = (oldest: Partial<Point>, youngest: Partial<Point> = {}, tie: boolean = true) => ({
    ages_cal_bp,
    settings: { tie: tie ? { year_ce: 2000, sd_m: 0.05 } : null },
    points: [
      point('A', 1000, youngest),
      point('B', 2500),
      point('C', 3900),
      point('D', 5800, oldest),
      point('L', 5900, { kind: 'terrestrial', others_level_m: { mean: 0, sd: 9 } }),
    ],
  });
  const far = { others_level_m: { mean: -4, sd: 0.41 } };
  assert.deepEqual(loneEnds(curve({})), []);
  assert.deepEqual(loneEnds(curve(far)), [{ end: 'older', id: 'D', from_cal_bp: 3900 }]);
  assert.deepEqual(loneEnds(curve({}, far)), [], 'the present holds the younger end');
  assert.deepEqual(loneEnds(curve({}, far, false)), [{ end: 'younger', id: 'A', from_cal_bp: 2500 }]);
  // Where nothing is reported beyond the next point, nothing depends on the last.
  assert.deepEqual(loneEnds({ ...curve(far), ages_cal_bp: Float64Array.of(0, 2000) }), []);
  const alone = { ...curve({}), points: [point('only', 3000, far)] };
  assert.deepEqual(loneEnds(alone), [{ end: 'older', id: 'only', from_cal_bp: null }]);
});

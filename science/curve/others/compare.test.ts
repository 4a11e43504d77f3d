/** Curves compared by their scores: sums, errors and verdicts by hand; what is not of the same data is refused. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { computeCurve } from '../compute-curve.ts';
import { previewCurve } from '../preview.ts';
import type { CurvePoint } from '../problem/model.ts';
import { DEFAULT_CURVE_SETTINGS } from '../problem/settings.ts';
import type { CurveSettings } from '../result/result.ts';
import { compareCurves, rankCurves, type ScoredCurve } from './compare.ts';

const settings: CurveSettings = {
  ...DEFAULT_CURVE_SETTINGS,
  ages_cal_bp: [],
  intervals: [],
  chains: 2,
  draws: 200,
  seed: 3,
};

const points = Array.from(
  { length: 8 },
  (_, i): CurvePoint => ({
    id: `P${i}`,
    kind: i === 5 ? 'terrestrial' : 'index',
    height_m: -0.001 * (500 + 700 * i) + (i % 2 === 0 ? 0.1 : -0.1) + (i === 5 ? 1 : 0),
    sigma_m: 0.15,
    half_range_m: 0,
    lowering_m: 0,
    shared: [{ group: 'bench mark', sigma_m: 0.1 }],
    age: { kind: 'normal', mean_cal_bp: 500 + 700 * i, sd_yr: 40 },
  }),
);

const computed = computeCurve(points, settings);
/** A curve with scores by hand. */
const scored = (scores: readonly number[], converged = true): ScoredCurve => ({
  ...computed,
  points: computed.points.map((point, i) => ({ ...point, score: scores[i]!, score_mcse: 0.3 })),
  diagnostics: { converged },
});
const none = new Array<number>(8).fill(-1);

test('the difference is the sum over the points, its error √(n·variance), with n − 1 (seed 3)', () => {
  // Differences 1, 2, …, 8: sum 36, variance 6, √48.
  const found = compareCurves(scored(none.map((s, i) => s + i + 1)), scored(none));
  assert.ok(Math.abs(found.difference - 36) < 1e-12);
  assert.ok(Math.abs(found.difference_se! - Math.sqrt(48)) < 1e-12);
  assert.equal(found.verdict, 'first');
  assert.equal(found.because, null);
  assert.equal(
    compareCurves(scored(none), scored(none.map((s, i) => s + i + 1))).verdict,
    'second',
    'the other way round',
  );
});

test('a small difference, an uncertain one and one of curves that did not converge decide nothing', () => {
  const by = (each: (i: number) => number, converged = true): string | null =>
    compareCurves(scored(none.map((s, i) => s + each(i))), scored(none, converged)).because;
  assert.equal(
    by(() => 0.49),
    'below 4 units',
  );
  assert.equal(
    by(() => 0.51),
    null,
  );
  // One point alone: 8 ± 8.
  assert.equal(
    by((i) => (i === 0 ? 8 : 0)),
    'below 2 standard errors',
  );
  assert.equal(
    by(() => 1, false),
    'not converged',
  );
  const one = { ...computed, points: computed.points.slice(0, 1), diagnostics: { converged: true } };
  const alone = compareCurves(one, one);
  assert.equal(alone.because, 'fewer than two points');
  assert.equal(alone.difference_se, null);
});

test('several curves stand in the order of their scores, each against the best', () => {
  const ranked = rankCurves([
    { name: 'worst', curve: scored(none.map((s, i) => s - 2 - 0.1 * i)) },
    { name: 'best', curve: scored(none) },
    { name: 'near', curve: scored(none.map((s) => s - 0.1)) },
  ]);
  assert.deepEqual(
    ranked.map(({ name }) => name),
    ['best', 'near', 'worst'],
  );
  assert.equal(ranked[0]!.behind, null);
  assert.equal(ranked[0]!.score, -8);
  assert.ok(Math.abs(ranked[0]!.score_mcse - 0.3 * Math.sqrt(8)) < 1e-12);
  assert.equal(ranked[1]!.behind!.because, 'below 4 units');
  assert.ok(Math.abs(ranked[2]!.behind!.difference - 18.8) < 1e-12);
  assert.equal(ranked[2]!.behind!.because, null);
  assert.deepEqual(rankCurves([]), []);
});

test('a curve is no better than itself; the order of the points does not matter (seed 3)', () => {
  assert.equal(compareCurves(computed, computed).difference, 0);
  const turned = { ...computed, points: computed.points.toReversed() };
  assert.equal(compareCurves(computed, turned).difference, 0);
});

test('curves of other points or other data are refused, with the point and what differs', () => {
  const other = (change: Partial<(typeof computed.points)[number]>): ScoredCurve => ({
    ...computed,
    points: computed.points.map((p, i) => (i === 2 ? { ...p, ...change } : p)),
  });
  const groups = computed.groups.map((group) => ({ ...group, sigma_m: 0.2 }));
  const cases: [string, ScoredCurve, RegExp][] = [
    ['left out', { ...computed, points: computed.points.slice(1) }, /P0 is in the first curve alone/],
    ['label', other({ id: 'Q' }), /P2 is in the first curve alone/],
    ['kind', other({ kind: 'marine' }), /kind of P2: index in one curve, marine in the other/],
    ['height', other({ height_m: -1.5 }), /height_m of P2/],
    ['error', other({ own_sigma_m: 0.2 }), /own_sigma_m of P2/],
    ['date', other({ prior_age_cal_bp: { mean: 2000, sd: 40 } }), /mean of the date of P2/],
    [
      'shared error',
      { ...computed, groups },
      /shared errors: bench mark ± 0.1 m in one curve, bench mark ± 0.2 m in the other/,
    ],
    ['twice', other({ id: 'P1' }), /two points P1/],
  ];
  for (const [name, curve, message] of cases)
    assert.throws(() => compareCurves(computed, curve), { name: 'RangeError', message }, name);
  assert.throws(() => compareCurves(cases[0]![1], computed), /P0 is in the second/);
  // As computed, not as altered here.
  const moved = computeCurve(
    points.map((p, i) => (i === 2 ? { ...p, height_m: p.height_m - 0.01 } : p)),
    settings,
  );
  assert.throws(() => compareCurves(computed, moved), /height_m of P2/);
});

test('a preview has no scores, and says so where it is compared', () => {
  const { curve } = previewCurve(points, settings, { chains: 1, warm_up: 10, draws: 20 }, null);
  for (const { score, score_mcse, score_k } of curve.points)
    assert.deepEqual([score, score_mcse, score_k], [null, null, null]);
  assert.throws(() => compareCurves(computed, curve), /P0 has no score; expected a whole curve/);
});

test('the same points under other priors compare: a rate held far too small foretells worse (seed 3)', () => {
  // A rise of 1 mm/yr that the prior holds within some hundredths of it.
  const stiff = computeCurve(points, {
    ...settings,
    priors: { ...settings.priors, rate_sd_scale_mm_yr: 0.02, level_sd_m: 0.5 },
  });
  const { difference, difference_se } = compareCurves(computed, stiff);
  assert.ok(difference > 4 && difference_se! > 0, `${difference} ± ${difference_se}`);
});

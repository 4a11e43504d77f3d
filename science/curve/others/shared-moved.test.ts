/** Shared errors and the present: named where all that share one are off together, and not where they are sound. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { randomStream } from '@stillstand/science/base';
import { computeCurve } from '../compute-curve.ts';
import type { CurvePoint } from '../problem/model.ts';
import { DEFAULT_CURVE_SETTINGS } from '../problem/settings.ts';
import type { CurveSettings } from '../result/result.ts';
import { movedAbove, movedErrors } from './shared-moved.ts';

const settings: CurveSettings = {
  ...DEFAULT_CURVE_SETTINGS,
  ages_cal_bp: [0, 1000, 2000, 3000, 4000],
  intervals: [],
  tie: { year_ce: 2000, sd_m: 0.05 },
  chains: 2,
  draws: 400,
};

/** A sea that rose 1 mm/yr; every other point by one of two bench marks of ± 0.05 m, of which the first is `off_m` wrong. */
function coast(seed: number, off_m: number, sea_m = 0): CurvePoint[] {
  const stream = randomStream(seed).split('moved');
  return Array.from({ length: 12 }, (_, i): CurvePoint => {
    const age = 150 + 320 * i;
    const isFirst = i % 2 === 0;
    return {
      id: `P${i}`,
      kind: 'index',
      height_m: sea_m - age / 1000 + (isFirst ? off_m : 0) + 0.1 * stream.normal(),
      sigma_m: 0.1,
      half_range_m: 0,
      lowering_m: 0,
      shared: [{ group: isFirst ? 'height:A' : 'height:B', sigma_m: 0.05 }],
      age: { kind: 'normal', mean_cal_bp: age + 30 * stream.normal(), sd_yr: 30 },
    };
  });
}
const named = (points: readonly CurvePoint[], more: Partial<CurveSettings> = {}): string[] =>
  movedErrors(computeCurve(points, { ...settings, ...more })).map(({ of, id }) => `${of} ${id}`.trim());

test('a bench mark that is 0.5 m wrong, stated to 0.05 m, is named (seeds 1 to 3)', () => {
  for (const seed of [1, 2, 3]) {
    const curve = computeCurve(coast(seed, 0.5), { ...settings, seed });
    const [first] = movedErrors(curve);
    assert.equal(first?.id, 'height:A');
    assert.ok(first.moved / first.sigma > movedAbove(curve), `${first.moved}`);
  }
});

test('a level held at present that all points contradict is named', () => {
  // Of the last hundred years: in longer the sea could have risen from there.
  const recent = coast(4, 0, 1.5).map((point, i): CurvePoint => {
    const age: CurvePoint['age'] = { kind: 'normal', mean_cal_bp: 8 * i - 50, sd_yr: 5 };
    return { ...point, height_m: point.height_m + (150 + 320 * i) / 1000, shared: [], age };
  });
  assert.deepEqual(named(recent, { outliers: null }), ['present']);
  assert.deepEqual(named(recent, { outliers: null, tie: null }), []);
});

test('of sound coasts no more than one in ten names any (seeds 10 to 29)', (t) => {
  const naming = Array.from({ length: 20 }, (_, k) => named(coast(10 + k, 0), { seed: k })).filter(
    (each) => each.length > 0,
  );
  t.diagnostic(`${naming.length} of 20`);
  assert.ok(naming.length <= 2, JSON.stringify(naming));
});

test('so many sigma as 0.05 over the number of shared errors leaves on both sides', () => {
  const curve = computeCurve(coast(1, 0), settings);
  // Two bench marks and the present: Φ⁻¹(1 − 0.05/6), Abramowitz & Stegun 1964, table 26.5 interpolated: 2.394.
  assert.ok(Math.abs(movedAbove(curve) - 2.394) < 0.001, `${movedAbove(curve)}`);
});

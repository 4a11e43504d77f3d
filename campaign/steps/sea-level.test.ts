/** What the curve is given of the points, and who computes it. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { type CurvePoint, type computeCurve, lookAtCurve } from '@stillstand/science/curve';
import { computeCampaign } from './compute.ts';

/** Heights levelled at the surface, each with an error of its own, under one tide model. */
const TABLES: readonly (readonly [string, readonly Record<string, string>[]])[] = [
  ['settings', [{ name: 'datum', value: 'MSL' }]],
  ['datums', [{ datum: 'MSL', kind: 'mean_sea_level' }]],
  ['sites', [{ site: 'A', name: 'A' }]],
  [
    'tide_levels',
    [
      { site: 'A', level: 'MHW', datum: 'MSL', elevation_m: '0.8', sigma_m: '0.05' },
      { site: 'A', level: 'HAT', datum: 'MSL', elevation_m: '1.4', sigma_m: '0.05' },
    ],
  ],
  [
    'samples',
    [1, 2, 3].map((k) => ({
      sample: `S${k}`,
      basis: 'elevation',
      site: 'A',
      elevation_m: String(1 - k),
      elevation_sigma_m: '0.1',
      elevation_datum: 'MSL',
    })),
  ],
  [
    'determinations',
    [1, 2, 3].map((k) => ({
      lab_code: `INV-${k}`,
      sample: `S${k}`,
      method: 'luminescence',
      value: String(1000 * k),
      error: '60',
      reference_year: '1950',
    })),
  ],
  [
    'points',
    [1, 2, 3].map((k) => ({
      point: `P${k}`,
      sample: `S${k}`,
      kind: 'index',
      lower: 'MHW',
      upper: 'HAT',
      status: 'accepted',
    })),
  ],
];
const { campaign } = parseCampaign(
  TABLES.reduce(
    (document, [table, rows]) =>
      withRows(
        document,
        table,
        rows.map((row, i) => ({ row_id: `${table}${i}`, ...row })),
      ),
    newDocument('Three'),
  ),
);

test('an error that one point alone carries is its own, the tide model’s is shared by all', () => {
  let given: readonly CurvePoint[] = [];
  const look = {
    name: 'a look',
    curve: (...[points, settings]: Parameters<typeof computeCurve>) => {
      given = points;
      return lookAtCurve(points, settings, { chains: 2, warm_up: 10, draws: 8 }, null).curve;
    },
  };
  const seen = computeCampaign(campaign, { curves: {} }, [], { withCurve: true, look });
  assert.equal(given.length, 3);
  for (const { sigma_m, shared } of given) {
    // 0.1 m of levelling and what remains of the sample's own, which is a millimetre where nothing is declared.
    assert.ok(sigma_m >= 0.1 && sigma_m < 0.102, `${sigma_m}`);
    assert.deepEqual(shared, [{ group: 'tide:A', sigma_m: 0.05 }]);
  }
  assert.equal(seen.results.curve?.diagnostics.converged, false);
  assert.ok(!seen.results.problems.some((p) => p.code === 'not-converged'), 'a look is not complained of');
});

test('a look is never taken for the curve: both are remembered apart', () => {
  const memo = new Map<string, unknown>();
  const look = {
    name: 'a look',
    curve: (...[points, settings]: Parameters<typeof computeCurve>) =>
      lookAtCurve(points, settings, { chains: 2, warm_up: 10, draws: 8 }, null).curve,
  };
  const looked = computeCampaign(campaign, { curves: {} }, [], { withCurve: true, memo, look });
  const whole = computeCampaign(campaign, { curves: {} }, [], { withCurve: true, memo });
  assert.deepEqual(
    whole.results,
    computeCampaign(campaign, { curves: {} }, [], { withCurve: true }).results,
    'cold or not, the whole is the same',
  );
  assert.notDeepEqual(looked.results.curve, whole.results.curve);
  const again = computeCampaign(campaign, { curves: {} }, [], { withCurve: true, memo, look });
  assert.equal(again.results.curve, looked.results.curve);
});

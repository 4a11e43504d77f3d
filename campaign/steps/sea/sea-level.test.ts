/** What the curve is given of the points, and who computes it. */

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { curveOf } from '@stillstand/campaign/results';
import { computeCampaign } from '../compute.ts';

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
      depth_basis: 'elevation',
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
const document = TABLES.reduce(
  (document, [table, rows]) =>
    withRows(
      document,
      table,
      rows.map((row, i) => ({ row_id: `${table}${i}`, ...row })),
    ),
  newDocument('Three'),
);
const { campaign } = parseCampaign(document);

test('an error that one point alone carries is its own, the tide model’s is shared by all', () => {
  const { curveInput, results } = computeCampaign(campaign, { curves: {} }, [], { withCurve: false });
  assert.equal(curveInput?.points.length, 3);
  for (const { sigma_m, shared } of curveInput!.points) {
    // 0.1 m of levelling and what remains of the sample's own, which is a millimetre where nothing is declared.
    assert.ok(sigma_m >= 0.1 && sigma_m < 0.102, `${sigma_m}`);
    assert.deepEqual(shared, [{ group: 'tide:A', sigma_m: 0.05 }]);
  }
  assert.equal(curveOf(results), null);
});

test('what a curve is made of has a key of its own, which an edit that is none of its does not change', () => {
  const keyOf = (note: string): string => {
    const { campaign: edited } = parseCampaign(
      withRows(document, 'sites', [{ row_id: 'sites0', site: 'A', name: note }]),
    );
    return computeCampaign(edited, { curves: {} }, [], { withCurve: false }).curveInput!.key;
  };
  assert.equal(keyOf('A'), keyOf('another name'));
});

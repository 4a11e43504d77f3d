/** What the curve is given of the points, and who computes it. */

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { parseCampaign, withRows } from '@stillstand/campaign/document';
import { curveOf } from '@stillstand/campaign/results';
import { computeCampaign } from '../compute.ts';
import { documentOf, THREE_LEVELS } from './fixtures/three-levels.ts';

const document = documentOf('Three', THREE_LEVELS);
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

test('a zero of a gauge that is 0.5 m wrong, stated to 0.02 m, is a problem; a sound one is none', () => {
  const moved = (zero_m: number): (string | null)[] => {
    const tables = {
      ...THREE_LEVELS,
      settings: [
        { name: 'datum', value: 'MSL' },
        { name: 'chains', value: '2' },
        { name: 'draws', value: '200' },
      ],
      datums: [{ datum: 'MSL', kind: 'mean_sea_level', epoch_from: '1940', epoch_to: '1960' }],
      gauges: [{ gauge: 'Pier', site: 'A', datum: 'MSL', zero_elevation_m: String(zero_m), sigma_m: '0.02' }],
      // Two centimetres to and fro about the zero of the datum.
      gauge_means: Array.from({ length: 60 }, (_, i) => ({
        gauge: 'Pier',
        year: String(1921 + i),
        level_m: String(0.02 * ((i % 3) - 1)),
      })),
    };
    const { campaign: withGauge } = parseCampaign(documentOf('Gauge', tables));
    return computeCampaign(withGauge, { curves: {} }, [], { withCurve: true }).results.problems.flatMap(
      ({ code, label }) => (code === 'shared-error-moved' ? [label] : []),
    );
  };
  assert.deepEqual(moved(0), []);
  assert.deepEqual(moved(0.5).sort(), ['gauge:Pier', 'present_constraint_sd_m']);
});

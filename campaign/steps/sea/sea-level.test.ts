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

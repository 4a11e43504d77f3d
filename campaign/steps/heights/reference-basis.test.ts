/** The reference of a replacement hole: levelled again or assumed, said and not in the numbers. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { traceId } from '@stillstand/campaign/results';
import { computeCampaign } from '../compute.ts';

test('an assumed reference is a note and is said in the trace; the elevation and its sigma are as stated', () => {
  const hole = (label: string, more: Record<string, string>) => ({
    hole: label,
    method: 'string',
    reference_elevation_m: '2.310',
    reference_sigma_m: '0.020',
    reference_datum: 'MSL',
    ...more,
  });
  let document = withRows(newDocument('reference'), 'datums', [{ datum: 'MSL', kind: 'mean_sea_level' }]);
  document = withRows(document, 'holes', [
    hole('H1', { state: 'lost' }),
    hole('H2', { replaces: 'H1', reference_basis: 'assumed' }),
    hole('H3', { replaces: 'H1', reference_basis: 'levelled' }),
  ]);
  const { campaign, problems } = parseCampaign(document);
  const { results, trace } = computeCampaign(campaign, { curves: {} }, problems, { withCurve: false });
  assert.deepEqual(
    results.problems.filter((p) => p.code === 'reference-assumed').map((p) => [p.severity, p.label, p.found]),
    [['note', 'H2', 'a reference assumed the same as in H1']],
  );
  const told = ['H1', 'H2', 'H3'].map((label) => trace.node(trace.find(traceId.hole(label).reference)));
  assert.deepEqual(
    told.map((node) => node.how),
    [
      'as stated for the hole + datum shift',
      'as stated for the hole + datum shift; assumed the same as in H1',
      'as stated for the hole + datum shift; levelled again for this hole',
    ],
  );
  assert.deepEqual(
    told.map((node) => [node.value, node.sigma]),
    Array.from({ length: 3 }, () => [2.31, 0.02]),
  );
});

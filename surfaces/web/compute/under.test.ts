import assert from 'node:assert/strict';
import { test } from 'node:test';
import { parseCampaign } from '@stillstand/campaign/document';
import { type TraceId, traceId } from '@stillstand/campaign/results';
import { computeCampaign } from '@stillstand/campaign/steps';
import { documentOf } from '../browser/document-of.ts';
import { underNumbers } from './under.ts';

/** Two holes; heights are typed with the hole. */
const computed = (first: string, second: string) => {
  const hole = (name: string, elevation: string) => ({
    hole: name,
    method: 'string',
    reference_elevation_m: elevation,
    reference_datum: 'MSL',
    reference_sigma_m: '0.02',
  });
  const document = documentOf('two holes', {
    datums: [{ datum: 'MSL', kind: 'mean_sea_level' }],
    settings: [{ name: 'datum', value: 'MSL' }],
    holes: [hole('H1', first), hole('H2', second)],
  });
  const { campaign, problems } = parseCampaign(document);
  return computeCampaign(campaign, { curves: {} }, problems, { withCurve: false }).trace;
};

const of = (hole: string): TraceId => traceId.hole(hole).reference;

test('a number moved, the row under it, and not the number of another hole', () => {
  const before = computed('1', '2');
  assert.notEqual(before.find(of('H1')), -1);
  const asked = { ids: [of('H1'), of('H2')], theirs: ['none', 'holes0'], own: ['holes1'] };
  assert.deepEqual(underNumbers(asked, before, computed('1.5', '2')), [
    { theirs: 1, own: false, moved: true },
    { theirs: -1, own: true, moved: null },
  ]);
});

test('less than rounding is not moved; a number that was not there is not known to have', () => {
  const asked = { ids: [of('H1'), of('H9')], theirs: ['holes0'], own: [] };
  assert.deepEqual(underNumbers(asked, computed('1', '2'), computed('1.0004', '2')), [
    { theirs: 0, own: false, moved: false },
    { theirs: -1, own: false, moved: null },
  ]);
  assert.equal(underNumbers(asked, undefined, computed('1', '2'))[0]?.moved, null);
});

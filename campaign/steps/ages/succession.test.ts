/** Dates that contradict their depths are named, once each; others are not. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { computeCampaign } from '../compute.ts';
import { type Cells, campaignOf } from '../fixtures/campaign-of.ts';

/** One section with a date at each depth, m and years before 1950; what is said of their order. */
function ordered(...dates: (readonly [depth: number, age: number, cells?: Cells])[]) {
  const tables: Record<string, Cells[]> = {
    datums: [{ datum: 'MSL', kind: 'mean_sea_level' }],
    holes: [{ hole: 'A', method: 'exposure', reference_elevation_m: '2', reference_datum: 'MSL' }],
    samples: dates.map(([depth], i) => ({
      sample: `A${i + 1}`,
      hole: 'A',
      basis: 'in_situ',
      top: `${depth} m`,
      bottom: `${depth + 0.02} m`,
    })),
    determinations: dates.map(([, age, cells], i) => ({
      lab_code: `L${i + 1}`,
      sample: `A${i + 1}`,
      method: 'luminescence',
      value: String(age),
      error: '100',
      ...cells,
    })),
  };
  const { campaign, problems } = campaignOf('succession', tables);
  const { results } = computeCampaign(campaign, { curves: {} }, problems, { withCurve: false });
  return results.problems
    .filter((p) => p.code === 'date-out-of-order' || p.code === 'dates-of-one-sample-differ')
    .map((p) => [p.label, p.found]);
}

test('one date out of place is named once, with those it contradicts', () => {
  assert.deepEqual(ordered([1, 3000], [2, 7000], [3, 4000], [4, 5000], [5, 8000]), [
    ['L2', '7000 cal BP in A; below it L3 of 4000, L4 of 5000'],
  ]);
  assert.deepEqual(ordered([1, 3000], [2, 4000], [3, 1000]), [
    ['L3', '1000 cal BP in A; above it L1 of 3000, L2 of 4000'],
  ]);
});

test('no word of what may well be in order, lies at one depth, is rejected, or only bounds its layer', () => {
  assert.deepEqual(ordered([1, 3000], [2, 2900]), []);
  assert.deepEqual(ordered([1, 3000], [1.01, 1000]), []);
  assert.deepEqual(ordered([1, 3000], [2, 1000, { status: 'rejected', reason: 'roots' }]), []);
  assert.deepEqual(ordered([1, 3000, { age_role: 'maximum' }], [2, 1000]), []);
});

test('two dates of one sample that cannot both be its age', () => {
  const differ = ordered([1, 3000], [2, 5000, { sample: 'A1' }]);
  assert.deepEqual(differ, [['L2', 'L2 of 5000 cal BP; L1 of 3000 of the same sample A1']]);
  assert.deepEqual(ordered([1, 3000], [2, 3100, { sample: 'A1' }]), []);
});

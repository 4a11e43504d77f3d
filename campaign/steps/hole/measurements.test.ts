/** Laboratory values: at their sample, or at a place in a core; limits, and what has no place. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { traceId } from '@stillstand/campaign/results';
import { computeCampaign } from '../compute.ts';
import { type Cells, campaignOf } from '../fixtures/campaign-of.ts';

function computed(measurements: Cells[]) {
  const tables = {
    datums: [{ datum: 'MSL', kind: 'mean_sea_level' }],
    settings: [{ name: 'datum', value: 'MSL' }],
    holes: [
      {
        hole: 'H1',
        method: 'hand',
        reference_elevation_m: '2.00',
        reference_sigma_m: '0.03',
        reference_datum: 'MSL',
      },
    ],
    samples: [
      { sample: 'A', hole: 'H1', depth_basis: 'in_situ', top: '1.00 m', bottom: '1.04 m' },
      { sample: 'S', depth_basis: 'elevation', elevation_m: '0.40', elevation_datum: 'MSL' },
    ],
    measurements: measurements.map((cells, i) => ({ row_id: `m${i}`, property: 'LOI', ...cells })),
  };
  const { campaign, problems } = campaignOf('measured', tables);
  const { results, trace } = computeCampaign(campaign, { curves: {} }, problems, { withCurve: false });
  return { ...results, trace, said: results.problems.filter(({ table }) => table === 'measurements') };
}

const IN_CORE = { hole: 'H1', depth_basis: 'in_situ', top: '50 cm', bottom: '60 cm' };

test('a value lies at the middle of its sample, or of its place in the core; elevation is ground less depth', () => {
  const { measurements, said, trace } = computed([
    { sample: 'A', value: '12.5', sigma: '0.3', unit: '%', method: '550 °C', batch: 'b1' },
    { ...IN_CORE, value: '13', unit: '%' },
    { sample: 'S', value: '14' },
  ]);
  assert.deepEqual(said, []);
  const at = measurements.map(({ hole, depth_m, thickness_m, elevation_m }) => [
    hole,
    depth_m?.value.toFixed(3) ?? null,
    thickness_m?.toFixed(3) ?? null,
    elevation_m?.value.toFixed(2),
  ]);
  assert.deepEqual(at, [
    ['H1', '1.020', '0.040', '0.98'],
    ['H1', '0.550', '0.100', '1.45'],
    [null, null, null, '0.40'],
  ]);
  const { value, sigma, unit, method, batch, qualifier } = measurements[0]!;
  assert.deepEqual([value, sigma, unit, method, batch, qualifier], [12.5, 0.3, '%', '550 °C', 'b1', null]);
  const node = trace.find(traceId.measurement('m0'));
  const parts = trace.parts(node).map((part) => trace.node(part).id);
  assert.deepEqual(parts, ['measurements/m0', 'sample:A/elevation']);
});

test('limits and what was not determined keep what they say; none is a zero', () => {
  const { measurements, said } = computed([
    { sample: 'A', value: '<0.5' },
    { sample: 'A', value: '> 60' },
    { sample: 'A', value: 'ND' },
    { sample: 'A', value: 'b.d.' },
    { sample: 'A', value: '0.5', qualifier: 'less_than' },
    { sample: 'A', value: '0' },
  ]);
  assert.deepEqual(said, []);
  assert.deepEqual(
    measurements.map(({ qualifier, value }) => [qualifier, value]),
    [
      ['less_than', 0.5],
      ['greater_than', 60],
      ['not_determined', null],
      ['less_than', null],
      ['less_than', 0.5],
      [null, 0],
    ],
  );
});

test('a value without a place stays in the table and says so; one that is no number is set aside with its reason', () => {
  const { measurements, said } = computed([
    { value: '1' },
    { hole: 'H1', value: '2' },
    { hole: 'H1', depth_basis: 'in_situ', value: '3' },
    { sample: 'A', value: 'NaN' },
    { sample: 'A', value: '1e999' },
    { sample: 'A', value: '-3', sigma: '-1' },
    { sample: 'B', value: '7' },
  ]);
  assert.deepEqual(
    measurements.map(({ value, depth_m }) => [value, depth_m]),
    [1, 2, 3].map((value) => [value, null]),
  );
  const codes = said.map(({ code, severity }) => `${severity} ${code}`).sort();
  assert.deepEqual(codes, [
    'error negative-error',
    'error not-a-number',
    'error out-of-range',
    'error unknown-reference',
    'warning measurement-not-placed',
    'warning measurement-not-placed',
    'warning measurement-not-placed',
  ]);
});

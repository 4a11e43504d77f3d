/** A benchmark from satellites: its elevation, its two errors, and who shares them. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { traceId } from '@stillstand/campaign/results';
import { assumedErrors } from '@stillstand/science/points';
import { computeCampaign } from '../compute.ts';
import { stepRunner } from '../runner/runner.ts';
import { bringHeightsTogether } from './heights.ts';

const campaignWith = (benchmark: Record<string, string>) => {
  let document = withRows(newDocument('satellite'), 'datums', [{ datum: 'MSL', kind: 'mean_sea_level' }]);
  document = withRows(document, 'benchmarks', [
    {
      benchmark: 'GPS 1',
      datum: 'MSL',
      ellipsoidal_height_m: '41.532',
      geoid_height_m: '39.120',
      ...benchmark,
    },
  ]);
  document = withRows(document, 'levelling', [
    { loop: 'L', seq: '1', point: 'GPS 1', backsight_m: '1.500' },
    { loop: 'L', seq: '2', point: 'peg', backsight_m: '1.000', foresight_m: '1.200' },
    { loop: 'L', seq: '3', point: 'GPS 1', foresight_m: '1.300' },
  ]);
  document = withRows(document, 'holes', [{ hole: 'H1', method: 'string', reference_point: 'peg' }]);
  return parseCampaign(document);
};
const partsOf = (benchmark: Record<string, string>) => {
  const { campaign } = campaignWith(benchmark);
  const heights = bringHeightsTogether(stepRunner({ computation: 'test', memo: null }), campaign, '');
  return heights.reference(campaign.rows.holes[0]!)!.value.benchmarks;
};

test('41.532 m above the ellipsoid, geoid 39.120 m: 2.412 ± √(0.02² + 0.05²), and a peg 0.300 m above it', () => {
  const { campaign, problems } = campaignWith({ ellipsoid_sigma_m: '0.02', geoid_sigma_m: '0.05' });
  assert.deepEqual(problems, []);
  const { trace } = computeCampaign(campaign, { curves: {} }, [], { withCurve: false });
  const told = (id: ReturnType<typeof traceId.benchmark>) => trace.node(trace.find(id));
  const mark = told(traceId.benchmark('GPS 1'));
  assert.ok(Math.abs(Number(mark.value) - 2.412) < 1e-9);
  assert.ok(Math.abs(Number(mark.sigma) - 0.053851648071345) < 1e-12);
  assert.equal(mark.how, 'height above the ellipsoid − geoid height + datum shift');
  assert.ok(Math.abs(Number(told(traceId.levelled('peg')).value) - 2.712) < 1e-9);
});

test('both errors reach the hole whole, each by its name; a larger error of the whole elevation goes before them', () => {
  assert.deepEqual(partsOf({ ellipsoid_sigma_m: '0.02', geoid_sigma_m: '0.05' }), [
    { benchmark: 'GPS 1', part: 'ellipsoid', sigma_m: 0.02 },
    { benchmark: 'GPS 1', part: 'geoid', sigma_m: 0.05 },
  ]);
  assert.deepEqual(partsOf({ geoid_sigma_m: '0.05' }), [
    { benchmark: 'GPS 1', part: 'geoid', sigma_m: 0.05 },
  ]);
  assert.deepEqual(partsOf({ ellipsoid_sigma_m: '0.02', geoid_sigma_m: '0.05', sigma_m: '0.08' }), [
    { benchmark: 'GPS 1', sigma_m: 0.08 },
  ]);
  assert.deepEqual(partsOf({ sigma_m: '0.03' }), [{ benchmark: 'GPS 1', sigma_m: 0.03 }]);
  // A stated elevation has its own error alone.
  assert.deepEqual(partsOf({ elevation_m: '2.4', sigma_m: '0.01', geoid_sigma_m: '0.05' }), [
    { benchmark: 'GPS 1', sigma_m: 0.01 },
  ]);
});

test('a hole at the benchmark itself has its elevation and both errors', () => {
  const { campaign } = campaignWith({ ellipsoid_sigma_m: '0.02', geoid_sigma_m: '0.05' });
  const heights = bringHeightsTogether(stepRunner({ computation: 'test', memo: null }), campaign, '');
  const { value } = heights.reference({ ...campaign.rows.holes[0]!, reference_point: 'GPS 1' })!;
  assert.ok(Math.abs(value.value_m - 2.412) < 1e-9);
  assert.deepEqual(
    value.benchmarks.map(({ part }) => part),
    ['ellipsoid', 'geoid'],
  );
  assert.ok(heights.problems.every(({ code }) => code !== 'no-reference-height'));
});

test('in a point they are parts of their own, each shared by all that use the benchmark', () => {
  const errors = (declared: string[]) =>
    assumedErrors({
      declared: new Set(['levelling', ...declared]),
      hole: null,
      method: null,
      thickness_m: null,
      depth_m: null,
      depth_sigma_m: null,
      inclination_deg: null,
      reference: {
        levelling_sigma_m: 0,
        group: null,
        benchmarks: partsOf({ ellipsoid_sigma_m: '0.02', geoid_sigma_m: '0.05' }),
      },
      datum_shifts: [],
    })
      .filter(({ component }) => component.startsWith('benchmark'))
      .map(({ component, sigma_m, shared_group }) => [component, sigma_m, shared_group]);
  assert.deepEqual(errors([]), [
    ['benchmark ellipsoid', 0.02, 'height:GPS 1 ellipsoid'],
    ['benchmark geoid', 0.05, 'height:GPS 1 geoid'],
  ]);
  assert.deepEqual(errors(['benchmark']), []);
});

test('the loop’s own limit is what its misclosure is held to', () => {
  const of = (allowed: Record<string, string>[]) => {
    let document = withRows(newDocument('limit'), 'benchmarks', [{ benchmark: 'BM', elevation_m: '1' }]);
    document = withRows(document, 'levelling', [
      { loop: 'L', seq: '1', point: 'BM', backsight_m: '1.500' },
      { loop: 'L', seq: '2', point: 'BM', foresight_m: '1.490', distance_m: '100' },
    ]);
    const { campaign } = parseCampaign(withRows(document, 'level_loops', allowed));
    return bringHeightsTogether(stepRunner({ computation: 'test', memo: null }), campaign, '')
      .loops.get('L')!
      .closures.map(({ allowed_m, within }) => [allowed_m.toFixed(4), within]);
  };
  // √0.1 km is 0.3162: 3.8 mm by third order, 12.6 mm by 40 mm·√km.
  assert.deepEqual(of([]), [['0.0038', false]]);
  assert.deepEqual(of([{ loop: 'L', allowed_mm_sqrt_km: '40' }]), [['0.0126', true]]);
  assert.deepEqual(of([{ loop: 'other', allowed_mm_sqrt_km: '40' }]), [['0.0038', false]]);
});

/** A gauge among the points of a curve: where it stands, what it shares, and that samples' scatter is not its own. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { randomStream } from '@stillstand/science/base';
import { type CurvePoint, computeCurve, DEFAULT_CURVE_SETTINGS, gaugePoints } from './index.ts';

const BLOCKS = Array.from({ length: 5 }, (_, i) => ({
  from_year_ce: 1911 + 20 * i,
  to_year_ce: 1930 + 20 * i,
  years: 20,
  year_ce: 1920.5 + 20 * i,
  level_m: 7 + 0.04 * i,
  sigma_m: 0.01,
}));

test('blocks on the datum, or about their own mean where the zero is not known', () => {
  const known = gaugePoints('G', BLOCKS, {
    elevation_m: -7.1,
    shared: [{ group: 'gauge:G', sigma_m: 0.02 }],
  });
  assert.deepEqual(
    known.map(({ id, age }) => [id, age.kind === 'normal' ? age.mean_cal_bp : null]),
    [
      ['G 1911–1930', 29.5],
      ['G 1931–1950', 9.5],
      ['G 1951–1970', -10.5],
      ['G 1971–1990', -30.5],
      ['G 1991–2010', -50.5],
    ],
  );
  assert.ok(Math.abs(known[4]!.height_m - 0.06) < 1e-12);
  const free = gaugePoints('G', BLOCKS, null);
  assert.ok(Math.abs(free.reduce((sum, { height_m }) => sum + height_m, 0)) < 1e-9);
  assert.deepEqual(free[0]!.shared, [{ group: 'gauge:G', sigma_m: 10 }]);
});

test('samples that scatter beyond their errors leave the gauge as it is (seed 5)', (t) => {
  const stream = randomStream(5);
  const samples = Array.from({ length: 16 }, (_, i): CurvePoint => {
    const age = 300 + 300 * i;
    return {
      id: `P${i}`,
      kind: 'index',
      height_m: -age / 1000 + 0.8 * stream.normal(),
      sigma_m: 0.1,
      half_range_m: 0,
      lowering_m: 0,
      shared: [],
      age: { kind: 'normal', mean_cal_bp: age, sd_yr: 30 },
    };
  });
  const found = computeCurve([...samples, ...gaugePoints('G', BLOCKS, null)], {
    ...DEFAULT_CURVE_SETTINGS,
    outliers: null,
    tie: null,
    extra_scatter_m: 1,
    ages_cal_bp: [0],
    intervals: [{ older_cal_bp: 39, younger_cal_bp: -60 }],
    chains: 2,
    draws: 300,
  });
  const rate = found.intervals[0]!.rate_mm_yr;
  t.diagnostic(
    `scatter ${found.scatter_m!.median.toFixed(2)} m; rate ${rate.lower95.toFixed(2)} to ${rate.upper95.toFixed(2)} mm/yr`,
  );
  assert.ok(found.scatter_m!.median > 0.4);
  // 2 mm/yr in the blocks; five of 1 cm over 80 years hold it to 2 × 1.96 × 0.01/63 m/yr.
  assert.ok(rate.lower95 < 2 && rate.upper95 > 2 && rate.upper95 - rate.lower95 < 0.9);
});

/**
 * Sixty-six published dates from one sub-region (Mann et al. 2019, doi 10.1016/j.quascirev.2019.07.007; see
 * docs/real-input.md) the whole way: heights as published, ages near the published. The curve is in `real-curve.long.test.ts`.
 */

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { readTable } from '../points/table.ts';
import { computedCampaign } from '../seasia/computed.ts';

const { results } = await computedCampaign({ withCurve: false });
const published = new Map(
  readTable(new URL('../seasia/data/singapore.csv', import.meta.url)).map((row) => [row['sample_id'], row]),
);

test('nothing in it is an error', () => {
  assert.deepEqual(
    results.problems.filter((p) => p.severity === 'error' || p.severity === 'danger'),
    [],
  );
});

test('sea level and its 2-sigma error come back within 1 cm on every index point', () => {
  let compared = 0;
  for (const point of results.points) {
    const row = published.get(point.sample);
    if (point.kind !== 'index' || row === undefined || row['published_rsl_m'] === '') continue;
    compared += 1;
    assert.ok(Math.abs(point.rsl_m - Number(row['published_rsl_m'])) < 0.01, point.point);
  }
  assert.ok(compared >= 20, `${compared} compared`);
});

test('median ages of accepted points lie within 100 yr, or 0.3 half widths, of the published middle', () => {
  for (const point of results.points) {
    const row = published.get(point.sample);
    if (row === undefined) continue;
    const half =
      (Number(row['published_age_older_bound_2s_cal_bp']) -
        Number(row['published_age_younger_bound_2s_cal_bp'])) /
      2;
    const apart = Math.abs(point.age.median_cal_bp - Number(row['published_age_cal_bp']));
    assert.ok(apart < Math.max(100, 0.3 * half), `${point.point}: ${apart} yr`);
  }
});

/** Every published row of every curve comes back unchanged from our encoding. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import {
  BOMB_CURVES,
  type BombName,
  bombRows,
  CURVES,
  curveRows,
  loadCurve,
} from '@stillstand/published/curves';
import { readCsv } from './read-csv.ts';

for (const name of Object.keys(CURVES) as (keyof typeof CURVES)[]) {
  test(`${CURVES[name].label}: all rows as published, the yearly grid linear between them`, async () => {
    const published = readCsv(`curves/${name}.csv`, ['cal_bp', 'c14_age_bp', 'sigma_yr']);
    const rows = await curveRows(name);
    const curve = await loadCurve(name);
    assert.equal(published.length, CURVES[name].rows);
    assert.equal(rows.cal_bp.length, published.length);
    assert.equal(curve.from_cal_bp, CURVES[name].youngest_cal_bp);
    assert.equal(curve.from_cal_bp + curve.c14_age.length - 1, CURVES[name].oldest_cal_bp);
    for (const [i, row] of published.entries()) {
      const year = Number(row.cal_bp);
      assert.equal(rows.cal_bp[i], year);
      assert.equal(rows.c14_age[i], Number(row.c14_age_bp));
      assert.equal(rows.sigma_yr[i], Number(row.sigma_yr));
      assert.equal(curve.c14_age[year - curve.from_cal_bp], Number(row.c14_age_bp));
      assert.equal(curve.sigma_yr[year - curve.from_cal_bp], Number(row.sigma_yr));
      const next = published[i + 1];
      if (next === undefined) continue;
      const share = 1 / (Number(next.cal_bp) - year);
      if (share === 1) continue;
      const expected = (1 - share) * Number(row.c14_age_bp) + share * Number(next.c14_age_bp);
      assert.ok(Math.abs(curve.c14_age[year + 1 - curve.from_cal_bp]! - expected) < 1e-9);
    }
  });
}

for (const name of Object.keys(BOMB_CURVES) as BombName[]) {
  test(`post-bomb ${BOMB_CURVES[name].label}: all rows as tabulated`, async () => {
    const published = readCsv(`curves/${name}.csv`, [
      'year_ce',
      'c14_age_bp',
      'sigma_yr',
      'f14c',
      'f14c_sigma',
    ]);
    const rows = await bombRows(name);
    assert.equal(published.length, BOMB_CURVES[name].rows);
    for (const [i, row] of published.entries()) {
      assert.equal(rows.year_ce[i]!.toFixed(4), row.year_ce);
      assert.equal(rows.c14_age[i], Number(row.c14_age_bp));
      assert.equal(rows.sigma_yr[i], Number(row.sigma_yr));
      assert.ok(Math.abs(rows.f14c[i]! - Number(row.f14c)) < 5.1e-6);
      assert.ok(Math.abs(rows.f14c_sigma[i]! - Number(row.f14c_sigma)) < 5.1e-6);
    }
  });
}

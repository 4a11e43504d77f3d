/** Determinations as laboratories report them, to ages. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { loadCurve } from '@stillstand/published/curves';
import { computeCampaign } from '../compute.ts';

type Cells = Record<string, string>;

async function dated(...determinations: Cells[]) {
  const tables = {
    datums: [{ datum: 'MSL', kind: 'mean_sea_level' }],
    samples: [{ sample: 'A', basis: 'elevation', elevation_m: '0.2', elevation_datum: 'MSL' }],
    determinations: determinations.map((cells, i) => ({
      lab_code: `L${i + 1}`,
      sample: 'A',
      method: 'radiocarbon',
      ...cells,
    })),
  };
  let document = newDocument('dates');
  for (const [table, rows] of Object.entries(tables)) document = withRows(document, table, rows);
  const { campaign, problems } = parseCampaign(document);
  const [intcal20, marine20, bomb21_nh2] = await Promise.all([
    loadCurve('intcal20'),
    loadCurve('marine20'),
    loadCurve('bomb21_nh2'),
  ]);
  const curves = { intcal20, marine20, bomb21_nh2 };
  return computeCampaign(campaign, { curves }, problems, { withCurve: false }).results;
}

test('F14C and the age it is give one date; F14C stands beside an age of after 1950', async () => {
  // −8033·ln 1.3672 = −2512.4, 8033·0.0038/1.3672 = 22.3
  const { dates, problems } = await dated(
    { value: '1.3672', error: '0.0038', reported_as: 'f14c', calibration_curve: 'bomb21_nh2' },
    { value: '-2512.43', error: '22.327', calibration_curve: 'bomb21_nh2' },
    { value: '0.5711', error: '0.002', reported_as: 'f14c', calibration_curve: 'intcal20' },
  );
  assert.deepEqual(
    problems.filter((p) => p.table === 'determinations'),
    [],
  );
  const [reported, age, old] = dates;
  assert.equal(reported!.f14c, 1.3672);
  assert.ok(Math.abs(reported!.value - age!.value) < 0.05 && Math.abs(reported!.error - age!.error) < 0.01);
  assert.ok(Math.abs(age!.f14c! - 1.3672) < 1e-5);
  assert.ok(Math.abs(reported!.median_cal_bp - age!.median_cal_bp) < 0.01);
  assert.ok(reported!.sets_95.some((s) => s.older_cal_bp <= -24 && s.younger_cal_bp >= -27));
  assert.ok(Math.abs(old!.value - 4500.01) < 0.01, 'standards A.1');
});

test('what cannot be dated says why, and what was reported', async () => {
  const { dates, problems } = await dated(
    { value: '0.001', error: '0.001', reported_as: 'f14c', calibration_curve: 'intcal20' },
    { value: '-2512', error: '22', calibration_curve: 'intcal20' },
    { value: '-2512', error: '22', calibration_curve: 'bomb21_nh2', marine_fraction: '0.3' },
  );
  assert.equal(dates.length, 0);
  const told = problems.filter((p) => p.table === 'determinations').map((p) => [p.label, p.code, p.found]);
  assert.deepEqual(told.sort(), [
    ['L1', 'age-beyond-curve', 'F14C 0.001 ± 0.001'],
    ['L2', 'age-beyond-curve', '-2512 ± 22 BP'],
    ['L3', 'no-calibration-curve', '0.3'],
  ]);
});

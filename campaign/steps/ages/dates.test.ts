/** Determinations as laboratories report them, to ages. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { loadCurve } from '@stillstand/published/curves';
import { computeCampaign } from '../compute.ts';
import { type Cells, campaignOf } from '../fixtures/campaign-of.ts';

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
  const { campaign, problems } = campaignOf('dates', tables);
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
    ['L2', 'after-1950-on-older-curve', '-2512 BP on intcal20'],
    ['L2', 'age-beyond-curve', '-2512 ± 22 BP'],
    ['L3', 'no-calibration-curve', '0.3'],
  ]);
});

test('an age that is only a limit bounds its layer, without an error of its own', async () => {
  // 4520 ± 30 on the southern curve is 5155 cal BP (standards A.8); on the northern one some decades older.
  const { dates, problems } = await dated(
    { value: '> 4520', calibration_curve: 'intcal20' },
    { value: '4520', qualifier: 'less_than', calibration_curve: 'intcal20' },
    { value: '> 48000', calibration_curve: 'intcal20' },
    { value: 'ND', calibration_curve: 'intcal20' },
  );
  const [older, younger] = dates;
  assert.deepEqual([dates.length, older!.value, older!.error], [2, 4520, 0]);
  const yearly = (date: typeof older, from: number, to: number): number =>
    date!.density.reduce((sum, p, i) => {
      const year = date!.from_cal_bp + i;
      return year >= from && year < to ? sum + p : sum;
    }, 0);
  // Every year on its side is as likely as any other, none on the other side.
  assert.ok(yearly(older, -80, 5000) < 1e-9 && yearly(older, 5500, 20_001) > 0.95);
  assert.ok(yearly(younger, -80, 5000) > 0.95 && yearly(younger, 5500, 20_001) < 1e-9);
  const ofDates = problems.filter((p) => p.table === 'determinations');
  // Beyond the oldest age the curve may have it bounds nothing: kept, said, no error.
  assert.deepEqual(
    ofDates.map((p) => [p.severity, p.code, p.found]),
    [['note', 'age-unusable', '> 48000 BP']],
  );
});

test('a rejected date raises no error, whatever it lacks', async () => {
  const { dates, problems } = await dated(
    { status: 'rejected', reason: 'contaminated', value: '' },
    { status: 'rejected', value: '4520', error: 'x', calibration_curve: 'intcal20' },
    { status: 'rejected', value: '4520', error: '30' },
    { status: 'rejected', value: '70000', error: '30', calibration_curve: 'intcal20' },
  );
  assert.equal(dates.length, 0);
  assert.ok(problems.length > 0 && problems.every((p) => p.severity === 'note'));
});

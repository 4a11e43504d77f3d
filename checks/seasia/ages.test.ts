/**
 * Our calibrated ages (2020 curves) beside the published ones (2013 curves). They must not be equal: docs/real-input.md
 * says how they differ and why. The published age is the middle of a 2-sigma range; ours is compared as a median and
 * as the middle of the whole 95.4 % set.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { loadCurve } from '@stillstand/published/curves';
import { calibrate, calibrationSets } from '@stillstand/science/dating';
import { readTable } from '../points/table.ts';
import { convert } from './convert.ts';

const dataset = readTable(new URL('./data/singapore.csv', import.meta.url));
const determinations = convert(dataset).determinations;
const curves = { intcal20: await loadCurve('intcal20'), marine20: await loadCurve('marine20') };

const ages = dataset.map((published, i) => {
  const ours: Readonly<Record<string, string>> = determinations[i] ?? {};
  const number = (row: Readonly<Record<string, string>>, column: string) => Number(row[column] ?? 0);
  const name = 'calibration_curve';
  const curve = ours[name] === 'marine20' ? 'marine20' : 'intcal20';
  const age = calibrate(
    {
      c14_age: number(ours, 'value'),
      error_yr: number(ours, 'error'),
      offset_yr: number(ours, 'delta_r'),
      offset_sd_yr: number(ours, 'delta_r_error'),
    },
    curves[curve],
  );
  const { sample_id: id = '' } = published as { sample_id?: string };
  assert.ok(age.kind === 'calibrated', id);
  const sets = calibrationSets(age, 0.954);
  const older = number(published, 'published_age_older_bound_2s_cal_bp');
  const younger = number(published, 'published_age_younger_bound_2s_cal_bp');
  return {
    id,
    curve,
    older,
    younger,
    truncated: age.truncated,
    median_cal_bp: age.median_cal_bp,
    median_yr: age.median_cal_bp - number(published, 'published_age_cal_bp'),
    middle_yr:
      (sets[0]!.older_cal_bp + sets.at(-1)!.younger_cal_bp) / 2 - number(published, 'published_age_cal_bp'),
    width: (sets[0]!.older_cal_bp - sets.at(-1)!.younger_cal_bp) / (older - younger),
  };
});

const middle = (values: number[]) => values.sort((a, b) => a - b)[Math.floor(values.length / 2)]!;
const atmosphere = ages.filter((a) => a.curve === 'intcal20');
const sea = ages.filter((a) => a.curve === 'marine20');

/** Change of curve, and of ΔR re-derived to ±30 yr: years. Ages of ± 150 yr and more: part of the published half width. */
const CHANGE_YR = 100;
const CHANGE_OF_HALF_WIDTH = 0.3;

test('each of 66 medians lies within 100 yr of the published middle, or within 0.3 of its half width where that is more', () => {
  assert.equal(atmosphere.length + sea.length, 66);
  for (const { id, median_yr, older, younger } of ages) {
    const allowed = Math.max(CHANGE_YR, (CHANGE_OF_HALF_WIDTH * (older - younger)) / 2);
    assert.ok(Math.abs(median_yr) <= allowed, `${id}: ${median_yr} yr, allowed ${allowed}`);
  }
});

test('atmospheric dates have not moved as a body; marine ones are some decades younger', () => {
  const land = middle(atmosphere.map((a) => a.middle_yr));
  assert.ok(Math.abs(land) <= 10, `atmosphere ${land}`);
  const marine = middle(sea.map((a) => a.middle_yr));
  assert.ok(marine >= -60 && marine <= 0, `sea ${marine}`);
});

test('marine ranges are wider than the published ones: the newer curve states a larger error', () => {
  assert.ok(middle(sea.map((a) => a.width)) > 1.05);
  assert.ok(Math.abs(middle(atmosphere.map((a) => a.width)) - 1) < 0.1);
});

test('one shell reaches past the young end of the marine curve and says so', () => {
  const cut = ages.filter((a) => a.truncated > 0.005).map((a) => a.id);
  assert.deepEqual(cut, ['SLCC461']);
});

/** Points of the literature: what of a row is used, and what is said of the rest. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { parseCampaign } from '@stillstand/campaign/document';
import { curveOf, traceId } from '@stillstand/campaign/results';
import { loadCurves } from '@stillstand/published/curves';
import { curvesNeeded } from '../ages/dates.ts';
import { computeCampaign } from '../compute.ts';
import { type Cells, documentOf, THREE_LEVELS } from './fixtures/three-levels.ts';

const TABLES = {
  ...THREE_LEVELS,
  datums: [
    { datum: 'MSL', kind: 'mean_sea_level' },
    { datum: 'CD', kind: 'tidal' },
    { datum: 'Far', kind: 'orthometric' },
  ],
  datum_shifts: [{ from: 'CD', to: 'MSL', shift_m: '-2', sigma_m: '0.3' }],
};

const POINT: Cells = {
  point: 'L1',
  site: 'A',
  source: 'Invented 2001',
  kind: 'index',
  rsl_m: '-1.5',
  rsl_2sigma_m: '0.8',
  age_cal_bp: '2500',
  age_2sigma_yr: '150',
};

async function computedWith(...points: Cells[]) {
  const { campaign, problems } = parseCampaign(
    documentOf('Literature', { ...TABLES, compiled_points: points }),
  );
  assert.deepEqual(
    problems.filter(({ severity }) => severity === 'error'),
    [],
  );
  const published = { curves: await loadCurves(curvesNeeded(campaign)) };
  const computation = computeCampaign(campaign, published, [], { withCurve: false });
  return {
    ...computation,
    said: computation.results.problems
      .filter(({ table }) => table === 'compiled_points')
      .map(({ severity, code, column, label }) => `${severity} ${code} ${column} ${label}`),
  };
}

test('a point comes to the campaign datum with the error of the shift, its age as published', async () => {
  const { results, said, trace, curveInput } = await computedWith(POINT, {
    ...POINT,
    point: 'L2',
    datum: 'CD',
    site: '',
    kind: 'marine',
  });
  assert.deepEqual(said, []);
  const [here, there] = results.published;
  assert.deepEqual([here!.rsl_m, here!.rsl_sigma_m, here!.site], [-1.5, 0.4, 'A']);
  assert.deepEqual(here!.age, { median_cal_bp: 2500, older95_cal_bp: 2650, younger95_cal_bp: 2350 });
  // 2 m lower, and √(0.4² + 0.3²) = 0.5.
  assert.deepEqual([there!.rsl_m, there!.site, there!.kind], [-3.5, null, 'marine']);
  assert.ok(Math.abs(there!.rsl_sigma_m - 0.5) < 1e-12);
  // No curve is made of them.
  assert.deepEqual(
    curveInput!.points.map(({ id }) => id),
    ['P1', 'P2', 'P3'],
  );
  const node = trace.find(traceId.publishedPoint('L2'));
  const tables = trace.parts(node).map((part) => trace.node(part).row?.table ?? trace.node(part).label);
  assert.deepEqual(tables, ['compiled_points', 'CD to MSL']);
});

test('a radiocarbon age is calibrated with the curve its publication names, however it is written', async () => {
  const { results, said } = await computedWith({
    ...POINT,
    age_cal_bp: '',
    age_2sigma_yr: '',
    c14_age: '4500',
    c14_error: '30',
    calibration_curve: 'IntCal20',
  });
  assert.deepEqual(said, []);
  const [{ age, age_from, calibration_curve }] = results.published as [(typeof results.published)[number]];
  assert.deepEqual([age_from, calibration_curve], ['radiocarbon', 'intcal20']);
  // The same as a date of the campaign.
  const date = (
    await computedWithDate({
      value: '4500',
      error: '30',
      method: 'radiocarbon',
      calibration_curve: 'intcal20',
    })
  ).dates[0]!;
  assert.equal(age.median_cal_bp, date.median_cal_bp);
  assert.equal(age.older95_cal_bp, Math.max(...date.sets_95.map((part) => part.older_cal_bp)));
});

test('a marine age takes its ΔR and the error of it, as a date of the campaign does', async () => {
  const sea = { ...POINT, age_cal_bp: '', age_2sigma_yr: '', calibration_curve: 'Marine20' };
  const marine = { ...sea, c14_age: '4500', c14_error: '30', delta_r: '-120', delta_r_error: '60' };
  const { results, said } = await computedWith(
    marine,
    { ...marine, point: 'exact', delta_r_error: '' },
    { ...marine, point: 'zero', delta_r: '0' },
  );
  assert.deepEqual(said, ['warning no-error-stated delta_r_error exact']);
  const [point, exact] = results.published.map(({ age }) => age);
  const date = (
    await computedWithDate({
      value: '4500',
      error: '30',
      method: 'radiocarbon',
      calibration_curve: 'marine20',
      delta_r: '-120',
      delta_r_error: '60',
    })
  ).dates[0]!;
  assert.equal(point!.median_cal_bp, date.median_cal_bp);
  assert.equal(point!.older95_cal_bp, Math.max(...date.sets_95.map((part) => part.older_cal_bp)));
  assert.ok(
    exact!.older95_cal_bp - exact!.younger95_cal_bp < point!.older95_cal_bp - point!.younger95_cal_bp,
  );
  assert.equal(results.published.length, 3);
});

async function computedWithDate(cells: Cells) {
  const [first, ...rest] = THREE_LEVELS['determinations']!;
  const determinations = [{ ...first, reference_year: '', ...cells }, ...rest];
  const { campaign } = parseCampaign(documentOf('Date', { ...TABLES, determinations }));
  const published = { curves: await loadCurves(curvesNeeded(campaign)) };
  return computeCampaign(campaign, published, [], { withCurve: false }).results;
}

test('what cannot be drawn is named with what to do, and the others are drawn', async () => {
  const without = { ...POINT, age_cal_bp: '', age_2sigma_yr: '' };
  const c14 = { ...without, c14_age: '4500', c14_error: '30' };
  const { results, said } = await computedWith(
    { ...without, point: 'ageless' },
    { ...c14, point: 'curveless' },
    { ...c14, point: 'unknown', calibration_curve: 'IntCal99' },
    { ...c14, point: 'sea', calibration_curve: 'Marine20' },
    { ...c14, point: 'inexact', c14_error: '', calibration_curve: 'intcal20' },
    { ...c14, point: 'beyond', c14_age: '59900', calibration_curve: 'intcal20' },
    { ...POINT, point: 'far', datum: 'Far' },
    { ...POINT, point: 'exact', age_2sigma_yr: '' },
    { ...POINT, point: 'twice', c14_age: '4500' },
    { ...POINT, point: 'plain' },
  );
  assert.deepEqual(said.sort(), [
    'error age-beyond-curve c14_age beyond',
    'error no-age age_cal_bp ageless',
    'error no-calibration-curve calibration_curve curveless',
    'error no-calibration-curve calibration_curve unknown',
    'error no-datum-shift datum far',
    'error no-error-stated c14_error inexact',
    'error no-local-offset delta_r sea',
    'warning no-error-stated age_2sigma_yr exact',
    'warning two-ages c14_age twice',
  ]);
  assert.deepEqual(
    results.published.map(({ point, age }) => [point, age.median_cal_bp]),
    [
      ['exact', 2500],
      ['twice', 2500],
      ['plain', 2500],
    ],
  );
  assert.equal(curveOf(results), null);
});

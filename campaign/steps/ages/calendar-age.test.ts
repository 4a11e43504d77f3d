/** Calendar ages with a shared part of their error, or a range, from the tables to the points of the curve. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { computeCampaign } from '../compute.ts';
import { type Cells, campaignOf } from '../fixtures/campaign-of.ts';

/** One point a date, at the surface. */
function computed(...determinations: Cells[]) {
  const level = (name: string, elevation_m: string): Cells => ({
    site: 'A',
    level: name,
    datum: 'MSL',
    elevation_m,
    sigma_m: '0.05',
  });
  const tables: Record<string, Cells[]> = {
    datums: [{ datum: 'MSL', kind: 'mean_sea_level' }],
    sites: [{ site: 'A' }],
    tide_levels: [level('MHW', '0.8'), level('HAT', '1.4')],
    samples: determinations.map((_, k) => ({
      sample: `S${k + 1}`,
      basis: 'elevation',
      site: 'A',
      elevation_m: '-1',
      elevation_sigma_m: '0.1',
      elevation_datum: 'MSL',
    })),
    determinations: determinations.map((cells, k) => ({
      lab_code: `L${k + 1}`,
      sample: `S${k + 1}`,
      method: 'luminescence',
      ...cells,
    })),
    points: determinations.map((_, k) => ({
      point: `P${k + 1}`,
      sample: `S${k + 1}`,
      kind: 'index',
      lower: 'MHW',
      upper: 'HAT',
      status: 'accepted',
    })),
  };
  const { campaign, problems } = campaignOf('dates', tables);
  const { results, curveInput, trace } = computeCampaign(campaign, { curves: {} }, problems, {
    withCurve: false,
  });
  return {
    results,
    trace,
    ages: curveInput!.points.map(({ age }) => age),
    problems: results.problems.filter((p) => p.table === 'determinations'),
  };
}

const DOSE = { value: '5200', error: '500', systematic_error: '300', systematic_group: 'lab 2024' };

test('dates measured together share the systematic part of their error in the curve, by name', () => {
  const { ages, results, problems } = computed(
    DOSE,
    { ...DOSE, value: '6100', error: '600' },
    {
      value: '3000',
      error: '250',
    },
  );
  assert.deepEqual(problems, []);
  assert.deepEqual(ages, [
    { kind: 'normal', mean_cal_bp: 5200, sd_yr: 500, systematic: { group: 'lab 2024', sd_yr: 300 } },
    { kind: 'normal', mean_cal_bp: 6100, sd_yr: 600, systematic: { group: 'lab 2024', sd_yr: 300 } },
    { kind: 'normal', mean_cal_bp: 3000, sd_yr: 250 },
  ]);
  assert.deepEqual(
    results.groups.filter(({ kind }) => kind === 'dose'),
    [{ id: 'lab 2024', kind: 'dose', members: ['L1', 'L2'] }],
  );
  // The error is the whole: the age alone is as it was.
  assert.equal(results.dates[0]!.sd_yr, 500);
});

test('a group of one point has its whole error to itself', () => {
  assert.deepEqual(computed(DOSE).ages, [{ kind: 'normal', mean_cal_bp: 5200, sd_yr: 500 }]);
});

test('a shared part that cannot be used is named, and the age computed with its whole error', () => {
  const { ages, problems } = computed(
    { ...DOSE, systematic_error: '700' },
    { ...DOSE, systematic_error: '' },
    { ...DOSE, systematic_group: '' },
    { ...DOSE, error_shape: 'uniform' },
  );
  assert.deepEqual(
    problems.map((p) => [p.label, p.code, p.severity]),
    [
      ['L1', 'systematic-above-error', 'error'],
      ['L2', 'systematic-error-unused', 'warning'],
      ['L3', 'systematic-error-unused', 'warning'],
      ['L4', 'systematic-error-unused', 'warning'],
    ],
  );
  assert.match(problems[0]!.found, /700 of an error of 500 yr/);
  assert.deepEqual(ages.slice(0, 3), Array(3).fill({ kind: 'normal', mean_cal_bp: 5200, sd_yr: 500 }));
});

test('a measured age without an error is named and not used; a historic year may be known', () => {
  const { results, problems } = computed(
    { value: '5200', error: '0' },
    { value: '5200', error: '0', method: 'u_series' },
    { value: '-13', error: '0', method: 'historic' },
    { value: '3000', error: '200' },
  );
  assert.deepEqual(
    problems.map((p) => [p.label, p.code, p.severity]),
    [
      ['L1', 'age-unusable', 'error'],
      ['L2', 'age-unusable', 'error'],
    ],
  );
  assert.match(problems[0]!.expected, /an error above 0 for a luminescence age/);
  assert.deepEqual(
    results.dates.map((d) => d.lab_code),
    ['L3', 'L4'],
  );
});

test('a marker of which the ends are known is even between them; one without an age is named', () => {
  const { ages, results, problems } = computed(
    { method: 'marker', fraction_dated: 'tephra', value: '1200', error: '30', error_shape: 'uniform' },
    { method: 'historic', fraction_dated: 'storm bed', value: '1825', error: '1', reference_year: '2020' },
    { method: 'marker', fraction_dated: 'pollen horizon', value: '', error: '' },
  );
  const [tephra, storm] = results.dates;
  const [range] = tephra!.sets_95;
  // 95.4 % of 60 yr are 57 yr.
  assert.ok(range!.older_cal_bp - range!.younger_cal_bp >= 56 && range!.older_cal_bp <= 1230);
  assert.ok(Math.abs(tephra!.sd_yr - 30 / Math.sqrt(3)) < 1e-9);
  assert.equal(tephra!.material, 'tephra');
  assert.equal(storm!.median_cal_bp, 1825 - 70);
  assert.equal(ages[0]!.kind, 'density');
  assert.ok(problems.some((p) => p.label === 'L3' && p.column === 'value' && p.severity === 'error'));
});

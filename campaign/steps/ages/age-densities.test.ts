/** Markers of any shape: a date that names a table of years and weights. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { traceId } from '@stillstand/campaign/results';
import type { HoleOfClocks } from '@stillstand/science/clocks';
import { computeCampaign } from '../compute.ts';
import { type Cells, campaignOf } from '../fixtures/campaign-of.ts';
import type { LongJob } from '../runner/step.ts';

const rows = (density: string, ...of: [age_cal_bp: number | string, weight: number | string][]): Cells[] =>
  of.map(([age, weight]) => ({ density, age_cal_bp: String(age), weight: String(weight) }));

/** Two peaks, 7,950 likelier than 8,150. */
const ASH = rows('ash', [7900, 0], [7950, 3], [8000, 0], [8100, 0], [8150, 1], [8200, 0]);

function computed(densities: Cells[], ...dates: Cells[]) {
  const level = (name: string, elevation_m: string): Cells => ({
    site: 'A',
    level: name,
    datum: 'MSL',
    elevation_m,
    sigma_m: '0.05',
  });
  const { campaign, problems } = campaignOf('densities', {
    datums: [{ datum: 'MSL', kind: 'mean_sea_level' }],
    sites: [{ site: 'A' }],
    tide_levels: [level('MHW', '0.8'), level('HAT', '1.4')],
    holes: [{ hole: 'H', method: 'exposure', reference_elevation_m: '2', reference_datum: 'MSL', site: 'A' }],
    samples: dates.map((_, i) => ({
      sample: `S${i + 1}`,
      hole: 'H',
      basis: 'in_situ',
      top: `${i + 1} m`,
      bottom: `${i + 1.01} m`,
    })),
    determinations: dates.map((cells, i) => ({
      lab_code: `L${i + 1}`,
      sample: `S${i + 1}`,
      method: 'marker',
      ...cells,
    })),
    age_densities: densities,
    points: dates.map((_, i) => ({
      point: `P${i + 1}`,
      sample: `S${i + 1}`,
      kind: 'index',
      lower: 'MHW',
      upper: 'HAT',
    })),
    settings: [{ name: 'age_depth', value: 'H' }],
  });
  const later: LongJob[] = [];
  const { results, curveInput, trace } = computeCampaign(campaign, { curves: {} }, problems, {
    withCurve: true,
    later,
    memo: new Map(),
  });
  return {
    results,
    later: later.filter(({ step }) => step === 'age against depth'),
    trace,
    ages: curveInput?.points.map(({ age }) => age) ?? [],
    problems: results.problems
      .filter((p) => p.table === 'determinations' || p.table === 'age_densities')
      .map((p) => `${p.severity} ${p.code} ${p.label} ${p.column}: ${p.found}; ${p.expected}`),
  };
}

test('a marker has the years of its table in the dates and in the curve, with the rows in its trace', () => {
  const { results, ages, trace, problems } = computed(ASH, { age_density: 'ash', fraction_dated: 'tephra' });
  assert.deepEqual(problems, []);
  const [date] = results.dates;
  assert.equal(date!.age_from, 'density');
  // Three quarters of it are in the younger triangle, of which the mean is 7,950.
  assert.ok(Math.abs(date!.mean_cal_bp - (0.75 * 7950 + 0.25 * 8150)) < 0.01);
  assert.equal(date!.sets_95.length, 2);
  assert.ok(Math.abs(date!.sets_95[1]!.probability - 0.75 * 0.954) < 0.03);
  assert.deepEqual([date!.value, date!.error], [date!.median_cal_bp, date!.sd_yr]);
  const [age] = ages;
  assert.ok(age?.kind === 'density' && age.density.length === date!.density.length);
  const node = trace.node(trace.find(traceId.date('L1')));
  assert.match(node.how, /every year as probable as ash has it/);
  assert.equal(trace.node(trace.find(traceId.ageDensity('L1'))).parts.length, ASH.length);
});

test('one density serves several dates, and a maximum age of it bounds its layer', () => {
  const { results, ages } = computed(
    ASH,
    { age_density: 'ash' },
    { age_density: 'ash', method: 'historic' },
    { age_density: 'ash', age_role: 'maximum' },
    { age_density: 'ash', status: 'rejected' },
  );
  assert.equal(results.dates.length, 4);
  assert.equal(results.dates[0]!.median_cal_bp, results.dates[1]!.median_cal_bp);
  assert.ok(results.dates[2]!.median_cal_bp < 6000);
  assert.equal(ages.filter((age) => age.kind === 'density').length, 3);
});

test('the history of a hole is handed the whole of it', () => {
  const known = { method: 'historic', value: '7000', error: '20' };
  const { results, later } = computed(ASH, known, { ...known, value: '8080' }, { age_density: 'ash' });
  const { input } = later[0]!.values['clocks'] as HoleOfClocks;
  const date = results.dates.find(({ lab_code }) => lab_code === 'L3')!;
  assert.deepEqual(input.horizons.find(({ id }) => id === 'L3')!.age, {
    from_cal_bp: date.from_cal_bp,
    density: date.density,
  });
});

test('what is wrong with a density is named at its rows, and its dates have no age until then', () => {
  const { results, problems } = computed(
    [
      ...rows('twice', [100, 1], [100, 2], [200, 1]),
      ...rows('short', [100, 1]),
      ...rows('empty', [100, 0], [200, 0]),
      ...rows('torn', [100, 1], [150, 'much'], [200, 1]),
      ...rows('Ash 1', [100, 1], [150, 1]),
    ],
    ...['twice', 'short', 'empty', 'torn', 'ash 2', 'Ash 1'].map((age_density) => ({ age_density })),
  );
  const said = problems.join('\n');
  assert.deepEqual(
    results.dates.map(({ lab_code }) => lab_code),
    ['L6'],
  );
  assert.match(said, /error age-density-age-twice twice age_cal_bp: 100 cal BP in two rows/);
  assert.match(said, /error age-density-too-short short age_cal_bp: one row/);
  assert.match(said, /error age-density-empty empty weight: weights of 0/);
  assert.match(said, /error not-a-number/);
  for (const label of ['L1', 'L2', 'L3', 'L4', 'L5'])
    assert.match(said, new RegExp(`error no-age-density ${label} age_density`));
});

test('a value beside a density that it contradicts, a shared part, and a density of radiocarbon are named', () => {
  const { results, problems } = computed(
    ASH,
    { age_density: 'ash', value: '8000', error: '100' },
    { age_density: 'ash', value: '5000', error: '100' },
    { age_density: 'ash', systematic_error: '50', systematic_group: 'lab' },
    { age_density: 'ash', method: 'radiocarbon', value: '5000', error: '30', calibration_curve: 'intcal20' },
    { age_density: 'ash', method: 'luminescence', value: '', error: '' },
  );
  assert.equal(problems.length, 4);
  const said = problems.join('\n');
  assert.match(said, /warning age-not-as-density L2 value: 5000 ± 100; 7\d\d\d to 8\d\d\d cal BP/);
  assert.match(said, /warning systematic-error-unused L3 systematic_error: 50; none with an age density/);
  assert.match(said, /warning age-density-unused L4 age_density: ash/);
  assert.match(said, /error no-calibration-curve L4/);
  assert.deepEqual(
    results.dates.map(({ lab_code, age_from }) => `${lab_code} ${age_from}`),
    ['L1 density', 'L2 density', 'L3 density', 'L5 density'],
  );
});

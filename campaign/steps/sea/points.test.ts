/** What a point says where it asks for what is not there. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { computeCampaign } from '../compute.ts';

type Cells = Record<string, string>;

const TABLES: Record<string, Cells[]> = {
  datums: [{ datum: 'MSL', kind: 'mean_sea_level', epoch_from: '1993', epoch_to: '2011' }],
  sites: [{ site: 'S' }],
  tide_levels: [
    { site: 'S', level: 'MHW', datum: 'MSL', elevation_m: '0.6', sigma_m: '0.05' },
    { site: 'S', level: 'HAT', datum: 'MSL', elevation_m: '1.0', sigma_m: '0.05' },
  ],
  holes: [
    {
      hole: 'A',
      site: 'S',
      method: 'exposure',
      reference_elevation_m: '2',
      reference_datum: 'MSL',
      reference_sigma_m: '0.02',
    },
  ],
  samples: [{ sample: 'A1', hole: 'A', basis: 'in_situ', top: '3 m', bottom: '3.02 m' }],
  determinations: [
    {
      lab_code: 'L1',
      sample: 'A1',
      method: 'luminescence',
      value: '5000',
      error: '200',
      reference_year: '2020',
    },
  ],
};

function computed(point: Cells, tables: Record<string, Cells[]> = {}) {
  let document = newDocument('points');
  const row = { point: 'P1', sample: 'A1', kind: 'index', lower: 'MHW', upper: 'HAT', ...point };
  for (const [table, rows] of Object.entries({ ...TABLES, points: [row], ...tables })) {
    document = withRows(document, table, rows);
  }
  const { campaign, problems } = parseCampaign(document);
  return computeCampaign(campaign, { curves: {} }, problems, { withCurve: false }).results;
}

test('an age wanted from age against depth is not taken from elsewhere without a word', () => {
  const [plain, modelled] = [computed({ age_from: 'determination' }), computed({ age_from: 'age_depth' })];
  assert.ok(plain.points.length === 1, JSON.stringify(plain.problems, null, 1));
  assert.deepEqual(
    modelled.problems
      .filter((p) => p.code === 'point-age-not-from-depth')
      .map((p) => [p.severity, p.label, p.column, p.found]),
    [['warning', 'P1', 'age_from', 'age_depth']],
  );
  assert.deepEqual(modelled.points[0]!.age, plain.points[0]!.age);
});

test('a claim whose sample nobody has dated is no point, and is kept with the sea it would show', () => {
  const dated = computed({});
  const { points, undated, problems } = computed({}, { determinations: [] });
  assert.equal(points.length, 0);
  assert.deepEqual(
    undated.map(({ point, sample, rsl_m, rsl_sigma_m }) => ({ point, sample, rsl_m, rsl_sigma_m })),
    dated.points.map(({ point, sample, rsl_m, rsl_sigma_m }) => ({ point, sample, rsl_m, rsl_sigma_m })),
  );
  assert.ok(problems.some((p) => p.code === 'point-without-date' && p.severity === 'warning'));
  assert.equal(
    computed({ kind: 'terrestrial' }, { determinations: [] }).undated.length,
    0,
    'a bound fixes nothing',
  );
});

test('tide levels in the wrong order are named where they stand', () => {
  const level = (name: string, elevation_m: string): Cells => ({
    site: 'S',
    level: name,
    datum: 'MSL',
    elevation_m,
    sigma_m: '0.05',
  });
  const { problems } = computed(
    {},
    { tide_levels: [level('MHW', '1.1'), level('HAT', '0.3'), level('MLW', '-0.6')] },
  );
  assert.deepEqual(
    problems.filter((p) => p.code === 'tide-levels-out-of-order').map((p) => [p.label, p.found]),
    [['HAT at S', 'HAT at 0.3 m, below MHW at 1.1 m']],
  );
  assert.deepEqual(
    computed({}).problems.filter((p) => p.code === 'tide-levels-out-of-order'),
    [],
  );
});

test('a sample deeper than the core it was taken from is placed and named', () => {
  const rig = {
    holes: [{ hole: 'B', site: 'S', method: 'chamber', reference_elevation_m: '2', reference_datum: 'MSL' }],
    pushes: [{ hole: 'B', push: 'P1', seq: '1', from: '0 m', to: '0.5 m', recovered: '0.5 m' }],
    samples: [{ sample: 'A1', hole: 'B', basis: 'push', run: 'P1', top: '0.9 m', bottom: '0.92 m' }],
  };
  const { problems, samples } = computed({}, rig);
  assert.deepEqual(
    problems.filter((p) => p.code === 'deeper-than-its-core').map((p) => [p.label, p.found, p.severity]),
    [['A1', '0.92 m in push P1', 'warning']],
  );
  assert.ok(samples[0]!.depth_m !== null && samples[0]!.dated);
});

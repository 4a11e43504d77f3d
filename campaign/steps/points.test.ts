/** What a point says where it asks for what is not there. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { computeCampaign } from './compute.ts';

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

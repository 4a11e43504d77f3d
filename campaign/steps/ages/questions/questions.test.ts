/** Each odd date is asked about by its own question, a plain one by none, a rejected one not at all. */
import assert from 'node:assert/strict';
import { before, test } from 'node:test';
import { loadCurve } from '@stillstand/published/curves';
import { sampleMaterials } from '@stillstand/published/vocabularies';
import { computeCampaign } from '../../compute.ts';
import { type Cells, campaignOf } from '../../fixtures/campaign-of.ts';
import type { Published } from '../dates.ts';
import { carbonOf } from './carbon-of.ts';

let published: Published;
before(async () => {
  const [intcal20, shcal20, marine20] = await Promise.all(
    (['intcal20', 'shcal20', 'marine20'] as const).map((name) => loadCurve(name)),
  );
  published = { curves: { intcal20: intcal20!, shcal20: shcal20!, marine20: marine20! } };
});

const OTHERS =
  /^(material-|missing|no-|date|point|sample|unknown|marine-share|age-|reservoir-few|reservoir-disagrees|hole|empty|not-used)/;

/** Codes of what is asked of dates of one sample, each with the row it is said of. */
function asked(determinations: Cells[], material = 'seeds', latitude = '') {
  const tables: Record<string, Cells[]> = {
    datums: [{ datum: 'MSL', kind: 'mean_sea_level' }],
    holes: [
      {
        hole: 'A',
        method: 'exposure',
        reference_elevation_m: '2',
        reference_datum: 'MSL',
        latitude_deg: latitude,
        longitude_deg: latitude === '' ? '' : '10',
      },
    ],
    samples: [{ sample: 'A1', hole: 'A', basis: 'in_situ', top: '1 m', bottom: '1.02 m', material }],
    determinations: determinations.map((cells, i) => ({
      lab_code: `L${i + 1}`,
      sample: 'A1',
      method: 'radiocarbon',
      value: '4520',
      error: '30',
      calibration_curve: 'intcal20',
      ...cells,
    })),
  };
  const { campaign, problems } = campaignOf('questions', tables);
  const { results } = computeCampaign(campaign, published, problems, { withCurve: false });
  return results.problems
    .filter(({ table, code }) => table === 'determinations' && !OTHERS.test(code))
    .map(({ code, label, found }) => ({ code, label, found }));
}

const codes = (determinations: Cells[], material?: string, latitude?: string): string[] =>
  asked(determinations, material, latitude).map(({ code }) => code);

const MARINE = { calibration_curve: 'marine20', delta_r: '-120', delta_r_error: '45' };

test('nothing is asked of plain dates, of a rejected one, or of another method', () => {
  assert.deepEqual(codes([{}, { value: '4480' }]), []);
  assert.deepEqual(codes([MARINE], 'marine shell'), []);
  assert.deepEqual(codes([{ calibration_curve: 'shcal20', delta13c_permil: '-27' }], 'wood', '-35'), []);
  assert.deepEqual(codes([{ status: 'rejected', reason: 'roots', error: '2' }], 'marine shell'), []);
  assert.deepEqual(codes([{ method: 'luminescence', calibration_curve: '', error: '2' }], 'quartz'), []);
});

test('each of these is asked about', () => {
  const cases: [string, Cells, string?, string?][] = [
    ['sea-material-on-air', {}, 'marine shell'],
    ['land-material-on-sea', MARINE, 'charcoal'],
    ['delta-r-missing', { calibration_curve: 'marine20' }, 'foraminifera'],
    ['delta-r-missing', { marine_fraction: '0.4', marine_fraction_error: '0.1' }, 'bone'],
    ['delta-r-exact', { ...MARINE, delta_r_error: '' }, 'coral'],
    ['delta-r-perhaps-whole-age', { ...MARINE, delta_r: '410' }, 'marine shell'],
    ['offset-on-air', { delta_r: '350', delta_r_error: '80' }, 'freshwater shell'],
    ['offset-on-air-negative', { delta_r: '-120', delta_r_error: '45' }],
    ['error-very-small', { error: '3' }],
    ['error-very-small', { value: '0.5697', error: '0.0004', reported_as: 'f14c' }],
    ['delta13c-not-of-material', { ...MARINE, delta13c_permil: '-26.1' }, 'marine shell'],
    ['delta13c-not-of-material', { delta13c_permil: '26.1' }],
    ['after-1950-on-older-curve', { value: '-310' }],
    ['after-1950-on-older-curve', { value: '1.08', error: '0.003', reported_as: 'f14c' }],
    ['curve-of-other-hemisphere', {}, 'seeds', '-35'],
    ['curve-of-other-hemisphere', { calibration_curve: 'shcal20' }, 'seeds', '52'],
    ['marine20-in-polar-sea', MARINE, 'marine shell', '71'],
  ];
  for (const [code, cells, material, latitude] of cases) {
    assert.deepEqual(codes([cells], material, latitude), [code], JSON.stringify(cells));
  }
});

test('what was dated says more than what the sample is of', () => {
  assert.deepEqual(codes([{ ...MARINE, fraction_dated: 'oyster, inner layer' }], 'wood'), []);
  assert.deepEqual(codes([{ fraction_dated: 'acid–base–acid residue' }], 'marine shell'), [
    'sea-material-on-air',
  ]);
});

test('dates of one water have one curve and one ΔR, that of their own shells', () => {
  const bay = { ...MARINE, delta_r_group: 'bay' };
  assert.deepEqual(codes([bay, { ...bay, value: '4480' }], 'marine shell'), []);
  assert.deepEqual(codes([bay, { ...bay, value: '4480', delta_r: '-90' }], 'marine shell'), [
    'delta-r-group-differs',
  ]);
  const air = { ...bay, calibration_curve: 'intcal20', value: '4480' };
  assert.ok(codes([bay, air], 'bone').includes('delta-r-on-two-curves'));
  // Marine20 at 50 cal BP has 613: ΔR −3 ± √2 · 22, rounded up.
  const shell = { ...bay, value: '610', error: '22', known_age_ce: '1900', delta_r: '', delta_r_error: '' };
  assert.deepEqual(asked([bay, shell], 'marine shell'), [
    { code: 'delta-r-not-of-own-shells', label: 'L1', found: '-120 ± 45' },
  ]);
  assert.deepEqual(codes([{ ...bay, delta_r: '-3', delta_r_error: '32' }, shell], 'marine shell'), []);
});

test('a laboratory code in two spellings, and one result under two codes', () => {
  assert.deepEqual(asked([{ lab_code: 'INV-12' }, { lab_code: 'inv 12', value: '4480' }]), [
    { code: 'laboratory-code-twice', label: 'inv 12', found: 'INV-12, inv 12' },
  ]);
  assert.deepEqual(codes([{}, {}]), ['result-twice']);
});

test('the words of the vocabulary mean here what they mean there', () => {
  for (const { word, carbon } of sampleMaterials) {
    const here = carbonOf(word);
    if (carbon === 'sea') assert.equal(here, 'sea', word);
    else if (carbon === 'atmosphere') assert.equal(here, 'land', word);
    else assert.equal(here, null, word);
  }
});

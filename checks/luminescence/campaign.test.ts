/**
 * A campaign computes from measurements what the command line computes from a table: the 67 published samples, contents and
 * doses alike, in other units too.
 */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { computeCampaign } from '@stillstand/campaign/steps';
import { DOSE_FACTOR_SETS, DOSE_FACTORS } from '@stillstand/published/dose-factors';
import { cosmicOf, grainsOf, SAMPLES, type Sample } from './published-samples.ts';

/** Neither contents nor water have errors in the source. */
const ERROR = { content: 0.05, water: 0.25, cosmic: 0.1 };
const YEAR = 2006;
const ROOT = join(import.meta.dirname, '..', '..');

/** Every third in Bq/kg, every second with a shared part of the dose. */
const inputsOf = (s: Sample, i: number) => {
  const { isFine, from_um, to_um } = grainsOf(s);
  const cosmic = cosmicOf(s);
  const dose = Number(s.dose_gy);
  const figures = DOSE_FACTORS.guerin2011.specific_activity.figures;
  const content = (element: 'uranium' | 'thorium' | 'potassium', stated: string) => {
    const value = Number(stated) * (i % 3 === 0 ? figures[element] : 1);
    return { value, sd: ERROR.content * value };
  };
  return {
    isActivity: i % 3 === 0,
    uranium: content('uranium', s.uranium_ppm),
    thorium: content('thorium', s.thorium_ppm),
    potassium: content('potassium', s.potassium_percent),
    water: { value: Number(s.water_percent), sd: ERROR.water * Number(s.water_percent) },
    cosmic: { value: cosmic, sd: ERROR.cosmic * cosmic },
    grains: [from_um, to_um],
    alpha: isFine ? { value: 0.04, sd: 0.01 } : null,
    dose: { value: dose, sd: Number(s.dose_error_gy) || 0.05 * dose },
    // Less than the whole error of the surest dose.
    shared_percent: i % 2 === 0 ? 0.5 : 0,
  };
};
type Inputs = ReturnType<typeof inputsOf>;
const ALL = SAMPLES.map((sample, i) => ({ id: sample.id, of: inputsOf(sample, i) }));

function byCommandLine(set: string) {
  const place = mkdtempSync(join(tmpdir(), 'stillstand-dose-'));
  const path = join(place, 'doses.csv');
  const rows = ALL.map(({ id, of }) => {
    const [uranium, thorium, potassium] = of.isActivity
      ? ['uranium_bq_kg', 'thorium_bq_kg', 'potassium_bq_kg']
      : ['uranium_ppm', 'thorium_ppm', 'potassium_percent'];
    const numbers: Record<string, { value: number; sd: number } | null> = {
      dose_gy: of.dose,
      [uranium!]: of.uranium,
      [thorium!]: of.thorium,
      [potassium!]: of.potassium,
      water_percent: of.water,
      cosmic_gy_ka: of.cosmic,
      alpha_efficiency: of.alpha,
    };
    const cells: Record<string, string | number> = {
      id,
      grain_from_um: of.grains[0]!,
      grain_to_um: of.grains[1]!,
      etched: of.alpha === null ? 'yes' : 'no',
      measured_year: YEAR,
      dose_systematic_percent: of.shared_percent,
    };
    for (const [name, number] of Object.entries(numbers))
      if (number !== null) Object.assign(cells, { [name]: number.value, [`${name}_sd`]: number.sd });
    return cells;
  });
  const columns = [...new Set(rows.flatMap((row) => Object.keys(row)))];
  const lines = rows.map((row) => columns.map((column) => row[column] ?? '').join(','));
  writeFileSync(path, [columns.join(','), ...lines].join('\n'));
  const { stdout, stderr } = spawnSync(
    process.execPath,
    ['surfaces/cli/stillstand.js', 'dose', path, '--factors', set, '--json'],
    { cwd: ROOT, encoding: 'utf8' },
  );
  rmSync(place, { recursive: true });
  assert.notEqual(stdout, '', stderr);
  return JSON.parse(stdout) as Answer[];
}
interface Answer {
  id: string;
  age_yr: number;
  error_yr: number;
  systematic_yr: number;
  rate: { value: number; random: number; systematic: number };
  from_contents: {
    parts_gy_ka: Record<string, number>;
    errors: { of: string; random: number; systematic: number }[];
    used: { name: string; source: string; from_memory: boolean }[];
  };
}

function measurementsOf(sample: string, of: Inputs) {
  const row = (property: string, number: { value: number; sd: number } | null, unit: string, more = {}) =>
    number === null
      ? []
      : [{ sample, property, value: String(number.value), sigma: String(number.sd), unit, ...more }];
  const size = (property: string, value: number) => [{ sample, property, value: String(value), unit: 'µm' }];
  const shared = (of.shared_percent / 100) * of.dose.value;
  return [
    ...row('equivalent dose', of.dose, 'Gy', shared > 0 ? { systematic_sigma: String(shared) } : {}),
    ...row('uranium', of.uranium, of.isActivity ? 'Bq/kg' : 'ppm'),
    ...row('Thorium', of.thorium, of.isActivity ? 'Bq/kg' : 'mg/kg'),
    ...row('potassium', of.potassium, of.isActivity ? 'Bq/kg' : '%'),
    ...row('water_since_burial', of.water, '% of dry mass'),
    ...row('cosmic dose rate', of.cosmic, 'mGy/yr'),
    ...row('alpha efficiency', of.alpha, ''),
    ...size('grain size from', of.grains[0]!),
    ...size('grain size to', of.grains[1]!),
    ...size('etched layer', of.alpha === null ? 10 : 0),
  ];
}

function byCampaign(set: string) {
  const document = Object.entries({
    samples: ALL.map(({ id }) => ({ sample: id, depth_basis: 'elevation', elevation_m: '1' })),
    determinations: ALL.map(({ id }) => ({
      lab_code: `L-${id}`,
      sample: id,
      method: 'luminescence',
      reported_as: 'measurements',
      reference_year: String(YEAR),
      systematic_group: 'laboratory',
    })),
    measurements: ALL.flatMap(({ id, of }) => measurementsOf(id, of)),
    settings: [{ name: 'dose_factors', value: set }],
  }).reduce((made, [table, rows]) => withRows(made, table, rows), newDocument('doses'));
  const { campaign, problems } = parseCampaign(document);
  const published = { curves: {}, doseFactors: DOSE_FACTORS };
  return computeCampaign(campaign, published, problems, { withCurve: false }).results;
}

const near = (a: number, b: number, what: string): void =>
  assert.ok(Math.abs(a - b) <= 1e-9 * Math.max(1e-3, Math.abs(b)), `${what}: ${a}, ${b}`);

for (const set of DOSE_FACTOR_SETS)
  test(`published samples have the same ages and dose rates in a campaign as by the command line: ${set}`, () => {
    const answers = byCommandLine(set);
    const { dates, dose_rates } = byCampaign(set);
    assert.equal(answers.length, SAMPLES.length);
    assert.equal(dates.length, SAMPLES.length);
    for (const answer of answers) {
      const date = dates.find(({ sample }) => sample === answer.id)!;
      const made = dose_rates.find(({ sample }) => sample === answer.id)!;
      near(date.value, answer.age_yr, `${answer.id} age`);
      near(date.error, answer.error_yr, `${answer.id} error`);
      near(date.shared_sigma_yr!, answer.systematic_yr, `${answer.id} shared part`);
      near(made.rate_gy_ka, answer.rate.value, `${answer.id} rate`);
      near(made.shared_sigma_gy_ka, answer.rate.systematic, `${answer.id} shared part of the rate`);
      near(
        made.rate_sigma_gy_ka,
        Math.sqrt(answer.rate.random ** 2 + answer.rate.systematic ** 2),
        `${answer.id} error of the rate`,
      );
      const { parts_gy_ka, errors, used } = answer.from_contents;
      for (const part of ['alpha', 'beta', 'gamma', 'cosmic', 'internal'] as const)
        near(made[`${part}_gy_ka`], parts_gy_ka[part]!, `${answer.id} ${part}`);
      assert.deepEqual(
        made.errors.map(({ of }) => of),
        errors.map(({ of }) => of),
      );
      assert.deepEqual(made.figures, used);
      assert.equal(made.factors, set);
    }
  });

test('the tables of factors that a setting can name are those that are published', async () => {
  const { DOSE_FACTOR_LABELS } = await import('@stillstand/campaign/settings');
  assert.deepEqual([...DOSE_FACTOR_LABELS], DOSE_FACTOR_SETS);
});

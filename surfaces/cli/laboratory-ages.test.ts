/** Luminescence and uranium-series ages from plain tables, as a person or another program asks for them. */
import assert from 'node:assert/strict';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { said } from './fixtures/said.ts';

const place = mkdtempSync(join(tmpdir(), 'stillstand-ages-'));
after(() => rmSync(place, { recursive: true, force: true }));

function file(name: string, rows: readonly Readonly<Record<string, string | number>>[]): string {
  const columns = [...new Set(rows.flatMap((row) => Object.keys(row)))];
  const path = join(place, name);
  const lines = rows.map((row) => columns.map((column) => row[column] ?? '').join(','));
  writeFileSync(path, [columns.join(','), ...lines].join('\n'));
  return path;
}

const STATED = { id: 'L1', dose_gy: 75, dose_gy_sd: 4, rate_gy_ka: 2.83, rate_gy_ka_sd: 0.14 };
const CONTENTS = {
  id: 'L2',
  dose_gy: 105.4,
  dose_gy_sd: 7,
  uranium_ppm: 0.63,
  uranium_ppm_sd: 0.03,
  thorium_ppm: 2.11,
  thorium_ppm_sd: 0.1,
  potassium_percent: 0.61,
  potassium_percent_sd: 0.03,
  water_percent: 32,
  water_percent_sd: 6,
  grain_from_um: 180,
  grain_to_um: 250,
  etched: 'yes',
  cosmic_gy_ka: 0.16,
  cosmic_gy_ka_sd: 0.016,
};

test('dose: stated rates and rates of contents come out with both parts, before the measurement and before 1950', async () => {
  const path = file('doses.csv', [
    { ...STATED, dose_systematic_percent: 3, measured_year: 2020 },
    { ...CONTENTS, measured_year: 2020 },
  ]);
  const { code, out, err } = await said('dose', path, '--json');
  assert.equal(code, 0, err);
  const [stated, contents] = JSON.parse(out);
  // 75/2.83 = 26.50 ka; 3 % of it is shared: 795 yr.
  assert.equal(Math.round(stated.age_yr), 26_502);
  assert.equal(Math.round(stated.systematic_yr), 795);
  assert.ok(Math.abs(stated.before_1950_yr - (stated.age_yr - 70)) < 1e-9);
  assert.equal(stated.from_contents, null);
  // Printed with the sample: 0.82 Gy/ka.
  assert.ok(Math.abs(contents.rate.value - 0.82) < 0.03);
  assert.ok(contents.from_contents.used.some((u: { from_memory: boolean }) => u.from_memory));
});

test('dose: text says which figures are from memory, and what an age counts from', async () => {
  const { code, out } = await said('dose', file('text.csv', [STATED, CONTENTS]));
  assert.equal(code, 0);
  assert.match(out, /^L1 +26502 +1928/m);
  assert.match(out, /^Dose factors: Guérin.*From memory/m);
  assert.match(out, /Ages count back from the measurement; errors are 1 sigma\./);
  assert.match(out, /--measured/);
  const plain = await said('dose', file('plain.csv', [STATED]), '--measured', '2024');
  assert.doesNotMatch(plain.out, /From memory|--measured/);
});

test('dose: errors of 2 sigma are halved', async () => {
  const path = file('two.csv', [STATED]);
  const [one, two] = [await said('dose', path, '--json'), await said('dose', path, '--sigma', '2', '--json')];
  const error = (out: string): number => JSON.parse(out)[0].error_yr;
  assert.ok(Math.abs(error(one.out) / error(two.out) - 2) < 1e-9);
  assert.equal((await said('dose', path, '--sigma', '3')).code, 2);
});

test('dose: activities are contents, with the figures they were turned by', async () => {
  const { uranium_ppm: _, uranium_ppm_sd: __, ...rest } = CONTENTS;
  const path = file('activities.csv', [
    { ...rest, uranium_bq_kg: 0.63 * 12.44, uranium_bq_kg_sd: 0.03 * 12.44 },
  ]);
  const [by, of] = [
    await said('dose', path, '--json'),
    await said('dose', file('c.csv', [CONTENTS]), '--json'),
  ];
  const rate = (out: string): number => JSON.parse(out)[0].rate.value;
  assert.ok(Math.abs(rate(by.out) - rate(of.out)) < 1e-12);
  assert.match(by.out, /specific activities/);
});

test('dose: what cannot be used is named with its column, and the rest is computed', async () => {
  const path = file('wrong.csv', [
    STATED,
    { ...STATED, id: 'none', dose_gy_sd: 0 },
    { ...STATED, id: 'more', dose_systematic_percent: 30 },
    { ...CONTENTS, id: 'mm', grain_from_um: 0.18, grain_to_um: 0.25 },
    { ...CONTENTS, id: 'thorium', thorium_ppm: 43 },
    { ...CONTENTS, id: 'etched', etched: '' },
    { ...CONTENTS, id: 'water', water_percent: 0.32, water_percent_sd: 0.06 },
    { id: 'bare', dose_gy: 100, dose_gy_sd: 5 },
  ]);
  const { code, out, err } = await said('dose', path, '--json');
  assert.equal(code, 1);
  assert.deepEqual(
    JSON.parse(out).map(({ id }: { id: string }) => id),
    ['L1', 'thorium', 'water'],
  );
  for (const wanted of [
    /error: wrong\.csv, line 3, none, dose_gy: found “75 ± 0 Gy”/,
    /error: .*more, dose_gy: .*at most the whole error/,
    /error: .*mm, grain_from_um: .*write them in µm/,
    /warning: .*thorium, thorium_ppm: .*decimal points/,
    /error: .*etched, etched: .*yes or no/,
    /warning: .*water, water_percent: .*fraction/,
    /error: .*bare, uranium_ppm/,
  ])
    assert.match(err, wanted);
});

const CORAL = {
  id: 'C1',
  th230_u238: 0.7867,
  th230_u238_sd: 0.0007,
  u234_u238: 1.1186,
  u234_u238_sd: 0.00075,
};

test('uranium: a published coral has its age, and its initial δ234U is doubted', async () => {
  const path = file('coral.csv', [{ ...CORAL, material: 'coral' }]);
  const { code, out, err } = await said('uranium', path, '--json');
  assert.equal(code, 0);
  const [coral] = JSON.parse(out);
  // Printed 128.17 ± 0.56 ka (2 sigma), initial δ234U 170.3.
  assert.ok(Math.abs(coral.age_yr - 128_170) < 20);
  assert.ok(Math.abs(coral.error_yr - 280) < 10);
  assert.match(err, /warning: coral\.csv, line 2, C1, u234_u238: .*170\.3/);
  const old = JSON.parse((await said('uranium', path, '--constants', 'cheng2000', '--json')).out);
  assert.ok(Math.abs(old[0].age_yr - coral.age_yr) > 50);
  assert.equal((await said('uranium', path, '--constants', 'mine')).code, 2);
});

test('uranium: text says what is in the error, and what cannot be dated is named', async () => {
  const path = file('ratios.csv', [
    { ...CORAL, measured_year: 2020 },
    { ...CORAL, id: 'dirty', th230_th232: 20 },
    { ...CORAL, id: 'cleaned', th230_th232: 20, initial_thorium_ppm: 4.4, initial_thorium_ppm_sd: 2.2 },
    { ...CORAL, id: 'bare', initial_thorium_ppm: 4.4, initial_thorium_ppm_sd: 2.2 },
    { ...CORAL, id: 'beyond', th230_u238: 1.6 },
    { ...CORAL, id: 'sure', u234_u238_sd: 0 },
  ]);
  const { code, out, err } = await said('uranium', path);
  assert.equal(code, 1);
  assert.match(out, /^C1 +12817\d +\d+ +0 +\d+–\d+ +1281\d\d /m);
  assert.match(out, /Decay constants: Cheng et al\. 2013/);
  assert.match(err, /warning: .*dirty, th230_th232: .*too old/);
  assert.match(err, /error: .*bare, th230_th232/);
  assert.match(err, /error: .*beyond, th230_u238: .*closed system/);
  assert.match(err, /error: .*sure, u234_u238/);
  assert.doesNotMatch(err, /cleaned/);
});

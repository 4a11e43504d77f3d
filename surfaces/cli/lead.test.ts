/** `lead`: a plain table of slices, in the units laboratories send. */
import assert from 'node:assert/strict';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { said } from './fixtures/said.ts';

const place = mkdtempSync(join(tmpdir(), 'stillstand-lead-'));
after(() => rmSync(place, { recursive: true, force: true }));

function file(name: string, lines: readonly string[]): string {
  const path = join(place, name);
  writeFileSync(path, lines.join('\n'));
  return path;
}

/** The worked example of docs/methods/lead.md, with 1 Bq/kg of error and caesium-137. */
const C = [200, 150, 110, 80, 55, 35, 18, 6];
const DENSITY = [0.4, 0.45, 0.5, 0.52, 0.55, 0.58, 0.6, 0.62];
const CAESIUM = [1, 2, 20, 8, 3, 0, 0, 0];
const HEADING =
  'top_cm,bottom_cm,density_g_cm3,total_bq_kg,total_sigma_bq_kg,caesium_bq_kg,caesium_sigma_bq_kg';
const worked = C.map((c, i) => `${2 * i},${2 * i + 2},${DENSITY[i]},${c + 10},1,${CAESIUM[i]},0.3`);
const ASKED = ['--supported', '10', '--collected', '1990-07-01', '--half-life', '22.26', '--below', 'none'];

interface Found {
  supply: { inventory_bq_m2: { value: number } };
  cells: { constant_supply: { base: { value: number } | null } }[];
  peak: { depth_m: { value: number } };
  peak_in: { constant_supply: { year_ce: { value: number } } };
}

test('the worked example, as JSON and as text', async () => {
  const path = file('slices.csv', [HEADING, ...worked]);
  const json = await said('lead', path, ...ASKED, '--json');
  assert.equal(json.code, 0, json.err);
  const found = JSON.parse(json.out) as Found;
  assert.ok(Math.abs(found.supply.inventory_bq_m2.value - 6183.4) < 1e-6);
  // ln(6183.4/4583.4) × 22.26/ln 2.
  assert.ok(Math.abs(found.cells[0]!.constant_supply.base!.value - 9.616) < 0.001);
  assert.equal(found.cells[7]!.constant_supply.base, null);
  assert.ok(Math.abs(found.peak.depth_m.value - 0.05) < 1e-9);
  const text = await said('lead', path, ...ASKED);
  assert.match(text.out, /Unsupported inventory 6183 ± \d+ Bq\/m²/);
  assert.match(text.out, /0\.000–0\.020 +200\.0 ± 1\.0 +9\.6 ± 0\.\d/);
  assert.match(text.out, /Caesium-137 peak \(1963\) at 0\.050 ± 0\.007 m/);
});

test('dpm/g and an excess give the same ages; a limit is read', async () => {
  const dpm = C.map((c, i) => `${2 * i},${2 * i + 2},${DENSITY[i]},${(c * 60) / 1000},0.06`);
  const path = file('excess.csv', ['top_cm,bottom_cm,density_g_cm3,excess_dpm_g,excess_sigma_dpm_g', ...dpm]);
  const rest = ['--collected', '1990-07-01', '--half-life', '22.26', '--below', 'none', '--json'];
  const { code, out, err } = await said('lead', path, ...rest);
  assert.equal(code, 0, err);
  const { cells } = JSON.parse(out) as Found;
  assert.ok(Math.abs(cells[3]!.constant_supply.base!.value - 50.048) < 0.001);
  const limit = file('limit.csv', [HEADING, ...worked.slice(0, 7), '14,16,0.62,<12,,,']);
  const limited = await said('lead', limit, ...ASKED, '--json');
  assert.equal(limited.code, 0, limited.err);
});

test('what is wrong is said with its line, and the rest computes', async () => {
  const odd = [...worked];
  odd[1] = '2,4,-0.45,160,1,2,0.3';
  odd[4] = '8,10,0.55,x,1,3,0.3';
  odd[5] = '10,12,0.58,45,,0,0.3';
  const { code, out, err } = await said(
    'lead',
    file('odd.csv', [HEADING, ...odd]),
    '--supported',
    '10',
    '--json',
  );
  assert.equal(code, 1);
  assert.match(err, /2–4 cm.*dry density -0\.45/);
  assert.match(err, /line 6, total_bq_kg: found “x”/);
  assert.match(err, /line 7, total_sigma_bq_kg: found nothing/);
  assert.match(err, /no date of collection/);
  assert.equal((JSON.parse(out) as Found).cells.length, 8);
});

test('wrong use: no file, no depths, no activity, no day', async () => {
  const depths = file('depths.csv', ['depth,total_bq_kg', '1,2']);
  const none = file('none.csv', ['top_cm,bottom_cm', '0,1']);
  for (const [words, expected] of [
    [[], /Expected a file/],
    [[depths], /expected top_cm and bottom_cm/],
    [[none], /expected total_bq_kg/],
    [[none, '--collected', 'July'], /expected a day/],
    [[none, '--below', 'some'], /none or estimated/],
  ] as const) {
    const { code, err } = await said('lead', ...words);
    assert.equal(code, 2);
    assert.match(err, expected);
  }
});

/**
 * Bad input, each kind once, put into the demo campaign: it is named with its place, what came, what was expected and
 * how to fix it; nothing throws; and what does not depend on it is still computed.
 */
import assert from 'node:assert/strict';
import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { test } from 'node:test';
import { type CampaignDocument, parseCampaign, withRows, writeFiles } from '@stillstand/campaign/document';
import type { Problem } from '@stillstand/campaign/problems';
import type { Results } from '@stillstand/campaign/results';
import { computeCampaign } from '@stillstand/campaign/steps';
import { openFiles } from '@stillstand/campaign/versions';
import { loadCurve } from '@stillstand/published/curves';
import { randomStream } from '@stillstand/science/base';

const DEMO = join(import.meta.dirname, '../../demo/campaign');
const curves = { shcal20: await loadCurve('shcal20'), marine20: await loadCurve('marine20') };

async function demoFiles(): Promise<Map<string, Uint8Array>> {
  const files = new Map<string, Uint8Array>();
  for (const name of await readdir(DEMO)) files.set(name, await readFile(join(DEMO, name)));
  return files;
}

type Cells = Record<string, string>;

function edited(
  document: CampaignDocument,
  table: string,
  edit: (rows: Cells[]) => Cells[],
): CampaignDocument {
  const { columns, rows } = document.tables.get(table)!;
  const cells = rows.map((row) => Object.fromEntries(columns.map((c, i) => [c, row.cells[i] ?? ''])));
  return withRows(document, table, edit(cells));
}

function compute(files: Map<string, Uint8Array>): Results {
  const { document, problems } = openFiles(files);
  const parsed = parseCampaign(document);
  const found = [...problems, ...parsed.problems];
  return computeCampaign(parsed.campaign, { curves }, found, { withCurve: false }).results;
}

const demo = await demoFiles();
const { document: demoDocument } = openFiles(demo);
const sound = compute(demo);

/** Results of the demo with rows of one table edited, and its problems beyond those of the sound one. */
function withEdit(table: string, edit: (rows: Cells[]) => Cells[]): { results: Results; found: Problem[] } {
  const results = compute(writeFiles(edited(demoDocument, table, edit)));
  const known = new Set(sound.problems.map((p) => `${p.code} ${p.row_id}`));
  return { results, found: results.problems.filter((p) => !known.has(`${p.code} ${p.row_id}`)) };
}

function named(found: readonly Problem[], table: string, column: string | null, severity?: string): Problem {
  const hit = found.find(
    (p) =>
      p.table === table &&
      (column === null || p.column === column) &&
      (severity === undefined || p.severity === severity),
  );
  assert.ok(hit, `no problem in ${table} ${column}: ${JSON.stringify(found, null, 1)}`);
  assert.ok(hit.expected.length > 0 && hit.fix.length > 0);
  return hit;
}

test('an empty folder', () => {
  const results = compute(new Map());
  assert.ok(results.problems.some((p) => p.severity === 'error'));
  assert.equal(results.holes.length, 0);
});

test('a missing column costs its table, not the rest', () => {
  const { columns, rows } = demoDocument.tables.get('soundings')!;
  const at = columns.indexOf('hole');
  const without = {
    ...demoDocument.tables.get('soundings')!,
    columns: columns.filter((_, i) => i !== at),
    source: null,
  };
  const tables = new Map(demoDocument.tables).set('soundings', {
    ...without,
    rows: rows.map((row) => ({ ...row, cells: row.cells.filter((_, i) => i !== at) })),
  });
  const results = compute(writeFiles({ ...demoDocument, tables }));
  named(results.problems, 'soundings', 'hole', 'error');
  assert.equal(results.dates.length, sound.dates.length);
  assert.equal(results.holes.length, sound.holes.length);
});

test('an unknown column is noted and kept', () => {
  const document = edited(demoDocument, 'holes', (rows) => rows.map((row) => ({ ...row, mood: 'wet' })));
  const files = writeFiles(document);
  const results = compute(files);
  named(results.problems, 'holes', 'mood', 'note');
  assert.match(new TextDecoder().decode(files.get('holes.csv')), /mood/);
  assert.deepEqual(results.points, sound.points);
});

test('a wrong unit', () => {
  const { found, results } = withEdit('string_items', (rows) =>
    rows.map((r, i) => (i === 3 ? { ...r, length: '10 kg' } : r)),
  );
  const problem = named(found, 'string_items', 'length', 'error');
  assert.equal(problem.found, '10 kg');
  // The string of that hole is not known; every other hole is as it was.
  const changed = results.holes.filter(
    (hole, i) => hole.collar_to_shoe_m !== sound.holes[i]!.collar_to_shoe_m,
  );
  assert.ok(changed.length <= 1);
});

test('a sampler below the shoe is a danger, and its run is still recorded', () => {
  const { found, results } = withEdit('runs', (rows) =>
    rows.map((r, i) => (i === 30 ? { ...r, end_mark: '25 m' } : r)),
  );
  const danger = named(found, 'runs', null, 'danger');
  assert.equal(danger.code, 'sampler-past-shoe');
  assert.equal(results.holes.flatMap((h) => h.runs).length, sound.holes.flatMap((h) => h.runs).length);
});

test('a plug longer than the string', () => {
  const { found } = withEdit('soundings', (rows) =>
    rows.map((r, i) => (i === 10 ? { ...r, to_sediment: '-1.5 m' } : r)),
  );
  named(found, 'soundings', null, 'error');
});

/** A date of the demo that is in use; the one before it is rejected. */
const DATE = 3;

test('what is wrong with a rejected date is a note: nothing that is computed lacks it', () => {
  const { found, results } = withEdit('determinations', (rows) =>
    rows.map((r, i) => (i === DATE - 1 ? { ...r, error: '-30', calibration_curve: 'northcal' } : r)),
  );
  named(found, 'determinations', 'error', 'note');
  named(found, 'determinations', 'calibration_curve', 'note');
  assert.ok(found.every((p) => p.severity === 'note'));
  assert.equal(results.points.length, sound.points.length);
});

test('a negative error', () => {
  const { found, results } = withEdit('determinations', (rows) =>
    rows.map((r, i) => (i === DATE ? { ...r, error: '-30' } : r)),
  );
  named(found, 'determinations', 'error', 'error');
  assert.equal(results.dates.length, sound.dates.length - 1);
});

test('an unknown calibration curve', () => {
  const { found, results } = withEdit('determinations', (rows) =>
    rows.map((r, i) => (i === DATE ? { ...r, calibration_curve: 'northcal' } : r)),
  );
  named(found, 'determinations', 'calibration_curve', 'error');
  assert.equal(results.dates.length, sound.dates.length - 1);
});

test('an age beyond the curve', () => {
  const { found, results } = withEdit('determinations', (rows) =>
    rows.map((r, i) => (i === DATE ? { ...r, value: '60000' } : r)),
  );
  assert.equal(named(found, 'determinations', 'value', 'error').code, 'age-beyond-curve');
  assert.equal(results.dates.length, sound.dates.length - 1);
});

test('duplicate labels', () => {
  const { found } = withEdit('samples', (rows) =>
    rows.map((r, i) => (i === 4 ? { ...r, sample: rows[3]!['sample']! } : r)),
  );
  named(found, 'samples', 'sample', 'error');
});

test('a date on a sample that does not exist names the nearest label', () => {
  const { found } = withEdit('determinations', (rows) =>
    rows.map((r, i) => (i === DATE ? { ...r, sample: `${r['sample']}x` } : r)),
  );
  const problem = named(found, 'determinations', 'sample', 'error');
  assert.match(`${problem.expected} ${problem.fix}`, /T2-0|T1-0/);
});

test('a newer document version opens as far as it goes', () => {
  const files = new Map(demo);
  const text = new TextDecoder().decode(files.get('datapackage.json'));
  files.set('datapackage.json', new TextEncoder().encode(text.replace(/("version":\s*)2\b/, '$199')));
  const results = compute(files);
  assert.ok(
    results.problems.some(
      (p) => p.severity === 'error' && /version/.test(`${p.code} ${p.column} ${p.expected}`),
    ),
  );
  assert.equal(results.points.length, sound.points.length);
});

test('10 MB of noise as a CSV, seed 3: named, the rest computed', () => {
  const stream = randomStream(3);
  const noise = Uint8Array.from({ length: 10_000_000 }, () => stream.integer(256));
  const results = compute(new Map(demo).set('photos.csv', noise).set('units.csv', noise));
  assert.ok(results.problems.some((p) => p.table === 'units'));
  assert.equal(results.dates.length, sound.dates.length);
});

test('a point without tide levels, an interval the wrong way round, an unknown setting', () => {
  const tide = withEdit('tide_levels', (rows) => rows.filter((r) => r['level'] !== 'HAT'));
  named(tide.found, 'points', null, 'error');
  assert.ok(tide.results.points.length > 0);
  const settings = withEdit('settings', (rows) => [
    ...rows.filter((r) => r['name'] !== 'intervals'),
    { name: 'intervals', value: '1000-2000' },
    { name: 'colour', value: 'blue' },
  ]);
  named(settings.found, 'settings', 'value', 'error');
  named(settings.found, 'settings', 'name', 'note');
});

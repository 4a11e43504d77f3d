/** The report in a real browser: made cold, taken away, and the same as `stillstand compute` makes of the exported campaign. */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DatabaseSync } from 'node:sqlite';
import { after, before, test } from 'node:test';
import { pathToFileURL } from 'node:url';
import { type CampaignDocument, withRows } from '@stillstand/campaign/document';
import { openFiles } from '@stillstand/campaign/versions';
import { unzipSync } from 'fflate';
import type { Locator, Page } from 'playwright-core';
import { onDevice, openCampaign, served } from '../../browser/browser.ts';

const ROOT = join(import.meta.dirname, '..', '..', '..', '..');

let page: Page;
let home: string;
let folder: string;
onDevice({}, async (at) => {
  page = at.page;
  home = `${await served()}#/${await openCampaign(page, await photographed())}`;
});

/** Of two photographs that it names one is there, of 120 kB. */
const PHOTOGRAPH = Uint8Array.from({ length: 120_000 }, (_, i) => (i * 7919) % 251);

/** The demo with a photograph. */
async function photographed(): Promise<CampaignDocument> {
  const demo = join(ROOT, 'demo', 'campaign');
  const files = new Map<string, Uint8Array>();
  for (const name of (await readdir(demo)).sort())
    files.set(name, new Uint8Array(await readFile(join(demo, name))));
  const { document } = openFiles(files);
  return {
    ...withRows(document, 'photos', [{ file: 'photos/core.jpg' }, { file: 'photos/gone.jpg' }]),
    files: new Map([['photos/core.jpg', PHOTOGRAPH]]),
  };
}
before(async () => {
  folder = await mkdtemp(join(tmpdir(), 'stillstand-report-'));
});
const words = async (at: Locator): Promise<string> => (await at.textContent()) ?? '';

after(() => rm(folder, { recursive: true, force: true }));

async function taken(name: string): Promise<Uint8Array> {
  const waiting = page.waitForEvent('download');
  await page.getByRole('button', { name, exact: true }).click();
  return new Uint8Array(await readFile(await (await waiting).path()));
}

const text = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);
/** A page without the typefaces, which each surface packs in its own way. */
const withoutFaces = (html: string): string => html.replaceAll(/@font-face\{[^}]*\}\n?/g, '');

test('flags say what is missing and lead there', async () => {
  await page.goto(`${home}/report`);
  const margin = page.locator('.report .margin');
  await margin.getByText(/T2-02, M1-07: dated, but make no point/).waitFor();
  await margin.getByText(/T2-02, M1-07: dated, but make no point/).click();
  await page.waitForURL(/\/points/);
});

test('the report is made and equals what the command line makes of the export, to the last digit', async () => {
  await page.goto(`${home}/report`);
  await page.locator('.report-page').first().waitFor();
  await page.getByRole('button', { name: /^Make the report/ }).click();
  await page.getByText('As made; it prints like this.').waitFor();

  const zip = join(folder, 'campaign.zip');
  await writeFile(zip, await taken('Data package of the campaign'));
  const out = join(folder, 'computed');
  const done = spawnSync(
    process.execPath,
    [
      join(ROOT, 'surfaces', 'cli', 'stillstand.js'),
      ...['compute', zip, '--out', out, '--figures', 'svg'],
      ...['--package', join(folder, 'package.zip'), '--geopackage', join(folder, 'map.gpkg')],
    ],
    { encoding: 'utf8', cwd: ROOT },
  );
  assert.ok(done.status === 0 || done.status === 1, done.stderr);

  const tables = unzipSync(await taken('Tables, CSV'));
  assert.ok(Object.keys(tables).length >= 11);
  for (const [name, bytes] of Object.entries(tables)) {
    assert.equal(text(bytes), await readFile(join(out, 'tables', name), 'utf8'), name);
  }
  assert.equal(
    text(await taken('Sea-level table, CSV')),
    await readFile(join(out, 'tables', 'points.csv'), 'utf8'),
  );
  assert.deepEqual(
    await taken('Sea-level table, XLSX'),
    new Uint8Array(await readFile(join(out, 'tables', 'points.xlsx'))),
  );
  const results = unzipSync(await taken('Results and draws'));
  assert.equal(text(results['results.json']!), await readFile(join(out, 'results.json'), 'utf8'));
  assert.deepEqual(results['results.npz'], new Uint8Array(await readFile(join(out, 'results.npz'))));
  const map = await taken('Layers and tables, GeoPackage');
  assert.deepEqual(map, new Uint8Array(await readFile(join(folder, 'map.gpkg'))));
  const db = new DatabaseSync(join(folder, 'map.gpkg'), { readOnly: true });
  assert.deepEqual(
    { ...db.prepare('SELECT count(*) AS n FROM holes WHERE geom IS NOT NULL').get() },
    { n: 6 },
  );
  db.close();
  await page.getByText('With 1 photograph, 0.1 MB').waitFor();
  await page.getByText('1 photograph named in the campaign, but not on this device.').waitFor();
  const archive = unzipSync(await taken('Data package with results'));
  assert.deepEqual(archive['campaign/photos/core.jpg'], PHOTOGRAPH);
  assert.match(
    text(archive['README.txt']!),
    /Photographs: 1 of 2 [\s\S]*not found[^\n]*\n {2}photos\/gone\.jpg\n/,
  );
  const ofCommandLine = unzipSync(await readFile(join(folder, 'package.zip')));
  assert.deepEqual(Object.keys(archive), Object.keys(ofCommandLine));
  for (const name of Object.keys(archive))
    if (!/^campaign\/.*(?:csv|json)$|^checksums/.test(name))
      assert.deepEqual(archive[name], new Uint8Array(ofCommandLine[name]!), name);
  await page.getByRole('checkbox', { name: /^With 1 photograph/ }).uncheck();
  const without = unzipSync(await taken('Data package with results'));
  assert.deepEqual(
    Object.keys(without),
    Object.keys(archive).filter((name) => name !== 'campaign/photos/core.jpg'),
  );
  assert.match(text(without['README.txt']!), /Photographs are left out: 2 photographs/);
  assert.deepEqual(archive['results/results.npz'], results['results.npz']);
  assert.equal(text(archive['results/tables/points.csv']!), text(tables['points.csv']!));
  for (const line of text(archive['checksums.txt']!).trimEnd().split('\n')) {
    const digest = createHash('sha256').update(archive[line.slice(66)]!).digest('hex');
    assert.equal(digest, line.slice(0, 64), line);
  }
  const html = text(await taken('Report, HTML'));
  assert.equal(withoutFaces(html), withoutFaces(await readFile(join(out, 'report.html'), 'utf8')));
  assert.match(html, /font\/woff2;base64/);
  assert.doesNotMatch(html, /<script/);
});

test('the file of the report answers where a number comes from, down to a reading, and prints as before', async () => {
  const alone = await page.context().newPage();
  const asked: string[] = [];
  alone.on('request', (request) => asked.push(request.url()));
  const file = pathToFileURL(join(folder, 'computed', 'report.html')).href;
  await alone.goto(file);
  const answer = alone.locator('.where .node:visible');
  assert.equal(await answer.count(), 0);
  await alone.locator('.answer a.from').click();
  await answer.getByText(/^Rate from 8500 to 7500 cal BP/).waitFor();
  for (const part of [/^Points, the most influential/, /^RSL at P-T2-08/, /^Elevation of T2-08/])
    await answer.getByRole('link', { name: part }).click();
  await answer.getByText(/^Elevation of T2-08/).waitFor();
  // The way down is the shortest that leads on, to a cell as it was typed.
  for (let layers = 0; (await answer.getByText(/\(line \d+\)$/).count()) === 0; layers++) {
    assert.ok(layers < 12, await words(answer));
    await answer.getByRole('listitem').getByRole('link').last().click();
  }
  await alone.goBack();
  await answer.waitFor();
  await answer.getByRole('link', { name: 'Close' }).click();
  await answer.waitFor({ state: 'detached' });
  await alone.locator('td a.from').first().click();
  await answer.waitFor();
  await alone.emulateMedia({ media: 'print' });
  assert.equal(await answer.count(), 0, 'nothing of it on paper');
  assert.equal(
    await alone.locator('.answer a.from').evaluate((link) => getComputedStyle(link).textDecorationLine),
    'none',
  );
  assert.deepEqual(
    [...new Set(asked.map((url) => url.split('#')[0]))].filter((url) => !/^(data|file):/.test(url!)),
    [],
  );
  await alone.close();
});

test('figures, GeoJSON and print', async () => {
  const svgs = unzipSync(await taken('Figures, SVG'));
  for (const name of ['curve.svg', 'section-A.svg', 'dates.svg', 'column-T3.svg']) {
    assert.match(text(svgs[name]!), /^<svg[^>]*width="[\d.]+mm"[\s\S]*font\/woff2;base64/, name);
  }
  const geojson = JSON.parse(text(await taken('Holes and points, GeoJSON'))) as {
    type: string;
    features: unknown[];
  };
  assert.equal(geojson.type, 'FeatureCollection');
  assert.equal(geojson.features.length, 6 + 35);

  // Only one figure, so that the test does not draw thirty pictures; the choice makes the report anew.
  await page.getByText('Figures', { exact: true }).click();
  const boxes = page.locator('.choose-parts').first().getByRole('checkbox');
  const count = await boxes.count();
  for (let i = 0; i < count; i++) {
    const label = await words(boxes.nth(i).locator('xpath=..'));
    if (!label.startsWith('Relative sea level')) await boxes.nth(i).uncheck();
  }
  await page.getByRole('button', { name: /^Make it again/ }).click();
  await page.getByText('As made; it prints like this.').waitFor();
  const pngs = unzipSync(await taken('Figures, PNG'));
  assert.deepEqual(Object.keys(pngs), ['curve.png']);
  const png = pngs['curve.png']!;
  assert.equal(text(png.subarray(1, 4)), 'PNG');
  const width = new DataView(png.buffer, png.byteOffset).getUint32(16);
  assert.equal(width, Math.round((190 / 25.4) * 300), '190 mm at 300 dots to the inch');

  await page.emulateMedia({ media: 'print' });
  assert.ok(await page.locator('.for-paper .report-page').isVisible());
  assert.ok(!(await page.getByLabel('Contents of the report').isVisible()));
  const pdf = text(await page.pdf({ preferCSSPageSize: true }));
  assert.match(pdf, /\/MediaBox \[0 0 59[45][\d.]* 84[12]/, 'A4');
  await page.emulateMedia({ media: null });
});

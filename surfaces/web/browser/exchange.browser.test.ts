/** Campaigns in and out: the command line computes the same from an exported zip, and bad files change nothing. */
import assert from 'node:assert/strict';
import { mkdtemp, open, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import {
  parseCampaign,
  readFiles,
  readZip,
  withRows,
  writeFiles,
  writeZip,
} from '@stillstand/campaign/document';
import { main } from '@stillstand/cli';
import { zipSync } from 'fflate';
import type { Page } from 'playwright-core';
import { allSaved, onDevice, openedSeparately, openOtherTables, served } from './browser.ts';

const DEMO = join(import.meta.dirname, '..', '..', '..', 'demo', 'campaign');
let folder: string;
// One test puts scripts into the page, to see the page's own policy refuse them.
const at = onDevice({ mayComplain: /^Executing inline script violates/ });

before(async () => {
  folder = await mkdtemp(join(tmpdir(), 'stillstand-exchange-'));
});
after(() => rm(folder, { recursive: true, force: true }));

async function demoFiles(): Promise<Map<string, Uint8Array>> {
  const names = await readdir(DEMO);
  return new Map(
    await Promise.all(
      names.map(async (name) => [name, new Uint8Array(await readFile(join(DEMO, name)))] as const),
    ),
  );
}

/** Opens a file from home. */
async function openFile(page: Page, path: string): Promise<void> {
  await page.goto(`${await served()}#/`);
  await page.getByRole('button', { name: 'Open a file' }).waitFor();
  await page.locator('input[type=file]').setInputFiles(path);
}

/** What a button downloads, as a file of that name. */
async function downloaded(page: Page, button: string, name: string): Promise<string> {
  const [file] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: button }).click(),
  ]);
  const path = join(folder, name);
  await file.saveAs(path);
  return path;
}

test('a campaign not edited leaves as the very files that came', async () => {
  const { page } = at;
  const files = await demoFiles();
  files.set('photos/own.jpg', new Uint8Array([255, 216, 255, 0, 7]));
  files.set('notes/read me.txt', new TextEncoder().encode('kept as it is\n'));
  files.set('own table.csv', new TextEncoder().encode('a;b\r\n1;2\r\n'));
  const path = join(folder, 'untouched.zip');
  await writeFile(path, writeZip(readFiles(files).document));
  await openFile(page, path);
  await openedSeparately(page);
  await page.getByRole('button', { name: 'Hole T3, finished' }).waitFor();
  await page.getByRole('button', { name: 'Save a copy' }).click();
  const back = await downloaded(page, 'Save as zip', 'untouched-back.zip');
  const out = writeFiles(readZip(new Uint8Array(await readFile(back))).document);
  assert.deepEqual(new Map([...out].sort()), new Map([...files].sort()));
});

test('after edits, readings and amendments the command line gives the same results from the exported zip', async () => {
  const { page } = at;
  const { document } = readFiles(await demoFiles());
  const settings = parseCampaign(document).campaign.rows.settings.map(({ name, value }) => ({ name, value }));
  const quick = withRows(document, 'settings', [
    ...settings,
    { name: 'chains', value: '2' },
    { name: 'draws', value: '200' },
  ]);
  const path = join(folder, 'edited.zip');
  await writeFile(path, writeZip(quick));
  await openFile(page, path);
  await openedSeparately(page);
  const level = page.getByLabel('entered of MHWS', { exact: true });
  await level.fill('1.31');
  await level.press('Enter');
  const book = page.locator('.level-book');
  await book.getByRole('combobox', { name: 'Loop' }).selectOption('marsh');
  assert.equal(await book.getByLabel('station of line 4', { exact: true }).inputValue(), 'marsh turn 2');
  await book.getByLabel('backsight of line 4', { exact: true }).fill('0.949');
  await book.getByRole('button', { name: 'Record changes' }).click();
  await book.getByText(/Recorded: 1 amendment/).waitFor();
  await openOtherTables(page);
  await page.getByRole('button', { name: 'Add a site' }).click();
  const newSite = page.getByRole('form', { name: 'Add a site' });
  await newSite.getByLabel('Site (needed)', { exact: true }).fill('N');
  await newSite.getByText('All columns').click();
  await newSite.getByLabel('Note', { exact: true }).fill('two\nlines, "quoted"');
  await page.getByRole('button', { name: 'Write it down' }).click();
  await allSaved(page);
  await page.getByRole('button', { name: 'Save a copy' }).click();
  const zip = await downloaded(page, 'Save as zip', 'edited-out.zip');
  const results = await downloaded(page, 'Save the results (JSON)', 'app-results.json');
  const out = join(folder, 'computed');
  const log = console.log;
  console.log = () => undefined;
  const code = await main(['compute', zip, '--out', out, '--figures', 'svg']).finally(() => {
    console.log = log;
  });
  assert.ok(code === 0 || code === 1, `exit code ${code}`);
  const [ours, theirs] = await Promise.all([
    readFile(results, 'utf8'),
    readFile(join(out, 'results.json'), 'utf8'),
  ]);
  assert.ok(ours.length > 100_000);
  assert.equal(ours, theirs);
});

test('a saved copy opens again with its history, and leaves as it came', async () => {
  const { page } = at;
  const path = join(folder, 'edited-out.zip');
  await openFile(page, path);
  await openedSeparately(page);
  await page.getByRole('button', { name: 'Hole T3, finished' }).waitFor();
  await page.getByRole('button', { name: 'Save a copy' }).click();
  const back = await downloaded(page, 'Save as zip', 'edited-back.zip');
  const [sent, came] = [await readFile(path), await readFile(back)];
  assert.ok(readZip(new Uint8Array(came)).document.files.has('history.yjs'));
  assert.deepEqual(came, sent);
});

test('a script in a cell is text, and runs nowhere', async () => {
  const { page } = at;
  const evil = '<img src=x onerror="globalThis.ran=1"><script>globalThis.ran=1</script>';
  const files = await demoFiles();
  const { document } = readFiles(files);
  const named = withRows(document, 'settings', [{ name: 'name', value: evil }]);
  const path = join(folder, 'script.zip');
  await writeFile(
    path,
    writeZip(withRows(named, 'sites', [{ site: 'TS', name: evil, note: 'javascript:ran=1' }])),
  );
  await openFile(page, path);
  await openedSeparately(page);
  await page.getByText(evil).first().waitFor();
  assert.equal(await page.evaluate(() => (globalThis as { ran?: number }).ran), undefined);
  const policy = await page.evaluate(async () => (await fetch('./')).headers.get('content-security-policy'));
  assert.match(policy ?? '', /script-src 'self';/);
  // The policy itself: an inline script put into the page does not run.
  await page.evaluate(() => {
    const page = globalThis.document;
    const script = page.createElement('script');
    script.textContent = 'globalThis.ran = 2';
    page.body.append(script);
  });
  assert.equal(await page.evaluate(() => (globalThis as { ran?: number }).ran), undefined);
});

/** A central directory that says one file of this name and size, with nothing behind it. */
function directoryOnly(name: string, size: number): Uint8Array {
  const bytes = new TextEncoder().encode(name);
  const zip = new Uint8Array(46 + bytes.length + 22);
  const view = new DataView(zip.buffer);
  view.setUint32(0, 0x02014b50, true);
  view.setUint16(10, 8, true);
  view.setUint32(20, 1000, true);
  view.setUint32(24, size, true);
  view.setUint16(28, bytes.length, true);
  zip.set(bytes, 46);
  const end = 46 + bytes.length;
  view.setUint32(end, 0x06054b50, true);
  view.setUint16(end + 8, 1, true);
  view.setUint16(end + 10, 1, true);
  view.setUint32(end + 12, end, true);
  view.setUint32(end + 16, 0, true);
  return zip;
}

test('broken, huge and foreign files are refused by name, and nothing is kept of them', async () => {
  const { page } = at;
  const demo = writeZip(readFiles(await demoFiles()).document);
  const bad: [string, Uint8Array | null, RegExp][] = [
    ['noise.zip', Uint8Array.from({ length: 5000 }, (_, i) => (i * 7919) % 251), /expected a zip archive/],
    ['cut.zip', demo.subarray(0, demo.length - 900), /expected a zip archive/],
    ['empty.zip', new Uint8Array(0), /expected a zip archive/],
    ['bomb.zip', directoryOnly('holes.csv', 2 ** 31), /at most 512 MiB a file/],
    ['photos.zip', zipSync({ 'a.jpg': new Uint8Array(10) }), /expected datapackage\.json and tables/],
    ['huge.zip', null, /expected at most 1024 MiB/],
  ];
  for (const [name, bytes, says] of bad) {
    const path = join(folder, name);
    if (bytes === null) {
      const file = await open(path, 'w');
      await file.truncate(2 ** 30 + 5);
      await file.close();
    } else await writeFile(path, bytes);
    await page.goto(`${await served()}#/`);
    await page
      .getByRole('link', { name: /Tessarn/ })
      .first()
      .waitFor();
    const campaigns = await page.locator('.campaigns li').count();
    await openFile(page, path);
    const dialog = page.getByRole('dialog', { name: 'File could not be opened' });
    await dialog.waitFor();
    assert.match((await dialog.textContent()) ?? '', says, name);
    await dialog.getByRole('button', { name: 'Close' }).first().click();
    await page.reload();
    await page
      .getByRole('link', { name: /Tessarn/ })
      .first()
      .waitFor();
    assert.equal(await page.locator('.campaigns li').count(), campaigns, `${name} left something behind`);
  }
});

test('paths that lead out of the campaign are left out and named; wrong columns are named; the rest opens', async () => {
  const { page } = at;
  const text = (words: string): Uint8Array => new TextEncoder().encode(words);
  const path = join(folder, 'tricks.zip');
  await writeFile(
    path,
    zipSync({
      'datapackage.json': text('{"title":"Tricks","stillstand":{"version":1}}'),
      'sites.csv': text('site,latitude\nA,12\n'),
      'holes.csv': text('hole,depth of it\nH1,3\n'),
      '../evil.csv': text('a\n1\n'),
      '/root.csv': text('a\n1\n'),
      'c:\\windows.csv': text('a\n1\n'),
    }),
  );
  await openFile(page, path);
  await page.getByRole('heading', { name: 'Tricks' }).waitFor();
  await page
    .getByRole('button', { name: /problems$/ })
    .first()
    .click();
  // Some are found when the file is opened, others when it is computed.
  for (const word of [
    '../evil.csv',
    '/root.csv',
    'c:\\windows.csv',
    'a heading for the method',
    'depth of it',
  ])
    await page.locator('.problems', { hasText: word }).waitFor();
});

test('a campaign of a newer Stillstand opens read only, and leaves as it came', async () => {
  const { page } = at;
  const files = await demoFiles();
  const described = JSON.parse(new TextDecoder().decode(files.get('datapackage.json'))) as Record<
    string,
    unknown
  >;
  files.set(
    'datapackage.json',
    new TextEncoder().encode(JSON.stringify({ ...described, stillstand: { version: 99 } })),
  );
  const path = join(folder, 'newer.zip');
  await writeFile(path, writeZip(readFiles(files).document));
  await openFile(page, path);
  await openedSeparately(page);
  await page.getByText(/Read only: a newer/).waitFor();
  assert.equal(await page.getByRole('button', { name: 'Record changes' }).count(), 0);
  assert.ok(await page.getByLabel('Contacts', { exact: true }).isDisabled());
  await page.getByRole('button', { name: 'Save a copy' }).click();
  const back = await downloaded(page, 'Save as zip', 'newer-back.zip');
  const out = writeFiles(readZip(new Uint8Array(await readFile(back))).document);
  assert.deepEqual(new Map([...out].sort()), new Map([...files].sort()));
});

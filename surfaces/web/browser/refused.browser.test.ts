/**
 * When the world says no: an update is taken while another window holds a half-filled form, the device refuses a change,
 * a photo or a whole campaign, undo would take a hole away from under its readings. Nothing typed is lost, and each says
 * what happened and what to do.
 */
import assert from 'node:assert/strict';
import { cp, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { newDocument, readFiles, withRows, writeFiles, writeZip } from '@stillstand/campaign/document';
import type { Page } from 'playwright-core';
import { serve } from '../build/serve.ts';
import { allSaved, devices, openCampaign, openOtherTables, served } from './browser.ts';

const BUILT = join(import.meta.dirname, '..', '..', '..', 'out', 'web');
const started = devices();
const folders: string[] = [];
after(async () => {
  for (const folder of folders) await rm(folder, { recursive: true, force: true });
});

const HOLE = withRows(newDocument('Refused'), 'holes', [{ hole: 'H1', method: 'string', state: 'open' }]);
const PHOTO = new Uint8Array([255, 216, 255, 0, 7]);

/** From now on the device is full: whatever is to be put into the named stores is refused, as IndexedDB refuses it. */
const fill = (page: Page, stores: readonly string[]): Promise<void> =>
  page.evaluate((names) => {
    const proto = IDBObjectStore.prototype;
    const held = globalThis as { release?: () => void };
    const before = { add: proto.add, put: proto.put };
    for (const way of ['add', 'put'] as const) {
      proto[way] = function (this: IDBObjectStore, ...given: [unknown, IDBValidKey?]) {
        if (!names.includes(this.name)) return before[way].apply(this, given);
        throw new DOMException('no room', 'QuotaExceededError');
      };
    }
    held.release = () => Object.assign(proto, before);
  }, stores);

const release = (page: Page): Promise<void> =>
  page.evaluate(() => (globalThis as { release?: () => void }).release?.());

test('an update taken in one window leaves the half-filled form of another, which goes on until its person reloads it', async () => {
  await served();
  const folder = await mkdtemp(join(tmpdir(), 'stillstand-update-'));
  folders.push(folder);
  await cp(BUILT, folder, { recursive: true });
  const address = await serve(folder, 0, false);
  const { page: working, context } = await started();
  const id = await openCampaign(working, HOLE, 'plan', address);
  await working.waitForFunction(() => navigator.serviceWorker.ready.then(() => true));
  await working.reload();
  await working.waitForFunction(() => navigator.serviceWorker.controller !== null);
  await openOtherTables(working);
  await working.getByRole('button', { name: 'Add a site' }).click();
  const form = working.getByRole('form', { name: 'Add a site' });
  await form.getByText('All columns').click();
  await form.getByLabel('Site (needed)', { exact: true }).fill('N');
  await form.getByLabel('Note', { exact: true }).fill('half a sentence');

  // A newer build, which no longer has one of the files of the older: the page of the report.
  const assets = join(folder, 'assets');
  let gone = '';
  for (const name of await readdir(assets)) {
    if (name.endsWith('.js') && (await readFile(join(assets, name), 'utf8')).includes('Make the report'))
      gone = name;
  }
  assert.notEqual(gone, '');
  const worker = await readFile(join(folder, 'service-worker.js'), 'utf8');
  const newer = worker.replace(/\+"([0-9a-f]{16})"/, '+"newer-$1"').replace(`"./assets/${gone}",`, '');
  assert.ok(newer.includes('newer-') && !newer.includes(gone));
  await writeFile(join(folder, 'service-worker.js'), newer);
  await rm(join(assets, gone));

  const other = await context.newPage();
  await other.goto(`${address}#/${id}/plan`);
  await other.locator('main.page').waitFor();
  await other.evaluate(() => navigator.serviceWorker.ready.then((it) => it.update()));
  await other.getByText('A new version is ready.').waitFor();
  const reloaded = other.waitForEvent('load');
  await other.getByRole('button', { name: 'Update now' }).click();
  await reloaded;
  await other.locator('main.page').waitFor();

  // The other window was told, and kept what was typed.
  await working.getByText('Updated in another window.').waitFor();
  assert.equal(await form.getByLabel('Site (needed)', { exact: true }).inputValue(), 'N');
  assert.equal(await form.getByLabel('Note', { exact: true }).inputValue(), 'half a sentence');
  assert.ok(await working.locator('.newer').getByRole('button').isDisabled(), 'not from under the form');
  await form.getByRole('button', { name: 'Write it down' }).click();
  await allSaved(working);
  // It goes on as the build it is, though its files are no longer served, nor in the browser's own cache.
  await (await context.newCDPSession(working)).send('Network.clearBrowserCache');
  await working.goto(`${address}#/${id}/report`);
  await working.getByText('Make the report').first().waitFor();
  await working.goto(`${address}#/${id}/plan`);
  const again = working.waitForEvent('load');
  await working.getByRole('button', { name: 'Reload now' }).click();
  await again;
  await openOtherTables(working);
  await working.getByRole('button', { name: 'N', exact: true }).waitFor();
});

test('a full device: a campaign is not imported by half, and what to do is said; a photo, too', async () => {
  const { page } = await started();
  const address = await served();
  await openCampaign(page, HOLE);
  const { document } = readFiles(new Map([...writeFiles(HOLE), ['photos/a.jpg', PHOTO] as const]));
  await page.goto(`${address}#/`);
  await page.getByRole('button', { name: 'Open a file' }).waitFor();
  const count = (): Promise<number> => page.locator('.campaigns li').count();
  await page.locator('.campaigns li').first().waitFor();
  assert.equal(await count(), 1);
  await fill(page, ['files']);
  await page
    .locator('input[type=file]')
    .setInputFiles({ name: 'x.zip', mimeType: 'application/zip', buffer: Buffer.from(writeZip(document)) });
  const dialog = page.getByRole('dialog', { name: 'File could not be opened' });
  await dialog.getByText('this device is full').waitFor();
  await dialog.getByText('Free up storage on this device').waitFor();
  await dialog.getByRole('button', { name: 'Close' }).last().click();
  await release(page);
  await page.reload();
  await page.locator('.campaigns li').first().waitFor();
  assert.equal(await count(), 1, 'nothing of it was kept');

  await page.locator('.campaigns a').first().click();
  await page.waitForURL(/#\/[0-9a-f]{12}/);
  await page.goto(
    `${address}${new URL(page.url()).hash.replace(/^(#\/[0-9a-f]{12}).*/, '$1/drill?hole=H1')}`,
  );
  await page.locator('.drill').waitFor();
  await fill(page, ['files']);
  await page
    .getByLabel('Take a photo')
    .setInputFiles({ name: 'x.jpg', mimeType: 'image/jpeg', buffer: Buffer.from(PHOTO) });
  await page.locator('.photo-lost', { hasText: 'this device is full' }).waitFor();
  await release(page);
});

test('a change the device refuses stays on the screen, is marked, and is saved when there is room', async () => {
  const { page } = await started({ width: 820, height: 1180, touch: true });
  const address = await served();
  const id = await openCampaign(page, HOLE);
  await page.goto(`${address}#/${id}/drill?hole=H1`);
  await page.locator('.drill').waitFor();
  await fill(page, ['updates']);
  await page.locator('.drill-tools').getByRole('button', { name: 'Sound' }).tap();
  await page.getByRole('region', { name: 'keypad' }).getByRole('button', { name: '1', exact: true }).tap();
  await page.locator('.act .action-bar').tap();
  await page.locator('.book li', { hasText: 'not saved' }).waitFor();
  await page
    .locator('.store-news', { hasText: 'Not saved: this device is full. 1 row is on this screen only.' })
    .waitFor();
  // Gone to the list of campaigns and back: still there, and still said.
  await page.goto(`${address}#/`);
  await page.locator('.campaigns a', { hasText: 'not saved' }).first().tap();
  await page.goto(`${address}#/${id}/drill?hole=H1`);
  await page.locator('.book li', { hasText: 'not saved' }).waitFor();
  await release(page);
  await page.locator('.book li', { hasText: 'not saved' }).waitFor({ state: 'detached' });
  await page.locator('.store-news', { hasText: 'Not saved' }).waitFor({ state: 'detached' });
  await page.reload();
  await page.locator('.book li', { hasText: '1 m' }).waitFor();
});

test('undo says what it takes, and never takes a hole with readings; the row says so too', async () => {
  const { page, complaints } = await started();
  const address = await served();
  const id = await openCampaign(page, HOLE);
  await page.getByRole('button', { name: 'Plan a hole', exact: true }).click();
  await page.getByRole('dialog').getByLabel('Hole (needed)', { exact: true }).fill('H3');
  await page.getByRole('button', { name: 'Write it down' }).click();
  await page.getByRole('button', { name: 'Undo: add hole H3' }).first().waitFor();
  await page.goto(`${address}#/${id}/drill?hole=H3`);
  await page.getByRole('heading', { name: 'H3', exact: true }).waitFor();
  await page.locator('.drill-tools').getByRole('button', { name: 'Sound' }).click();
  await page.getByRole('region', { name: 'keypad' }).getByRole('button', { name: '1', exact: true }).click();
  await page.locator('.act .action-bar').click();
  await page.locator('.book li', { hasText: '1 m' }).waitFor();
  await page.getByRole('button', { name: 'Undo: add hole H3' }).first().click();
  await page
    .getByRole('status')
    .filter({ hasText: 'Not undone: add hole H3. Hole H3 has 1 reading, so it stays.' })
    .first()
    .waitFor();
  assert.equal(await page.getByRole('heading', { name: 'H3', exact: true }).count(), 1);
  await page.goto(`${address}#/${id}/plan`);
  await page.getByRole('button', { name: 'H3', exact: true }).first().click();
  const row = page.getByRole('dialog');
  assert.ok(await row.getByRole('button', { name: 'Delete row' }).isDisabled());
  await row.getByText('Hole H3 has 1 reading, so it cannot be deleted.').waitFor();
  const label = row.getByLabel('Hole', { exact: true });
  await label.fill('H4');
  await label.press('Enter');
  await row.getByText('Hole H3 has 1 reading, so it cannot be renamed.').waitFor();
  assert.equal(await label.inputValue(), 'H3');
  assert.deepEqual(complaints, []);
});

/**
 * A copy each day, really written: the browser's own private folder in place of a picked one. The copy opens on a fresh
 * device to the last row and photo.
 */
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { test } from 'node:test';
import { type CampaignDocument, HISTORY_PATH, readZip, withRows } from '@stillstand/campaign/document';
import type { Page } from 'playwright-core';
import { violations } from './axe.ts';
import { allSaved, atRest, devices, openCampaign, openDemo, served } from './browser.ts';

const start = devices();

/** Picking a folder picks one of the browser's own. */
const pickOwnFolder = (page: Page): Promise<unknown> =>
  page.addInitScript(() => {
    Object.assign(window, {
      showDirectoryPicker: async () =>
        (await navigator.storage.getDirectory()).getDirectoryHandle('stick', { create: true }),
    });
  });

/** Files of that folder by name. */
async function inFolder(page: Page): Promise<Map<string, Uint8Array>> {
  const files = await page.evaluate(async () => {
    const folder = await (await navigator.storage.getDirectory()).getDirectoryHandle('stick', {
      create: true,
    });
    const all: [string, string][] = [];
    for await (const [name, handle] of folder as unknown as AsyncIterable<[string, FileSystemFileHandle]>) {
      // What a browser writes next to a file until it is closed.
      if (name.endsWith('.crswap')) continue;
      const bytes = new Uint8Array(await (await handle.getFile()).arrayBuffer());
      all.push([name, btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(''))]);
    }
    return all;
  });
  return new Map(files.map(([name, text]) => [name, new Uint8Array(Buffer.from(text, 'base64'))]));
}

const openSheet = async (page: Page) => {
  await page.getByRole('button', { name: 'Save a copy', exact: true }).click();
  return page.getByRole('dialog', { name: 'Save a copy' });
};

/** Rows of every table, and files but the history, which grows by what is done since. */
const contentOf = ({ tables, files }: CampaignDocument) => ({
  tables: [...tables]
    .map(([name, { columns, rows }]) => [name, columns, rows.map(({ cells }) => cells)] as const)
    .sort(([a], [b]) => (a < b ? -1 : 1)),
  files: [...files].filter(([path]) => path !== HISTORY_PATH).sort(([a], [b]) => (a < b ? -1 : 1)),
});

async function exported(page: Page): Promise<CampaignDocument> {
  const sheet = await openSheet(page);
  const [file] = await Promise.all([
    page.waitForEvent('download'),
    sheet.getByRole('button', { name: 'Save as zip' }).click(),
  ]);
  return readZip(new Uint8Array(await readFile(await file.path()))).document;
}

test('a copy of the day opens on a fresh device to the last row and photo', async () => {
  const { page, complaints } = await start();
  await pickOwnFolder(page);
  await openDemo(page);
  const sheet = await openSheet(page);
  await sheet.getByRole('button', { name: 'Choose folder' }).click();
  await sheet.getByText(/Last daily copy: .*-\d{4}-\d\d-\d\d\.zip, today at \d\d:\d\d\./).waitFor();
  await atRest(page);
  assert.deepEqual(await violations(page), []);
  await sheet.getByRole('button', { name: 'Close' }).click();
  const [[name, first]] = [...(await inFolder(page))] as [[string, Uint8Array]];
  const demo = readZip(first).document;

  // A campaign with photos and a last row; it has its own copy in the same folder, with its first change.
  const photo = new Uint8Array(200_000).map((_, i) => (i * 7919) % 251);
  await openCampaign(page, {
    ...withRows(demo, 'settings', [{ name: 'name', value: 'South coast' }]),
    files: new Map([['photos/a.jpg', photo]]),
  });
  const permits = page.getByLabel('Permits', { exact: true }).first();
  await permits.fill('heritage too');
  await permits.press('Enter');
  await page
    .getByText(/^Daily copy: \d\d:\d\d$/)
    .first()
    .waitFor({ state: 'attached' });
  await permits.fill('the last entry of the day');
  await permits.press('Enter');
  await allSaved(page);
  // The page is hidden, as when the tablet is put away.
  await page.evaluate(() => {
    Object.defineProperty(document, 'visibilityState', { value: 'hidden', configurable: true });
    document.dispatchEvent(new Event('visibilitychange'));
  });
  const south = name.replace(/^.*(?=-\d{4}-\d\d-\d\d\.zip$)/, 'South-coast');
  let copy: Uint8Array | undefined;
  for (let isWhole = false; !isWhole; ) {
    copy = (await inFolder(page)).get(south);
    isWhole =
      copy !== undefined && JSON.stringify(contentOf(readZip(copy).document)).includes('the last entry');
  }
  const there = contentOf(await exported(page));
  assert.deepEqual(complaints, []);

  const fresh = await start();
  await openCampaign(fresh.page, readZip(copy!).document);
  const here = contentOf(await exported(fresh.page));
  assert.deepEqual(here, there);
  assert.ok(there.tables.reduce((sum, [, , rows]) => sum + rows.length, 0) > 500);
  assert.deepEqual(here.files.find(([path]) => path === 'photos/a.jpg')?.[1], photo);
  assert.deepEqual(contentOf(readZip(copy!).document), there);
});

test('the folder is remembered; one that is gone is said where *saved* is said, with the last copy', async () => {
  const { page, complaints } = await start();
  await pickOwnFolder(page);
  await openDemo(page);
  const sheet = await openSheet(page);
  await sheet.getByRole('button', { name: 'Choose folder' }).click();
  await sheet.getByText(/Last daily copy:/).waitFor();
  await page.reload();
  await page
    .getByText(/^Daily copy: \d\d:\d\d$/)
    .first()
    .waitFor({ state: 'attached' });
  await page.evaluate(async () => {
    await (await navigator.storage.getDirectory()).removeEntry('stick', { recursive: true });
  });
  const permits = page.getByLabel('Permits', { exact: true }).first();
  await permits.fill('heritage too');
  await permits.press('Enter');
  await allSaved(page);
  await page.evaluate(() => {
    Object.defineProperty(document, 'visibilityState', { value: 'hidden', configurable: true });
    document.dispatchEvent(new Event('visibilitychange'));
  });
  await page.getByRole('button', { name: /^No daily copy: see why\. Last copy: \d\d:\d\d/ }).click();
  await sheet
    .getByText(/The folder “stick” is no longer there\. Connect its drive, or choose another folder\./)
    .waitFor();
  await sheet.getByRole('button', { name: 'Change folder' }).click();
  await sheet.getByText('No daily copy').waitFor({ state: 'detached' });
  for (let size = 0; size === 0; ) size = [...(await inFolder(page)).values()][0]?.length ?? 0;
  await sheet.getByRole('button', { name: 'Stop daily copies' }).click();
  await sheet.getByRole('button', { name: 'Choose folder' }).waitFor();
  assert.deepEqual(complaints, []);
});

test('where the browser has no folders it says so, and one press a day saves a copy', async () => {
  const { page, complaints } = await start();
  await page.addInitScript(() => Reflect.deleteProperty(window, 'showDirectoryPicker'));
  await page.goto(await served());
  await openDemo(page);
  const sheet = await openSheet(page);
  await sheet.getByText(/This browser cannot write to a folder by itself/).waitFor();
  await sheet.getByRole('button', { name: 'Remind me daily' }).click();
  await sheet.getByRole('button', { name: 'Close' }).click();
  const permits = page.getByLabel('Permits', { exact: true }).first();
  await permits.fill('heritage too');
  await permits.press('Enter');
  const due = page.getByRole('button', { name: /^No copy today: save one now\. Last copy: none yet/ });
  const [file] = await Promise.all([page.waitForEvent('download'), due.click()]);
  assert.ok(readZip(new Uint8Array(await readFile(await file.path()))).document.tables.size > 5);
  await due.waitFor({ state: 'detached' });
  await page
    .getByText(/^Daily copy: \d\d:\d\d$/)
    .first()
    .waitFor({ state: 'attached' });
  assert.deepEqual(complaints, []);
});

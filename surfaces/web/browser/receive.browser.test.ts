/** Copies that come to the app from outside: kept before they are shown, opened by a press, lost by nothing. */
import assert from 'node:assert/strict';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { newDocument, PHOTOS_LEFT_OUT, readZip, withRows, writeZip } from '@stillstand/campaign/document';
import type { Page } from 'playwright-core';
import { violations } from './axe.ts';
import { atRest, devices, openCampaign, openDemo, served } from './browser.ts';

const start = devices();
const folder = await mkdtemp(join(tmpdir(), 'stillstand-receive-'));
after(() => rm(folder, { recursive: true, force: true }));

const campaign = (name: string): Buffer =>
  Buffer.from(
    writeZip(
      withRows(newDocument(name, crypto.randomUUID()), 'settings', [{ name: 'name', value: name }]),
    ) as Uint8Array<ArrayBuffer>,
  );

/** Until the worker that keeps shared files has this page. */
const underWorker = (page: Page): Promise<unknown> =>
  page.waitForFunction(() => navigator.serviceWorker.controller !== null);

/** As another app shares a file to this one: a form that is posted from outside. */
async function shareTo(page: Page, name: string, buffer: Buffer): Promise<void> {
  const path = join(folder, name);
  await writeFile(path, buffer);
  await page.goto('about:blank');
  await page.setContent(
    `<form method="post" enctype="multipart/form-data" action="${await served()}receive"><input name="copy" type="file" multiple></form>`,
  );
  await page.locator('input').setInputFiles(path);
  await page.evaluate(() => document.forms[0]!.submit());
  await page.getByText('Copy received:').waitFor();
}

test('a shared copy is on the device before it is shown, outlasts the page, and is opened by a press', async () => {
  const { page, context, complaints } = await start({ width: 390, height: 844 });
  await page.goto(await served());
  await underWorker(page);
  await shareTo(page, 'north coast.zip', campaign('North coast'));
  await page.getByText(/Copy received: north coast\.zip, \d+ kB/).waitFor();
  await atRest(page);
  assert.deepEqual(await violations(page), []);
  // The page goes before anything is opened.
  const later = await context.newPage();
  await page.close();
  await later.goto(await served());
  await later.getByRole('button', { name: 'Open copy' }).click();
  await later.getByRole('heading', { name: 'North coast' }).waitFor();
  await later.getByText('Copy received:').waitFor({ state: 'detached' });
  await later.reload();
  await later.getByRole('heading', { name: 'North coast' }).waitFor();
  assert.equal(await later.getByText('Copy received:').count(), 0);
  assert.deepEqual(complaints, []);
});

test('under a form that is half filled a copy waits; one that is no campaign is refused and stays until it is deleted', async () => {
  const { page, context, complaints } = await start();
  await openDemo(page);
  await underWorker(page);
  const permits = page.getByLabel('Permits', { exact: true });
  await permits.fill('heritage too');
  const other = await context.newPage();
  await shareTo(other, 'notes.zip', Buffer.from('not a zip'));
  // As when a person comes back to this window.
  await page.evaluate(() => dispatchEvent(new Event('focus')));
  await page.getByText('Save or close the open form first.').waitFor();
  assert.ok(await page.getByRole('button', { name: 'Open copy' }).isDisabled());
  assert.equal(await permits.inputValue(), 'heritage too');
  await permits.press('Enter');
  await page.getByText('Save or close the open form first.').waitFor({ state: 'detached' });
  assert.ok(await page.getByRole('button', { name: 'Open copy' }).isEnabled());
  await page.getByRole('button', { name: 'Keep for later' }).click();
  await page.getByText('Copy received:').waitFor({ state: 'detached' });
  await other.getByRole('button', { name: 'Open copy' }).click();
  await other
    .getByRole('dialog', { name: 'File could not be opened' })
    .getByRole('button', { name: 'Close' })
    .last()
    .click();
  await other.getByText('Copy received: notes.zip').waitFor();
  await other.getByRole('button', { name: 'Delete received file' }).click();
  await other.getByText('Copy received:').waitFor({ state: 'detached' });
  assert.deepEqual(complaints, []);
});

test('a copy without photos says which; the size is said before; the share sheet is offered where it takes a zip', async () => {
  const { page, complaints } = await start();
  // A browser that shares zip files; what is handed over is kept for the test.
  await page.addInitScript(() => {
    Object.assign(navigator, {
      canShare: () => true,
      share: async ({ files }: { files: File[] }) => {
        Object.assign(window, { shared: files[0] });
      },
    });
  });
  const png = new Uint8Array(3000).fill(7);
  const empty = newDocument('Photos', crypto.randomUUID());
  await openCampaign(page, { ...empty, files: new Map([['photos/a.png', png]]) });
  await page.getByRole('button', { name: 'Save a copy' }).click();
  const sheet = page.getByRole('dialog', { name: 'Save a copy' });
  await sheet.getByLabel(/^With 1 photo, \d+ kB$/).waitFor();
  await sheet.getByLabel(/^Without photos, \d+ kB$/).check();
  const [file] = await Promise.all([
    page.waitForEvent('download'),
    sheet.getByRole('button', { name: 'Save as zip' }).click(),
  ]);
  assert.equal(file.suggestedFilename(), 'Photos-without-photos.zip');
  const small = readZip(new Uint8Array(await readFile(await file.path()))).document;
  // Nobody has touched it: there is no history to save.
  assert.deepEqual([...small.files.keys()], [PHOTOS_LEFT_OUT]);
  assert.match(
    new TextDecoder().decode(small.files.get('photos-left-out.txt')),
    /not lost.*\n.*\n\nphotos\/a\.png\n$/,
  );
  await sheet.getByText('No copy has been saved yet').waitFor();
  await sheet.getByLabel(/^With 1 photo/).check();
  await sheet.getByRole('button', { name: 'Share copy' }).click();
  await sheet.getByText(/Shared\./).waitFor();
  await sheet.getByText('The last copy was saved today.').waitFor();
  const shared = await page.evaluate(async () => {
    const { shared } = window as unknown as { shared: File };
    return { name: shared.name, type: shared.type, bytes: [...new Uint8Array(await shared.arrayBuffer())] };
  });
  assert.deepEqual([shared.name, shared.type], ['Photos.zip', 'application/zip']);
  assert.deepEqual(readZip(new Uint8Array(shared.bytes)).document.files.get('photos/a.png'), png);
  assert.deepEqual(complaints, []);
});

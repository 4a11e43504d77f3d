/** A campaign file that comes to a device that has it already, or has another one open: asked, named, and nothing changed by it. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, readZip, writeZip } from '@stillstand/campaign/document';
import type { Page } from 'playwright-core';
import { violations } from '../../browser/axe.ts';
import { devices, openedSeparately, served } from '../../browser/browser.ts';
import { copied, demo, hands, opened, zipOf } from './fixtures/copies.ts';

const started = devices();

const file = (buffer: Buffer) => ({ name: 'copy.zip', mimeType: 'application/zip', buffer });

async function choose(page: Page, buffer: Buffer): Promise<void> {
  await page.goto(`${await served()}#/`);
  await page.getByRole('button', { name: 'Open a file' }).waitFor();
  await page.locator('input[type=file]').setInputFiles(file(buffer));
}

const ours = opened(demo);
const theirs = copied(ours);
const clock = (): string => '2023-02-15T18:20:00-08:00';
const driller = hands(theirs, 'driller', 'tablet B', clock);
driller.addReading('soundings', { hole: 'T2', purpose: 'other', to_sediment: '3.33 m' });

test('a copy of a campaign that is here is asked about; of another one too; a damaged or newer one is named', async () => {
  const { page, complaints } = await started({ width: 820, height: 1180, touch: true });
  await choose(page, zipOf(ours));
  await openedSeparately(page);
  await page.locator('main.page').waitFor();
  const count = (): Promise<number> => page.locator('.campaigns li').count();

  await choose(page, zipOf(theirs));
  const dialog = page.getByRole('dialog', { name: 'This campaign is already on this device' });
  await dialog.getByText('15 Feb 2023, 18:20, driller, tablet B').waitFor();
  assert.deepEqual(await violations(page), []);
  await dialog.getByRole('button', { name: 'Cancel' }).click();
  assert.equal(await count(), 1);

  // Dropped on the page of the campaign itself.
  await page.locator('.campaigns a').click();
  await page.locator('main.page').waitFor();
  const dropped = await page.evaluateHandle(
    (bytes) => {
      const transfer = new DataTransfer();
      transfer.items.add(new File([new Uint8Array(bytes)], 'copy.zip', { type: 'application/zip' }));
      return transfer;
    },
    [...zipOf(theirs)],
  );
  await page.dispatchEvent('main.page', 'drop', { dataTransfer: dropped });
  await dialog.getByRole('button', { name: 'Merge into this campaign' }).click();
  await page.getByRole('button', { name: /^Merge copy/ }).waitFor();
  assert.match(
    (await page.locator('.strands svg').getAttribute('aria-label')) ?? '',
    /0 changes on this device and 1 change in the copy; 0 conflicts/,
  );
  await page.getByRole('button', { name: 'Close without merging' }).click();
  await page.waitForURL((url) => !url.hash.includes('merge'));

  // Loaded again, the page has no copy and asks for one.
  await page.goto(
    `${page
      .url()
      .split('?')[0]!
      .replace(/(#\/[0-9a-f]{12}).*/, '$1')}/merge`,
  );
  await page.reload();
  await page.getByText('Choose the file of a copy of this campaign.').waitFor();

  // Another campaign, chosen for this one.
  const other = Buffer.from(writeZip(newDocument('Elsewhere', 'e1000000-0000-4000-8000-000000000001')));
  const chooser = page.getByLabel('A copy of this campaign');
  await chooser.setInputFiles(file(other));
  const another = page.getByRole('dialog', { name: 'This is another campaign' });
  await another.getByText('The file holds “Elsewhere”; “Tessarn Spit” is open.').waitFor();
  assert.equal(await another.getByRole('button', { name: /^Merge/ }).count(), 0);
  await another.getByRole('button', { name: 'Open as its own campaign' }).click();
  await page.getByRole('heading', { name: 'Elsewhere' }).waitFor();

  // A part of a copy, and a copy by a newer Stillstand: named, and not merged.
  const { document } = readZip(zipOf(theirs));
  const newer = Buffer.from(
    writeZip({
      ...document,
      package: { ...document.package, stillstand: { version: 99 } },
      source: null,
    }),
  );
  await choose(page, newer);
  await dialog.getByText('This copy cannot be merged').waitFor();
  await dialog.getByText(/A newer Stillstand wrote the copy/).waitFor();
  assert.equal(await dialog.getByRole('button', { name: /^Merge/ }).count(), 0);
  await dialog.getByRole('button', { name: 'Cancel' }).click();

  const cut = zipOf(theirs);
  await choose(page, cut.subarray(0, cut.length - 900));
  await page.getByRole('dialog', { name: 'File could not be opened' }).waitFor();
  await page.getByRole('button', { name: 'Close' }).last().click();
  const torn = zipOf(theirs);
  const middle = Math.floor(0.3 * torn.length);
  torn.fill(0xff, middle, middle + 400);
  await choose(page, torn);
  await page.getByText('The file is damaged or not whole. Save and send the copy again.').waitFor();
  await page.getByRole('button', { name: 'Cancel' }).click();
  assert.equal(await count(), 2);
  assert.deepEqual(complaints, []);
});

test('a copy with nothing new, a clock a year off, and a full device', async () => {
  const { page, complaints } = await started({ width: 360, height: 740, touch: true });
  const behind = copied(ours);
  hands(ours, 'recorder', 'tablet A', clock).addReading('soundings', {
    hole: 'T2',
    purpose: 'other',
    to_sediment: '3.35 m',
  });
  const off = copied(behind);
  hands(off, 'driller', 'tablet C', () => '2022-02-15T12:00:00-08:00').addReading('soundings', {
    hole: 'T2',
    purpose: 'other',
    to_sediment: '3.36 m',
  });
  await choose(page, zipOf(ours));
  await openedSeparately(page);
  await choose(page, zipOf(behind));
  await page.getByRole('button', { name: 'Merge into this campaign' }).click();
  await page.getByText('Nothing in the copy is new').waitFor();
  await page.getByRole('button', { name: 'Close', exact: true }).click();

  await choose(page, zipOf(off, new Map([['photos/1.jpg', new Uint8Array([255, 216, 255, 0, 7])]])));
  await page.getByRole('button', { name: 'Merge into this campaign' }).click();
  await page.getByText('Photos and files').waitFor();
  assert.deepEqual(await violations(page), []);
  // The device is full: IndexedDB refuses the photo, and with it all of the merge.
  await page.evaluate(() => {
    const proto = IDBObjectStore.prototype;
    const put = proto.put;
    proto.put = function (this: IDBObjectStore, ...given: [unknown, IDBValidKey?]) {
      if (this.name !== 'files') return put.apply(this, given);
      proto.put = put;
      throw new DOMException('no room', 'QuotaExceededError');
    };
  });
  const key = page.getByRole('button', { name: /^Merge copy/ });
  await key.click();
  await page.getByText('This device is full. The campaign is as it was.').waitFor();
  // With room again it comes, photo and all.
  await key.click();
  await page.getByText('Merged: 1 change came in, 1 file.').waitFor();
  assert.deepEqual(complaints, []);
});

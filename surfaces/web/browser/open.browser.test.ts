/** A newcomer's first minutes, addresses that name nothing, and campaigns that other builds left on the device. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import {
  type CampaignDocument,
  DOCUMENT_VERSION,
  newDocument,
  readFiles,
  rowIds,
} from '@stillstand/campaign/document';
import { fill } from '@stillstand/campaign/replica';
import * as Y from 'yjs';
import { device, onDevice, openDemo, served } from './browser.ts';

const at = onDevice();

/** Puts a campaign on the device as a build of its time did. */
async function leave(id: string, document: CampaignDocument): Promise<void> {
  const doc = new Y.Doc();
  fill(doc, document, rowIds(document));
  await at.page.evaluate(
    async ({ id, update }) => {
      const db = await new Promise<IDBDatabase>((done, fail) => {
        const request = indexedDB.open('stillstand');
        request.onsuccess = () => done(request.result);
        request.onerror = () => fail(request.error);
      });
      await new Promise<void>((done, fail) => {
        const t = db.transaction(['campaigns', 'updates'], 'readwrite');
        t.objectStore('campaigns').add({
          id,
          name: id,
          read_only: false,
          problems: [],
          opened_ms: 1,
          exported_ms: null,
          changes_since_export: 0,
        });
        t.objectStore('updates').add({ campaign: id, update: new Uint8Array(update) });
        t.oncomplete = () => done();
        t.onabort = () => fail(t.error);
      });
      db.close();
    },
    { id, update: [...Y.encodeStateAsUpdate(doc)] },
  );
}

/** How many changes the device keeps of a campaign. */
const changesKept = (id: string): Promise<number> =>
  at.page.evaluate(
    (campaign) =>
      new Promise<number>((done, fail) => {
        const request = indexedDB.open('stillstand');
        request.onerror = () => fail(request.error);
        request.onsuccess = () => {
          const all = request.result.transaction('updates').objectStore('updates').getAll();
          all.onsuccess = () => {
            request.result.close();
            done(all.result.filter((each: { campaign: string }) => each.campaign === campaign).length);
          };
        };
      }),
    id,
  );

test('a newcomer comes from nothing to a rate and the reading below it by what the page offers', async () => {
  const { page, complaints, close } = await device({ width: 820, height: 1180, touch: true });
  await page.goto(await served());
  const press = async (name: string | RegExp): Promise<void> => {
    await page.getByRole('button', { name }).first().click();
  };
  await press('Open the demo campaign');
  for (const next of ['Drill', 'Describe', 'Date', 'Points', 'Curve']) {
    // Each stage has drawn what it is for before it is left.
    await page.locator('main.page svg').first().waitFor();
    await press(`Next: ${next}`);
  }
  await page.locator('.side .answer .number').waitFor();
  await page.locator('.side .answer .number button').click();
  await page.getByRole('dialog').getByText('Points, the most influential first').click();
  await page
    .getByRole('dialog')
    .getByText(/^RSL at/)
    .first()
    .waitFor();
  await press('Close');
  await press('Next: Report');
  await press('End the tour');
  assert.equal(await page.locator('.first-steps').count(), 0);
  assert.deepEqual(complaints, []);
  await close();
});

test('an address that names no stage says so, and offers those there are', async () => {
  const { page } = at;
  const id = await openDemo(page);
  await page.goto(`${await served()}#/${id}/diagrams`);
  await page.getByText('Found “diagrams” in the address').waitFor();
  const stages = page.getByRole('navigation', { name: 'Stages there are' });
  assert.equal(await stages.getByRole('link').count(), 7);
  await stages.getByRole('link', { name: 'Points' }).click();
  await page.waitForURL(/\/points$/);
  await page.locator('.one-point').waitFor();
});

test('an address that names no campaign says so, and offers those there are', async () => {
  const { page } = at;
  await page.goto(`${await served()}#/0123456789ab/curve`);
  await page.getByText('This campaign is not on this device').waitFor();
  // By its name: until the device has told its campaigns, home is the first.
  const kept = page.getByRole('navigation', { name: 'Campaigns on this device' });
  await kept
    .getByRole('link', { name: /Tessarn/ })
    .first()
    .click();
  await page.locator('main.page').waitFor();
});

test('a campaign an older build left is migrated in one change behind the old ones, and works', async () => {
  const { page } = at;
  const bytes = new TextEncoder();
  const old = readFiles(
    new Map([
      ['datapackage.json', bytes.encode('{"title":"Left behind","resources":[]}')],
      ['holes.csv', bytes.encode('hole,method\nH1,string\n')],
    ]),
  ).document;
  await leave('00000000000a', old);
  await page.goto(`${await served()}#/00000000000a`);
  await page.getByRole('heading', { name: 'Left behind' }).waitFor();
  await page.locator('[data-saved="saved"]').first().waitFor({ state: 'attached' });
  assert.equal(await changesKept('00000000000a'), 2);
  assert.equal(await page.getByText('Read only').count(), 0);
  await page.reload();
  await page.getByRole('heading', { name: 'Left behind' }).waitFor();
  assert.equal(await changesKept('00000000000a'), 2, 'migrated once');
});

test('a campaign a newer build left opens read only and stays as it is', async () => {
  const { page } = at;
  const newer = {
    ...newDocument('From later'),
    package: { title: 'From later', stillstand: { version: DOCUMENT_VERSION + 1 } },
  };
  await leave('00000000000b', newer);
  await page.goto(`${await served()}#/00000000000b`);
  await page.getByText(/Read only: a newer Stillstand/).waitFor();
  assert.equal(await changesKept('00000000000b'), 1);
});

/** Two windows on one campaign: another's edit is seen where it moved a number, listed, looked back on, and taken back. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Locator, Page } from 'playwright-core';
import { allSaved, computed, onDevice, openDemo, served } from '../browser/browser.ts';

let page: Page;
let other: Page;
let site: string;
let id: string;
onDevice({}, async (device) => {
  page = device.page;
  id = await openDemo(page);
  site = await served();
  await page.getByRole('button', { name: 'Put the first steps away' }).click();
  other = await device.context.newPage();
  for (const each of [page, other]) {
    await each.goto(`${site}#/${id}/points?point=P-T2-08`);
    await each.locator('.answer .traced').first().waitFor();
    await computed(each);
  }
});

const words = async (at: Locator): Promise<string> =>
  ((await at.textContent()) ?? '').replace(/\s+/g, ' ').trim();

/** Both windows share the device: who writes is said before each act. */
const crew = (by: string, device: string): Promise<void> =>
  other.evaluate((who) => localStorage.setItem('stillstand.crew', who), JSON.stringify({ by, device }));

/** What the device keeps. */
const kept = (): Promise<string> =>
  page.evaluate(async () => {
    const opened = indexedDB.open('stillstand');
    const db = await new Promise<IDBDatabase>((done) => {
      opened.onsuccess = () => done(opened.result);
    });
    const all = (store: string): Promise<unknown[]> =>
      new Promise((done) => {
        const asked = db.transaction(store).objectStore(store).getAll();
        asked.onsuccess = () => done(asked.result);
      });
    const campaigns = (await all('campaigns')) as { opened_ms: number }[];
    const updates = (await all('updates')) as { n: number; update: Uint8Array }[];
    db.close();
    return JSON.stringify([
      campaigns.map((campaign) => ({ ...campaign, opened_ms: 0 })),
      updates.map(({ n, update }) => [n, update.length]),
      Object.entries(localStorage).filter(([key]) => !/crew|theme/.test(key)),
    ]);
  });

let was = '';

test('a number that another’s edit moved is marked, and says what it was until whom', async () => {
  await crew('recorder', 'tablet A');
  const number = page.locator('.answer .traced').first();
  was = await words(number);
  await crew('driller', 'tablet B');
  await other.getByLabel('Lower', { exact: true }).fill('MTL');
  await other.getByLabel('Lower', { exact: true }).press('Enter');
  await allSaved(other);
  await crew('recorder', 'tablet A');
  const news = page.locator('.store-news .arrived');
  await news.waitFor();
  assert.match(await words(news), /^\d+ numbers? on this page changed by driller, tablet B/);
  assert.notEqual(await words(number), was);
  // Where it was done nothing is marked.
  assert.equal(await other.locator('.traced.changed').count(), 0);
  await news.getByRole('button', { name: 'Show' }).click();
  await page.locator('.answer .traced.changed').first().click();
  const said = await words(page.locator('.trace-changed').first());
  assert.match(said, /^Was .* m .* until driller, tablet B, \d\d:\d\d: edit point P-T2-08 \(lower/);
  await page.keyboard.press('Escape');
  // What was looked at is marked no more; another's next change is, until an act of one's own.
  await page.locator('.traced.changed').waitFor({ state: 'hidden' });
  await crew('driller', 'tablet B');
  await other.getByLabel('Lower', { exact: true }).fill('MHWN');
  await other.getByLabel('Lower', { exact: true }).press('Enter');
  await news.waitFor();
  await crew('recorder', 'tablet A');
  await page.getByLabel('Kind', { exact: true }).selectOption('terrestrial');
  await news.waitFor({ state: 'hidden' });
  assert.equal(await page.locator('.traced.changed').count(), 0);
  await page.getByRole('button', { name: /^Undo: edit point/ }).click();
  await allSaved(page);
});

test('the history lists who changed what, and what stood there', async () => {
  await page.getByRole('button', { name: 'History' }).click();
  const line = page.locator('.history .act-line', { hasText: 'edit point P-T2-08 (lower' }).last();
  await line.waitFor();
  await page.getByRole('heading', { name: 'driller, tablet B' }).waitFor();
  await line.click();
  const cells = page.locator('.cell-changes').first();
  assert.equal(await words(cells.locator('del')), 'MHW');
  assert.equal(await words(cells.locator('ins')), 'MTL');
  await page.getByLabel('Device').selectOption('tablet B');
  await page.getByLabel('Where').selectOption('Points');
  assert.equal(await page.locator('.history .act-line').count(), 2);
  await page.getByLabel('Changed by others').check();
  assert.equal(await page.locator('.history .act-line').count(), 2);
  await page.getByRole('button', { name: /^Point P-T2-08/ }).click();
  await page.getByRole('dialog', { name: 'Point P-T2-08' }).waitFor();
  await page.keyboard.press('Escape');
});

test('the campaign as it was before the change: every stage, nothing written', async () => {
  const before = await kept();
  await page.getByRole('button', { name: 'Show campaign before the first change' }).click();
  const bar = page.locator('.earlier');
  await bar.waitFor();
  assert.match(
    await words(bar),
    /^As it was before the first recorded change; \d+ changes since\. Read only/,
  );
  const at = `${site}#/${id}@start`;
  for (const stage of ['plan', 'drill', 'describe', 'date', 'curve', 'report', 'points?point=P-T2-08']) {
    await page.goto(`${at}/${stage}`);
    await bar.waitFor();
    await page.locator('main.page > *:not(.store-news)').first().waitFor();
    await computed(page);
  }
  assert.equal(await words(page.locator('.answer .traced').first()), was);
  assert.ok(await page.getByLabel('Lower', { exact: true }).isDisabled());
  assert.ok(await page.getByRole('button', { name: 'Save a copy' }).isDisabled());
  await bar.getByRole('button', { name: 'Back to now' }).click();
  await page.locator('.history .act-line').first().waitFor();
  assert.equal(await page.locator('.earlier').count(), 0);
  assert.equal(await kept(), before);
});

test('compared with now: the number and the row under it; one press restores the row', async () => {
  await page.getByRole('button', { name: 'Compare with now' }).last().click();
  const number = page.getByRole('row', { name: /^RSL of point P-T2-08/ });
  await number.waitFor();
  await number.getByRole('button', { name: 'point P-T2-08' }).waitFor();
  await page.getByRole('heading', { name: /^\d+ rows? changed/ }).waitFor();
  await page.getByRole('button', { name: 'Restore row' }).click();
  await page.getByText('No row changed.').waitFor();
  await page.getByRole('button', { name: 'Undo: edit point P-T2-08 (lower)' }).waitFor();
  await other.waitForFunction(() =>
    [...document.querySelectorAll('input')].some((input) => input.value === 'MHW'),
  );
});

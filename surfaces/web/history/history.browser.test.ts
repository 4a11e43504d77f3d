/** Two windows on one campaign: another's edit is seen where it moved a number, listed, looked back on, and taken back. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Locator, Page } from 'playwright-core';
import * as Y from 'yjs';
import { violations } from '../browser/axe.ts';
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
  assert.deepEqual(await violations(page, 'all'), []);
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
  assert.deepEqual(await violations(page, 'all'), []);
  await bar.getByRole('button', { name: 'Back to now' }).click();
  await page.locator('.history .act-line').first().waitFor();
  assert.equal(await page.locator('.earlier').count(), 0);
  assert.equal(await kept(), before);
});

test('compared with now: the number and the row under it; one press restores the row', async () => {
  await page.getByRole('button', { name: 'Compare first state with now' }).click();
  const number = page.getByRole('row', { name: /^RSL of point P-T2-08/ });
  await number.waitFor();
  await number.getByRole('button', { name: 'point P-T2-08' }).waitFor();
  await page.getByRole('heading', { name: /^\d+ rows? changed/ }).waitFor();
  assert.deepEqual(await violations(page, 'all'), []);
  await page.getByRole('button', { name: 'Restore row' }).click();
  await page.getByText('No row changed.').waitFor();
  await page.getByRole('button', { name: 'Undo: edit point P-T2-08 (lower)' }).waitFor();
  await other.waitForFunction(() =>
    [...document.querySelectorAll('input')].some((input) => input.value === 'MHW'),
  );
});

test('a reading amended elsewhere marks the number on the rig; its old values open in the form of an amendment', async () => {
  for (const each of [page, other]) {
    await each.goto(`${site}#/${id}/drill?hole=T3`);
    await each.locator('.numbers .traced').first().waitFor();
    await computed(each);
  }
  await crew('driller', 'tablet B');
  await other.locator('.numbers .traced').first().click();
  const trace = other.getByRole('dialog');
  await trace.getByRole('button', { name: /^Readings of T3/ }).click();
  await trace.getByRole('button', { name: /^and \d+ more/ }).click();
  await trace
    .getByRole('button', { name: /^run R10/ })
    .first()
    .click();
  const row = other.getByRole('dialog').last();
  await row.getByRole('button', { name: 'Amend', exact: true }).click();
  const mark = row.getByLabel('Recovered', { exact: true });
  const before = await mark.inputValue();
  await mark.fill('0.50 m');
  await mark.press('Enter');
  await row.getByRole('button', { name: 'Save amendment' }).click();
  await allSaved(other);
  await crew('recorder', 'tablet A');
  const news = page.locator('.store-news .arrived');
  await news.waitFor();
  await page.locator('.traced.changed').first().click();
  const said = await words(page.locator('.trace-changed').first());
  assert.match(said, /^Was .* until driller, tablet B, \d\d:\d\d: amend run R10 of T3 \(recovered/);
  await page.keyboard.press('Escape');
  await page.goto(`${site}#/${id}/history`);
  await page.locator('.history .act-line', { hasText: 'amend run R10 of T3' }).click();
  await page.getByRole('button', { name: 'Amend to earlier values' }).click();
  const form = page.getByRole('dialog', { name: /run R10/i });
  assert.equal(await form.getByLabel('Recovered', { exact: true }).inputValue(), before);
  await form.getByRole('button', { name: 'Save amendment' }).click();
  await page.keyboard.press('Escape');
  await page.locator('.history .act-line', { hasText: 'amend run R10 of T3' }).nth(1).waitFor();
});

/** Acts of three crews on fifty points over a year, as an update in base64. */
function longHistory(acts: number): string {
  const doc = new Y.Doc();
  const two = (n: number): string => String(n).padStart(2, '0');
  doc.getArray('acts').push(
    Array.from({ length: acts }, (_, i) => ({
      i: `long${i}`,
      t: `2025-${two(1 + (Math.floor(i / 80) % 12))}-${two(1 + (Math.floor(i / 960) % 28))}T${two(8 + (Math.floor(i / 8) % 10))}:${two(i % 60)}:00+01:00`,
      b: `crew ${i % 3}`,
      d: `tablet ${i % 3}`,
      // Each knows the act before it: nothing is in conflict.
      e: [['points', `row${i % 50}`, 'lower', 'MTL', 'MHW', `long${i - 50}`]],
    })),
  );
  return Buffer.from(Y.encodeStateAsUpdate(doc)).toString('base64');
}

test('20,000 acts: only what is seen is drawn, to the oldest, and the page answers while it is scrolled', async () => {
  await page.goto(`${site}#/`);
  await other.goto(`${site}#/`);
  await page.evaluate(
    async ([campaign, update]) => {
      const opened = indexedDB.open('stillstand');
      const db = await new Promise<IDBDatabase>((done) => {
        opened.onsuccess = () => done(opened.result);
      });
      const write = db.transaction('updates', 'readwrite');
      write
        .objectStore('updates')
        .add({ campaign, update: Uint8Array.from(atob(update), (c) => c.charCodeAt(0)) });
      await new Promise((done) => {
        write.oncomplete = done;
      });
      db.close();
    },
    [id, longHistory(20_000)] as const,
  );
  const begun = Date.now();
  await page.goto(`${site}#/${id}/history`);
  await page.locator('.history .act-line').first().waitFor();
  console.log(`a history of 20,000 acts is listed after ${Date.now() - begun} ms`);
  const drawn = (): Promise<number> => page.locator('.windowed > li').count();
  assert.ok((await drawn()) < 100, `${await drawn()} lines drawn`);
  await page.bringToFront();
  const longest = await page.evaluate(async () => {
    const frame = (): Promise<number> => new Promise((done) => requestAnimationFrame(done));
    let last = await frame();
    let most = 0;
    const end = document.documentElement.scrollHeight;
    for (let i = 1; i <= 120; i++) {
      scrollTo(0, i <= 100 ? i * 300 : ((i - 100) / 20) * end);
      const now = await frame();
      most = Math.max(most, now - last);
      last = now;
    }
    return most;
  });
  console.log(`the longest frame while it is scrolled: ${Math.round(longest)} ms`);
  await page.locator('.windowed > li:last-child .act-line', { hasText: 'edit point' }).waitFor();
  const last = page.locator('.windowed > li').last();
  assert.equal(await last.getAttribute('aria-posinset'), await last.getAttribute('aria-setsize'));
  assert.ok((await drawn()) < 100, `${await drawn()} lines drawn`);
  await page.getByLabel('Person').selectOption('crew 1');
  assert.equal(await page.locator('.history h3', { hasText: 'crew 2' }).count(), 0);
});

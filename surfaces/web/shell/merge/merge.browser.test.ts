/**
 * Two tablets and a laptop, each with a copy of one campaign: they write without network, hand their copies over, merge
 * there and back, and have the same rows in the end. What was decided is decided on all, what was left open is open on
 * all, and a merge is taken back as one step.
 */
import assert from 'node:assert/strict';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { readZip, typedCells } from '@stillstand/campaign/document';
import type { Page } from 'playwright-core';
import { violations } from '../../browser/axe.ts';
import { allSaved, atRest, type Device, devices, openDemo } from '../../browser/browser.ts';
import { station, writeSight } from '../../browser/level-book.ts';

const started = devices();
let folder: string;
before(async () => {
  folder = await mkdtemp(join(tmpdir(), 'stillstand-merge-'));
});
after(() => rm(folder, { recursive: true, force: true }));

/** A device with the demo campaign at Plan, and who writes on it. */
async function crewed(by: string, device: string, size: { width: number; height: number; touch?: boolean }) {
  const it = await started(size);
  await openDemo(it.page);
  await it.page.evaluate((who) => localStorage.setItem('stillstand.crew', JSON.stringify(who)), {
    by,
    device,
  });
  await it.page.locator('.level-book').waitFor();
  return it;
}

async function openSave(page: Page): Promise<void> {
  await page.keyboard.press('Control+s');
  await page.getByRole('dialog', { name: 'Save a copy' }).waitFor();
}

/** A copy of the campaign as a file. */
async function copyOf({ page }: Device, name: string): Promise<string> {
  await allSaved(page);
  await openSave(page);
  const [file] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save as zip' }).click(),
  ]);
  const path = join(folder, `${name}.zip`);
  await file.saveAs(path);
  await page.getByRole('dialog').getByRole('button', { name: 'Close' }).first().click();
  return path;
}

/** Chooses a copy in the open campaign; resolves once it has been held against it. */
async function chooseCopy(page: Page, path: string): Promise<void> {
  await openSave(page);
  await page.getByLabel('A copy of this campaign').setInputFiles(path);
  await page.locator('.merge-page .relation').waitFor();
}

const mergeKey = (page: Page) => page.getByRole('button', { name: /^Merge copy/ });

async function merged(page: Page): Promise<string> {
  await mergeKey(page).click();
  const news = page.locator('.store-news p', { hasText: /^Merged: / });
  await news.waitFor();
  await page.locator('.level-book').waitFor();
  return (await news.textContent()) ?? '';
}

/** Every row of a copy, by table. */
async function rowsIn(path: string): Promise<string> {
  const { document } = readZip(new Uint8Array(await readFile(path)));
  return JSON.stringify([...typedCells(document)].map(([table, rows]) => [table, [...rows.values()]]));
}

/** Whether the level book has a sight. */
async function hasSight(
  page: Page,
  point: string,
  state: 'attached' | 'detached' = 'attached',
): Promise<void> {
  await page.locator('.level-book').getByRole('combobox', { name: 'Loop' }).selectOption({ index: 0 });
  await station(page, point).first().waitFor({ state });
}

async function note(page: Page, field: string, words: string): Promise<void> {
  const input = page.getByLabel(field, { exact: true });
  await input.fill(words);
  await input.press('Enter');
}

async function amendSight(page: Page, point: string, backsight: string): Promise<void> {
  const book = page.locator('.level-book');
  await book.getByRole('combobox', { name: 'Loop' }).selectOption({ index: 0 });
  const line = page.locator('.level-book tr', { has: page.locator(`input[value="${point}"]`) });
  await line.getByLabel(/^backsight of line/).fill(backsight);
  await book.getByRole('button', { name: 'Record changes' }).click();
  await book.getByText(/Recorded: 1 amendment/).waitFor();
}

test('two tablets and a laptop merge there and back and have the same rows; a merge is undone as one step', async () => {
  const a = await crewed('recorder', 'tablet A', { width: 820, height: 1180, touch: true });
  const b = await crewed('driller', 'tablet B', { width: 360, height: 740, touch: true });
  const laptop = await crewed('geologist', 'laptop', { width: 1440, height: 900 });
  // What all have in common: a sight of tablet A.
  await writeSight(a.page, 'peg A');
  const first = await copyOf(a, 'first');
  for (const other of [b, laptop]) {
    await chooseCopy(other.page, first);
    await other.page.getByText('Same campaign').waitFor();
    assert.equal(await other.page.locator('.strand.whole').count(), 1);
    await merged(other.page);
    await hasSight(other.page, 'peg A');
  }

  for (const { context } of [a, b, laptop]) await context.setOffline(true);
  await writeSight(a.page, 'peg B');
  await amendSight(a.page, 'peg A', '1.324');
  await note(a.page, 'Contacts', 'harbour office, channel 16');
  await amendSight(b.page, 'peg A', '1.432');
  await writeSight(b.page, 'peg C');
  await note(b.page, 'Contacts', 'harbour office, channel 12');
  await note(laptop.page, 'Permits', 'heritage too');

  // Tablet B into tablet A: two conflicts decided, one left.
  const fromB = await copyOf(b, 'b');
  await chooseCopy(a.page, fromB);
  const rows = a.page.locator('.conflict-row');
  assert.equal(await rows.count(), 3);
  await a.page.getByRole('heading', { name: 'To decide: 3 of 3 open' }).waitFor();
  await atRest(a.page);
  assert.deepEqual(await violations(a.page), []);
  await rows
    .filter({ hasText: 'Contacts' })
    .getByRole('button', { name: /channel 12/ })
    .click();
  // Both wrote a sight behind the last of the loop.
  await rows
    .filter({ hasText: 'two readings hold one place' })
    .getByRole('button', { name: /^Keep both/ })
    .first()
    .click();
  await a.page.getByRole('heading', { name: 'To decide: 1 of 3 open' }).waitFor();
  await a.page.getByText('1 conflict still open').waitFor();
  assert.match(await merged(a.page), /^Merged: \d+ changes came in, 1 to decide\.$/);
  assert.equal(
    await a.page.getByLabel('Contacts', { exact: true }).inputValue(),
    'harbour office, channel 12',
  );
  await a.page.getByText('1 conflict to decide').waitFor();

  // The laptop into tablet A, and all of it back.
  await chooseCopy(a.page, await copyOf(laptop, 'laptop'));
  await merged(a.page);
  const whole = await copyOf(a, 'whole');
  for (const other of [b, laptop]) {
    await chooseCopy(other.page, whole);
    await merged(other.page);
    await other.page.getByText('1 conflict to decide').waitFor();
  }
  const all = await rowsIn(whole);
  for (const [name, other] of [
    ['b-after', b],
    ['laptop-after', laptop],
  ] as const) {
    assert.equal(await rowsIn(await copyOf(other, name)), all);
  }
  await chooseCopy(laptop.page, whole);
  await laptop.page.getByText('Nothing in the copy is new').waitFor();
  await laptop.page.getByRole('button', { name: 'Close', exact: true }).click();

  // The one left is decided in the sheet.
  await a.page.getByRole('button', { name: 'Show conflicts' }).click();
  const sheet = a.page.getByRole('dialog', { name: 'Conflicts: 1' });
  await sheet.getByRole('button', { name: /1\.324/ }).click();
  await a.page.getByText('Nothing is left to decide.').waitFor();
  await a.page.getByRole('dialog').getByRole('button', { name: 'Close' }).first().click();
  await a.page.getByText('1 conflict to decide').waitFor({ state: 'detached' });

  // Undone as one step, and merged again from the same copy.
  await laptop.page
    .getByRole('button', { name: /^Undo: merge a copy of / })
    .first()
    .click();
  await laptop.page.getByText(/^Undone: merge a copy of Tessarn Spit\.$/).waitFor();
  await hasSight(laptop.page, 'peg C', 'detached');
  assert.equal(await laptop.page.getByLabel('Permits', { exact: true }).inputValue(), 'heritage too');
  await chooseCopy(laptop.page, whole);
  await merged(laptop.page);
  assert.equal(await rowsIn(await copyOf(laptop, 'laptop-again')), all);
  for (const { complaints } of [a, b, laptop]) assert.deepEqual(complaints, []);
});

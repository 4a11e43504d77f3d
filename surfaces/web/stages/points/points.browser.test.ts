/** Points in a real browser: a point made from the keyboard alone, and an error bar drawn longer. */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { readFiles } from '@stillstand/campaign/document';
import type { Locator, Page } from 'playwright-core';
import {
  allSaved,
  atRest,
  computed,
  onDevice,
  openCampaign,
  openDemo,
  openOtherTables,
  served,
} from '../../browser/browser.ts';

let page: Page;
let home: string;
onDevice({}, async (at) => {
  page = at.page;
  home = `${await served()}#/${await openDemo(page)}`;
});
const words = async (at: Locator): Promise<string> => (await at.textContent()) ?? '';

/** Tab until the wanted thing has the focus, as one who has no mouse does. */
async function tabTo(name: string | RegExp): Promise<void> {
  for (let i = 0; i < 90; i++) {
    await page.keyboard.press('Tab');
    const found = await page.evaluate(() => {
      const active = document.activeElement;
      const isEntry = active instanceof HTMLInputElement || active instanceof HTMLSelectElement;
      const label = isEntry ? active.labels?.[0]?.textContent : undefined;
      return active?.getAttribute('aria-label') ?? label ?? active?.textContent ?? '';
    });
    if (typeof name === 'string' ? found.trim() === name : name.test(found)) return;
  }
  assert.fail(`the keyboard does not reach ${name}`);
}

const plusMinus = async (): Promise<number> =>
  Number((await words(page.locator('.one-point .answer .pm'))).replace('±', ''));

test('a point is made from a dated sample with the keyboard alone, and undone', async () => {
  await page.goto(`${home}/points`);
  await page.locator('.slide svg').waitFor();
  const before = await page.locator('.point-list li').count();
  await tabTo(/^New point/);
  await page.keyboard.press('Enter');
  const dialog = page.getByRole('dialog', { name: 'New point' });
  await dialog.waitFor();
  const make = dialog.getByRole('button', { name: 'Make the point' });
  assert.ok(await make.isDisabled());
  await tabTo(/^T2-02/);
  await page.keyboard.press('Space');
  await tabTo('Kind of deposit');
  await page.keyboard.type('marine limiting');
  await tabTo('Make the point');
  await page.keyboard.press('Enter');
  await page.getByRole('heading', { name: 'P-T2-02' }).waitFor();
  await page.locator('.one-point .answer', { hasText: 'sea was above' }).waitFor();
  assert.equal(await page.locator('.point-list li').count(), before + 1);
  assert.equal(await page.getByLabel('Kind', { exact: true }).inputValue(), 'marine');
  assert.equal(await page.getByLabel('Upper', { exact: true }).inputValue(), 'MTL');
  await allSaved(page);
  await page.reload();
  await page.locator('.one-point .answer', { hasText: 'sea was above' }).waitFor();
  await page.getByRole('button', { name: 'All fields, note, delete' }).click();
  await page.getByRole('button', { name: 'Delete row' }).click();
  await page.keyboard.press('Control+z');
  await page.locator('.point-list').getByText('P-T2-02').waitFor();
  await page.keyboard.press('Control+Shift+z');
  await page.locator('.point-list').getByText('P-T2-02').waitFor({ state: 'hidden' });
});

test('an error bar drawn longer moves the box at once, is written when the hand lets go, and is taken back', async () => {
  await page.goto(`${home}/points?point=P-T3-07`);
  await page.locator('.slide svg').waitFor();
  const before = await plusMinus();
  await atRest(page);
  const box = page.locator('.slide svg g path[fill-opacity]').first();
  const heightBefore = (await box.boundingBox())!.height;
  await page.getByRole('button', { name: /^Sampling/ }).click();
  const slider = page.getByRole('slider', { name: /Size of sampling/ });
  await slider.focus();
  // The key is down: shown at once, written only when it comes up.
  for (let i = 0; i < 40; i++) await page.keyboard.down('ArrowRight');
  const held = await plusMinus();
  assert.ok(held > before + 0.05, `± ${before} grew to ${held}`);
  assert.ok((await box.boundingBox())!.height > heightBefore * 1.1, 'the box is higher');
  assert.equal(await page.getByText('It is not declared yet').count(), 1);
  await page.keyboard.up('ArrowRight');
  await page.getByRole('button', { name: 'Take the declared value back' }).waitFor();
  await page.getByRole('button', { name: /^Sampling.*declared/s }).waitFor();
  await computed(page);
  assert.equal(await plusMinus(), held, 'the computation says what was shown');
  // The longest bar changes places only now.
  await allSaved(page);
  await page.reload();
  await page.locator('.slide svg').waitFor();
  assert.equal(await plusMinus(), held);
  await page.getByRole('button', { name: /^Sampling/ }).click();
  await page.getByRole('button', { name: 'Take the declared value back' }).click();
  await page.getByRole('button', { name: /^Sampling.*assumed/s }).waitFor();
  await computed(page);
  assert.equal(await plusMinus(), before);
});

test('a part gets a shape and a group; a point is rejected with its reason', async () => {
  await page.goto(`${home}/points?point=P-T3-08`);
  await page.locator('.slide svg').waitFor();
  await page.getByRole('button', { name: 'Add a part' }).click();
  await page.getByLabel('Name of the part', { exact: true }).fill('compaction');
  await page.getByRole('button', { name: 'Add the part' }).click();
  await page.getByRole('button', { name: /^Compaction/ }).waitFor();
  assert.equal(await page.getByLabel('Shape', { exact: true }).inputValue(), 'one_sided');
  await page.getByLabel('Shared with', { exact: true }).fill('peat of T3');
  await page.keyboard.press('Enter');
  await page.getByText('shared through peat of T3').waitFor();
  await page.getByRole('button', { name: 'Rejected', exact: true }).click();
  await page.getByLabel('Reason for exclusion', { exact: true }).fill('rootlets');
  await page.keyboard.press('Enter');
  await page.locator('.point-list .rejected', { hasText: 'P-T3-08' }).waitFor();
  await page.getByRole('button', { name: 'Accepted', exact: true }).click();
  await page.locator('.point-list .rejected', { hasText: 'P-T3-08' }).waitFor({ state: 'hidden' });
});

test('a point says where its age comes from; each source moves its age or says what it lacks', async () => {
  await page.goto(`${home}/points?point=P-T3-08`);
  await page.locator('.slide svg').waitFor();
  const source = page.getByLabel('Source of the age', { exact: true });
  assert.deepEqual(await source.locator('option').allTextContents(), [
    'not stated',
    'a date of its sample',
    'age against depth in its hole',
    'pooled dates of its sample',
    'between the dates above and below',
    'all dates of one event',
  ]);
  assert.equal(await source.inputValue(), 'determination');
  // Its sample has two dates, and the one it takes is named.
  await page.getByLabel('Determination', { exact: true }).waitFor();
  const age = async (): Promise<string> => await words(page.locator('.one-point > header .quiet'));
  const own = await age();
  assert.match(own, /by INV-2479/);
  await source.selectOption('between');
  await page.getByText('between the nearest dates above and below it in hole T3').waitFor();
  await page.locator('.one-point header', { hasText: /by INV-\d+ to INV-\d+/ }).waitFor();
  assert.notEqual(await age(), own);
  await page.locator('.one-point > header .traced').first().click();
  await page.getByText('every year between the two dates as likely').waitFor();
  await page.keyboard.press('Escape');
  await source.selectOption('event');
  await page.getByText('No date of T3-08 belongs to an event').waitFor();
  await source.selectOption('pooled');
  await page.getByText('No date of T3-08 is pooled').waitFor();
  await source.selectOption('age_depth');
  await page.getByText('The age of its depth, from all dates of hole T3 together.').waitFor();
  // Its own date stands in until the ages of the hole are there.
  await page.locator('.one-point > header', { hasText: 'by INV-2479 for now' }).waitFor();
  await allSaved(page);
  await page.reload();
  assert.equal(await source.inputValue(), 'age_depth', 'it is written');
  await source.selectOption('determination');
  await page.locator('.one-point header', { hasText: 'by INV-2479' }).waitFor();
  assert.equal(await age(), own);
});

test('an undated sample is offered with the years between its neighbours, which must be in order', async () => {
  await page.goto(`${home}/points`);
  await page.locator('.slide svg').waitFor();
  await page.getByRole('button', { name: /^New point/ }).click();
  const dialog = page.getByRole('dialog', { name: 'New point' });
  const undated = dialog.getByRole('group', { name: 'Sample without a date, in a hole that has dates' });
  await undated.getByLabel(/^T2-04/).check();
  assert.equal(await dialog.getByLabel('Source of the age', { exact: true }).inputValue(), 'between');
  await dialog
    .getByLabel('Kind of deposit', { exact: true })
    .selectOption('marine limiting (subtidal mud, shell, coral)');
  await dialog.getByRole('button', { name: 'Make the point' }).click();
  await page.getByRole('heading', { name: 'P-T2-04' }).waitFor();
  // The lump of peat above it is older than the peat below.
  await page.locator('.one-point', { hasText: 'INV-2423 to be older than INV-2419' }).waitFor();
  await page.keyboard.press('Control+z');
  await page.locator('.point-list').getByText('P-T2-04').waitFor({ state: 'hidden' });
});

test('a tidal range entered on Plan moves a point, which says by what; many annual means are folded', async () => {
  const folder = join(import.meta.dirname, '..', '..', '..', '..', 'demo', 'campaign');
  const tables = readdirSync(folder)
    .filter((name) => /\.(csv|json)$/.test(name))
    .map((name) => [name, new Uint8Array(readFileSync(join(folder, name)))] as const);
  const levels = Array.from(
    { length: 90 },
    (_, i) => `Neck pole,${1931 + i},${(0.98 + 0.002 * i + 0.02 * ((i % 3) - 1)).toFixed(3)}`,
  );
  const text = (csv: string): Uint8Array => new TextEncoder().encode(`${csv}\n`);
  const { document } = readFiles(
    new Map([
      ...tables,
      ['gauge_means.csv', text(`gauge,year,level_m\n${levels.join('\n')}`)],
      ['tide_ranges.csv', text('age_cal_bp,factor,factor_sigma,source\n0,1,0,today')],
    ]),
  );
  const id = await openCampaign(page, document, 'plan');
  const site = `${await served()}#/${id}`;
  await openOtherTables(page);
  await page.getByRole('button', { name: 'Add a tidal range' }).click();
  const row = page.getByRole('form', { name: 'Add a tidal range' });
  await row.getByLabel('Age (needed)', { exact: true }).fill('9000');
  await row.getByLabel('Factor (needed)', { exact: true }).fill('1.3');
  await row.getByLabel('Factor sigma (needed)', { exact: true }).fill('0.1');
  await row.getByRole('button', { name: 'Write it down' }).click();
  await page.getByRole('button', { name: '9000', exact: true }).waitFor();
  await page.goto(`${site}/points?point=P-T3-07`);
  await page.locator('.one-point .answer', { hasText: /tidal range then × 1\.[12]\d/ }).waitFor();
  assert.match(
    (await page.locator('.slide svg').getAttribute('aria-label'))!,
    /with the tidal range of its time/,
  );
  await page.getByText('shared through the tidal ranges of all sites').first().waitFor();
  await page.goto(`${site}/plan`);
  await openOtherTables(page);
  const means = page.getByRole('table', { name: 'Annual means of gauges' });
  await means.getByText('1931').waitFor();
  assert.equal(await means.getByText('1990').count(), 0, 'a long table is folded');
  await page.getByRole('button', { name: 'Show all 90 annual means' }).click();
  await means.getByText('1990').waitFor();
});

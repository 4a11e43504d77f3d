/** Every screen that is built can be used by all: no violation of WCAG 2.2 A and AA that axe can find, in both themes. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Page } from 'playwright-core';
import { STAGES } from '../stages/index.ts';
import { violations } from './axe.ts';
import { atRest, computed, onDevice, openDemo, served } from './browser.ts';

const at = onDevice();
/** The demo, opened once: each time is another campaign, computed from nothing. */
let demo = '';

/** Brings the page to a stage of the demo; the stage it comes from is gone then. */
async function toDemo(page: Page, stage: string): Promise<void> {
  await page.goto(`${await served()}#/${demo}/${stage.toLowerCase()}`);
  await page.locator('[aria-current=page]', { hasText: stage }).first().waitFor({ state: 'attached' });
  await page.locator('main.page > :not([role=status])').first().waitFor();
  await computed(page);
}

/** By day every rule at every width; at night the page is laid out the same, and only its colours are looked at again. */
const DRESSES = { day: [1440, 820, 360], night: [1440] } as const;

/** Sections come into view one after the other; a page that still grows then grows with its window. */
const ROUNDS = 30;

/** As tall as the page: axe takes what a bar at the foot or the edge of a list covers for targets too small. */
async function standWhole(page: Page, width: number): Promise<void> {
  let height = 900;
  let rounds = 0;
  for (let tall = 0; tall !== height; ) {
    assert.ok(rounds++ < ROUNDS, `the page grows with its window: ${height} px`);
    await page.setViewportSize({ width, height });
    await atRest(page);
    tall = height;
    // Sections are laid out when they come into view, and may then be taller than was guessed.
    height = Math.max(height, 8 + (await page.evaluate(() => document.documentElement.scrollHeight)));
    if (height <= tall + 8) height = tall;
  }
}

async function inEveryDress(page: Page, name: string): Promise<void> {
  for (const theme of ['day', 'night'] as const) {
    await page.evaluate((dress) => localStorage.setItem('stillstand.theme', dress), theme);
    for (const width of DRESSES[theme]) {
      await standWhole(page, width);
      await page.evaluate((dress) => {
        document.documentElement.dataset['theme'] = dress;
      }, theme);
      await atRest(page);
      const found = await violations(page, theme === 'day' ? 'all' : 'colours');
      assert.deepEqual(found, [], `${name}, ${theme}, ${width}`);
      const isWider = await page.evaluate(() => document.documentElement.scrollWidth > innerWidth);
      assert.ok(!isWider, `${name}, ${theme}: wider than ${width} px`);
    }
  }
  await page.setViewportSize({ width: 1440, height: 900 });
}

test('home, first run and with campaigns', async () => {
  await at.page.goto(await served());
  await at.page.getByRole('button', { name: 'Open the demo campaign' }).waitFor();
  await inEveryDress(at.page, 'home at first');
  demo = await openDemo(at.page);
  await at.page.goto(`${await served()}#/`);
  await at.page.getByRole('link', { name: /Tessarn/ }).waitFor();
  await inEveryDress(at.page, 'home');
  await at.page.getByRole('button', { name: 'Begin a campaign' }).click();
  await inEveryDress(at.page, 'begin a campaign');
});

test('addresses that name nothing', async () => {
  const { page } = at;
  // Without the sheet the test before has opened.
  await page.reload();
  await page.goto(`${await served()}#/${demo}/diagrams`);
  await page.getByText('There is no such stage').waitFor();
  await inEveryDress(page, 'no stage');
  await page.goto(`${await served()}#/0123456789ab`);
  await page.getByRole('link', { name: /Tessarn/ }).waitFor();
  await inEveryDress(page, 'no campaign');
});

test('the frame’s sheets and dialogs', async () => {
  const { page } = at;
  await toDemo(page, 'Plan');
  for (const tool of [/problems?$/, 'Save a copy', 'Help']) {
    await page.getByRole('button', { name: tool }).first().click();
    await page.getByRole('dialog').waitFor();
    await inEveryDress(page, String(tool));
    await page.getByRole('button', { name: 'Close' }).first().click();
  }
  await page.getByRole('button', { name: 'Hole T3, finished' }).click();
  await inEveryDress(page, 'a row');
  await page.getByRole('button', { name: 'Close' }).click();
  await page.locator('button.traced').first().click();
  await page.locator('.trace li').first().waitFor();
  await inEveryDress(page, 'a trace');
  await page.getByRole('button', { name: 'Close' }).click();
});

test('laboratory values next to the column', async () => {
  const { page } = at;
  await page.goto(`${await served()}#/${demo}/describe?view=laboratory&hole=T3`);
  await page.getByRole('img', { name: /^Laboratory values of T3/ }).waitFor();
  await page.locator('.quantities summary').first().click();
  await inEveryDress(page, 'laboratory');
});

test('ages against depth', async () => {
  const { page } = at;
  await page.goto(`${await served()}#/${demo}/date?view=depth&hole=T2`);
  await page.locator('.against-depth .picture svg').waitFor();
  await inEveryDress(page, 'ages against depth');
});

test('a table to import, half decided', async () => {
  const { page } = at;
  await page.goto(`${await served()}#/${demo}/points?view=import`);
  await page.getByRole('heading', { name: 'Import a table' }).waitFor();
  await inEveryDress(page, 'a table to choose');
  const table =
    'Point,Kind,Source,Level (m),2s (m)\nP1,index,A,-4.5,0.6\nP2,indexx,A,-3.5,x\n* invented,,,,\n';
  await page
    .locator('.import input[type=file]')
    .setInputFiles({ name: 'points.csv', mimeType: 'text/csv', buffer: Buffer.from(table) });
  await page.getByLabel('What it is about', { exact: true }).selectOption('published-points');
  for (const closed of await page.locator('.import summary').all()) await closed.click();
  await inEveryDress(page, 'a table half decided');
});

for (const { name } of STAGES) {
  test(`the stage ${name}`, async () => {
    const { page } = at;
    await toDemo(page, name);
    // The strip of first steps lies over what scrolls below it.
    const away = page.getByRole('button', { name: 'Put the first steps away' });
    if ((await away.count()) > 0) await away.click();
    // Its page is drawn once the curve is final.
    if (name === 'Report') await page.locator('.report-page').first().waitFor();
    await inEveryDress(page, name);
  });
}

test('the whole frame by keyboard: stages, menu, sheets', async () => {
  const { page } = at;
  await toDemo(page, 'Plan');
  await page.keyboard.press('F1');
  await page.getByRole('dialog', { name: 'Help' }).waitFor();
  await page.keyboard.press('Escape');
  await page.getByRole('dialog').waitFor({ state: 'detached' });
  await page.keyboard.press('Alt+p');
  await page.getByRole('dialog', { name: /^(Problems|No problems)/ }).waitFor();
  await page.keyboard.press('Escape');
  await page.keyboard.press('Control+s');
  await page.getByRole('dialog', { name: 'Save a copy' }).waitFor();
  await page.keyboard.press('Escape');
  await page.keyboard.press('Alt+1');
  await page.waitForURL(/\/plan$/);
});

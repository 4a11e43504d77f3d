/** Laboratory values next to the column: which are drawn is chosen, and a value opens the readings behind it. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Page } from 'playwright-core';
import { onDevice, openDemo } from '../../../browser/browser.ts';

let page: Page;
let campaign: string;
onDevice({}, async (at) => {
  page = at.page;
  campaign = await openDemo(page);
});

const picture = () => page.getByRole('img', { name: /^Laboratory values of M1/ });

test('the quantities of a hole are drawn next to its column, and one is left out and put back', async () => {
  await page.goto(`${page.url().split('#')[0]}#/${campaign}/describe?hole=M1`);
  await page.getByRole('button', { name: 'Laboratory', exact: true }).click();
  await picture().waitFor();
  const name = async () => (await picture().getAttribute('aria-label')) ?? '';
  assert.match(await name(), /caesium-137/);
  await page.getByRole('checkbox', { name: 'caesium-137' }).uncheck();
  await page.waitForFunction(
    () => !/caesium/.test(document.querySelector('svg[aria-label^="Laboratory values"]')!.ariaLabel!),
  );
  await page.getByRole('checkbox', { name: 'caesium-137' }).check();
  await page.waitForFunction(() =>
    /caesium/.test(document.querySelector('svg[aria-label^="Laboratory values"]')!.ariaLabel!),
  );
});

test('a value leads to its row; what is not determined is said', async () => {
  const quantity = page
    .getByRole('listitem')
    .filter({ has: page.getByRole('checkbox', { name: 'radium-226' }) });
  await quantity.locator('summary').click();
  await quantity.getByRole('cell', { name: 'not determined' }).waitFor();
  await quantity.getByRole('row').nth(1).locator('.traced').first().click();
  await page.locator('.trace li').first().waitFor();
  await page.getByText('as measured').first().waitFor();
  await page.getByRole('button', { name: 'Close' }).first().click();
});

test('one line reads all lanes: by a press in the drawing, and by the keys of a slider', async () => {
  await page.goto(`${page.url().split('#')[0]}#/${campaign}/describe?view=laboratory&hole=T3`);
  const drawing = page.getByRole('img', { name: /^Laboratory values of T3/ });
  await drawing.click({ position: { x: 300, y: 400 } });
  const values = page.locator('.read-values');
  await values.waitFor();
  const before = (await values.textContent())!;
  assert.match(before, /\d\.\d\d m/);
  assert.match(before, /loss on ignition .*%/);
  await page.getByLabel('Read at depth').focus();
  await page.keyboard.press('ArrowRight');
  await page.waitForFunction((text) => document.querySelector('.read-values')!.textContent !== text, before);
  await values.locator('.traced').first().click();
  await page.locator('.trace li').first().waitFor();
});

/**
 * Every state a crew meets, on the tablet and on a phone: nothing axe can find in either theme, no target a wet glove
 * would miss, the main action larger than all, nothing wider than the screen. How soon a press is on the screen:
 * `bench/app`.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Page } from 'playwright-core';
import { violations } from '../../../browser/axe.ts';
import { atRest, drillDemo, onDevice } from '../../../browser/browser.ts';
import { type Hand, hand } from '../../../browser/hand.ts';

const TARGET_PX = 48;
const MAIN_PX = 72;
const SIZES = [
  [820, 1180],
  [360, 780],
] as const;

let page: Page;
let crew: Hand;

onDevice({ width: 820, height: 1180, touch: true }, async (tablet) => {
  page = tablet.page;
  crew = hand(page);
  await drillDemo(page);
});

/** What a glove would miss: "button Skip 60 × 40". The drawing's own links are none of it. */
const small = (least: number): Promise<string[]> =>
  page.evaluate((px) => {
    const targets = document.querySelectorAll<HTMLElement>(
      'button, a[href], select, input:not([type=file]), [role=tab]',
    );
    return [...targets].flatMap((e) => {
      const box = e.getBoundingClientRect();
      if (e.closest('.skip, .blank-sheet') !== null || e.classList.contains('unseen')) return [];
      if (box.width === 0 || box.height === 0 || getComputedStyle(e).visibility === 'hidden') return [];
      if (box.width >= px - 0.5 && box.height >= px - 0.5) return [];
      const name = e.getAttribute('aria-label') ?? e.textContent ?? e.id;
      return [
        `${e.tagName.toLowerCase()} ${name.slice(0, 40)} ${box.width.toFixed(0)} × ${box.height.toFixed(0)}`,
      ];
    });
  }, least);

async function holds(state: string): Promise<void> {
  for (const [width, height] of SIZES) {
    const at = `${state}, ${width} px`;
    await page.setViewportSize({ width, height });
    await atRest(page);
    assert.deepEqual(await small(TARGET_PX), [], `${at}: targets`);
    const main = page.locator('.act .action-bar');
    if ((await main.count()) > 0) {
      const box = await main.boundingBox();
      assert.ok((box?.height ?? 0) >= MAIN_PX, `${at}: main action ${box?.height}`);
    }
    const isWider = await page.evaluate(() => document.documentElement.scrollWidth > innerWidth);
    assert.ok(!isWider, `${at}: wider than the screen`);
    // taller than any screen: axe takes what a scrolling list cuts off at its edge for targets too small
    await page.setViewportSize({ width, height: 3000 });
    for (const theme of ['day', 'night'] as const) {
      await page.evaluate((dress) => {
        document.documentElement.dataset['theme'] = dress;
      }, theme);
      await atRest(page);
      const found = await violations(page, theme === 'day' ? 'all' : 'colours');
      assert.deepEqual(found, [], `${at}, ${theme}`);
    }
  }
  await page.evaluate(() => {
    document.documentElement.dataset['theme'] = 'day';
  });
  await page.setViewportSize({ width: 820, height: 1180 });
}

const leave = () =>
  page
    .getByRole('button', { name: /^Leave/ })
    .first()
    .click();

test('before the first joint', async () => {
  await crew.startHole('H9');
  await holds('a hole not begun');
  await page.locator('.hole-name').click();
  await holds('the holes');
  await page.getByRole('button', { name: 'Close', exact: true }).click();
  await crew.take('Site check');
  await crew.answer('Buried services located', 'yes');
  await crew.answer('Reference levelled', 'no');
  await holds('the site check');
  await crew.answer('Mast clear of overhead lines', 'no');
  await crew.answer('Lines, blocks, shackles, anchors inspected', 'no');
  await holds('the site check, two dangers');
  await crew.take('Close site check');
  await holds('two dangers');
  await crew.take('Keep the mast down');
  await crew.answer('Mast clear of overhead lines', 'yes');
  await crew.answer('Lines, blocks, shackles, anchors inspected', 'yes');
  await crew.take('Close site check');
});

test('water, tape, sampler in the hole, near stop, stop', async () => {
  await crew.go('K1');
  await page.locator('.rests-on').click();
  await holds('water and plug');
  await leave();
  await crew.take('Mark the cable');
  await holds('the tape');
  await crew.bar().click();
  await crew.take('Run the sampler');
  await crew.bar().click();
  await crew.keys('1.82');
  await crew.bar().click();
  await holds('sampler in the hole');
  await crew.keys('2.60');
  await crew.bar().click();
  await page.locator('.risk[data-level="caution"]').waitFor();
  await holds('near stop');
  await crew.keys('3.20');
  await holds('past the shoe, typed');
  await crew.bar().click();
  await page.locator('.risk[data-level="danger"]').waitFor();
  await holds('stop');
});

test('amending, laying out, the book, something else, a sheet typed in', async () => {
  await page.locator('.run-book td button').last().click();
  await holds('amending');
  await leave();
  await crew.take('Lift the sampler now');
  await crew.take('Refill the string');
  await crew.keys('10c');
  await crew.bar().click();
  await crew.take('Lay out the core');
  await crew.keys('1.50');
  await page.locator('.entry .field-row', { hasText: 'Laid out' }).click();
  await holds('laying out');
  await page.locator('.pad').getByRole('button', { name: 'piece by piece' }).click();
  await crew.bar().click();
  await page.getByRole('heading', { name: 'Piece 1 of R1' }).waitFor();
  await holds('a piece');
  await page.getByRole('button', { name: 'Skip' }).click();
  await page.getByRole('button', { name: 'Other event' }).click();
  await holds('something else');
  await page.getByRole('button', { name: 'Leave', exact: true }).click();
  await page.locator('.drill-tools').getByRole('button', { name: 'Log' }).click();
  await holds('the book');
  await page.getByRole('button', { name: 'Type in a sheet' }).click();
  await page.getByLabel('time of line 1', { exact: true }).fill('9:05');
  await page.getByLabel('kind of line 1', { exact: true }).fill('S');
  await holds('a sheet typed in');
  await page.getByRole('button', { name: 'Leave the sheet' }).click();
});

test('the line while pulling, a lost string, and its closing', async () => {
  await page.getByRole('button', { name: 'Other event' }).click();
  await page.getByRole('button', { name: /^Pull the string/ }).click();
  await holds('pulling');
  await page.locator('.rests-on').click();
  await holds('the gear, no mark read');
  await page.locator('.rated-list').getByRole('button', { name: /^rope/ }).click();
  await page.getByLabel('Rated load (WLL)').click();
  await crew.keys('200');
  await page.locator('.entry .field-row', { hasText: 'Unit' }).click();
  await page.locator('.pad').getByRole('button', { name: 'kg', exact: true }).click();
  await holds('the mark of the rope');
  await crew.bar().click();
  await page.locator('.rated-list', { hasText: '200 kg, 1.9 kN (200 kg)' }).waitFor();
  await holds('the gear, one mark read');
  await crew.bar().click();
  await page.getByRole('button', { name: 'Other event' }).click();
  await page.getByRole('button', { name: /^Pull the string/ }).click();
  await page.locator('.risk[data-level="caution"]', { hasText: 'Could exceed' }).waitFor();
  await holds('the mark of the rope could be exceeded');
  await leave();
  await page.getByRole('button', { name: 'Other event' }).click();
  await page.getByRole('button', { name: /^String lost/ }).click();
  await page.locator('.pad').getByRole('button', { name: 'joint K1' }).click();
  await crew.bar().click();
  await page.locator('.lost').first().waitFor();
  await holds('a lost string');
  await crew.take('Remeasure ground level');
  await crew.keys('30c');
  await crew.bar().click();
  await crew.take('End hole');
  await holds('closing');
});

test('pushes', async () => {
  await leave();
  await crew.startHole('H9h', 'tube');
  await crew.take('Site check');
  await crew.answer('Buried services located', 'not needed');
  await crew.take('Close site check');
  await crew.take('Measure ground level');
  await crew.keys('12c');
  await crew.bar().click();
  await crew.take('Record the first push');
  await crew.keys('1.50');
  await crew.field('Came up');
  await crew.keys('1.38');
  await holds('a push');
  await crew.bar().click();
  await page.locator('.book li', { hasText: 'Push P1' }).waitFor();
  await holds('pushes');
});

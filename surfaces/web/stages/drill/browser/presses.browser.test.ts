/**
 * How many presses one turn of the routine takes, every measured value typed: a joint, its drive, the water, the
 * soundings, one run of the sampler with three readings of the cable and two strokes, and its core on the ground.
 * Keys of digits and the decimal point are counted apart: they are the reading itself.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Page } from 'playwright-core';
import { drillDemo, onDevice } from '../../../browser/browser.ts';
import { type Hand, hand } from '../../../browser/hand.ts';

/** Set before it was counted. */
const MOST = 55;

let page: Page;
let crew: Hand;

onDevice({ width: 820, height: 1180, touch: true }, async (tablet) => {
  page = tablet.page;
  crew = hand(page);
  await drillDemo(page);
});

/** Presses so far: of keys that are part of a number, and of everything else. */
const counted = (): Promise<{ keys: number; presses: number }> =>
  page.evaluate(() => {
    const own = globalThis as unknown as { counted?: { keys: number; presses: number } };
    if (own.counted === undefined) {
      const count = { keys: 0, presses: 0 };
      own.counted = count;
      document.addEventListener(
        'click',
        (event) => {
          const key = (event.target as Element).closest('button');
          const name = key?.getAttribute('aria-label') ?? key?.textContent ?? '';
          if (key?.closest('.keypad') != null && /^(?:\d|point)$/.test(name)) count.keys++;
          else count.presses++;
        },
        true,
      );
    }
    return { ...own.counted };
  });

test(`one turn of the routine in at most ${MOST} presses`, async () => {
  await crew.startHole('H9');
  await crew.begin('K1');
  const before = await counted();
  assert.deepEqual(before, { keys: 0, presses: 0 });
  await crew.take('Mark the cable');
  await crew.field('Tape at the collar');
  await crew.keys('0');
  await crew.bar().click();
  await crew.take('Run the sampler');
  await crew.keys('1.02');
  await crew.bar().click();
  for (const mark of ['1.35', '1.70', '2.05']) {
    await crew.keys(mark);
    await crew.bar().click();
    await page.locator('.run-book', { hasText: mark }).waitFor();
  }
  await page.getByRole('button', { name: /Stroke/ }).click();
  await page.getByRole('button', { name: /Stroke 1/ }).click();
  await crew.take('Lift the sampler');
  await crew.take('Refill the string');
  await crew.keys('0.10');
  await crew.bar().click();
  await crew.take('Lay out the core');
  await crew.keys('0.98');
  await page.locator('.entry .field-row', { hasText: 'Laid out' }).click();
  await page.locator('.pad').getByRole('button', { name: 'in one piece' }).click();
  await crew.bar().click();
  await crew.take('Repeat sounding');
  await crew.keys('2.06');
  await crew.bar().click();
  // the levels read a moment ago are not asked again
  await page.locator('.act .does', { hasText: /Mark the cable|Add a joint/ }).waitFor();
  await page.locator('.drill-tools').getByRole('button', { name: 'Joint' }).click();
  await page.getByLabel('Label', { exact: true }).fill('K2');
  await crew.field('Length');
  await crew.keys('3.05');
  await crew.bar().click();
  // tight in one
  await crew.take('Confirm joint K2 tight');
  await crew.take('Drive the string');
  await crew.field('Stick-up before');
  await crew.keys('3.37');
  await crew.field('Stick-up after');
  await crew.keys('0.60');
  await page.locator('.entry .field-row', { hasText: 'Time' }).click();
  await crew.keys('55');
  await crew.bar().click();
  await crew.take('Fill the string');
  await crew.keys('0.10');
  await crew.bar().click();
  await crew.take('Take sounding');
  await crew.keys('3.31');
  await crew.bar().click();
  await crew.take('Mark the cable');
  const { keys, presses } = await counted();
  console.log(`${presses} presses, ${keys} keys of numbers`);
  assert.ok(presses <= MOST, `${presses} presses`);
});

/**
 * Amending by hand on the tablet: the form opens on the value that was pressed and takes what is typed for it; saving
 * without a change says so and stays; amendments that differ are a press from being decided; what depends on a reading
 * keeps it; and what the device has not taken is marked.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, withRows } from '@stillstand/campaign/document';
import type { Page } from 'playwright-core';
import { violations } from '../../../browser/axe.ts';
import { allSaved, onDevice, openCampaign } from '../../../browser/browser.ts';
import { type Hand, hand } from '../../../browser/hand.ts';

let page: Page;
let crew: Hand;
const tablet = onDevice({ width: 820, height: 1180, touch: true }, async (device) => {
  page = device.page;
  crew = hand(page);
});

const AMENDS = { amends: 'second', amend_kind: 'replace' };
const joint = (
  row_id: string,
  seq: string,
  label: string,
  length: string,
  more: Record<string, string> = {},
) => ({
  row_id,
  hole: 'A',
  seq,
  action: 'add',
  item: 'joint',
  joint: label,
  length,
  tight: 'true',
  amends: '',
  amend_kind: '',
  ...more,
});
const TABLES: Record<string, Record<string, string>[]> = {
  holes: [{ hole: 'A', method: 'string', state: 'open' }],
  ground_levels: [{ hole: 'A', seq: '1', ground_below_reference: '0.20 m' }],
  string_items: [joint('first', '2', 'J1', '3.05 m'), joint('second', '3', 'J2', '3.05 m')],
  drives: [{ hole: 'A', seq: '4', stick_up_start: '5.90 m', stick_up_end: '0.45 m' }],
  soundings: [{ hole: 'A', seq: '5', purpose: 'after_drive', to_sediment: '1.10 m' }],
  runs: [
    {
      hole: 'A',
      seq: '6',
      run: 'R1',
      start_mark: '1.10 m',
      end_mark: '2.10 m',
      recovered: '0.90 m',
      loss_position: 'base',
      outcome: 'part',
    },
  ],
  pieces: [{ hole: 'A', seq: '7', run: 'R1', top: '0 m', bottom: '0.90 m' }],
};

/** Opens a campaign of these tables and its hole A. */
async function open(name: string, tables: typeof TABLES): Promise<void> {
  let document = newDocument(name);
  for (const [table, rows] of Object.entries(tables)) document = withRows(document, table, rows);
  await openCampaign(page, document, 'drill?hole=A');
  await page.getByRole('heading', { name: 'A', exact: true }).waitFor();
}

const line = (text: string) => page.locator('.book li', { hasText: text });
const value = (label: string) => page.locator('.entry').getByLabel(label);

test('the value pressed is the one in hand, and typing replaces it', async () => {
  await open('amending', TABLES);
  // The second value of the line, not the first field of the form.
  await line('Drive').locator('[data-column="stick_up_end"]').tap();
  await page.getByRole('heading', { name: 'Amend: Drive' }).waitFor();
  const field = value('Stick-up after');
  assert.equal(await field.inputValue(), '0.45 m');
  assert.ok(await field.evaluate((input) => document.activeElement === input));
  assert.deepEqual(
    await field.evaluate(({ selectionStart, selectionEnd }: HTMLInputElement) => [
      selectionStart,
      selectionEnd,
    ]),
    [0, 6],
    'selected whole',
  );

  // Saved without a change: it says so and stays.
  await crew.bar().tap();
  await page.locator('.act', { hasText: 'Nothing is changed' }).waitFor();
  assert.equal(await crew.does().textContent(), 'Save amendment');

  // On the keypad a digit replaces what stood there; one step back only shortens it.
  await crew.keys('52c');
  assert.equal(await field.inputValue(), '52 cm');
  await crew.bar().tap();
  await line('Drive').locator('s', { hasText: '0.45 m' }).waitFor();
  await line('Drive').locator('[data-column="stick_up_end"]').tap();
  await page.getByRole('region', { name: 'keypad' }).getByRole('button', { name: 'delete' }).tap();
  assert.equal(await field.inputValue(), '52');
  await page.getByRole('button', { name: 'Leave: Amend: Drive' }).tap();

  // A field pressed on the form is taken whole, too, and with the keys of a keyboard.
  await line('Drive').locator('[data-column="stick_up_start"]').tap();
  await field.tap();
  await page.keyboard.type('0.60 m');
  assert.equal(await field.inputValue(), '0.60 m');
  await crew.bar().tap();
  await line('Drive').locator('s', { hasText: '52 cm' }).waitFor();
  await allSaved(page);
});

test('a run with pieces is not withdrawn under them: it says why, and the form stays', async () => {
  await line('Run R1').locator('[data-column="recovered"]').tap();
  await page.getByRole('button', { name: 'Withdraw reading' }).tap();
  await page
    .locator('.store-news', { hasText: 'Run R1 of A has 1 reading, so it stays as it is.' })
    .waitFor();
  assert.equal(
    (await line('Run R1').count()) + (await page.getByRole('heading', { name: 'Amend: Run R1' }).count()) > 0,
    true,
  );
  assert.deepEqual(await violations(page), []);
  await page.getByRole('button', { name: 'Leave: Amend: Run R1' }).tap();
  await page.getByRole('button', { name: 'Close message' }).tap();
});

test('two tablets corrected one joint differently: nothing is shown for the string until one is chosen, by one press', async () => {
  await open('conflict', {
    ...TABLES,
    string_items: [
      ...TABLES['string_items']!,
      joint('mine', '3', 'J2', '2.95 m', { ...AMENDS, by: 'DK', device: 'tablet 1' }),
      joint('yours', '3', 'J2', '3.15 m', { ...AMENDS, by: 'KM', device: 'tablet 2' }),
    ],
  });
  await page.locator('.book [data-state="conflict"]', { hasText: 'amendments differ' }).waitFor();
  const shoe = page.locator('.numbers > div', { hasText: 'Shoe depth' }).locator('.value');
  assert.doesNotMatch((await shoe.textContent()) ?? '', /\d/, 'its length is not known');
  for (const [width, height] of [
    [820, 1180],
    [360, 740],
  ] as const) {
    await page.setViewportSize({ width, height });
    await line('J2').getByRole('button').tap();
    const choice = page.getByRole('region', { name: 'Amendments that differ' });
    await choice.waitFor();
    assert.deepEqual(await violations(page), [], `${width} px`);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth > innerWidth);
    assert.equal(wide, false, `${width} px: wider than the screen`);
    for (const button of await choice.getByRole('button').all()) {
      assert.ok((await button.boundingBox())!.height >= 48, 'a glove finds it');
    }
    if (width === 820) await page.getByRole('button', { name: 'Close: Added joint J2' }).tap();
  }
  await page.getByRole('button', { name: /Use length 2\.95 m.*DK, tablet 1/ }).tap();
  await page.setViewportSize({ width: 820, height: 1180 });
  await page.waitForFunction(() => document.querySelector('.book [data-state="conflict"]') === null);
  await line('J2').locator('s', { hasText: '3.05 m' }).waitFor();
  assert.match((await shoe.textContent()) ?? '', /\d/);
  await allSaved(page);
  assert.deepEqual(tablet.complaints, []);
});

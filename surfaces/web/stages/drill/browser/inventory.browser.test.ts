/**
 * Pipe by touch on the tablet: the shoe and three joints go in with two presses each and no keyboard, another label is
 * one press more, and a hole ends with a joint that is not accounted for, named and not refused.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, withRows } from '@stillstand/campaign/document';
import type { TableName } from '@stillstand/campaign/tables';
import type { Page } from 'playwright-core';
import { violations } from '../../../browser/axe.ts';
import { atRest, onDevice, openCampaign, served } from '../../../browser/browser.ts';

let page: Page;
let campaign: string;
/** Since it was last set to 0. */
let presses = 0;

const stock = (stock_item: string, length: string, item = 'joint') => ({ stock_item, item, length });
const TABLES: Partial<Record<TableName, Record<string, string>[]>> = {
  sites: [{ site: 'A' }],
  pipes: [{ pipe: '3 in', makeup_loss: '3 cm' }],
  samplers: [{ sampler: 'V50', length: '1.6 m' }],
  holes: [{ hole: 'H1', site: 'A', method: 'string', pipe: '3 in', state: 'open' }],
  ground_levels: [{ hole: 'H1', seq: '1', ground_below_reference: '0.27 m' }],
  pipe_stock: [
    stock('S1', '15 cm', 'shoe'),
    stock('A1', '1.52 m'),
    { ...stock('A2', '1.52 m'), condition: 'damaged' },
    stock('A3', '1.51 m'),
    stock('A4', '1.53 m'),
    stock('A5', '1.50 m'),
  ],
  permits: [
    {
      permit: 'Licence',
      kind: 'protected_ground',
      state: 'granted',
      closing_seal: 'bentonite',
      closing_report: 'coast office',
    },
  ],
  gear: [{ gear: 'rope 20 m', kind: 'rope', marks: 'red every metre' }],
};

onDevice({ width: 820, height: 1180, touch: true }, async (tablet) => {
  page = tablet.page;
  let document = newDocument('stock');
  for (const [name, rows] of Object.entries(TABLES)) document = withRows(document, name as TableName, rows);
  campaign = await openCampaign(page, document, 'drill');
  const away = page.getByRole('button', { name: 'Put the first steps away' });
  if ((await away.count()) > 0) await away.click();
  await page.locator('.drill').waitFor();
});

const does = (words: string) => page.locator('.act .does', { hasText: words });
async function press(words: string): Promise<void> {
  await does(words).waitFor();
  await page.locator('.act .action-bar').tap();
  presses++;
}
const value = (label: string): Promise<string> => page.getByLabel(label, { exact: true }).inputValue();
/** What a field in hand does to the keyboard of the device. */
const keyboard = () =>
  page.evaluate(() =>
    document.activeElement instanceof HTMLInputElement ? document.activeElement.inputMode : '',
  );

test('shoe and three joints: two presses each, nothing typed, no keyboard; the damaged one is passed over', async () => {
  // the safety questions come first, whatever the pipe
  await press('Site check');
  for (const yes of await page.locator('.site-check').getByRole('button', { name: 'yes', exact: true }).all())
    await yes.tap();
  await press('Close site check');
  const put = async (opens: () => Promise<void>, records: string, label: string, length: string) => {
    presses = 0;
    await opens();
    await page.locator('.entry').waitFor();
    assert.deepEqual([await value('Label'), await value('Length if read')], [label, length]);
    assert.equal(await page.locator('.entry .field-row em', { hasText: 'assumed' }).count(), 1);
    assert.equal(await keyboard(), 'none');
    await press(records);
    assert.ok(presses <= 2, `${label}: ${presses} presses`);
    await page.locator('.entry').waitFor({ state: 'detached' });
  };
  await put(() => press('Add the shoe'), 'Record what was added', 'S1', '15 cm');
  await put(() => press('Add the first joint'), 'Record the joint', 'A1', '1.52 m');
  for (const [label, length] of [
    ['A3', '1.51 m'],
    ['A4', '1.53 m'],
  ] as const) {
    await put(
      async () => {
        await page.locator('.drill-tools').getByRole('button', { name: /joint/i }).tap();
        presses++;
      },
      'Record the joint',
      label,
      length,
    );
  }
});

test('another label is pressed, or typed once the keyboard is asked for; a damaged one is a caution', async () => {
  await page.locator('.drill-tools').getByRole('button', { name: /joint/i }).tap();
  assert.equal(await value('Label'), 'A5');
  assert.deepEqual(await violations(page, 'all'), []);
  await page.getByRole('button', { name: 'Type another' }).tap();
  assert.equal(await keyboard(), 'text');
  await page.keyboard.type('a2');
  assert.equal(await value('Label'), 'a2');
  await page.locator('.says', { hasText: 'Joint A2 is damaged' }).waitFor();
  assert.equal(await value('Length if read'), '');
  await page.locator('.pad').getByRole('button', { name: /^A5/ }).tap();
  assert.deepEqual([await value('Label'), await value('Length if read')], ['A5', '1.50 m']);
  await page.getByRole('button', { name: /^Leave: Add/ }).tap();
});

test('the hole ends with a joint unaccounted for: its label is a caution, and it is recorded', async () => {
  await page.getByRole('button', { name: 'Other event' }).tap();
  await page.getByRole('button', { name: /^Pull the string/ }).tap();
  await page.locator('.entry .field-row', { hasText: 'Condition' }).tap();
  await page.locator('.pad').getByRole('button', { name: 'damaged', exact: true }).tap();
  await press('Record as pulled');
  await press('Pull joint A3');
  await press('Record as pulled');
  await page.getByRole('button', { name: 'Other event' }).tap();
  await page.getByRole('button', { name: /^End the hole/ }).tap();
  const tally = page.getByRole('region', { name: 'Pipe tally' });
  await tally.getByText('Not accounted for: shoe S1; joint A1').waitFor();
  const said = (await tally.textContent()) ?? '';
  assert.match(said, /Into the string4 items/);
  assert.match(said, /Came backjoint A3/);
  assert.match(said, /Damagedjoint A4/);
  await page.getByText('Permits demand at the end of this hole').waitFor();
  await page.getByText('Licence: seal: bentonite; report to coast office').waitFor();
  assert.deepEqual(await violations(page, 'all'), []);
  await press('End hole');
  await page.locator('.entry').waitFor({ state: 'detached' });
  // under Plan each is where it is
  await page.goto(`${await served()}#/${campaign}/plan`);
  const table = page.locator('.stock');
  const where = async (label: string) =>
    (await table
      .locator('tr', { has: page.getByRole('button', { name: label, exact: true }) })
      .textContent()) ?? '';
  await table.waitFor();
  assert.match(await where('A1'), /not accounted for in H1/);
  assert.match(await where('A4'), /damaged, last in H1/);
  assert.match(await where('A5'), /in stock/);
  await table.getByRole('button', { name: 'Mark A4 sound' }).tap();
  await table.getByText('pulled from H1').nth(1).waitFor();
});

test('a series is added in one act', async () => {
  const table = page.locator('.stock');
  await table.getByRole('button', { name: 'Add series of joints' }).tap();
  const dialog = page.getByRole('dialog', { name: 'Add series of joints' });
  await dialog.getByLabel('First label', { exact: true }).fill('A5');
  await dialog.getByLabel('Last label', { exact: true }).fill('A8');
  await dialog.getByLabel('Length of each', { exact: true }).fill('1.52 m');
  await dialog.getByText('A5: in the stock already').waitFor();
  assert.deepEqual(await violations(page, 'all'), []);
  await dialog.getByRole('button', { name: 'Add 3 items' }).tap();
  await table.getByRole('button', { name: 'A8', exact: true }).waitFor();
  // taller than any screen: axe takes what the bar at the foot cuts off for a target too small
  await page.setViewportSize({ width: 820, height: 6000 });
  await atRest(page);
  assert.deepEqual(await violations(page, 'all'), []);
});

/**
 * The order of readings by hand: two of one place are asked about once, in the log, with what depends on it, and a press
 * settles it; where nothing depends on it, it is only said. A forgotten reading is moved to its place in its own dialog.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, withRows } from '@stillstand/campaign/document';
import type { Page } from 'playwright-core';
import { violations } from '../../../browser/axe.ts';
import { allSaved, onDevice, openCampaign } from '../../../browser/browser.ts';

let page: Page;
onDevice({ width: 820, height: 1180, touch: true }, async (device) => {
  page = device.page;
});

const at = (clock: string): string => `2024-03-05T${clock}:00+08:00`;
const TABLES: Record<string, Record<string, string>[]> = {
  holes: [{ hole: 'A', method: 'string', state: 'open' }],
  ground_levels: [{ hole: 'A', seq: '1', ground_below_reference: '0.20 m' }],
  string_items: [
    { hole: 'A', seq: '2', action: 'add', item: 'joint', joint: 'J1', length: '3.00 m', tight: 'true' },
  ],
  drives: [
    { hole: 'A', seq: '3', time: at('09:40'), stick_up_start: '2.80 m', stick_up_end: '0.50 m' },
    { hole: 'A', seq: '4', time: at('10:20'), stick_up_start: '0.50 m', stick_up_end: '0.20 m', by: 'DK' },
  ],
  runs: [
    {
      hole: 'A',
      seq: '4',
      time: at('10:05'),
      run: 'R1',
      start_mark: '1.50 m',
      end_mark: '2.10 m',
      recovered: '0.50 m',
      loss_position: 'base',
      outcome: 'part',
      by: 'KM',
    },
  ],
  soundings: [
    { hole: 'A', seq: '5', time: at('10:30'), to_water_inside: '0.60 m', by: 'KM' },
    { hole: 'A', seq: '6', time: at('09:50'), purpose: 'after_drive', to_sediment: '1.10 m', by: 'DK' },
  ],
  events: [{ hole: 'A', seq: '5', time: at('10:31'), kind: 'note', text: 'shells in the wash', by: 'DK' }],
};

async function open(stage: string): Promise<void> {
  let document = newDocument('order');
  for (const [table, rows] of Object.entries(TABLES)) document = withRows(document, table, rows);
  await openCampaign(page, document, stage);
}

test('the log asks once which of two came first, says what depends on it, and a press settles it', async () => {
  await open('drill?hole=A');
  const asked = page.locator('.book .which-first');
  const which = asked.filter({ hasText: 'Two readings hold one place: which came first?' });
  await which.waitFor();
  assert.match((await which.textContent()) ?? '', /10:05 Run R1.*KM/s);
  // Tip 2.10 m − stick-up 0.50 or 0.20 − ground 0.20: worked by hand in campaign/order.
  await which.filter({ hasText: 'depth of run R1 1.40 or 1.70 m' }).waitFor();
  await asked.filter({ hasText: '2 readings hold one place. Their order changes no number.' }).waitFor();
  assert.equal(await asked.count(), 2);
  assert.deepEqual(await violations(page), []);

  await which.getByRole('button', { name: 'Put first: 10:05 Run R1' }).tap();
  await which.waitFor({ state: 'detached' });
  await page.getByRole('status').filter({ hasText: 'Order recorded.' }).waitFor({ state: 'attached' });
  const names = await page.locator('.book li > button .what').allTextContents();
  const run = names.findIndex((name) => name.startsWith('Run R1'));
  assert.ok(names[run + 1]?.startsWith('Drive'), names.join('; '));
  await allSaved(page);
});

test('a forgotten reading is moved next to its neighbour, and back, in its own dialog', async () => {
  await open('plan');
  await page.getByRole('button', { name: /^Menu/ }).tap();
  await page.getByRole('button', { name: /^\d+ problems$/ }).tap();
  await page.locator('.problems').getByRole('button').filter({ hasText: 'run R1' }).first().tap();
  const dialog = page.getByRole('dialog', { name: 'Hole A, run R1', exact: true });
  await dialog.getByRole('button', { name: 'Move before or after…' }).tap();
  const neighbour = dialog.getByLabel('Neighbour', { exact: true });
  // Next to the reading it is beside now.
  assert.match((await neighbour.locator('option:checked').textContent()) ?? '', /^4: Drive at 10:20/);
  assert.deepEqual(await violations(page), []);
  await neighbour.selectOption({ label: '2: String item J1 of A' });
  await dialog.getByRole('button', { name: 'Move after neighbour' }).tap();
  await dialog.getByText('Number 2.5 in the order; first written as number 4.').waitFor();
  await dialog.getByText('Move to number 2.5').waitFor();
  await dialog.getByRole('button', { name: 'Move before or after…' }).tap();
  await neighbour.selectOption({ label: '4: Drive at 10:20 of A' });
  await dialog.getByRole('button', { name: 'Move before neighbour' }).tap();
  await dialog.getByText('Number 3.5 in the order; first written as number 4.').waitFor();
  await allSaved(page);
});

/** A planned sample on the rig, by touch: said when its core came up, taken with one press of a cold hand. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, withRows } from '@stillstand/campaign/document';
import type { TableName } from '@stillstand/campaign/tables';
import type { Page } from 'playwright-core';
import { violations } from '../../../browser/axe.ts';
import { atRest, onDevice, openCampaign } from '../../../browser/browser.ts';

let page: Page;

const push = (seq: string, name: string, from: string, to: string) => ({
  ...{ hole: 'H1', seq, push: name, from, to, recovered: '1 m' },
  time: `2026-03-01T0${seq}:00:00Z`,
});
const planned = (sample: string, top: string, bottom: string) => ({
  sample,
  hole: 'H1',
  top,
  bottom,
  material: 'peat',
});
const TABLES: Partial<Record<TableName, Record<string, string>[]>> = {
  holes: [{ hole: 'H1', method: 'hand', state: 'open' }],
  pushes: [push('1', 'P1', '0 m', '1 m'), push('2', 'P2', '1 m', '2 m')],
  planned_samples: [planned('S3', '1.60 m', '1.62 m'), planned('S4', '2.40 m', '2.42 m')],
};

onDevice({ width: 360, height: 740, touch: true }, async (phone) => {
  page = phone.page;
  let document = newDocument('planned');
  for (const [name, rows] of Object.entries(TABLES)) document = withRows(document, name as TableName, rows);
  await openCampaign(page, document, 'drill');
  const away = page.getByRole('button', { name: 'Put the first steps away' });
  if ((await away.count()) > 0) await away.click();
  await page.locator('.drill').waitFor();
});

test('what is planned in a core that came up is said, cut where the core has it, and taken by one press', async () => {
  const here = page.getByRole('group', { name: 'Planned in these cores' });
  const take = here.getByRole('button', { name: /^Take S3/ });
  await take.waitFor();
  assert.match(
    (await take.textContent()) ?? '',
    /Planned here: 1\.60–1\.62 m\. Cut P2 at 0\.60–0\.62 m\. peat/,
  );
  // What is deeper than any core waits.
  assert.equal(await here.getByRole('button').count(), 1);
  const box = await take.boundingBox();
  assert.ok(box !== null && box.height >= 48 && box.width >= 48, JSON.stringify(box));
  await atRest(page);
  assert.deepEqual(await violations(page), []);
  // Pressed twice by a cold hand, before anything is computed, it is taken once all the same.
  await take.evaluate((button: HTMLElement) => {
    button.addEventListener('click', () => setTimeout(() => button.click()), { once: true });
  });
  await take.tap();
  await page.getByText('S3 taken from P2, 0.60–0.62 m.').waitFor({ state: 'attached' });
  await take.waitFor({ state: 'detached' });
  await page.goto(page.url().replace(/#\/([0-9a-f]{12}).*/, '#/$1/describe?view=chain&hole=H1&sample=S3'));
  await page.getByRole('heading', { name: 'Sample S3' }).waitFor();
  const list = page.getByRole('region', { name: 'List' });
  assert.deepEqual(await list.locator('li b').allTextContents(), ['S3', 'H1 P1', 'H1 P2']);
  assert.equal(await page.getByRole('button', { name: /problem/ }).count(), 0);
});

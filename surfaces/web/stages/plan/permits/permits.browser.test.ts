/** Gear, permits and risks on Plan in a real browser: entered in place, kept, and said again on a new day. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, withRows } from '@stillstand/campaign/document';
import type { Locator, Page } from 'playwright-core';
import { violations } from '../../../browser/axe.ts';
import { allSaved, onDevice, openCampaign } from '../../../browser/browser.ts';

let campaign = withRows(newDocument('Shore'), 'sites', [{ site: 'A' }]);
campaign = withRows(campaign, 'pipes', [{ pipe: 'P', outside_diameter_mm: '88.9', wall_mm: '4.45' }]);
campaign = withRows(campaign, 'holes', [
  { hole: 'H1', site: 'A', method: 'string', state: 'planned', target_depth: '9.6 m', pipe: 'P' },
]);
campaign = withRows(campaign, 'field_days', [
  { date: '2024-03-05', crew: 'geologist, driller', permits: 'licence, driller carries it' },
]);
campaign = withRows(campaign, 'permits', [
  {
    permit: 'Licence',
    kind: 'protected_ground',
    state: 'granted',
    until: '2024-03-05',
    conditions: 'No vehicle',
  },
]);

const at = onDevice({}, async ({ page }) => {
  await page.clock.install({ time: new Date('2024-03-05T07:00:00Z') });
});
const section = (page: Page, name: string): Locator => page.locator(`.${name}`);
const words = async (of: Locator): Promise<string> => ((await of.textContent()) ?? '').replace(/\s+/g, ' ');

test('what must be known before drilling stops, is begun with one key and ends with its answer', async () => {
  const { page } = at;
  await openCampaign(page, campaign);
  await page.goto(page.url().replace(/(#\/[0-9a-f]{12}).*/, '$1/plan'));
  const permits = section(page, 'permits');
  await permits.getByText('Find out before drilling: buried services').waitFor();
  await permits.getByText('granted, expires at the end of this day').waitFor();
  await permits.getByText('Licence: No vehicle.').waitFor();
  await permits.getByRole('button', { name: 'Add buried services' }).click();
  await permits.getByText('Find out before drilling: buried services (not asked for)').first().waitFor();
  await permits.getByLabel('State', { exact: true }).selectOption('not_needed');
  await permits.getByText('Find out before drilling: buried services').first().waitFor({ state: 'detached' });
  // Nothing that is typed is refused: a date that is none is named, and stops.
  await permits.getByLabel('State', { exact: true }).selectOption('granted');
  await permits.getByLabel('Valid until', { exact: true }).fill('31.12.2024');
  await permits.getByLabel('Valid until', { exact: true }).press('Enter');
  await permits.getByText('Buried services: granted, but “31.12.2024” is not a date').waitFor();
  await permits.getByLabel('Valid until', { exact: true }).fill('2024-12-31');
  await permits.getByLabel('Valid until', { exact: true }).press('Enter');
  await permits.getByText('granted until 2024-12-31').waitFor();
});

test('the gear list: computed, an amount of 1000 L named and kept, a tick that is of its day', async () => {
  const { page } = at;
  const gear = section(page, 'gear-list');
  // 9.6 + 2 × 5 + 5 × π × 0.2 = 22.74
  await gear.getByText('9.60 m deep, mast up and down 10.00 m, 5 turns on the drum 3.14 m').waitFor();
  assert.equal(await gear.getByLabel('Amount of Sampler cable, m').inputValue(), '23');
  // 9.6 m × 5.0265 L/m, twice: 96.5
  const water = gear.getByLabel('Amount of Water to fill the pipe, L');
  assert.equal(await water.inputValue(), '97');
  await water.fill('1000');
  await water.press('Enter');
  await gear.getByText('1000 L is more than 5 times the 97 L computed. Check unit and amount.').waitFor();
  await water.fill('');
  await water.press('Enter');
  await gear.getByText(/more than 5 times/).waitFor({ state: 'detached' });
  assert.equal(await water.inputValue(), '97');
  await gear.getByLabel('Own line', { exact: true }).fill('Kettle');
  await gear.getByRole('button', { name: 'Add line' }).click();
  await gear.getByRole('button', { name: 'Delete Kettle' }).waitFor();
  await gear.getByLabel('Packed: Fuel').check();
  await gear.getByText('Assumptions of the list: the usual ones').click();
  await gear.getByLabel('Core in one tray', { exact: true }).fill('-1');
  await gear.getByText('Found “-1”; expected a number from 0.1 to 20 m. 1 m is used until then.').waitFor();
  await gear.getByLabel('Core in one tray', { exact: true }).fill('1.2');
  await gear.getByLabel('Core in one tray', { exact: true }).press('Enter');
  await gear.getByText('9.60 m of core, 1.20 m in each').waitFor();
  assert.equal(await gear.getByLabel('Amount of Trays or core boxes').inputValue(), '8');
});

test('the risk sheet starts from the cautions; a risk that stays high is a danger, on the page and on paper', async () => {
  const { page } = at;
  const risks = section(page, 'risks');
  await risks.getByRole('button', { name: 'Start from the cautions' }).click();
  await risks.locator('summary', { hasText: 'Overhead line within reach of the mast' }).click();
  await risks.getByLabel('Residual', { exact: true }).selectOption('high');
  await risks.getByText('Overhead line within reach of the mast. Do not start this work.').waitFor();
  await risks.getByRole('button', { name: 'Show risk sheet' }).click();
  await risks.locator('.report-page').getByText('residual risk high').waitFor();
  assert.deepEqual(await violations(page), []);
  await page.emulateMedia({ media: 'print' });
  assert.equal(await page.locator('#app').isVisible(), false);
  assert.match(await words(page.locator('.risk-paper h1')), /Risk assessment 2024-03-05/);
  await page.emulateMedia({ media: null });
  // A row that is added where one before it was deleted has a label of its own.
  const add = risks.getByRole('button', { name: 'Add risk' });
  await add.click();
  const overhead = risks.locator('li', { hasText: 'Overhead line within reach of the mast' });
  await overhead.getByRole('button', { name: 'Delete risk' }).click();
  await overhead.waitFor({ state: 'detached' });
  await add.click();
  const names = await risks.locator('summary b').allTextContents();
  assert.equal(new Set(names).size, names.length, names.join(', '));
});

test('a new day: people and permits are those of the day before, the licence has expired, nothing is packed', async () => {
  const { page } = at;
  await allSaved(page);
  await page.getByRole('button', { name: 'Choose date' }).click();
  await page.getByLabel('Date of the day').fill('2024-03-06');
  await page.getByRole('button', { name: 'Start day' }).click();
  await page.getByText('As on 2024-03-05: crew, permits. Check each.').waitFor();
  await section(page, 'permits').getByText('Licence: expired 2024-03-05, 1 day before this day').waitFor();
  const gear = section(page, 'gear-list');
  assert.equal(await gear.getByLabel('Packed: Fuel').isChecked(), false);
  await gear.getByRole('button', { name: 'Delete Kettle' }).waitFor();
  await page.getByLabel('Which day').selectOption({ label: '2024-03-05' });
  assert.equal(await gear.getByLabel('Packed: Fuel').isChecked(), true);
});

test('without a day the strip goes by the permits and ticks of today, as the page does', async () => {
  const { page } = at;
  const expired = { permit: 'Licence', kind: 'protected_ground', state: 'granted', until: '2024-03-04' };
  const joints = ['A1', 'A2', 'A3', 'A4', 'A5', 'A6', 'A7', 'A8'].map((stock_item) => ({
    stock_item,
    item: 'joint',
    length: '3.05 m',
  }));
  let dayless = withRows(withRows(campaign, 'field_days', []), 'permits', [expired]);
  dayless = withRows(dayless, 'pipe_stock', joints);
  // Nothing is short: the strip counts what is not packed.
  const rated = ['rope', 'winch', 'sheave block', 'hook', 'shackle', 'mast', 'anchor'].map((part) => ({
    part,
    marking: '50 kN',
  }));
  dayless = withRows(dayless, 'rated_gear', rated);
  await openCampaign(page, dayless);
  await page.goto(page.url().replace(/(#\/[0-9a-f]{12}).*/, '$1/plan'));
  await section(page, 'permits').getByText('Do not drill').waitFor();
  const cell = (name: string): Locator => section(page, 'plan-strip').getByRole('button', { name });
  assert.equal(await cell('Hazards').getAttribute('data-state'), 'stop');
  const list = section(page, 'gear-list');
  const left = list.getByText(/^\d+ lines? not packed/);
  const count = Number.parseInt((await left.textContent()) ?? '', 10);
  await list
    .getByLabel(/^Packed: /)
    .first()
    .check();
  await list.getByText(new RegExp(`^${count - 1} lines? not packed`)).waitFor();
  assert.match(await words(cell('Gear')), new RegExp(`\\b${count - 1} not packed`));
});

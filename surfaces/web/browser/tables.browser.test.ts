/** Tables of one's own in the app: a calibration curve chosen for a date, laboratory values shown with their sample. */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { readFiles } from '@stillstand/campaign/document';
import type { Page } from 'playwright-core';
import { onDevice, openCampaign, openOtherTables, served } from './browser.ts';

let page: Page;
let site: string;
onDevice({}, async (at) => {
  page = at.page;
  const folder = join(import.meta.dirname, '..', '..', '..', 'demo', 'campaign');
  const tables = readdirSync(folder)
    .filter((name) => /\.(csv|json)$/.test(name))
    .map((name) => [name, new Uint8Array(readFileSync(join(folder, name)))] as const);
  // Twenty years ahead of the calendar at every age.
  const rows = [0, 2000, 4000, 9000].map((age) => `Lagoon 2024,${age},${age + 20},40,atmosphere,invented`);
  const curve = ['curve,age_cal_bp,c14_age,c14_error,reservoir,source', ...rows].join('\n');
  const values = readFileSync(join(folder, 'measurements.csv'), 'utf8').trimEnd().split('\n');
  const [heading] = values as [string];
  const limit = heading
    .split(',')
    .map((name) => ({ sample: 'T2-05', property: 'chlorinity', value: '<0.5', unit: 'g/L' })[name] ?? '')
    .join(',');
  const text = (csv: string): Uint8Array => new TextEncoder().encode(`${csv}\n`);
  const { document } = readFiles(
    new Map([
      ...tables,
      ['calibration_curves.csv', text(curve)],
      ['measurements.csv', text([...values, limit].join('\n'))],
    ]),
  );
  const id = await openCampaign(page, document, 'date');
  site = `${await served()}#/${id}`;
});

test('a date is calibrated on a curve of one’s own, which the form offers by its name', async () => {
  await page.getByRole('button', { name: 'INV-2522, sample M2-01', exact: true }).click();
  const curve = page.getByLabel('Calibration curve', { exact: true });
  await curve.selectOption('Lagoon 2024');
  // The date says 2,914: 20 less on that line.
  await page.locator('.age-answer .median', { hasText: '2,894' }).waitFor();
  await page.goto(`${site}/plan`);
  await openOtherTables(page);
  const rows = page.getByRole('table', { name: 'Calibration curves of your own' });
  await rows.getByText('Lagoon 2024').first().waitFor();
  assert.equal(await rows.getByText('9,000').or(rows.getByText('9000')).count(), 1);
});

test('what a laboratory measured is shown with its sample, a limit as what it is', async () => {
  await page.goto(`${site}/describe?hole=T2`);
  await page.getByRole('button', { name: /^Sample T2-05/ }).click();
  const values = page.getByRole('region', { name: 'Laboratory values' });
  await values.getByText('49.9').waitFor();
  assert.match((await values.textContent())!.replace(/\s+/g, ' '), /chlorinity\s*below 0\.5\s*g\/L/);
});

/** Two sites in a real browser: a curve each, shown in turn, joined and parted; points of the literature with them. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { CampaignDocument } from '@stillstand/campaign/document';
import type { Locator, Page } from 'playwright-core';
import { onDevice, openCampaign } from '../../browser/browser.ts';
import { type Cells, documentOf } from '../../browser/document-of.ts';

let page: Page;
onDevice({}, async (at) => {
  page = at.page;
});

/** Index points of two sites, those of B two metres lower, and one published point of each. */
function twoCoasts(): CampaignDocument {
  const of = (site: string, lower_m: number, ages: readonly number[]) =>
    ages.map((age) => ({
      site,
      age,
      label: `${site}${age}`,
      elevation_m: String(0.8 - age / 1000 - lower_m),
    }));
  const claims = [...of('A', 0, [1000, 2000, 3000, 4000]), ...of('B', 2, [1500, 2500, 3500])];
  const tables: Record<string, Cells[]> = {
    settings: Object.entries({
      datum: 'MSL',
      chains: '2',
      draws: '100',
      outliers: 'off',
      intervals: '3000-2000',
    }).map(([name, value]) => ({ name, value })),
    datums: [{ datum: 'MSL', kind: 'mean_sea_level' }],
    sites: [{ site: 'A' }, { site: 'B' }],
    tide_levels: ['A', 'B'].flatMap((site) => [
      { site, level: 'MHW', datum: 'MSL', elevation_m: '0.8', sigma_m: '0.05' },
      { site, level: 'HAT', datum: 'MSL', elevation_m: '1.4', sigma_m: '0.05' },
    ]),
    samples: claims.map(({ site, label, elevation_m }) => ({
      sample: `S-${label}`,
      depth_basis: 'elevation',
      site,
      elevation_m,
      elevation_sigma_m: '0.1',
      elevation_datum: 'MSL',
    })),
    determinations: claims.map(({ label, age }) => ({
      lab_code: `INV-${label}`,
      sample: `S-${label}`,
      method: 'luminescence',
      value: String(age),
      error: '60',
      reference_year: '1950',
    })),
    points: claims.map(({ label }) => ({
      point: `P-${label}`,
      sample: `S-${label}`,
      kind: 'index',
      lower: 'MHW',
      upper: 'HAT',
      status: 'accepted',
    })),
    other_curves: [3000, 1500].map((age) => ({
      curve: 'Coast C',
      age_cal_bp: String(age),
      level_m: String(-age / 1000),
      level_sigma_m: '0.2',
      datum: 'MSL',
    })),
    compiled_points: ['A', 'B'].map((site) => ({
      point: `L-${site}`,
      site,
      source: 'Invented 2001',
      kind: 'index',
      rsl_m: site === 'A' ? '-2.4' : '-4.4',
      rsl_2sigma_m: '0.6',
      age_cal_bp: '2200',
      age_2sigma_yr: '200',
    })),
  };
  return documentOf('Two coasts', tables);
}

const final = (): Promise<void> => page.locator('[data-curve="final"]').waitFor();
const words = async (at: Locator): Promise<string> => (await at.textContent()) ?? '';
const shown = (): Locator => page.getByLabel('Curve shown');
test('each site has its curve; numbers, questions and trace are of the one shown', async () => {
  await openCampaign(page, twoCoasts(), 'curve');
  await final();
  assert.deepEqual(await shown().locator('option').allTextContents(), ['A, of the report', 'B']);
  const level = async (): Promise<string> => {
    const said = page.locator('.questions .said b').first();
    await said.waitFor();
    return words(said);
  };
  const highest = await level();
  await page.getByRole('heading', { name: 'This curve less Coast C' }).waitFor();
  await shown().selectOption({ label: 'B' });
  await page.waitForURL(/curve=B/);
  await final();
  await page.getByText('1 other curve: compared with the curve of the report alone.').waitFor();
  assert.notEqual(await level(), highest);
  assert.match(await words(page.getByRole('status').first()), /3 points used, 4 of other sites/);
  // Down to the samples of B alone.
  await page.locator('.curve .number .value').first().click();
  const trace = page.getByRole('region', { name: /Where/ }).or(page.locator('.trace')).first();
  await trace.waitFor();
  const told = await words(trace);
  assert.match(told, /P-B/);
  assert.doesNotMatch(told, /P-A/);
  // The address is enough to come back to it.
  await page.reload();
  await final();
  assert.equal(await shown().inputValue(), 'B');
});

test('sites are put on one curve and parted again; one Undo takes either back', async () => {
  await openCampaign(page, twoCoasts(), 'curve');
  await final();
  await page.getByText('Sites and their curves').click();
  await page.getByLabel('Curve of B').selectOption({ label: 'together with A' });
  await final();
  await page.locator('.curve-state', { hasText: '7 points used' }).waitFor();
  assert.equal(await shown().count(), 0);
  await page.keyboard.press('Control+z');
  await shown().waitFor();
  await final();
  await page.locator('.curve-state', { hasText: '4 points used, 3 of other sites' }).waitFor();
  await page.getByLabel('Curve of the report').selectOption({ label: 'of B' });
  await page.locator('.curve-state', { hasText: '3 points used, 4 of other sites' }).waitFor();
  await final();
  assert.deepEqual(await shown().locator('option').allTextContents(), ['B, of the report', 'A']);
});

test('points of the literature are listed, and each opens its row', async () => {
  await openCampaign(page, twoCoasts(), 'points');
  const list = page.getByRole('region', { name: 'Published points' });
  await list.getByRole('button', { name: /L-A.*−2\.4.*2,200/ }).click();
  const row = page.getByRole('dialog');
  await row.waitFor();
  assert.equal(await row.getByLabel('Source', { exact: true }).inputValue(), 'Invented 2001');
});

/**
 * From a spreadsheet of cores to a dated column, in the app alone: messy tables of cores, layers and dates by core and
 * depth, on a laptop and on a phone; what is asked is counted.
 */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { newDocument, withRows } from '@stillstand/campaign/document';
import type { Page } from 'playwright-core';
import { atRest, devices, openCampaign } from '../browser/browser.ts';

const start = devices();

/** Invented; as such tables are: a title, two lines of headings, a line of units, feet, words of the trade, a footnote. */
const CORES = `Table 1. Cores of the marsh,,,,,
Core,Location,,Surface,Method,Remark
,Lat,Long,elevation,,
,deg,deg,cm NAVD88,,
MA-1,44.1021,-68.4410,112,vibracore,near the dyke
MA-2,44.1034,-68.4423,96.5,vibracore,
MA-3,44.1050,-68.4441,1O4,vibracore,
* invented for this test,,,,,
`;
const LAYERS = `Core;Top (cm);Bottom (cm);Sediment;Colour
MA-1;0;35,5;fibrous peat;10YR 3/2
;35,5;120;sandy mud;2.5Y 4/1
;120;210;sand;
MA-2;0;44;peat;
;44;180;mud;
`;
const DATES = `Core\tDepth (cm)\tLab no.\tMaterial\t14C age (BP)\t±
MA-1\t33-35\tINV-1\tpeat\t1240\t30
MA-1\t118\tINV-2\tpeat\t2880\t35
MA-2\t42 - 44\tINV-3\tpeat\t> 48,000\t
MA-2\t43\tINV-4\tpeat\tND\t
`;

async function choose(page: Page, name: string, text: string): Promise<void> {
  await page.locator('input[type="file"]').setInputFiles({
    name,
    mimeType: 'text/csv',
    buffer: Buffer.from(text),
  });
  await page.getByRole('region', { name: 'Every line' }).waitFor();
}

/** Answers a question about the table; counted. */
let decisions = 0;
async function decide(page: Page, question: RegExp, word: string): Promise<void> {
  decisions++;
  const line = page.locator('.import-asked li', { hasText: question });
  if ((await line.locator('select').count()) > 0) await line.locator('select').selectOption(word);
  else if ((await line.locator('input').count()) > 0) {
    await line.locator('input').fill(word);
    await line.locator('input').press('Enter');
  } else await line.getByRole('button', { name: word, exact: true }).click();
}

/** Of the cores: a letter O for a nought is named, and corrected in its cell. */
async function addCorrected(page: Page): Promise<void> {
  const cell = page.getByLabel(/elevation.*, line 7$/);
  await cell.fill('104');
  await cell.press('Enter');
  await cell.waitFor({ state: 'detached' });
  await page.getByRole('button', { name: /^Add \d+ rows$/ }).click();
  await page.getByRole('heading', { name: 'Import a table' }).waitFor({ state: 'detached' });
}

const isWide = (page: Page): Promise<boolean> =>
  page.evaluate(() => document.documentElement.scrollWidth > innerWidth);

const to = async (page: Page, stage: string): Promise<void> => {
  await page.evaluate((name) => {
    const [campaign] = location.hash.replace(/^#\/?/, '').split('/');
    location.hash = `#/${campaign}/${name}?view=import`;
  }, stage);
  await page.getByRole('heading', { name: 'Import a table' }).waitFor();
};

for (const [width, height] of [
  [1440, 900],
  [390, 844],
] as const) {
  test(`cores, layers and dates from three messy tables, ${width} px`, async () => {
    const { page, complaints } = await start({ width, height, touch: width < 700 });
    decisions = 0;
    await openCampaign(page, newDocument('Marsh'));
    await to(page, 'plan');
    await choose(page, 'cores.csv', CORES);
    await atRest(page);
    assert.equal(await isWide(page), false, 'cores');
    assert.equal(await page.getByLabel('What it is about', { exact: true }).inputValue(), 'cores');
    assert.match((await page.getByRole('region', { name: 'Rows to add' }).textContent()) ?? '', /44\.1021/);
    assert.equal(await page.getByRole('heading', { name: /site/ }).count(), 0, 'a latitude is no site');
    await addCorrected(page);

    await to(page, 'describe');
    await choose(page, 'layers.csv', LAYERS);
    await atRest(page);
    assert.equal(await isWide(page), false, 'layers');
    await page.getByRole('heading', { name: '5 units to add' }).waitFor();
    await page.getByRole('button', { name: /^Add \d+ rows$/ }).click();
    await page.getByRole('heading', { name: 'Import a table' }).waitFor({ state: 'detached' });

    await to(page, 'date');
    await choose(page, 'dates.txt', DATES);
    await decide(page, /On which curve/, 'shcal20');
    await page.getByRole('heading', { name: /^4 dates to add/ }).waitFor();
    // a limit and a value that is none are kept as what they are
    const rows = (await page.getByRole('region', { name: 'Rows to add' }).textContent()) ?? '';
    assert.match(rows, /greater[ _]than/);
    assert.match(rows, /not[ _]determined/);
    await page.getByRole('button', { name: /^Add \d+ rows$/ }).click();
    await page.locator('table.dates').getByText('INV-1').first().waitFor();
    console.log(`${decisions} decisions for three tables, ${width} px`);
    assert.ok(decisions <= 2);

    // one Undo removes a whole table
    await page.keyboard.press('Control+z');
    await page.locator('table.dates').getByText('INV-1').first().waitFor({ state: 'detached' });
    assert.deepEqual(complaints, []);
  });
}

/** Invented: a value that is no number, two points of one name, a heading that nobody knows. */
const POINTS = `Point,Kind,Source,Corrected level (m),2s (m),c14_age_bp,c14_error
P1,index,A,-4.5,0.6,7615,149
P2,index,A,-3.5,0.5,4257,196
P2,index,A,-9.5,0.5,6257,90
`;

test('a column is asked for, a label twice is corrected by keyboard, and who leaves finds all as it was', async () => {
  const { page, complaints } = await start({ width: 1440, height: 900 });
  await openCampaign(page, newDocument('Marsh'));
  await to(page, 'points');
  await choose(page, 'points.csv', POINTS);
  await page.getByLabel('What it is about', { exact: true }).selectOption('published-points');
  const status = page.locator('.import-lines [role=status]');
  assert.match((await status.textContent()) ?? '', /3 waiting for a decision above, 0 with something wrong/);
  await decide(page, /Which column has “relative sea level”/, 'Corrected level (m)');
  await decide(page, /Which column has “2 sigma/, '2s (m)');
  const cell = page.getByLabel('Point, line 4');
  await cell.waitFor();
  // the question is gone, and the keyboard is at what is next
  await page.waitForFunction(() => document.activeElement?.getAttribute('aria-label') === 'Point, line 4');

  await page.getByRole('button', { name: 'Leave the import' }).click();
  await page.getByRole('heading', { name: 'Import a table' }).waitFor({ state: 'detached' });
  await to(page, 'points');
  await cell.fill('P3');
  await cell.press('Enter');
  await cell.waitFor({ state: 'detached' });
  await page.waitForFunction(() => document.activeElement?.getAttribute('role') === 'status');
  // corrections are not discarded unasked
  await page.getByRole('button', { name: 'Choose another file' }).click();
  await page.getByRole('dialog').getByRole('button', { name: 'Keep this table' }).click();
  await page.getByRole('button', { name: 'Add 3 rows' }).click();
  await page.getByRole('heading', { name: 'Import a table' }).waitFor({ state: 'detached' });

  // headed alike: nothing is asked again; what is there is said with the values of both
  await to(page, 'points');
  await choose(
    page,
    'more.csv',
    POINTS.replace('-3.5', '-3.7').replace(/P2,index,A,-9.*\n/, 'P4,index,A,-1,1,900,30\n'),
  );
  await page.getByLabel('What it is about', { exact: true }).selectOption('published-points');
  await page.getByRole('button', { name: 'Add 1 row' }).waitFor();
  await page.getByText('3 set aside', { exact: true }).click();
  await page.getByText(/P2 is in the campaign already, with relative sea level -3.5, not -3.7/).waitFor();
  assert.deepEqual(complaints, []);
});

test('a value that cannot be used is shown though its line is', async () => {
  const { page, complaints } = await start({ width: 390, height: 844, touch: true });
  await openCampaign(page, newDocument('Marsh'));
  await to(page, 'plan');
  await choose(page, 'cores.csv', CORES);
  await addCorrected(page);
  await to(page, 'describe');
  await choose(
    page,
    'loss.csv',
    'Core,Depth (cm),LOI (%),Dry bulk density (g/cm3)\nMA-1,5,3.1,0.5\nMA-1,7,3.3x,0.6\nMA-1,9,2.9,0.7\n',
  );
  await page.getByText(/1 with something wrong, 1 of them used without a value/).waitFor();
  assert.equal(await page.getByLabel(/LOI.*, line 3$/).inputValue(), '3.3x');
  assert.equal(await isWide(page), false);
  assert.deepEqual(complaints, []);
});

test('a report of slices with lead-210: what it does not say is asked, and its profile is computed', async () => {
  const { page, complaints } = await start({ width: 1440, height: 900 });
  const hole = { hole: 'C1', method: 'hand' };
  await openCampaign(page, withRows(newDocument('Marsh'), 'holes', [hole]));
  await to(page, 'date');
  const report = readFileSync(
    join(import.meta.dirname, '..', '..', '..', 'campaign', 'import', 'fixtures', 'slices.csv'),
    'utf8',
  );
  await choose(page, 'slices.csv', report);
  assert.equal(await page.getByLabel('What it is about', { exact: true }).inputValue(), 'lead-profiles');
  await decide(page, /Which core are these slices of/, 'C1');
  await decide(page, /When was the core taken/, '2023-02-13');
  await page.getByRole('heading', { name: '1 lead-210 profile to add' }).waitFor();
  assert.equal(await isWide(page), false, 'slices');
  await page.getByRole('button', { name: /^Add \d+ rows$/ }).click();
  await page.getByRole('heading', { name: 'Import a table' }).waitFor({ state: 'detached' });
  await page.evaluate(() => {
    location.hash = `${location.hash.split('/').slice(0, 2).join('/')}/report`;
  });
  await page.getByText('Lead-210 profile C1 lead-210, hole C1').first().waitFor();
  assert.deepEqual(complaints, []);
});

test('the age of an ash as a curve of probability: years BCE with decimal commas, its name and its gap are asked', async () => {
  const { page, complaints } = await start({ width: 820, height: 1180 });
  await openCampaign(page, newDocument('Marsh'));
  await to(page, 'date');
  const years = [498, 499, 500, 501, 504, 505, 506, 507];
  const table = years.map((year, i) => `${year};0,0${i + 1}`).join('\n');
  await choose(page, 'ash.csv', `Year BCE;Probability density\n${table}\n508;-0,01\n`);
  assert.equal(await page.getByLabel('What it is about', { exact: true }).inputValue(), 'age-densities');
  await decide(page, /What is this age called/, 'Grey ash');
  await page.getByRole('heading', { name: '8 age densities to add' }).waitFor();
  await page.getByText('a probability of 0 or more').first().waitFor();
  await page.getByRole('button', { name: 'zero', exact: true }).click();
  await page.getByRole('heading', { name: '10 age densities to add' }).waitFor();
  // 502 BCE is 1949 + 502.
  await page.getByRole('cell', { name: '2451', exact: true }).waitFor();
  assert.equal(await isWide(page), false, 'densities');
  await page.getByRole('button', { name: 'Add 10 rows' }).click();
  await page.getByRole('heading', { name: 'Import a table' }).waitFor({ state: 'detached' });
  assert.deepEqual(complaints, []);
});

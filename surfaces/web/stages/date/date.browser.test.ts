/**
 * Dating on the laptop: an age drawn as it is typed, rejected with its reason and accepted again; a laboratory's table
 * with a bad row brought whole, the row named, nothing lost.
 */
import assert from 'node:assert/strict';
import { join } from 'node:path';
import { test } from 'node:test';
import type { Page } from 'playwright-core';
import { allSaved, onDevice, openDemo } from '../../browser/browser.ts';

let page: Page;
onDevice({}, async (at) => {
  page = at.page;
  const id = await openDemo(page);
  await page.goto(`${page.url().split('#')[0]}#/${id}/date`);
  await page.locator('.large-age').waitFor();
  const away = page.locator('.first-steps').getByRole('button').last();
  if ((await away.count()) > 0) await away.click();
});

const row = (name: string) => page.getByRole('button', { name, exact: true });
const lineOf = (name: string) => page.locator('table.dates tr', { has: row(name) });
const median = async (): Promise<string> => (await page.locator('.age-answer .median').textContent()) ?? '';
const undo = () => page.getByRole('button', { name: 'Undo' }).click();

test('the age follows what is typed, before it is written', async () => {
  await row('INV-2522, sample M2-01').click();
  await page.getByRole('heading', { name: 'INV-2522' }).waitFor();
  assert.match(await median(), /^3,004/);
  const value = page.getByLabel('Conventional age', { exact: true });
  await value.fill('4914');
  // Nothing is written yet: the row of the table as the store has it would still say 2,914.
  await page.waitForFunction(
    () => !document.querySelector('.age-answer .median')?.textContent?.startsWith('3,0'),
  );
  assert.match(await median(), /^5,6/);
  await value.press('Escape');
  assert.match(await median(), /^3,004/);
  await value.fill('seven');
  await page.getByText('Found “seven”; expected a number (yr).').first().waitFor();
  await value.press('Escape');
});

test('rejecting asks why, strikes the row and draws it dotted; it can be accepted again', async () => {
  await page.getByRole('button', { name: 'Reject it' }).click();
  const confirm = page.getByRole('button', { name: 'Reject the date' });
  assert.ok(await confirm.isDisabled());
  await page.getByLabel('Why is it rejected?', { exact: true }).fill('rootlets in the sample');
  await confirm.click();
  await lineOf('INV-2522, sample M2-01').getByText('rejected: rootlets in the sample').waitFor();
  assert.match((await lineOf('INV-2522, sample M2-01').getAttribute('class')) ?? '', /rejected/);
  await page.getByRole('button', { name: 'Accept it again' }).click();
  await page.getByRole('button', { name: 'Reject it' }).waitFor();
  assert.doesNotMatch((await lineOf('INV-2522, sample M2-01').getAttribute('class')) ?? '', /rejected/);
});

test('a date added by hand is there at once and says what it waits for', async () => {
  await page.getByRole('button', { name: 'Add a date' }).click();
  await page.getByText('It waits for the age the laboratory gave.').waitFor();
  for (const [name, typed] of [
    ['Laboratory code', 'INV-9001'],
    ['Sample', 'T2-04'],
    ['Conventional age', '7010'],
    ['Its 1 sd', '30'],
  ] as const) {
    const field = page.getByLabel(name, { exact: true });
    await field.fill(typed);
    await field.press('Enter');
  }
  await page.locator('.large-age').waitFor();
  await lineOf('INV-9001, sample T2-04').locator('svg').waitFor();
  await allSaved(page);
  for (let i = 0; i < 5; i++) await undo();
  await row('INV-9001, sample T2-04').waitFor({ state: 'detached' });
});

test('an F14C typed as an age is asked about, and is shown as the laboratory gave it', async () => {
  await row('INV-2522, sample M2-01').click();
  await page.getByRole('heading', { name: 'INV-2522' }).waitFor();
  const set = async (name: string, typed: string): Promise<void> => {
    const field = page.getByLabel(name, { exact: true });
    await field.fill(typed);
    await field.press('Enter');
  };
  await page.getByLabel('Calibration curve', { exact: true }).selectOption('bomb21_sh1_2');
  await set('Conventional age', '1.2534');
  await set('Its 1 sd', '0.0025');
  await page.getByText('Is 1.2534 an F14C?').waitFor();
  await page.getByRole('button', { name: 'It is F14C' }).click();
  assert.equal(await page.getByLabel('F14C', { exact: true }).inputValue(), '1.2534');
  await page.getByText('Is 1.2534 an F14C?').waitFor({ state: 'detached' });
  await page.locator('.large-age', { hasText: 'F14C 1.2534 ± 0.0025 as measured' }).waitFor();
  assert.match(await median(), /^−\d+ cal BP, median (19|20)\d\d CE$/);
  assert.match(
    (await lineOf('INV-2522, sample M2-01').locator('.measured').textContent()) ?? '',
    /^F14C 1\.2534 ± 0\.0025$/,
  );
  const picture = process.env['STILLSTAND_PICTURE'];
  if (picture !== undefined) await page.screenshot({ path: picture, fullPage: true });
  await allSaved(page);
  for (let i = 0; i < 4; i++) await undo();
  await page.getByLabel('Conventional age', { exact: true }).waitFor();
});

test('a shell of known age gives ΔR, which another date takes over in one act', async () => {
  await row('INV-2522, sample M2-01').click();
  await page.getByRole('heading', { name: 'INV-2522' }).waitFor();
  await page.getByLabel('Calibration curve', { exact: true }).selectOption('marine20');
  for (const [name, typed] of [
    ['Conventional age', '610'],
    ['Year collected', '1900'],
    ['Water of the offset', 'bay'],
  ] as const) {
    const field = page.getByLabel(name, { exact: true });
    await field.fill(typed);
    await field.press('Enter');
  }
  await page.getByText('It is not dated: its age is known, 1900 CE. It gives the ΔR of bay.').waitFor();
  await row('INV-2429, sample T2-06').click();
  // Marine20 at 50 cal BP is 613: −3, and √2 of the 1 sd of this one shell.
  await page.getByText(/bay, 1 shell: −3 ± \d+/).waitFor();
  await page.getByRole('button', { name: 'Take over ΔR of bay' }).click();
  await page.getByRole('button', { name: 'Take over ΔR of bay' }).waitFor({ state: 'detached' });
  assert.equal(await page.getByLabel('Reservoir offset ΔR', { exact: true }).inputValue(), '-3');
  assert.equal(await page.getByLabel('Water of the offset', { exact: true }).inputValue(), 'bay');
  const picture = process.env['STILLSTAND_PICTURE'];
  if (picture !== undefined) await page.screenshot({ path: picture, fullPage: true });
  await undo();
  assert.equal(await page.getByLabel('Reservoir offset ΔR', { exact: true }).inputValue(), '-100');
  for (let i = 0; i < 4; i++) await undo();
  await allSaved(page);
});

/** Answers a question about the table: a key, a word of a list, or typed. */
async function decide(question: RegExp, word: string): Promise<void> {
  const line = page.locator('.import-asked li', { hasText: question });
  const list = line.locator('select');
  if ((await list.count()) > 0) await list.first().selectOption(word);
  else if ((await line.locator('input').count()) > 0) {
    await line.locator('input').first().fill(word);
    await line.locator('input').first().press('Enter');
  } else await line.getByRole('button', { name: word, exact: true }).click();
}

test('a table with a bad row: previewed, named, corrected in its cell, and added with the others', async () => {
  await page.getByRole('button', { name: 'Import lab results' }).click();
  const text =
    'Radiocarbon results, March 2024\nLab code;Sample;Age BP;1 sigma;d13C;Remark\nINV-4001;t2 04;7010;30;-26,1;\nINV-4002;T2-04;seven thousand;25;-25;ask again\nINV-2419;T2-03;8074;40;-26,8;\n';
  await page
    .locator('input[type="file"]')
    .setInputFiles({ name: 'results.csv', mimeType: 'text/csv', buffer: Buffer.from(text) });
  await page.getByText('Age BP: found “seven thousand”').waitFor();
  await page.getByText('4 used', { exact: false }).waitFor({ state: 'detached' });
  const every = page.getByRole('region', { name: 'Every line' });
  assert.match((await every.textContent()) ?? '', /5 lines: 1 used, 3 set aside, 1 with something wrong/);
  await every.getByText('3 set aside', { exact: true }).click();
  await every.getByText('line 5: INV-2419 is in the campaign already').waitFor();
  await decide(/On which curve/, 'shcal20');
  const cell = page.getByLabel('Age BP, line 4', { exact: true });
  await cell.fill('7000');
  await cell.press('Enter');
  await cell.waitFor({ state: 'detached' });
  await page.getByRole('button', { name: 'Add 2 rows' }).click();
  await lineOf('INV-4001, sample T2-04').locator('svg').first().waitFor();
  await row('INV-4002, sample T2-04').click();
  assert.equal(await page.getByLabel('Conventional age', { exact: true }).inputValue(), '7000');
  assert.equal(await page.getByLabel('Note', { exact: true }).inputValue(), 'ask again');
  await page.locator('.large-age').waitFor();
  await allSaved(page);
  await page.reload();
  await row('INV-4002, sample T2-04').waitFor();
});

test('a workbook is read, a cell corrected, and all of it undone at once; the next one headed alike asks nothing', async () => {
  const before = await page.locator('table.dates tbody tr:not(.group)').count();
  await page.getByRole('button', { name: 'Import lab results' }).click();
  await page
    .locator('input[type="file"]')
    .setInputFiles(join(import.meta.dirname, '../../../../campaign/import/fixtures/letter-above.xlsx'));
  await page.getByRole('region', { name: 'Every line' }).waitFor();
  await decide(/On which curve/, 'shcal20');
  const fix = page.getByLabel('Your sample, line 7', { exact: true });
  await fix.fill('T3-01');
  await fix.press('Enter');
  await fix.waitFor({ state: 'detached' });
  await page.getByRole('button', { name: 'Add 3 rows' }).click();
  await row('INV-3003, sample T3-01').waitFor();
  assert.equal(await page.locator('table.dates tbody tr:not(.group)').count(), before + 3);
  await undo();
  await row('INV-3003, sample T3-01').waitFor({ state: 'detached' });
  assert.equal(await page.locator('table.dates tbody tr:not(.group)').count(), before);
});

test('what is no table is refused by name and changes nothing', async () => {
  await page.getByRole('button', { name: 'Import lab results' }).click();
  await page.locator('input[type="file"]').setInputFiles({
    name: 'old.xls',
    mimeType: 'application/vnd.ms-excel',
    buffer: Buffer.from([0xd0, 0xcf, 0x11, 0xe0, 1]),
  });
  await page.getByText('old.xls was not imported').waitFor();
  await page.getByRole('button', { name: 'Leave the import' }).click();
  await page.locator('table.dates').waitFor();
});

test('dates stand at their depths; the ages between them are modelled where asked for, and undone', async () => {
  await page.getByRole('button', { name: 'Ages against depth' }).click();
  await page.getByRole('button', { name: 'M3', exact: true }).click();
  await page.getByRole('group', { name: 'Ages against depth in M3' }).waitFor();
  await page.getByRole('button', { name: 'Model ages' }).click();
  const together = page.getByRole('table', { name: 'Dates of M3 age of the layer from all dates together' });
  await together.waitFor();
  assert.equal(await together.locator('tbody tr').count(), 5);
  await undo();
  await together.waitFor({ state: 'detached' });
  await page.getByRole('button', { name: 'All dates' }).click();
  await page.locator('.large-age').waitFor();
});

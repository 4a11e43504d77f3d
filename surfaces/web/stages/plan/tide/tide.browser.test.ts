/** Tide levels and the official table in a real browser: typed and pasted on the page, computed, recorded, amended. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Locator, Page } from 'playwright-core';
import { violations } from '../../../browser/axe.ts';
import { allSaved, computed, onDevice, openDemo, served } from '../../../browser/browser.ts';

let page: Page;
let home: string;
// The clock of the campaign's coast.
onDevice({ zone: 'Etc/GMT+8' }, async (at) => {
  page = at.page;
  await page.clock.install({ time: new Date('2023-02-21T10:00:00-08:00') });
  home = `${await served()}#/${await openDemo(page)}`;
  await page.getByRole('button', { name: 'Put the first steps away' }).click();
});
const words = async (of: Locator): Promise<string> => (await of.textContent()) ?? '';
const picture = (): Locator => page.locator('.tide-picture svg');
const table = (): Locator => page.locator('.tide-table');
const cell = (name: string): Locator => page.getByLabel(name, { exact: true });
const row = (level: string): Locator =>
  page.locator('.tide-levels').getByRole('row', { name: new RegExp(`^${level}`) });

async function plan(day: string): Promise<void> {
  await page.goto(`${home}/plan`);
  await page.getByLabel('Which day').selectOption({ label: day });
  await picture().waitFor();
}

/** At the foot of the page, where the bar that moves with it covers nothing. */
async function accessible(): Promise<void> {
  await page.evaluate(() => scrollTo(0, document.body.scrollHeight));
  assert.deepEqual(await violations(page), []);
}

async function paste(into: Locator, text: string): Promise<void> {
  await into.focus();
  await into.evaluate((input, pasted) => {
    const data = new DataTransfer();
    data.setData('text/plain', pasted);
    input.dispatchEvent(
      new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }),
    );
  }, text);
}

test('a pasted table: its zero is asked for, what is odd is named and used, and it comes before the prediction', async () => {
  await plan('2023-02-09');
  await paste(cell('time of water 1'), '07:40 0.5\n25:00 2.7\n13:50 2.7\n20:02 0.6');
  await table()
    .getByText(/Line 2, time: found “25:00”; expected a time such as 05:12/)
    .waitFor();
  const record = table().getByRole('button', { name: 'Record tide table' });
  // The zero is asked for, and nothing is recorded before.
  assert.ok(await record.isDisabled());
  await table()
    .getByText(/^Choose the zero of the table first/)
    .waitFor();
  // Kept on the device until then.
  await page.reload();
  await page.getByLabel('Which day').selectOption({ label: '2023-02-09' });
  assert.equal(await cell('time of water 2').inputValue(), '25:00');
  await table().getByLabel('Zero of the table', { exact: true }).selectOption('below');
  const below = table().locator('.table-facts input').last();
  await below.fill('1.60');
  await table()
    .getByText(/^3 waters to record; times −08:00, zero at −1\.60 m\. 1 line cannot be read/)
    .waitFor();
  await accessible();
  await record.click();
  await page.getByText(/^Official table \(Tide table\)/).waitFor();
  const said = (await picture().getAttribute('aria-label')) ?? '';
  assert.match(said, /low water 07:40, −1\.10 m; high water 13:50, \+1\.10 m; low water 20:02, −1\.00 m/);
  // Half a cosine passes −0.5 m between them, after 09:49: shown a minute later; its end less 20 minutes.
  assert.match(await words(page.locator('.spans')), /09:50 to 18:01/);
  // What could not be read is still there.
  assert.equal(await cell('time of water 4').inputValue(), '25:00');
  await table().getByRole('button', { name: 'Discard changes' }).click();
  // Corrected in place: amended, and the later stands.
  await cell('time of water 1').fill('07:35');
  await cell('height of water 2').fill('2.6');
  await record.click();
  await page.locator('.tide-picture svg[aria-label*="high water 13:50, +1.00 m"]').waitFor();
  assert.match((await picture().getAttribute('aria-label')) ?? '', /low water 07:35, −1\.10 m; high/);
  // Another day is predicted still.
  await allSaved(page);
  await plan('2023-02-10');
  await page.getByText(/^Predicted from 8/).waitFor();
});

test('several days at once with another clock and zero: kept with their offset, under a gauge of their own', async () => {
  await plan('2023-02-07');
  await paste(
    cell('date of water 1'),
    'date\ttime\theight\n2023-02-06\t21:00\t1.5\n2023-02-07\t03:10\t8.2\n\t09:20\t1.2\n\t15:30\t8.4\n\t17:00\t8.0\n2023-02-08\t03:50\t8.1',
  );
  await table().getByLabel('Heights in', { exact: true }).selectOption('ft');
  await table().getByLabel('Summer time', { exact: true }).selectOption('yes');
  await table().getByLabel('Zero of the table', { exact: true }).selectOption('below');
  await table().locator('.table-facts input').last().fill('1,4');
  await table()
    .getByText(/^6 waters to record; times −07:00, zero at −1\.40 m/)
    .waitFor();
  const doubts = await words(table());
  assert.match(doubts, /Line 5, time: 1\.5 h after 15:30, usually 4 h or more/);
  assert.match(doubts, /Line 6, time: 10\.8 h after 17:00, usually 9 h or less/);
  await table().getByRole('button', { name: 'Record tide table' }).click();
  await page.getByText(/^Official table \(Tide table 2\)/).waitFor();
  // 8.2 ft are 2.50 m: 1.10 m above the datum; 03:10 of a clock 7 hours behind is 02:10 of the campaign's.
  assert.match((await picture().getAttribute('aria-label')) ?? '', /high water 02:10, \+1\.10 m/);
  await cell('time of water 5').fill('');
  await cell('date of water 5').fill('');
  await cell('height of water 5').fill('');
  await table().getByRole('button', { name: 'Record tide table' }).click();
  assert.doesNotMatch(await words(table()), /1\.5 h after/);
  // Pasted on a day after them over the same days: what was recorded of that time gives way, so that no two tables mix.
  await plan('2023-02-10');
  await paste(
    cell('date of water 1'),
    '2023-02-07\t03:00\t2.5\n2023-02-07\t09:10\t0.4\n2023-02-07\t15:20\t2.6',
  );
  await table().getByLabel('Zero of the table', { exact: true }).selectOption('gauge:Tide table 2');
  await table()
    .getByText(/^3 waters to record; .* 2 earlier waters in that time will be withdrawn/)
    .waitFor();
  await table().getByRole('button', { name: 'Record tide table' }).click();
  await allSaved(page);
  await plan('2023-02-07');
  assert.match(
    (await picture().getAttribute('aria-label')) ?? '',
    /high water 03:00, \+1\.10 m; low water 09:10/,
  );
});

test('levels in place: computed from the gauge and kept so, an entered one first, order named, rows pasted', async () => {
  await plan('2023-02-06');
  assert.equal(await cell('entered of MHW').inputValue(), '1.003');
  await page.getByRole('button', { name: 'Use computed levels' }).click();
  // Stated +1.603 and computed agree within 5 cm, which is a note.
  const both = row('HAT').locator('.computed', { hasText: '±' });
  await both.waitFor();
  assert.match(await words(row('HAT')), /\+1\.[56]\d ±0\.04/);
  await page
    .getByText(/^Computed from the constants of Neck pole, 19 years\. Entered levels take precedence\./)
    .waitFor();
  assert.match(await words(row('MHHW')), /\+\d\.\d\d ±0\.\d\d/);
  // Entered below MSL: named, with what to do, and kept.
  await cell('entered of MHW').fill('-1.04');
  // What is typed and not entered yet is asked about before the page is left.
  const isAsked = (): Promise<boolean> =>
    page.evaluate(() => !dispatchEvent(new Event('beforeunload', { cancelable: true })));
  assert.ok(await isAsked());
  await cell('entered of MHW').press('Enter');
  await page
    .getByText(/^MHW at −1\.04 m, below .* Check both in their source and correct the wrong one/)
    .waitFor();
  await accessible();
  await page.getByRole('button', { name: 'Undo' }).click();
  // Emptied, the computed one is used.
  await cell('entered of MHW').fill('');
  await cell('1σ of MHW').fill('');
  await cell('source of MHW').fill('');
  await cell('source of MHW').press('Tab');
  await computed(page);
  await paste(cell('entered of HAT'), 'MHHW\t1.20\t0.05\tport chart\nMHWS 1.15\nHigh tide 2');
  await page.getByText(/^Not entered, no tide level named: line 3 “High tide 2”/).waitFor();
  assert.equal(await cell('entered of MHHW').inputValue(), '1.20');
  assert.equal(await cell('source of MHHW').inputValue(), 'port chart');
  assert.equal(await cell('entered of MHWS').inputValue(), '1.15');
  await page.getByRole('button', { name: 'Stop computing' }).click();
  await both.waitFor({ state: 'detached' });
});

test('on a phone nothing is wider than the page, by day and by night', async () => {
  await page.setViewportSize({ width: 390, height: 844 });
  await plan('2023-02-07');
  await row('HAT').waitFor();
  const widest = (): Promise<number> => page.evaluate(() => document.documentElement.scrollWidth);
  assert.ok((await widest()) <= 390, `${await widest()}`);
  for (const theme of ['night', 'day']) {
    await page.evaluate((name) => {
      document.documentElement.dataset['theme'] = name;
    }, theme);
    await page.evaluate(() => scrollTo(0, document.body.scrollHeight));
    assert.deepEqual(await violations(page, 'colours'), [], theme);
  }
});

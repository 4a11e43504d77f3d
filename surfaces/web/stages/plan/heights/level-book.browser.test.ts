/** The level book in a real browser: a printed sheet typed by keyboard, pasted, by thumb, and every unhappy way. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, withRows } from '@stillstand/campaign/document';
import type { Locator, Page } from 'playwright-core';
import { violations } from '../../../browser/axe.ts';
import { allSaved, device, onDevice, openCampaign, served } from '../../../browser/browser.ts';

/** Worked sheet of a course in surveying, civil.eng.usm.my (JSSUAE1): station, back, intermediate, fore; then its levels. */
const SHEET = [
  ['OBM1', '1.717', '', ''],
  ['A', '', '1.432', ''],
  ['B', '2.918', '', '1.716'],
  ['C', '', '2.272', ''],
  ['D', '0.816', '', '0.953'],
  ['E', '1.436', '', '3.005'],
  ['CP', '1.246', '', '1.391'],
  ['F', '', '1.353', ''],
  ['G', '', '1.462', ''],
  ['OBM2', '', '', '0.628'],
] as const;
const LEVELS = [29.23, 29.515, 29.231, 29.877, 31.196, 29.007, 29.052, 28.945, 28.836, 29.67];
const COLLIMATION = [30.947, null, 32.149, null, 32.012, 30.443, 30.298, null, null, null];

const CAMPAIGN = withRows(
  withRows(newDocument('Levels'), 'datums', [{ datum: 'MSL', kind: 'mean_sea_level' }]),
  'benchmarks',
  [
    { benchmark: 'OBM1', elevation_m: '29.230', datum: 'MSL' },
    { benchmark: 'OBM2', elevation_m: '29.660', datum: 'MSL' },
  ],
);

const at = onDevice({});
const book = (page: Page): Locator => page.locator('.level-book');
const cell = (page: Page, name: string, line: number): Locator =>
  book(page).getByLabel(`${name} of line ${line}`, { exact: true });
const column = (page: Page, name: string): Promise<string[]> =>
  book(page).locator(`tbody td[data-name="${name}"]`).allTextContents();
const signedAll = (values: readonly (number | null)[]): string[] =>
  values.map((value) => (value === null ? '' : `+${value.toFixed(3)}`));
const words = async (of: Locator): Promise<string> => ((await of.textContent()) ?? '').replace(/\s+/g, ' ');

/** Types lines from the cell in hand on, Enter after each of the six cells. */
async function typeLines(page: Page, lines: readonly (readonly string[])[]): Promise<void> {
  for (const [point = '', back = '', between = '', fore = ''] of lines) {
    for (const text of [point, back, between, fore, '', '']) {
      if (text !== '') await page.keyboard.type(text);
      await page.keyboard.press('Enter');
    }
  }
}

async function open(page: Page, document = CAMPAIGN): Promise<void> {
  await openCampaign(page, document);
  await book(page).waitFor();
}

/** With its heights, which the bench marks give once the campaign is read. */
async function isThePrintedSheet(page: Page): Promise<void> {
  await book(page).locator('.misclosure', { hasText: 'OBM2' }).waitFor();
  assert.deepEqual((await column(page, 'height')).slice(0, 10), signedAll(LEVELS));
  const sums = await book(page).locator('.sums-row td').allTextContents();
  assert.deepEqual(
    sums.filter((text) => text !== ''),
    ['8.133', '7.693', '3.129', '2.689', '+0.440'],
  );
  assert.match(await words(book(page).locator('.check-row')), /\+0\.440 = .*\+0\.440 = .*\+0\.440/);
  // 10 mm over five set-ups of 60 m, taken because no distance is written: 12 mm × √0.3 km.
  assert.match(
    await words(book(page).locator('.misclosure')),
    /Misclosure \+10\.0 mm at OBM2, beyond its limit; limit 12 mm × √0\.30 km = ±6\.6 mm/,
  );
}

test('the printed sheet by keyboard alone: levels, sums and closure as printed, before anything is written', async () => {
  const { page } = at;
  await open(page);
  await cell(page, 'station', 1).focus();
  await typeLines(page, SHEET.slice(0, 3));
  assert.match(await words(book(page).locator('.check-row')), /last set-up is open/);
  assert.match(await words(book(page).locator('.misclosure')), /Not closed yet/);
  await typeLines(page, SHEET.slice(3));
  await isThePrintedSheet(page);
  // The other method, kept on the device.
  await book(page).getByRole('button', { name: 'Height of collimation' }).press('Enter');
  assert.deepEqual((await column(page, 'collimation')).slice(0, 10), signedAll(COLLIMATION));
  await page.reload();
  await book(page).locator('.misclosure', { hasText: 'OBM2' }).waitFor();
  assert.deepEqual((await column(page, 'collimation')).slice(0, 10), signedAll(COLLIMATION));
  await book(page).getByRole('button', { name: 'Rise and fall' }).press('Enter');
  assert.equal((await column(page, 'rise')).filter((text) => text !== '').length, 5);
  // By arrows: down a column, and sideways where the caret is at the edge.
  await cell(page, 'backsight', 1).focus();
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('ArrowDown');
  assert.equal(await page.evaluate(() => document.activeElement?.ariaLabel), 'backsight of line 3');
  await page.keyboard.press('ArrowRight');
  assert.equal(await page.evaluate(() => document.activeElement?.ariaLabel), 'intersight of line 3');
  await page.keyboard.press('ArrowLeft');
  await page.keyboard.press('ArrowLeft');
  assert.equal(await page.evaluate(() => document.activeElement?.ariaLabel), 'station of line 3');
  assert.deepEqual(await violations(page), []);
});

test('recorded, then amended in its cell: the earlier entry stays, and the results have the heights shown', async () => {
  const { page } = at;
  const button = book(page).getByRole('button', { name: 'Record level loop' });
  await button.click();
  await book(page).getByText('Loop loop 1 recorded: 10 lines.').waitFor();
  await isThePrintedSheet(page);
  await allSaved(page);
  await page.reload();
  await isThePrintedSheet(page);
  assert.equal(await book(page).getByRole('combobox', { name: 'Loop' }).inputValue(), 'loop 1');
  await cell(page, 'foresight', 10).fill('0.638');
  assert.match(await words(book(page).locator('.misclosure')), /Misclosure 0\.0 mm/);
  await book(page).getByText('before: foresight 0.628').waitFor();
  // A change that is not recorded outlasts the page too.
  await page.reload();
  assert.equal(await cell(page, 'foresight', 10).inputValue(), '0.638');
  await book(page).getByRole('button', { name: 'Discard changes' }).click();
  assert.equal(await cell(page, 'foresight', 10).inputValue(), '0.628');
  await book(page).getByRole('button', { name: 'Undo discard' }).click();
  await book(page).getByRole('button', { name: 'Record changes' }).click();
  await book(page)
    .getByText(/Recorded: 1 amendment/)
    .waitFor();
  await book(page).getByRole('button', { name: 'amended: open the record of line 10' }).click();
  await page.getByRole('dialog').getByText('Amended by a later entry; both stay.').waitFor();
  await page.getByRole('dialog').getByRole('button', { name: 'Close' }).click();
  await book(page).locator('s', { hasText: '0.628' }).waitFor();
});

test('pasted from a spreadsheet, undone, pasted again with its headings', async () => {
  const { page } = at;
  await open(page);
  const paste = (text: string): Promise<void> =>
    page.evaluate((block) => {
      const data = new DataTransfer();
      data.setData('text/plain', block);
      document.activeElement!.dispatchEvent(
        new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }),
      );
    }, text);
  await cell(page, 'station', 1).focus();
  await paste(SHEET.map((line) => line.join('\t')).join('\r\n'));
  await cell(page, 'station', 11).waitFor();
  await isThePrintedSheet(page);
  await book(page).getByRole('button', { name: 'Undo paste' }).click();
  assert.equal(await cell(page, 'station', 2).count(), 0);
  await cell(page, 'note', 1).focus();
  await paste(
    [
      'Point\tB.S.\tI.S.\tF.S.\tRise\tFall\tR.L.'.replaceAll('.', ''),
      ...SHEET.map((line) => line.join('\t')),
    ].join('\n'),
  );
  await cell(page, 'station', 11).waitFor();
  await isThePrintedSheet(page);
});

test('cells that cannot be read are named and stay; a slipped point is asked about', async () => {
  const { page } = at;
  await cell(page, 'backsight', 3).fill('29.18');
  const says = book(page).locator('.cell-says');
  assert.match(await words(says), /backsight: Found “29\.18”; expected .*10 m/);
  assert.equal(await cell(page, 'backsight', 3).getAttribute('aria-invalid'), 'true');
  await book(page)
    .getByText(/Heights end before line 3/)
    .waitFor();
  await says.getByRole('button', { name: 'Use 2.918' }).click();
  await isThePrintedSheet(page);
  for (const bad of ['two', '2,918', '2.918 ft']) {
    await cell(page, 'backsight', 3).fill(bad);
    assert.match(await words(says), /backsight: Found “/);
    assert.equal(await cell(page, 'backsight', 3).inputValue(), bad);
  }
  await cell(page, 'backsight', 3).fill('2.918');
  await cell(page, 'intersight', 4).focus();
  await book(page).getByRole('button', { name: 'Staff upside down' }).click();
  assert.match(await words(says), /intersight: Staff upside down/);
  assert.equal((await column(page, 'height'))[3], '+34.421');
  await book(page).getByRole('button', { name: 'Staff upside down' }).click();
  await isThePrintedSheet(page);
});

test('a loop that does not close says by how much and asks for the slip; it is recorded all the same', async () => {
  const { page } = at;
  await cell(page, 'foresight', 10).fill('1.638');
  const said = book(page).locator('.level-says');
  await said.getByText(/The loop does not close at OBM2: −1,000 mm, limit ±7 mm/).waitFor();
  await said.getByText('Was a staff misread by 1 m?').waitFor();
  await cell(page, 'foresight', 10).fill('0.738');
  await said.getByText('Was a staff misread by 0.1 m (10 cm)?').waitFor();
  // 2 × 1.436 too low: as if the back sight at E had been a fore sight.
  await cell(page, 'backsight', 6).fill('');
  await cell(page, 'foresight', 10).fill('0.628');
  assert.match(await words(book(page).locator('.cell-says').first()), /back sight/);
  await cell(page, 'backsight', 6).fill('1.436');
  await cell(page, 'foresight', 10).fill('0.738');
  await book(page).locator('.level-facts summary').click();
  await book(page).getByLabel('Label of the loop', { exact: true }).fill('second');
  await book(page).getByLabel('Two-peg test, error', { exact: true }).fill('1.5');
  await book(page).getByLabel('Two-peg test, length of sight', { exact: true }).fill('30');
  await book(page)
    .getByText(/level tested, 1\.5 mm in 30 m/)
    .waitFor();
  await book(page)
    .getByText(/Each 10 m of difference puts 0\.5 mm/)
    .waitFor();
  await book(page).getByLabel('Largest misclosure, times √km', { exact: true }).fill('200');
  assert.match(await words(book(page).locator('.misclosure')), /within its limit; limit 200 mm/);
  await book(page).getByLabel('Largest misclosure, times √km', { exact: true }).fill('');
  await book(page).getByRole('button', { name: 'Record level loop' }).click();
  await book(page).getByText('Loop second recorded: 10 lines.').waitFor();
  await said.getByText(/does not close at OBM2: −100 mm/).waitFor();
  await book(page)
    .getByText(/second, .*level tested, 1\.5 mm in 30 m/)
    .waitFor();
});

test('a new bench mark is named on the spot, a forgotten line inserted, a line deleted and put back', async () => {
  const { page } = at;
  await open(page);
  await cell(page, 'station', 1).focus();
  await typeLines(page, [
    ['peg', '1.500', '', ''],
    ['A', '', '1.000', ''],
    ['peg', '', '', '1.500'],
  ]);
  await book(page)
    .getByText(/No bench mark with an elevation yet/)
    .waitFor();
  assert.equal((await column(page, 'rise'))[1], '0.500');
  await book(page).getByRole('button', { name: 'Add bench mark peg' }).click();
  const dialog = page.getByRole('dialog');
  await dialog.getByLabel('Elevation', { exact: true }).fill('3.000');
  await dialog.getByRole('button', { name: 'Write it down' }).click();
  await book(page).locator('td.height', { hasText: '+3.500' }).waitFor();
  await cell(page, 'station', 2).focus();
  await book(page).getByRole('button', { name: 'Insert line above' }).click();
  await cell(page, 'station', 2).fill('CP');
  assert.equal(await cell(page, 'station', 3).inputValue(), 'A');
  await book(page).getByRole('button', { name: 'Delete line' }).click();
  assert.equal(await cell(page, 'station', 2).inputValue(), 'A');
  await book(page).getByRole('button', { name: 'Undo delete line' }).click();
  assert.equal(await cell(page, 'station', 2).inputValue(), 'CP');
});

test('by thumb at 390 px: the decimal keypad, targets of 48 px, nothing wider than the page', async () => {
  const phone = await device({ width: 390, height: 844, touch: true });
  try {
    const { page } = phone;
    await openCampaign(page, CAMPAIGN, 'plan', await served());
    for (const [i, [point, back, between, fore]] of SHEET.slice(0, 3).entries()) {
      for (const [name, text] of [
        ['station', point],
        ['backsight', back],
        ['intersight', between],
        ['foresight', fore],
      ] as const) {
        if (text === '') continue;
        await cell(page, name, i + 1).tap();
        await page.keyboard.type(text);
      }
    }
    assert.deepEqual((await column(page, 'height')).slice(0, 3), signedAll(LEVELS.slice(0, 3)));
    assert.equal(await cell(page, 'backsight', 3).getAttribute('inputmode'), 'decimal');
    const small = await book(page)
      .locator('input, button, select, summary')
      .evaluateAll((all) =>
        all
          .filter((each) => each.checkVisibility() && !each.matches('.ask'))
          .map((each) => [each.ariaLabel ?? each.textContent, each.getBoundingClientRect().height] as const)
          .filter(([, height]) => height < 47.5),
      );
    assert.deepEqual(small, []);
    assert.equal(await page.evaluate(() => document.documentElement.scrollWidth), 390);
    assert.deepEqual(await violations(page), []);
    assert.deepEqual(phone.complaints, []);
  } finally {
    await phone.close();
  }
});

test('a line added to a recorded loop is of whoever adds it, with what they read', async () => {
  const { page } = at;
  const seen = [
    { loop: 'day one', seq: '1', point: 'OBM1', backsight_m: '1.500', by: 'first hand', device: 'level 1' },
    { loop: 'day one', seq: '2', point: 'A', foresight_m: '1.000', by: 'first hand', device: 'level 1' },
  ];
  await open(page, withRows(CAMPAIGN, 'levelling', seen));
  await page.evaluate(() =>
    localStorage.setItem('stillstand.crew', JSON.stringify({ by: 'second hand', device: 'level 2' })),
  );
  await book(page).getByRole('combobox', { name: 'Loop' }).selectOption('day one');
  await cell(page, 'station', 3).fill('B');
  await cell(page, 'intersight', 3).fill('1.111');
  await book(page).getByRole('button', { name: 'Record changes' }).click();
  await book(page)
    .getByText(/Recorded: 1 line/)
    .waitFor();
  const of = async (line: number): Promise<string[]> => {
    await cell(page, 'station', line).focus();
    await book(page).getByRole('button', { name: 'Open record' }).click();
    const dialog = page.getByRole('dialog');
    const found = [
      await dialog.getByLabel('By', { exact: true }).inputValue(),
      await dialog.getByLabel('Device', { exact: true }).inputValue(),
    ];
    await dialog.getByRole('button', { name: 'Close' }).click();
    return found;
  };
  assert.deepEqual(await of(1), ['first hand', 'level 1']);
  assert.deepEqual(await of(3), ['second hand', 'level 2']);
});

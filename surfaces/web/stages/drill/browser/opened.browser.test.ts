/**
 * Campaigns that come from elsewhere: two devices that wrote at once, a spreadsheet that writes 3,05 for 3.05, a crew
 * that reads feet.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, withRows } from '@stillstand/campaign/document';
import type { Page } from 'playwright-core';
import { allSaved, onDevice, openCampaign } from '../../../browser/browser.ts';
import { type Hand, hand } from '../../../browser/hand.ts';

let page: Page;
let crew: Hand;
onDevice({ width: 820, height: 1180, touch: true }, async (tablet) => {
  page = tablet.page;
  crew = hand(page);
});

type Tables = Record<string, Record<string, string>[]>;

/** Opens a campaign of these tables and its hole A. */
async function open(name: string, tables: Tables, comma = false): Promise<void> {
  let document = newDocument(name);
  for (const [table, rows] of Object.entries(tables)) document = withRows(document, table, rows);
  if (comma)
    document = {
      ...document,
      tables: new Map(
        [...document.tables].map(([table, t]) => [
          table,
          { ...t, dialect: { ...t.dialect, delimiter: ';', decimal_comma: true } },
        ]),
      ),
    };
  await openCampaign(page, document, 'drill?hole=A');
  await page.getByRole('heading', { name: 'A', exact: true }).waitFor();
}

const begun = (m: (metres: string) => string): Tables => ({
  holes: [{ hole: 'A', method: 'string', state: 'open' }],
  ground_levels: [{ hole: 'A', seq: '1', ground_below_reference: m('0.20') }],
  string_items: [
    { hole: 'A', seq: '2', action: 'add', item: 'joint', joint: 'J1', length: m('3.05'), tight: 'true' },
  ],
  drives: [{ hole: 'A', seq: '3', stick_up_start: m('2.90'), stick_up_end: m('0.45') }],
});

test('two devices gave one seq: named where it is read, and brought into its order with both kept', async () => {
  const tables = begun((x) => `${x} m`);
  await open('twice', {
    ...tables,
    soundings: [
      { hole: 'A', seq: '4', purpose: 'after_drive', to_sediment: '1.10 m' },
      { hole: 'A', seq: '5', purpose: 'before_run', to_sediment: '1.20 m' },
    ],
    // written on the other device before it had seen the sounding
    drives: [
      ...tables['drives']!,
      { hole: 'A', seq: '5', stick_up_start: '0.45 m', stick_up_end: '0.30 m', note: 'other' },
    ],
  });
  const trouble = page.locator('.troubles li', { hasText: 'number 5 both here and in the' });
  await trouble.waitFor();
  await page.getByRole('button', { name: /^Put first: .*Drive/ }).click();
  await trouble.waitFor({ state: 'detached' });
  await allSaved(page); // until then a line says "saving" behind its name
  const names = async (): Promise<(string | undefined)[]> =>
    (await page.locator('.book li > button .what').allTextContents())
      .map((n) => /^(?:Sounding, (?:after drive|before run)|Drive)/.exec(n.trim())?.[0])
      .slice(-3);
  assert.deepEqual(await names(), ['Sounding, after drive', 'Drive', 'Sounding, before run']);
  await page.reload();
  await page.locator('.book li', { hasText: 'before run' }).first().waitFor();
  assert.deepEqual(await names(), ['Sounding, after drive', 'Drive', 'Sounding, before run']);
  assert.equal(await trouble.count(), 0);
});

test('a table that writes 3,05: its metres stand in the book and in the run, and what is typed goes back so', async () => {
  await open(
    'comma',
    {
      ...begun((x) => `${x.replace('.', ',')} m`),
      soundings: [{ hole: 'A', seq: '4', purpose: 'after_drive', to_sediment: '1,10 m' }],
      runs: [{ hole: 'A', seq: '5', run: 'R1', start_mark: '1,10 m' }],
    },
    true,
  );
  // string 3.05 less tip 1.10
  await page.locator('.risk', { hasText: 'Clearance' }).waitFor();
  assert.equal(await crew.big('Clearance'), '1.95');
  assert.equal((await page.locator('.run-book td button').first().textContent())?.trim(), '1.10');
  await page.locator('#drill-end_mark').fill('1,60');
  assert.equal(await page.locator('#drill-end_mark').inputValue(), '1.60');
  await crew.bar().click();
  assert.equal(await crew.big('Clearance'), '1.45');
  const row = page.locator('.run-book tbody tr').last();
  assert.match((await row.textContent()) ?? '', /1\.60.*0\.50.*1\.45/);
  assert.equal(await page.locator('.troubles').count(), 0);
  await page.locator('.drill-tools').getByRole('button', { name: 'Sounding', exact: true }).click();
  await page.getByRole('button', { name: /^Leave/ }).click();
});

test('a crew that reads feet presses feet, inches and their quarters', async () => {
  await open('feet', {
    ...begun((x) => `${x} m`),
    drives: [{ hole: 'A', seq: '3', stick_up_start: '9 ft 6 in', stick_up_end: '1 ft 6 in' }],
  });
  await crew.take('Fill the string');
  const pad = page.getByRole('region', { name: 'keypad' });
  for (const key of ['4', 'one half', 'inches'])
    await pad.getByRole('button', { name: key, exact: true }).click();
  assert.equal(await page.locator('#drill-to_water_after').inputValue(), '4 1/2 in');
  await page.locator('.metres', { hasText: '0.114 m' }).waitFor();
  await crew.bar().click();
  await page.locator('.book li', { hasText: '4 1/2 in' }).waitFor();
});

/** Problems by touch, on a tablet held upright: each is named as the crew names it, and its press opens its place. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, withRows } from '@stillstand/campaign/document';
import { devices, openCampaign } from './browser.ts';

const started = devices();

const reading = { hole: 'H1', by: 'JL' };
/** A setting that is no number, a drive with a decimal comma, and a date without the sample that was dated. */
const CAMPAIGN = (
  [
    ['settings', [{ name: 'clearance_margin_m', value: 'wide' }]],
    ['holes', [{ hole: 'H1', method: 'string', state: 'open' }]],
    [
      'drives',
      [
        {
          ...reading,
          seq: '1',
          time: '2024-03-05T10:42+08:00',
          stick_up_start: '2.00 m',
          stick_up_end: '0,50 m',
        },
      ],
    ],
    [
      'determinations',
      [{ lab_code: 'INV-1', sample: 'S1', method: 'radiocarbon', value: '7010', error: '30' }],
    ],
  ] as const
).reduce((document, [table, rows]) => withRows(document, table, rows), newDocument('Problems'));

test('three different problems, each pressed, each opens its place', async () => {
  const { page, complaints } = await started({ width: 820, height: 1180, touch: true });
  await openCampaign(page, CAMPAIGN, 'plan');
  const problems = page.locator('.problems');
  await page.getByRole('button', { name: /^Menu, \d+ problems$/ }).tap();
  await page.getByRole('button', { name: /^\d+ problems$/ }).tap();
  await problems.waitFor();
  const said = (await problems.textContent()) ?? '';
  assert.doesNotMatch(said, /[a-z]_[a-z]|\b(?:seq|line|row_id|column|cell|null)\b|`/, said);

  const press = (place: string) => problems.getByRole('button').filter({ hasText: place }).first().tap();
  for (const [place, heading, typed] of [
    ['Setting “clearance margin”', 'Setting “clearance margin”', 'wide'],
    ['Hole H1, drive at 10:42: stick-up after', 'Hole H1, drive at 10:42', '0,50 m'],
  ] as const) {
    await press(place);
    const dialog = page.getByRole('dialog', { name: heading, exact: true });
    await dialog.waitFor();
    const fields = await dialog
      .locator('input')
      .evaluateAll((inputs) => inputs.map((input) => (input as HTMLInputElement).value));
    assert.ok(fields.includes(typed), `${place}: ${fields.join(', ')}`);
    await dialog.getByRole('button', { name: 'Close' }).tap();
    await dialog.waitFor({ state: 'detached' });
  }
  // The samples that a date names are nowhere: what opens is where samples are described.
  await press('Samples');
  await page.waitForURL(/\/describe\?table=samples/);
  await problems.waitFor({ state: 'detached' });
  assert.deepEqual(complaints, []);
});

/** A parcel put together, recorded, saved and withdrawn; the archive list says where its samples are. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { newDocument, withRows } from '@stillstand/campaign/document';
import { violations } from '../../../browser/axe.ts';
import { allSaved, atRest, onDevice, openCampaign, openDemo, served } from '../../../browser/browser.ts';

let at: string;
const device = onDevice({}, async ({ page }) => {
  at = `${await served()}#/${await openDemo(page)}`;
});
const field = (name: string) => device.page.getByLabel(name, { exact: true });
const button = (name: string) => device.page.getByRole('button', { name, exact: true });

/** The sample of the demo that has no result. */
let sent = '';

test('a parcel is put together and recorded as one act; its sheet follows', async () => {
  const { page } = device;
  await page.goto(`${at}/describe?hole=T1`);
  await button('Make submission sheet').click();
  await page.getByText('Still needed: the laboratory, a sample.').waitFor();
  await field('Laboratory').fill('Quay Laboratory');
  const sample = page.locator('.parcel-samples li').first();
  await sample.getByRole('checkbox').check();
  sent = (await sample.locator('b').textContent()) ?? '';
  await field(`Amount of ${sent}`).fill('12 mg');
  await page.getByText('1 sample to Quay Laboratory. Its sheet follows.').waitFor();
  await atRest(page);
  assert.deepEqual(await violations(page), []);
  await button('Record parcel as sent').click();
  await page.getByText('Parcel P1: 1 sample recorded as sent.').waitFor();
  await page.locator('.list-paper').getByRole('heading', { name: 'Submission P1' }).waitFor();
  assert.equal(await page.locator('.list-paper td.code svg').count(), 1);
  await atRest(page);
  assert.deepEqual(await violations(page), []);
  await allSaved(page);
});

test('saved as CSV it has the sample; printed it is A4 on its side', async () => {
  const { page } = device;
  const waiting = page.waitForEvent('download');
  await button('Save as CSV').click();
  const download = await waiting;
  assert.equal(download.suggestedFilename(), 'submission-P1.csv');
  const lines = readFileSync(await download.path(), 'utf8')
    .trimEnd()
    .split('\n');
  assert.ok(lines.at(-1)!.startsWith(`${sent},`));
  assert.match(lines.at(-1)!, /,12 mg,radiocarbon,/);
  const pdf = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
  // 297 × 210 mm are 841.9 × 595.3 points.
  assert.match(pdf, /\/MediaBox \[0 0 84[12]\.\d+ 59[45]\.\d+\]/);
  assert.equal(pdf.match(/\/Type \/Page\b(?!s)/g)?.length, 1);
});

test('a result of a sample that no parcel has is named, and is still to be added', async () => {
  const { page } = device;
  await page.goto(`${at}/describe?view=import`);
  await page.locator('input[type="file"]').setInputFiles({
    name: 'back.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from(
      'sample,laboratory code,method,value,"error, 1σ"\nT1-01,INV-9001,radiocarbon,4000,30\n',
    ),
  });
  await page.getByLabel('Warnings').getByText('Found “T1-01”; expected a sample that was sent').waitFor();
  await button('Add 1 row').waitFor();
});

test('the archive list says where it is, on a telephone too; withdrawn, it can be sent again', async () => {
  const { page } = device;
  await page.goto(`${at}/describe?view=archive`);
  await field('Show').selectOption('away');
  const rows = page.locator('.list-paper tbody tr');
  await page.getByText('1 sample or core').waitFor();
  assert.equal(await rows.count(), 1);
  assert.match((await rows.first().textContent()) ?? '', /sent to Quay Laboratory, parcel P1/);
  await page.setViewportSize({ width: 390, height: 844 });
  await atRest(page);
  assert.deepEqual(await violations(page), []);
  await page.goto(`${at}/describe?view=submission&parcel=P1`);
  await button('Withdraw parcel').click();
  await page.getByText('Parcel P1 withdrawn: its samples can be sent again.').waitFor();
  await page.locator('.parcel-samples li b').getByText(sent, { exact: true }).waitFor();
  await atRest(page);
  assert.deepEqual(await violations(page), []);
});

test('the only laboratory there is is offered, and its price with it', async () => {
  const { page } = device;
  let document = newDocument('one laboratory');
  const laboratory = { laboratory: 'Quay Laboratory', price: '420', currency: 'EUR' };
  document = withRows(document, 'laboratories', [laboratory]);
  document = withRows(document, 'samples', [{ sample: 'S1' }]);
  const id = await openCampaign(page, document, 'describe');
  await page.goto(`${await served()}#/${id}/describe?view=submission`);
  await field('Laboratory').waitFor();
  assert.equal(await field('Laboratory').inputValue(), 'Quay Laboratory');
  assert.equal(await field('Cost of each sample').inputValue(), '420');
  assert.equal(await field('Currency').inputValue(), 'EUR');
});

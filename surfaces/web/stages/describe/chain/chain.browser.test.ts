/** From the plan to the archive in a real browser: planned, labelled, taken, sent in a parcel, and found again. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { violations } from '../../../browser/axe.ts';
import { allSaved, atRest, computed, onDevice, openDemo, served } from '../../../browser/browser.ts';

let at: string;
const device = onDevice({}, async ({ page }) => {
  at = `${await served()}#/${await openDemo(page)}`;
});

test('a sample is planned by its depth, labelled, taken from the core that holds it, and has a chain', async () => {
  const { page } = device;
  await page.goto(`${at}/describe?hole=T2`);
  const plan = page.getByRole('region', { name: 'Sampling plan' });
  await plan.getByRole('button', { name: 'Plan a sample' }).click();
  const label = plan.getByLabel('Sample', { exact: true });
  await label.fill('T2-S3');
  await label.press('Enter');
  await plan.getByLabel('Top', { exact: true }).fill('3.60 m');
  await plan.getByLabel('Top', { exact: true }).press('Enter');
  await plan.getByLabel('Bottom', { exact: true }).fill('3.64 m');
  await plan.getByLabel('Bottom', { exact: true }).press('Enter');
  await plan.getByLabel('Material', { exact: true }).fill('rhizomes');
  await plan.getByLabel('Material', { exact: true }).press('Enter');
  await plan.getByText('T2-S3, 3.60–3.64 m: not taken, and the hole has ended').waitFor();
  // On the column, until it is taken.
  assert.equal(await page.locator('.column-drawing .planned-mark').count(), 1);
  await plan.getByRole('button', { name: 'Print planned labels' }).click();
  await page.getByText('1 label, 1 page.').waitFor();
  assert.match(
    (await page.locator('.labels-paper article').textContent()) ?? '',
    /T2-S3.*3\.60–3\.64 m below ground/,
  );
  await page.getByRole('button', { name: 'Leave the labels' }).click();
  await plan.getByRole('button', { name: 'Take T2-S3' }).click();
  const panel = page.getByRole('region', { name: 'The chosen sample' });
  await panel.getByRole('heading', { name: 'Sample T2-S3' }).waitFor();
  assert.equal(await panel.getByLabel('Material', { exact: true }).inputValue(), 'rhizomes');
  await page.getByText(/^Sample T2-S3 taken from run R\d+, \d\.\d\d–\d\.\d\d m\. Correct/).waitFor();
  await computed(page);
  // The depth it was planned at, to the centimetre of the knife.
  assert.match((await panel.locator('.placed').textContent()) ?? '', /3\.6[0-4]/);
  assert.equal(await page.locator('.column-drawing .planned-mark').count(), 0);
  await panel.getByRole('button', { name: 'Open chain' }).click();
  await page.getByRole('heading', { name: 'Sample T2-S3' }).waitFor();
  await page.getByText('No entry yet.').waitFor();
  for (const [width, height] of [
    [1440, 900],
    [390, 844],
  ] as const) {
    await page.setViewportSize({ width, height });
    await atRest(page);
    assert.deepEqual(await violations(page), []);
  }
  await page.setViewportSize({ width: 1440, height: 900 });
});

test('a parcel of two is sent, one result is entered, and both are found by the parcel', async () => {
  const { page } = device;
  await page.goto(`${at}/describe?view=chain&hole=T2`);
  const list = page.getByRole('region', { name: 'List' });
  const lines = list.locator('li label');
  // Two that nothing is entered of, and no result is there of.
  await page.getByLabel('Show', { exact: true }).selectOption('none');
  await lines.nth(0).click();
  await lines.nth(1).click();
  const names = await lines.locator('b').allTextContents();
  const form = page.getByRole('form', { name: 'Next entry' });
  // Several in store are chosen for a parcel.
  assert.equal(await form.getByLabel('What was done', { exact: true }).inputValue(), 'sent');
  await form.getByLabel('Date', { exact: true }).fill('2020-01-10');
  await form.getByLabel('Laboratory', { exact: true }).fill('Quay Laboratory');
  await form.getByText('Quay Laboratory is not among the laboratories yet').waitFor();
  await form.getByLabel('Parcel', { exact: true }).fill('P7');
  await form.getByLabel('Due', { exact: true }).fill('2020-02-01');
  await form.getByRole('button', { name: 'Record sending' }).click();
  await page.getByText('2 samples and cores: sent.').waitFor();
  // Readings are not undone: a slip is withdrawn, all of it at once, and what was typed is typed again.
  await page.getByRole('button', { name: 'Withdraw 2 entries' }).click();
  await page.getByText('Withdrawn: 2 samples and cores: sent.').waitFor();
  await form.getByLabel('Date', { exact: true }).fill('2020-01-10');
  await form.getByLabel('Laboratory', { exact: true }).fill('Quay Laboratory');
  await form.getByLabel('Parcel', { exact: true }).fill('P7');
  await form.getByLabel('Due', { exact: true }).fill('2020-02-01');
  await form.getByRole('button', { name: 'Record sending' }).click();
  await page.getByRole('button', { name: 'Withdraw 2 entries' }).waitFor();
  await allSaved(page);
  await page.getByLabel('Show', { exact: true }).selectOption('overdue');
  await list
    .getByText(/sent to Quay Laboratory, parcel P7, on 2020-01-10, waiting [\d,]+ days, overdue by/)
    .first()
    .waitFor();
  assert.deepEqual(await lines.locator('b').allTextContents(), names.slice(0, 2));
  await lines.nth(1).click();
  // Asked for next as a rule.
  assert.equal(await form.getByLabel('What was done', { exact: true }).inputValue(), 'result');
  await form.getByRole('button', { name: 'Record result' }).click();
  await page.getByText(`${names[0]}: result received.`).waitFor();
  await page.getByLabel('Show', { exact: true }).selectOption('all');
  await page.getByLabel('Search', { exact: true }).fill('p7');
  await list.getByText(/result received/).waitFor();
  assert.deepEqual(await lines.locator('b').allTextContents(), names.slice(0, 2));
});

test('its result comes back by the code on the label: the wait ends, and the depth leads back to where it was cut', async () => {
  const { page } = device;
  await page.goto(`${at}/date?view=import`);
  await page.getByRole('heading', { name: 'Import a table' }).waitFor();
  await page.locator('input[type="file"]').setInputFiles({
    name: 'answer.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from(
      'Lab code,Sample,14C age BP,Error,Calibration curve\nQ-1,d3000000/sample/T2-S3,3120,30,shcal20\n',
    ),
  });
  await page.getByRole('heading', { name: /^1 date to add/ }).waitFor();
  await page.getByRole('button', { name: /^Add 1 row$/ }).click();
  await page.locator('table.dates').getByText('Q-1').first().waitFor();
  await page.goto(`${at}/describe?view=chain&hole=T2&sample=T2-S3`);
  const chain = page.getByRole('region', { name: 'Chain of T2-S3' });
  await chain.getByText('Result received: Q-1.').waitFor();
  await chain.getByText('Quay Laboratory, parcel P7').waitFor();
  await chain.getByRole('button', { name: 'Show in hole T2' }).click();
  await page.getByRole('heading', { name: 'Sample T2-S3' }).waitFor();
  await page.getByRole('region', { name: 'The chosen sample' }).locator('.placed .traced').first().click();
  const trace = page.getByRole('dialog').locator('.trace');
  // The row of the sample, as it was cut.
  await trace.getByText(/depth.basis run, run R3, top 0\.\d\d m/).waitFor();
  await trace.getByRole('button', { name: /^sample T2-S3/ }).click();
  await page.getByRole('dialog').getByRole('heading', { name: /T2-S3/ }).waitFor();
});

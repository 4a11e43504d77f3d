/**
 * The job on the tablet, without network: a whole hole from the first joint to the last pull, with a mistake amended,
 * an attempt to pass the shoe, a reload in the middle; then a second hole whose string is lost, and the hole after it.
 */
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import type { Page } from 'playwright-core';
import { allSaved, type Device, device, openDemo, served } from '../../browser/browser.ts';

let tablet: Device;
let page: Page;

before(async () => {
  tablet = await device({ width: 820, height: 1180, touch: true });
  page = tablet.page;
  await openDemo(page);
  const away = page.getByRole('button', { name: /^(Close|Leave) the first steps|Hide/ });
  if ((await away.count()) > 0) await away.first().click();
  await page.waitForFunction(async () => {
    await navigator.serviceWorker.ready;
    const names = await caches.keys();
    const cache = names[0] === undefined ? null : await caches.open(names[0]);
    return cache !== null && (await cache.keys()).length > 15;
  });
  await page.reload();
  await tablet.context.setOffline(true);
});
after(async () => {
  await tablet.close();
  setTimeout(() => process.exit(), 500).unref();
});

const bar = () => page.locator('.act .action-bar');
const does = () => bar().locator('.does');

/** Waits for the suggestion and takes it. */
async function take(title: string): Promise<void> {
  await page.locator('.act .does', { hasText: title }).waitFor();
  await bar().click();
}

/** Presses the keys of a length, as a glove does. */
async function keys(text: string): Promise<void> {
  const pad = page.getByRole('region', { name: 'keypad' });
  const names: Record<string, string> = {
    '.': 'point',
    m: 'metres',
    c: 'centimetres',
    f: 'feet',
    i: 'inches',
    '-': 'plus or minus',
  };
  for (const key of text) await pad.getByRole('button', { name: names[key] ?? key, exact: true }).click();
}

async function field(label: string): Promise<void> {
  await page.locator('.entry').getByLabel(label).first().click();
}

async function startHole(label: string): Promise<void> {
  await page.locator('.hole-name').click();
  await page.getByLabel('Label of a new hole').fill(label);
  await page.getByRole('button', { name: 'Start a hole' }).click();
  await page.getByRole('heading', { name: label, exact: true }).waitFor();
}

async function addItem(label: string, text: string, item: 'shoe' | 'joint'): Promise<void> {
  await page.locator('.entry').waitFor();
  await page.getByLabel('Label', { exact: true }).fill(label);
  await field('Length');
  await keys(text);
  const what = page.locator('.entry .field-row', { hasText: 'What it is' });
  if (!(await what.textContent())?.endsWith(item)) {
    await what.click();
    await page.locator('.pad').getByRole('button', { name: item, exact: true }).click();
  }
  await bar().click();
}

/** From the check to the sounding after the first drive, wholly by what is suggested. */
async function begin(joint: string): Promise<void> {
  await take('Check the place');
  for (const check of [
    'Services located',
    'Mast clear of overhead lines',
    'Reference levelled',
    'Joints measured and numbered',
  ]) {
    await page.getByLabel(`${check}: yes`).check();
  }
  await keys('27c');
  await bar().click();
  await take('Add the shoe');
  await addItem(`S${joint}`, '15c', 'shoe');
  await take('Add the first joint');
  await addItem(joint, '3.00m', 'joint');
  await take(`Confirm joint ${joint} tight`);
  await bar().click();
  await take('Drive the string');
  // collar 3.12 above a shoe standing on the ground: the stick-up before is not known yet
  await field('Stick-up before');
  await keys('2.85');
  await field('Stick-up after');
  await keys('35c');
  await bar().click();
  await take('Fill the string');
  await keys('10c');
  await bar().click();
  await take('Sound the sediment');
  await keys('1.02');
  await bar().click();
  await take('Check the water');
  await keys('10c');
  await field('Water outside');
  await keys('1.65');
  await bar().click();
}

const big = async (name: string): Promise<string> =>
  ((await page.locator('.numbers > div', { hasText: name }).locator('.value').textContent()) ?? '').trim();

test('a whole hole without network, from the first joint to the last pull', async () => {
  await page.goto(`${await served()}${new URL(page.url()).hash.replace(/^(#\/[^/?]+).*/, '$1/drill')}`);
  await startHole('H9');
  await begin('K1');
  // makeup loss of the demo's pipe: 1 1/4 in; string 0.15 + 3.00 − 0.03 = 3.12
  assert.equal(await big('Shoe depth'), '2.50');
  assert.equal(await big('Plug length'), '2.10');
  assert.equal(await big('Recovery'), '84');
  assert.equal(await big('Water head'), '+1.90');

  await take('Mark the cable');
  await page.locator('.tape', { hasText: 'stop' }).waitFor();
  await bar().click();
  await take('Run the sampler');
  await bar().click();

  // a slip, mended in its place: both stay in the book
  await keys('1.22');
  await bar().click();
  await page.getByRole('button', { name: /^Amend the run: 1.22/ }).click();
  await page.getByLabel('Cable at its lowest').fill('2.22 m');
  await bar().click();
  await page.locator('.run-book s', { hasText: '1.22' }).waitFor();
  await page.getByRole('button', { name: /Stroke/ }).click();
  await page.getByRole('button', { name: /Stroke 1/ }).click();

  // reload in the middle of the run: the sampler is still in hand
  await allSaved(page);
  await page.reload();
  await page.locator('.act .does', { hasText: 'Lift the sampler' }).waitFor();
  assert.equal(await big('Clearance'), '0.90');

  // close, in shape and word
  await keys('2.60');
  await bar().click();
  await page.locator('.risk[data-level="caution"]', { hasText: 'Close' }).waitFor();
  assert.equal(await big('Clearance'), '0.52');

  // an attempt to pass the shoe: said before it is recorded, recorded all the same, and the action changes
  await keys('3.20');
  await page.locator('.length-entry[data-doubt="danger"]', { hasText: 'past the shoe' }).waitFor();
  await bar().click();
  await page.locator('.risk[data-level="danger"]', { hasText: 'Stop' }).waitFor();
  assert.equal(await big('Clearance'), '−0.08');
  await take('Lift the sampler now');
  await take('Lay out the core');
  await keys('1.50');
  await bar().click();
  await take('Refill the string');
  await keys('10c');
  await bar().click();
  await take('Sound again');
  await keys('3.10');
  await bar().click();

  // something else: the hole ends here
  await page.getByRole('button', { name: 'Something else happened' }).click();
  await page.getByRole('button', { name: /^Pull the string/ }).click();
  await bar().click();
  await take('Pull shoe SK1');
  await bar().click();
  await take('Level the ground again');
  await keys('30c');
  await bar().click();
  await take('Close the hole');
  await page.getByLabel('Why').fill('target reached');
  await bar().click();
  await page.locator('.act .does', { hasText: 'Plan the next hole' }).waitFor();
  assert.equal(await big('Pipe in the ground'), '0.00');
  await page.locator('.drill-title', { hasText: 'finished' }).waitFor();
  await allSaved(page);
  assert.deepEqual(
    tablet.complaints.filter((c) => !/net::ERR_INTERNET_DISCONNECTED/.test(c)),
    [],
  );
});

test('a lost string: named, closed calmly, a second hole beside it linked with its offset', async () => {
  await startHole('H10');
  await begin('L1');
  await page.getByRole('button', { name: 'Something else happened' }).click();
  await page.getByRole('button', { name: /^String lost/ }).click();
  await page.locator('.pad').getByRole('button', { name: 'joint L1' }).click();
  await bar().click();
  await page.locator('.lost', { hasText: 'joint L1 lost' }).first().waitFor();
  await take('Level the ground again');
  await keys('30c');
  await bar().click();
  await take('Close the hole');
  assert.equal(await page.locator('#drill-left_in_ground').inputValue(), 'shoe SL1, joint L1');
  await bar().click();
  await take('Start a second hole');
  await field('Distance from the lost hole');
  await keys('2.4');
  await bar().click();
  await page.getByRole('heading', { name: 'H10b', exact: true }).waitFor();
  await page.locator('.hole-name').click();
  await page.locator('.hole-list', { hasText: 'replaces H10' }).waitFor();
  await page.getByRole('button', { name: 'Close', exact: true }).click();
  assert.equal(await does().textContent(), 'Check the place');
});

test('by keyboard alone: a sounding entered, withdrawn and brought back', async () => {
  await startHole('H11');
  await begin('M1');
  await page.locator('.drill-tools').getByRole('button', { name: 'Sound' }).focus();
  await page.keyboard.press('Enter');
  await page.keyboard.type('3 ft 4 in');
  await page.keyboard.press('Enter');
  await page.locator('.book li', { hasText: '3 ft 4 in' }).waitFor();
  assert.equal(await big('Plug length'), (3.12 - 40 * 0.0254).toFixed(2));
  await page.locator('.book li', { hasText: '3 ft 4 in' }).getByRole('button').press('Enter');
  await page.getByRole('button', { name: 'Withdraw it' }).press('Enter');
  await page.locator('.book li [data-state="withdrawn"]').waitFor();
  assert.equal(await big('Plug length'), '2.10');
  await page.locator('.book li [data-state="withdrawn"]').press('Enter');
  await page.getByRole('button', { name: 'Bring it back' }).press('Enter');
  await page.waitForFunction(() => document.querySelector('.book [data-state="withdrawn"]') === null);
});

test('a photo is kept with the hole, and a paper sheet is typed in by keyboard', async () => {
  await startHole('H12');
  // the smallest picture there is: one grey dot
  const dot = Buffer.from(
    'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNoAAAAggCBd81ytgAAAABJRU5ErkJggg==',
    'base64',
  );
  await page
    .locator('input[type=file][capture]')
    .setInputFiles({ name: 'core.png', mimeType: 'image/png', buffer: dot });
  await page.getByRole('status').filter({ hasText: 'Photo kept.' }).waitFor({ state: 'attached' });

  await page.locator('.drill-tools').getByRole('button', { name: 'Book' }).press('Enter');
  await page.getByRole('button', { name: 'Type in a sheet' }).press('Enter');
  await page.getByLabel('time of line 1', { exact: true }).focus();
  const sheet = [
    '7:45|G|27 cm|',
    '7:50|H|S12|15 cm||',
    '8:00|J|N1|3.00 m|yes|',
    '8:10|D|2.85 m|35 cm|60|length',
    '8:20|S|1.02 m|10 cm|1.65 m|',
  ];
  for (const line of sheet) {
    // Enter goes on to the next cell; the note is passed over. Of the ground only two cells can be written.
    const cells = line.split('|');
    for (const cell of cells) {
      await page.keyboard.type(cell);
      await page.keyboard.press('Enter');
    }
    if (cells[1] === 'G') await page.getByLabel('time of line 2', { exact: true }).focus();
    else await page.keyboard.press('Enter');
  }
  await page.getByRole('button', { name: 'Record 5 readings' }).press('Enter');
  await page.locator('.number', { hasText: 'Plug length' }).waitFor();
  assert.equal(await big('Shoe depth'), '2.50');
  assert.equal(await big('Plug length'), '2.10');
});

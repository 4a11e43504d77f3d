/**
 * The job on the tablet, without network: a whole hole from the first joint to the last pull, with a mistake amended,
 * an attempt to pass the shoe, a reload in the middle; then a second hole whose string is lost, and the hole after it.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Page } from 'playwright-core';
import { allSaved, onDevice, openDemo, served } from '../../../browser/browser.ts';
import { type Hand, hand } from '../../../browser/hand.ts';

let page: Page;
let crew: Hand;

const tablet = { width: 820, height: 1180, touch: true, mayComplain: /net::ERR_INTERNET_DISCONNECTED/ };
onDevice(tablet, async ({ page: own, context }) => {
  page = own;
  crew = hand(page);
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
  await context.setOffline(true);
});

test('a whole hole without network, from the first joint to the last pull', async () => {
  await page.goto(`${await served()}${new URL(page.url()).hash.replace(/^(#\/[^/?]+).*/, '$1/drill')}`);
  await crew.startHole('H9');
  await crew.begin('K1');
  // makeup loss of the demo's pipe: 1 1/4 in; string 0.15 + 3.00 − 0.03175 = 3.11825; what is a limit is rounded down
  assert.equal(await crew.big('Shoe depth'), '2.50');
  assert.equal(await crew.big('Plug length'), '2.09');
  assert.equal(await crew.big('Recovery'), '84');
  assert.equal(await crew.big('Water head'), '+1.90');

  // where a number comes from: the readings, each opened in its place
  await page.locator('.numbers .traced').first().click();
  const trace = page.getByRole('dialog').filter({ hasText: 'Readings of H9' });
  await trace
    .getByRole('button', { name: /sounding after drive/i })
    .first()
    .waitFor();
  await trace.getByRole('button', { name: 'Close', exact: true }).click();
  await crew.take('Mark the cable');
  await page.locator('.tape', { hasText: 'stop' }).waitFor();
  await crew.bar().click();
  await crew.take('Run the sampler');
  await crew.bar().click();

  // a slip, mended in its place: both stay in the book
  await crew.keys('1.22');
  await crew.bar().click();
  await page.getByRole('button', { name: /^Amend the run: 1.22/ }).click();
  await page.getByLabel('Cable at its lowest').fill('2.22 m');
  await crew.bar().click();
  await page.locator('.run-book s', { hasText: '1.22' }).waitFor();
  await page.getByRole('button', { name: /Stroke/ }).click();
  await page.getByRole('button', { name: /Stroke 1/ }).click();

  // reload in the middle of the run: the sampler is still in hand
  await allSaved(page);
  await page.reload();
  await page.locator('.act .does', { hasText: 'Lift the sampler' }).waitFor();
  assert.equal(await crew.big('Clearance'), '0.89');

  // near the stop mark, in shape and word
  await crew.keys('2.60');
  await crew.bar().click();
  await page.locator('.risk[data-level="caution"]', { hasText: 'Near stop' }).waitFor();
  assert.equal(await crew.big('Clearance'), '0.51');

  // an attempt to pass the shoe: said before it is recorded, recorded all the same, and the action changes
  await crew.keys('3.20');
  await page.locator('.length-entry[data-doubt="danger"]', { hasText: 'past the shoe' }).waitFor();
  await crew.bar().click();
  await page.locator('.risk[data-level="danger"]', { hasText: 'Stop' }).waitFor();
  assert.equal(await crew.big('Clearance'), '−0.09');
  await crew.take('Lift the sampler now');
  // the run took water along: the string is filled before the core is looked at
  await crew.take('Refill the string');
  await crew.keys('10c');
  await crew.bar().click();
  await crew.take('Lay out the core');
  await crew.keys('1.50');
  // piece by piece: a gap of 8 cm, two trays
  await page.locator('.entry .field-row', { hasText: 'Laid out' }).click();
  await page.locator('.pad').getByRole('button', { name: 'piece by piece' }).click();
  await crew.bar().click();
  await page.getByRole('heading', { name: 'Piece 1 of R1' }).waitFor();
  await crew.keys('62c');
  await page.getByLabel('Tray').fill('T7');
  await crew.bar().click();
  await page.getByRole('heading', { name: 'Piece 2 of R1' }).waitFor();
  await crew.field('Upper end');
  await crew.keys('70c');
  await page.locator('.entry .field-row', { hasText: 'Tray' }).click();
  await page.locator('.pad').getByRole('button', { name: 'T8', exact: true }).click();
  await crew.bar().click();
  await page.locator('.book li', { hasText: 'tray T8' }).waitFor();
  await crew.take('Repeat sounding');
  await crew.keys('3.10');
  await crew.bar().click();

  // something else: the hole ends here
  await page.getByRole('button', { name: 'Other event' }).click();
  await page.getByRole('button', { name: /^Pull the string/ }).click();
  await crew.bar().click();
  await crew.take('Pull shoe SK1');
  await crew.bar().click();
  await crew.take('Remeasure ground level');
  await crew.keys('30c');
  await crew.bar().click();
  await crew.take('End hole');
  await page.getByLabel('Reason').fill('target reached');
  await crew.bar().click();
  await page.locator('.act .does', { hasText: 'Plan the next hole' }).waitFor();
  assert.equal(await crew.big('Pipe in the ground'), '0.00');
  await page.locator('.drill-title', { hasText: 'finished' }).waitFor();
  await allSaved(page);
});

test('a hole cored by hand: pushes one after the other, a gap told, a push mended in its place', async () => {
  await crew.startHole('H9h', 'chamber');
  await crew.take('Site check');
  await crew.answer('Buried services located', 'not needed');
  await crew.take('Close site check');
  await crew.take('Measure ground level');
  await crew.keys('12c');
  await crew.bar().click();
  await crew.take('Record the first push');
  await crew.keys('50c');
  await crew.field('Came up');
  await crew.keys('48c');
  await crew.bar().click();
  await crew.take('Record a push');
  await crew.keys('1.10');
  await crew.field('Upper end');
  await crew.keys('60c');
  await crew.bar().click();
  await page.locator('.risk[data-level="caution"]', { hasText: 'Not cored: 0.50 to 0.60 m.' }).waitFor();
  assert.equal(await crew.big('Depth'), '1.10');
  // it began at 0.50: typed with a comma, as many people do
  await page.locator('.book li', { hasText: 'Push P2' }).getByRole('button').click();
  await page.locator('#drill-from').fill('0,50 m');
  assert.equal(await page.locator('#drill-from').inputValue(), '0.50 m');
  await crew.bar().click();
  await page.locator('.book s', { hasText: '60 cm' }).waitFor();
  await page.locator('.risk[data-level="normal"]').waitFor();
  await page.getByRole('button', { name: 'Other event' }).click();
  await page.getByRole('button', { name: /^End the hole/ }).click();
  await crew.bar().click();
  await page.locator('.act .does', { hasText: 'Plan the next hole' }).waitFor();
});

test('a hole said at its start to begin at the living ground is so where it is described', async () => {
  await crew.startHole('H9g', 'gouge', { isGround: 'yes' });
  const drill = page.url();
  await page.goto(drill.replace(/\/drill.*/, '/describe?hole=H9g'));
  const field = page.getByLabel('Begins at the living ground', { exact: true });
  await field.waitFor();
  assert.equal(await field.inputValue(), 'yes');
  await page.goto(drill);
  await page.getByRole('heading', { name: 'H9g', exact: true }).waitFor();
});

test('a lost string: named, ended, a replacement hole next to it linked with its distance', async () => {
  await crew.startHole('H10');
  await crew.begin('L1');
  await page.getByRole('button', { name: 'Other event' }).click();
  await page.getByRole('button', { name: /^String lost/ }).click();
  await page.locator('.pad').getByRole('button', { name: 'joint L1' }).click();
  await crew.bar().click();
  await page.locator('.lost', { hasText: 'joint L1 lost' }).first().waitFor();
  await crew.take('Remeasure ground level');
  await crew.keys('30c');
  await crew.bar().click();
  await crew.take('End hole');
  assert.equal(await page.locator('#drill-left_in_ground').inputValue(), 'shoe SL1, joint L1');
  await crew.bar().click();
  // the screen stays at the lost hole, whatever else is planned
  await page.getByRole('heading', { name: 'H10', exact: true }).waitFor();
  await crew.take('Start replacement hole');
  await crew.field('Distance from the lost hole');
  await crew.keys('2.4');
  await crew.bar().click();
  await page.getByRole('heading', { name: 'H10b', exact: true }).waitFor();
  await page.locator('.hole-name').click();
  await page.locator('.hole-list', { hasText: 'replaces H10' }).waitFor();
  await page.getByRole('button', { name: 'Close', exact: true }).click();
  assert.equal(await crew.does().textContent(), 'Site check');
});

test('by keyboard alone: a sounding entered, withdrawn and brought back', async () => {
  await crew.startHole('H11');
  await crew.begin('M1');
  await page.locator('.drill-tools').getByRole('button', { name: 'Sounding' }).focus();
  await page.keyboard.press('Enter');
  await page.keyboard.type('3 ft 4 in');
  await page.keyboard.press('Enter');
  await page.locator('.book li', { hasText: '3 ft 4 in' }).waitFor();
  // 3.11825 − 1.016
  assert.equal(await crew.big('Plug length'), '2.10');
  await page.locator('.book li', { hasText: '3 ft 4 in' }).getByRole('button').press('Enter');
  await page.getByRole('button', { name: 'Withdraw reading' }).press('Enter');
  await page.locator('.book li [data-state="withdrawn"]').waitFor();
  assert.equal(await crew.big('Plug length'), '2.09');
  await page.locator('.book li [data-state="withdrawn"]').press('Enter');
  await page.getByRole('button', { name: 'Restore reading' }).press('Enter');
  await page.waitForFunction(() => document.querySelector('.book [data-state="withdrawn"]') === null);
});

test('a photo is kept with the hole, and a paper sheet is typed in by keyboard', async () => {
  // the sheet is typed in at nine: what it says of a plug is not yet too old to be shown
  await page.clock.setFixedTime(new Date().setHours(9, 0, 0, 0));
  await crew.startHole('H12');
  // the smallest picture there is: one grey dot
  const dot = Buffer.from(
    'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNoAAAAggCBd81ytgAAAABJRU5ErkJggg==',
    'base64',
  );
  await page
    .locator('input[type=file][capture]')
    .setInputFiles({ name: 'core.png', mimeType: 'image/png', buffer: dot });
  await page.getByRole('status').filter({ hasText: 'Photo kept.' }).waitFor({ state: 'attached' });

  await page.locator('.drill-tools').getByRole('button', { name: 'Log' }).press('Enter');
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
  assert.equal(await crew.big('Shoe depth'), '2.50');
  assert.equal(await crew.big('Plug length'), '2.09');
});

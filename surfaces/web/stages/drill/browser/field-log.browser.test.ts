/** Field log: an injury, a hand-over, a call that is due, and the sheet of a day. */
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { test } from 'node:test';
import { parseCampaign } from '@stillstand/campaign/document';
import { dayFacts, rowsOfDocument } from '@stillstand/campaign/holes';
import { openFiles } from '@stillstand/campaign/versions';
import { daySheetHtml } from '@stillstand/output/day-sheet';
import type { Page } from 'playwright-core';
import { readCampaignFolder } from '../../../../cli/disk/read.ts';
import { violations } from '../../../browser/axe.ts';
import { atRest, onDevice, openDemo, served } from '../../../browser/browser.ts';
import { type Hand, hand } from '../../../browser/hand.ts';

let page: Page;
let crew: Hand;
let home: string;

onDevice({ width: 820, height: 1180, touch: true }, async (tablet) => {
  page = tablet.page;
  crew = hand(page);
  const id = await openDemo(page);
  await page.getByRole('button', { name: 'Put the first steps away' }).tap();
  home = `${await served()}#/${id}`;
  await page.goto(`${home}/drill`);
  await page.locator('.drill').waitFor();
});

const other = async (name: RegExp): Promise<void> => {
  await page.locator('.act').getByRole('button', { name: 'Other event' }).tap();
  await page.locator('.something').getByRole('button', { name }).tap();
};
const leave = () =>
  page
    .getByRole('button', { name: /^Leave/ })
    .first()
    .tap();

async function holds(state: string): Promise<void> {
  await atRest(page);
  const isWider = await page.evaluate(() => document.documentElement.scrollWidth > innerWidth);
  assert.ok(!isWider, `${state}: wider than the screen`);
  await page.setViewportSize({ width: 820, height: 3000 });
  await atRest(page);
  assert.deepEqual(await violations(page, 'all'), [], state);
  await page.setViewportSize({ width: 820, height: 1180 });
}

test('an injury shows whom to call and where we are, above all else and with no keyboard', async () => {
  await crew.startHole('H9');
  await other(/^Injury/);
  const plate = page.locator('.emergency');
  await plate.getByText('No emergency contact is written in Plan.').waitFor();
  assert.match((await plate.textContent()) ?? '', /112 \(Europe\) or your local emergency number/);
  assert.match((await plate.textContent()) ?? '', /check the local number/);
  const box = (await plate.boundingBox())!;
  const head = (await page.locator('.drill').boundingBox())!;
  assert.ok(box.y <= head.y + 16, `the plate is first: ${box.y} ${head.y}`);
  assert.equal(await page.evaluate(() => document.activeElement?.tagName === 'INPUT'), false);
  await holds('injury nothing known');
  // it can be recorded without a word
  await crew.bar().tap();
  await page.locator('.book li', { hasText: 'Injury' }).waitFor();

  await page.goto(`${home}/plan`);
  await page.getByRole('button', { name: 'Start today' }).tap();
  await page.getByRole('textbox', { name: 'Emergency contact' }).fill('Coast rescue, channel 16');
  await page.getByRole('textbox', { name: 'Emergency position' }).fill('North access, gate 3');
  await page.getByRole('textbox', { name: 'Emergency position' }).press('Enter');
  await holds('plan with emergency contact');
  await page.goto(`${home}/drill?hole=H9`);
  await other(/^Injury/);
  await page.locator('.emergency dd', { hasText: 'Coast rescue, channel 16' }).waitFor();
  assert.match((await plate.textContent()) ?? '', /North access, gate 3written for today/);
  await holds('injury');
  await leave();
});

test('the coordinates of a hole are said in degrees and decimal minutes', async () => {
  await page.goto(`${home}/drill?hole=T3`);
  await other(/^Injury/);
  await page.locator('.emergency dd', { hasText: 'coordinates of hole T3, WGS 84' }).waitFor();
  assert.match(
    (await page.locator('.emergency').textContent()) ?? '',
    /\d+° \d\d\.\d{3}′ [NS], \d+° \d\d\.\d{3}′ [EW]/,
  );
  await holds('injury with coordinates');
  await leave();
});

test('a hand-over waits for the next crew to confirm it', async () => {
  await page.goto(`${home}/drill?hole=H9`);
  await other(/^Hand over/);
  await page.locator('.handed', { hasText: 'No string in the hole' }).waitFor();
  await page.getByLabel('Who hands over').fill('AB');
  await page.getByLabel('Who takes over').fill('CD');
  await holds('hand over');
  await crew.bar().tap();
  const waiting = page.locator('.handed-over');
  await waiting.getByText('Handed over to CD, not confirmed').waitFor();
  await holds('handed over');
  await waiting.getByRole('button', { name: 'Confirm as CD' }).tap();
  await waiting.waitFor({ state: 'detached' });
  await page.locator('.book li', { hasText: 'confirmed' }).waitFor();
});

test('a call-in is shown when it is near, overdue as a caution, later as a danger, and made by one press', async () => {
  const now = Date.now();
  await page.goto(`${home}/plan`);
  const due = new Date(now + 10 * 60_000);
  const clock = `${String(due.getHours()).padStart(2, '0')}:${String(due.getMinutes()).padStart(2, '0')}`;
  await page.getByLabel('Call-in with').fill('harbour office');
  await page.getByLabel('next call at').fill(clock);
  await page.getByRole('button', { name: 'Start call-ins' }).tap();
  const plate = page.locator('.call-in');
  await plate.getByText(`Call harbour office by ${clock}`).waitFor();
  await page.goto(`${home}/drill?hole=H9`);
  await page.locator('.head').getByText(`call in ${clock}`).waitFor();
  await holds('call-in near');
  await page.clock.setFixedTime(now + 25 * 60_000);
  await page.locator('.call-in[data-level="overdue"][role="alert"]').waitFor();
  await holds('call-in overdue');
  await page.clock.setFixedTime(now + 45 * 60_000);
  await page.locator('.call-in[data-level="danger"]').waitFor();
  await holds('call-in danger');
  await plate.getByRole('button', { name: /^Called in, next \d\d:\d\d$/ }).tap();
  // after as long as last time, a quarter of an hour: near again at once, and overdue no more
  await page.locator('.call-in[data-level="soon"]').waitFor();
  await other(/^Call-in/);
  await holds('call-in form');
  await leave();
});

test('a tape that reads short is named where it is used', async () => {
  await other(/^Instrument check/);
  await page.getByLabel('Which one').fill('T1');
  await crew.field('Known length');
  await crew.keys('10m');
  await crew.field('It reads');
  await crew.keys('9.988');
  await holds('instrument check');
  await crew.bar().tap();
  await page.locator('.run-cautions', { hasText: 'Tape T1 reads 1.2 cm short in 10 m' }).waitFor();
  await page.locator('.drill-tools').getByRole('button', { name: 'Log' }).tap();
  await holds('log');
  await page.locator('.act').getByRole('button', { name: 'Other event' }).tap();
  await holds('other event');
});

test('the sheet of a day is one A4 page, the same bytes that the command line writes', async () => {
  await page.goto(`${home}/drill?hole=T1`);
  await other(/^End of day/);
  await page.getByLabel('Day of the sheet').fill('2023-02-07');
  await page.locator('.day-screen').getByText('Day sheet 2023-02-07').waitFor();
  await holds('day sheet');
  const saving = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save as a file' }).tap();
  const saved = await readFile(await (await saving).path(), 'utf8');
  const folder = join(import.meta.dirname, '..', '..', '..', '..', '..', 'demo', 'campaign');
  const { files, notFiles } = await readCampaignFolder(folder);
  const { document } = openFiles(files, notFiles);
  const facts = dayFacts(parseCampaign(document).campaign, rowsOfDocument(document), '2023-02-07');
  assert.equal(saved, daySheetHtml(facts));
  const paper = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
  assert.equal([...paper.matchAll(/\/Type\s*\/Page\b/g)].length, 1);
  assert.match(paper, /\/MediaBox \[0 0 59[45][.\d]* 84[12][.\d]*\]/);
  await page.getByRole('textbox', { name: 'Plan for the next day' }).fill('Pull T3, level the references');
  await page.getByRole('textbox', { name: 'Plan for the next day' }).press('Enter');
  await page.locator('.day-screen').getByText('Pull T3, level the references').waitFor();
  await leave();
  await page.locator('.drill').waitFor();
});

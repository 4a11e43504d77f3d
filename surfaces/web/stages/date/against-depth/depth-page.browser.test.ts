/**
 * Ages against depth by touch on a tablet: a date is found in the drawing and in the list, rejected, moved and accepted
 * again, and the history follows; what is missing or contradicts itself is said.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Page } from 'playwright-core';
import { violations } from '../../../browser/axe.ts';
import { allSaved, atRest, onDevice, openCampaign, openDemo } from '../../../browser/browser.ts';
import { type Cells, documentOf } from '../../../browser/document-of.ts';

let page: Page;
let home = '';
onDevice({ width: 820, height: 1180, touch: true }, async (device) => {
  page = device.page;
  const id = await openDemo(page);
  home = page.url().split('#')[0]!;
  await page.goto(`${home}#/${id}/date?view=depth&hole=T3`);
  await page.locator('.against-depth .picture svg').waitFor();
  const away = page.locator('.first-steps').getByRole('button').last();
  if ((await away.count()) > 0) await away.tap();
});

const ages = (state: 'none' | 'computing' | 'former' | 'new') =>
  page.locator(`[data-ages="${state}"]`).waitFor();
const row = (code: string) => page.locator('.ages-list th').getByRole('button', { name: code });
const line = (code: string) =>
  page.locator('.ages-list tr', { has: page.getByRole('button', { name: code }) });
const undo = () => page.keyboard.press('Control+z');
const changed = () => page.locator('.changed-ages');

test('the ages between the dates are modelled on request, in view of how far they are', async () => {
  await ages('none');
  await page.getByRole('button', { name: 'Model ages' }).tap();
  await ages('computing');
  await page.getByText(/computed until the chains agree\. \d+ %/).waitFor();
  await ages('new');
  await page.getByText('8 dates together').or(page.getByText('9 dates together')).waitFor();
  await page
    .getByText(/dates of T3 share the reservoir offset lagoon shells: the error is [+−]?\d+ ± \d+ 14C yr/)
    .waitFor();
});

test('a date pressed in the drawing opens its row, and a row pressed marks the drawing', async () => {
  const picture = page.locator('.against-depth .picture svg');
  const label = picture.getByText('INV-2469', { exact: true });
  const weight = () => label.getAttribute('font-weight');
  assert.notEqual(await weight(), '600');
  const box = (await label.boundingBox())!;
  await page.touchscreen.tap(box.x + 10, box.y + box.height / 2);
  await page.locator('.ages-list [aria-expanded="true"]', { hasText: 'INV-2469' }).waitFor();
  assert.equal(await weight(), '600');
  await row('INV-2447').tap();
  await page.locator('.ages-list [aria-expanded="true"]', { hasText: 'INV-2447' }).waitFor();
  assert.notEqual(await weight(), '600');
  assert.equal(await page.locator('.ages-list [aria-expanded="true"]').count(), 1);
});

test('a date is rejected with its reason: the former history is light, then the change is said in years', async () => {
  await row('INV-2465').tap();
  await page.getByRole('button', { name: 'Reject it' }).tap();
  await page.getByLabel('Why is it rejected?', { exact: true }).fill('bored shell');
  await page.getByRole('button', { name: 'Reject the date' }).tap();
  await ages('former');
  await page.getByText('Former dates.').waitFor();
  await ages('new');
  assert.match((await changed().textContent()) ?? '', /Since the last change: (base|no age)/);
  assert.match((await row('INV-2465').textContent()) ?? '', /rejected/);
  await page.getByRole('button', { name: 'Accept it again' }).tap();
  // Computed before: it is remembered, and there at once.
  await page.locator('.ages-list tr:not(.rejected)', { hasText: 'INV-2465' }).waitFor();
  await ages('new');
  await row('INV-2465').tap();
});

test('a sample is moved in one act, which Undo takes back', async () => {
  const depth = () => line('INV-2462').locator('td').first().textContent();
  const before = await depth();
  await row('INV-2462').tap();
  await page.getByRole('button', { name: 'Move sample' }).tap();
  const dialog = page.getByRole('dialog', { name: /^Move sample T3-04/ });
  for (const name of ['Top', 'Bottom'] as const) {
    const field = dialog.getByLabel(name, { exact: true });
    await field.fill(`${(Number.parseFloat(await field.inputValue()) + 0.1).toFixed(2)} m`);
  }
  assert.deepEqual(await violations(page, 'all'), []);
  await dialog.getByRole('button', { name: 'Save depth' }).tap();
  await dialog.waitFor({ state: 'detached' });
  await ages('former');
  await ages('new');
  assert.ok(Number(await depth()) > Number(before));
  await allSaved(page);
  await undo();
  await page.waitForFunction(
    (was) =>
      [...document.querySelectorAll('.ages-list tr')].some(
        (tr) => tr.textContent?.includes('INV-2462') && tr.querySelector('td')?.textContent === was,
      ),
    before,
  );
});

test('a date is traced to its readings from its row', async () => {
  await page.getByRole('button', { name: 'Trace date' }).tap();
  const trace = page.getByRole('dialog');
  await trace.getByText('INV-2462').first().waitFor();
  await page.keyboard.press('Escape');
  await trace.waitFor({ state: 'detached' });
});

test('ages are written in years of the era where chosen', async () => {
  await page.getByLabel('Ages', { exact: true }).selectOption('ce');
  await page.locator('.picture svg').getByText('BCE and CE', { exact: true }).waitFor();
  await page
    .locator('.picture svg')
    .getByText(/^\d,000 BCE$/)
    .first()
    .waitFor();
});

test('nothing is against the rules of access, by day and by night, on a tablet and on a phone', async () => {
  await ages('new');
  for (const theme of ['day', 'night']) {
    await page.evaluate((name) => (document.documentElement.dataset['theme'] = name), theme);
    for (const [width, height] of [
      [820, 1180],
      [390, 844],
    ] as const) {
      await page.setViewportSize({ width, height });
      // At its end no number lies half under the bar of stages, which is taken for one too small to press.
      await page.evaluate(() => scrollTo(0, document.documentElement.scrollHeight));
      await atRest(page);
      assert.deepEqual(
        await violations(page, theme === 'day' ? 'all' : 'colours'),
        [],
        `${theme}, ${width} px`,
      );
      assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= width);
      const picture = process.env['STILLSTAND_PICTURE'];
      if (picture !== undefined)
        await page.screenshot({ path: picture.replace('.png', `-${theme}-${width}.png`), fullPage: true });
    }
  }
});

const sample = (label: string, hole: string, depth_m: number | null): Cells => ({
  sample: label,
  hole,
  ...(depth_m === null ? {} : { depth_basis: 'in_situ', top: `${depth_m} m`, bottom: `${depth_m + 0.02} m` }),
});
const date = (lab_code: string, sample: string, value: number, more: Cells = {}): Cells => ({
  lab_code,
  sample,
  method: 'luminescence',
  value: String(value),
  error: '60',
  status: 'accepted',
  ...more,
});
const REJECTED = { status: 'rejected', reason: 'turned over' };

/** Holes without a ground level, one for each thing that goes wrong. */
const messy = documentOf('Messy', {
  holes: [
    ...['Contradicts', 'Lone', 'Refused', 'Sixty', 'Nowhere'].map((hole) => ({ hole, method: 'exposure' })),
    { hole: 'Marsh', method: 'gouge', ended_at: '2024-06-11T12:00+02:00' },
  ],
  samples: [
    ...[0.5, 1, 1.5, 2, 2.5].map((depth, i) => sample(`C${i}`, 'Contradicts', depth)),
    sample('C-none', 'Contradicts', null),
    sample('L', 'Lone', 1),
    // Of no unit.
    { ...sample('L-bad', 'Lone', 1), top: '1.5' },
    ...[1, 2, 3].map((depth) => sample(`R${depth}`, 'Refused', depth)),
    ...Array.from({ length: 60 }, (_, i) => sample(`S${i}`, 'Sixty', 0.1 + i * 0.1)),
    sample('N', 'Nowhere', null),
    ...[1, 2].map((depth) => sample(`M${depth}`, 'Marsh', depth)),
  ],
  determinations: [
    ...[500, 1000, 1500, 2000, 2500].map((age, i) => date(`C-${i}`, `C${i}`, age)),
    date('C-odd', 'C2', 5200),
    date('C-none', 'C-none', 1200),
    date('L-1', 'L', 900),
    date('L-bad', 'L-bad', 900),
    ...[1, 2, 3].map((depth) => date(`R-${depth}`, `R${depth}`, 1000 * depth, REJECTED)),
    ...Array.from({ length: 60 }, (_, i) => date(`S-${i}`, `S${i}`, 200 + i * 100)),
    date('N-1', 'N', 900),
    ...[1, 2].map((depth) => date(`M-${depth}`, `M${depth}`, 1000 * depth)),
  ],
  settings: [{ name: 'age_depth', value: 'Contradicts' }],
});

test('dates that contradict each other at one depth, and one without a depth, are named', async () => {
  await page.setViewportSize({ width: 820, height: 1180 });
  const id = await openCampaign(page, messy, 'date?view=depth&hole=Contradicts');
  assert.notEqual(id, '');
  await ages('new');
  await line('C-odd').getByRole('img', { name: 'in doubt' }).waitFor();
  await row('C-odd').tap();
  await page.getByText('More likely an outlier than not. Look at the sample').waitFor();
  await row('C-none').getByText('without a depth: not drawn').waitFor();
});

test('a date whose sample cannot be read is listed with what is wrong', async () => {
  await page.getByRole('button', { name: 'Lone', exact: true }).tap();
  await row('L-bad').getByText('not used: press to see why').waitFor();
  await row('L-bad').tap();
  await page.locator('.date-acts').getByText('found 1.5').waitFor();
});

test('one date, none in use, none with a depth: what is missing is said, and the dates are there', async () => {
  const hole = (name: string) => page.getByRole('button', { name, exact: true }).tap();
  await hole('Lone');
  await page.getByText('take three dates in use').waitFor();
  await row('L-1').waitFor();
  assert.equal(await page.getByRole('button', { name: 'Model ages' }).count(), 0);
  await hole('Refused');
  await row('R-3').getByText('rejected').waitFor();
  await page.locator('.picture svg').getByText('rejected, not used').waitFor();
  await hole('Nowhere');
  await page.getByText('No dated sample of Nowhere has a depth yet.').waitFor();
  await row('N-1').getByText('without a depth: not drawn').waitFor();
});

test('two dates are enough where the hole is said to begin at the living ground', async () => {
  await page.getByRole('button', { name: 'Marsh', exact: true }).tap();
  await page.getByText('take three dates in use').waitFor();
  await page.getByLabel('Begins at the living ground', { exact: true }).selectOption('yes');
  await page.getByRole('button', { name: 'Model ages' }).tap();
  await ages('new');
  await page.getByText('2 dates together').waitFor();
  await page.getByLabel('Begins at the living ground', { exact: true }).selectOption('no');
  await page
    .getByText('Too few dates are in use now, so it is removed.')
    .or(page.getByText('take three dates in use'))
    .waitFor();
});

test('of sixty dates every one is named in the drawing and in the list', async () => {
  await page.getByRole('button', { name: 'Sixty', exact: true }).tap();
  await page.locator('.picture svg').getByText('S-59', { exact: true }).waitFor();
  assert.equal(await page.locator('.ages-list tbody tr').count(), 60);
  assert.deepEqual(await violations(page, 'all'), []);
});

/**
 * A line through time on the screen: ages are modelled by one press, what stood is read by pointer and keyboard, ages
 * of the sections and the inner side are set, and Undo takes each back. Two exposures of 1 mm/yr, which are quick.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Page } from 'playwright-core';
import { violations } from '../../../browser/axe.ts';
import { allSaved, atRest, onDevice, openCampaign } from '../../../browser/browser.ts';
import { type Cells, documentOf } from '../../../browser/document-of.ts';

const DEPTHS = [0.5, 1.5, 2.5, 3.5];
const hole = (name: string, longitude_deg: string): Cells => ({
  hole: name,
  method: 'exposure',
  latitude_deg: '-46.4',
  longitude_deg,
  reference_elevation_m: '2',
  reference_datum: 'MSL',
});
const unit = (at: string, label: string, [top, base]: [number, number], environment: string): Cells => ({
  hole: at,
  unit: label,
  basis: 'in_situ',
  top: `${top} m`,
  bottom: `${base} m`,
  sediment: environment === 'high marsh' ? 'peat' : 'silt',
  environment,
  contact_below: 'sharp',
});
const each = <T>(make: (hole: string, depth: number) => T): T[] =>
  ['A', 'B'].flatMap((at) => DEPTHS.map((depth) => make(at, depth)));
// In B the land was drowned a thousand years later than in A.
const shore = documentOf('Drowned shore', {
  datums: [{ datum: 'MSL', kind: 'mean_sea_level' }],
  holes: [hole('A', '-121.300'), hole('B', '-121.298'), hole('C', '-121.296')],
  units: [
    unit('A', '1', [0, 1], 'lagoon'),
    unit('A', '2', [1, 2], 'high marsh'),
    unit('A', '3', [2, 4], 'land surface'),
    unit('B', '1', [0, 1], 'high marsh'),
    unit('B', '2', [1, 4], 'land surface'),
    unit('C', '1', [0, 4], 'land surface'),
  ],
  samples: each((at, depth) => ({
    sample: `${at} ${depth}`,
    hole: at,
    basis: 'in_situ',
    top: `${depth - 0.005} m`,
    bottom: `${depth + 0.005} m`,
  })),
  determinations: each((at, depth) => ({
    lab_code: `${at}-${depth}`,
    sample: `${at} ${depth}`,
    method: 'luminescence',
    value: String(1000 * depth),
    error: '40',
  })),
});

let page: Page;
onDevice({ width: 820, height: 1180 }, async (device) => {
  page = device.page;
  await openCampaign(page, shore, 'describe?view=through-time');
  await page.locator('.through-time').waitFor();
});

const undo = () => page.keyboard.press('Control+z');
const picture = () => page.locator('.through-picture svg');
const reading = () => page.locator('.read-values');
const ages = () => page.getByLabel('Ages of the sections', { exact: true });

test('a line without ages says so, and one press models those of the holes with dates enough', async () => {
  await page.getByText('No hole of this line has ages against depth.').waitFor();
  await page.getByText('It takes about a minute for 5 holes.').waitFor();
  await page.getByRole('button', { name: 'Model ages of A, B' }).click();
  await picture().waitFor();
  await page.getByText('Left out, without ages against depth: C.').waitFor();
  const passages = page.getByRole('table', { name: /^When the edge passed each hole/ });
  await passages.getByRole('cell', { name: 'outside' }).first().waitFor();
  assert.equal(await passages.getByRole('cell', { name: 'outside' }).count(), 2);
  const stood = page.getByRole('table', { name: /^How long each environment was there/ });
  await stood
    .getByText(/at least [\d,]+ yr, probability 0\.95/)
    .first()
    .waitFor();
});

test('what stood at an age is read by pressing in the drawing and by the slider', async () => {
  await page.getByText('Press in the drawing to read all holes at one age.').waitFor();
  const box = (await picture().boundingBox())!;
  await page.mouse.click(box.x + box.width / 2, box.y + 60);
  await reading()
    .getByText(/^[\d,]+ cal BP$/)
    .waitFor();
  const slider = page.getByRole('slider', { name: 'Read at age' });
  await slider.fill('1500');
  await reading().getByText('1,500 cal BP').waitFor();
  // The base of the marsh, at 2 m, is of 2,000 in A; in B of 1,000.
  const words = (await reading().textContent()) ?? '';
  assert.match(words, /A\s*high marsh \((0\.9\d|more than 0\.99)\)/);
  assert.match(words, /B\s*land surface \((0\.9\d|more than 0\.99)\)/);
  assert.match(words, /edge\s*\d+ m along the line \(95 %: \d+–\d+ m\)/);
  await reading()
    .getByRole('button', { name: /^high marsh/ })
    .click();
  await page.getByText('Environments of A').first().waitFor();
  await page.keyboard.press('Escape');
  await slider.press('ArrowRight');
  // Older at the left, as drawn.
  await reading().getByText('1,490 cal BP').waitFor();
});

test('ages of the sections: what is wrong is said and not kept, what is right is drawn, Undo takes it back', async () => {
  await ages().fill('1500; old');
  await page.getByText('Found “old”; expected ages from −100 to 50,000 cal BP, separated by ;.').waitFor();
  await ages().fill('2,500; 1500');
  await ages().press('Enter');
  await allSaved(page);
  await page.getByText('2,500').first().waitFor();
  await picture().getByText('the section at two ages', { exact: false }).waitFor();
  assert.equal(await ages().inputValue(), '2500; 1500');
  await ages().blur();
  await undo();
  await page.waitForFunction(
    () => document.querySelector<HTMLInputElement>('.through-settings input')?.value === '',
  );
});

test('another inner side gives another edge; one that no layer has is named', async () => {
  const inside = page.getByLabel('Inside of the edge', { exact: true });
  await inside.fill('lagoon');
  await inside.press('Enter');
  await page.getByRole('table', { name: 'When the edge passed each hole. Inside: lagoon' }).waitFor();
  await inside.fill('glacier');
  await inside.press('Enter');
  await page.getByText(/No layer has “glacier”; expected environments of layers: /).waitFor();
  await inside.blur();
  await undo();
  await undo();
  await page.getByRole('table', { name: 'When the edge passed each hole. Inside: land surface' }).waitFor();
});

test('nothing is wider than the page nor against the rules of access, by day and by night', async () => {
  for (const theme of ['day', 'night']) {
    await page.evaluate((name) => (document.documentElement.dataset['theme'] = name), theme);
    for (const width of [360, 820, 1440]) {
      await page.setViewportSize({ width, height: 900 });
      await page.evaluate(() => scrollTo(0, document.documentElement.scrollHeight));
      await atRest(page);
      const whole = await page.evaluate(() => document.documentElement.scrollWidth);
      assert.ok(whole <= width, `${whole} px at ${width}, ${theme}`);
    }
    assert.deepEqual(await violations(page, theme === 'day' ? 'all' : 'colours'), [], theme);
  }
});

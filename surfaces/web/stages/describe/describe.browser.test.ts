/**
 * Describing on the laptop: a run of the demo by keyboard and by pointer, split, merged and undone; a new unit over
 * what was taken out; a sample; a photograph; holes tied in section.
 */
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { test } from 'node:test';
import type { Page } from 'playwright-core';
import { allSaved, atRest, onDevice, openDemo } from '../../browser/browser.ts';

let page: Page;
let campaign: string;
onDevice({}, async (at) => {
  page = at.page;
  // Its clock goes on as ours does, but can be held.
  await page.clock.install();
  campaign = await openDemo(page);
});

async function openHole(hole: string): Promise<void> {
  await page.goto(`${page.url().split('#')[0]}#/${campaign}/describe?hole=${hole}`);
  await page.getByRole('heading', { name: hole, exact: true }).waitFor();
  await page.locator('.column-drawing').waitFor();
}
const openRun = (run: string) => page.getByLabel('One core', { exact: true }).selectOption(`run ${run}`);
const contact = (name: string) => page.getByRole('slider', { name, exact: true });
const unit = (name: string | RegExp) => page.locator('.column-drawing').getByRole('button', { name });
/** Millimetres along the core. */
const place = async (name: string): Promise<number> =>
  Number(await contact(name).getAttribute('aria-valuenow'));
const undo = () => page.getByRole('button', { name: 'Undo' }).click();
/** Keys that follow each other are one movement, written when it comes to rest: the page's clock stands meanwhile. */
const oneMovement = async (press: () => Promise<void>): Promise<void> => {
  await page.clock.pauseAt(1000 + (await page.evaluate(() => Date.now())));
  await press();
  await page.clock.runFor(1000);
  await page.clock.resume();
  await allSaved(page);
};

test('arrows move the chosen contact by 1 cm, with shift by 10, and one undo takes the movement back', async () => {
  await openHole('T2');
  await openRun('R13');
  const name = 'Contact of unit 7 on 8';
  assert.equal(await place(name), 740);
  await contact(name).focus();
  await oneMovement(async () => {
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowDown');
    assert.equal(await place(name), 760);
    await page.keyboard.press('Shift+ArrowUp');
    assert.equal(await place(name), 660);
  });
  assert.equal(await page.getByLabel('Depth in run R13', { exact: true }).inputValue(), '0.66 m');
  await undo();
  assert.equal(await place(name), 740);
});

test('a length is typed in feet and kept so', async () => {
  const field = page.getByLabel('Depth in run R13', { exact: true });
  await contact('Contact of unit 7 on 8').focus();
  await field.fill('2 ft 6 in');
  await field.press('Enter');
  assert.equal(await place('Contact of unit 7 on 8'), 762);
  await allSaved(page);
  assert.equal(await field.inputValue(), '2 ft 6 in');
  await undo();
  assert.equal(await place('Contact of unit 7 on 8'), 740);
});

test('the pointer drags a contact, on the core or in the ground', async () => {
  const name = 'Contact of unit 8 on 9';
  await atRest(page);
  const box = (await page.locator('.column-drawing .hold').first().boundingBox())!;
  const scale = async (): Promise<{ y: number; perMetre: number }> =>
    page.evaluate(() => {
      const lines = [...document.querySelectorAll('.handle .focus-line')].map(
        (p) => p.getBoundingClientRect().top,
      );
      return { y: lines[2]!, perMetre: (lines[2]! - lines[1]!) / 0.17 };
    });
  const { y, perMetre } = await scale();
  const x = box.x + box.width / 2;
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x, y + perMetre * 0.02, { steps: 3 });
  await page.mouse.move(x, y + perMetre * 0.05, { steps: 5 });
  const during = await place(name);
  assert.ok(Math.abs(during - 960) <= 10, `${during}`);
  await page.mouse.up();
  await allSaved(page);
  assert.equal(await place(name), during);
  await undo();
  assert.equal(await place(name), 910);
});

test('a unit is split, the parts merged again by Delete on the contact; the tie to its base stays', async () => {
  await openHole('T3');
  await openRun('R9');
  await unit(/^Unit 9, /).click();
  const lower = page.getByRole('textbox', { name: 'At, in run R9' });
  await lower.fill('0.80 m');
  await lower.press('Enter');
  await page.getByRole('button', { name: 'Split here' }).click();
  await unit(/^Unit 9b, /).waitFor();
  assert.equal(await place('Contact of unit 9 on 9b'), 800);
  await page.getByLabel('Colour', { exact: true }).fill('grey');
  await page.getByLabel('Colour', { exact: true }).press('Enter');
  await contact('Contact of unit 9 on 9b').focus();
  await page.keyboard.press('Delete');
  await unit(/^Unit 9b, /).waitFor({ state: 'detached' });
  assert.match((await page.locator('.describe-panel .describe-said').textContent()) ?? '', /Undo parts them/);
  assert.equal(await page.getByLabel('Colour', { exact: true }).inputValue(), 'grey');
  for (let i = 0; i < 3; i++) await undo();
  assert.equal(await place('Contact of unit 9 on 10'), 890);
});

test('words: sediment chosen by its drawing, structures added and taken off, the contact by its line', async () => {
  await unit(/^Unit 10, /).click();
  await page.getByRole('button', { name: 'Choose', exact: true }).click();
  await page.getByRole('button', { name: /^organic mud/ }).click();
  await unit(/^Unit 10, Organic mud/).waitFor();
  const structures = page.getByRole('combobox', { name: 'Structures' });
  await structures.fill('contorted lenses');
  await structures.press('Enter');
  await page.getByRole('button', { name: 'Take off contorted lenses' }).waitFor();
  await page.getByRole('button', { name: 'Take off rooted' }).click();
  await page.getByRole('radio', { name: 'erosional' }).check({ force: true });
  assert.ok(await page.getByRole('radio', { name: 'erosional' }).isChecked());
  for (let i = 0; i < 4; i++) await undo();
  await unit(/^Unit 10, Peat/).waitFor();
});

test('a run taken out of the description is named, described anew, and a unit goes on into it', async () => {
  await openRun('R7');
  await unit(/^Unit 8, /).click();
  await page.getByLabel('Top', { exact: true }).first().waitFor();
  const top = page.getByLabel('Top', { exact: true }).first();
  await top.fill('0.30 m');
  await top.press('Enter');
  await page.getByRole('button', { name: 'Choose nothing' }).click();
  await page.locator('.gaps').getByText('Not described').waitFor();
  await page.getByRole('button', { name: 'Add a unit' }).click();
  await unit(/^Unit 12, Unknown/).waitFor();
  await undo();
  await page.getByRole('button', { name: 'Unit 7 goes on' }).click();
  await unit(/^Unit 7, /).waitFor();
  await undo();
  await undo();
});

test('a sample is placed and moved with the arrows', async () => {
  await unit(/^Unit 8, /).click();
  await page.getByRole('button', { name: 'Place a sample' }).click();
  const sample = page.getByRole('button', { name: /^Sample T3-10, run R7/ });
  await sample.focus();
  const before = await page.getByLabel('Top in run R7', { exact: true }).inputValue();
  await oneMovement(() => page.keyboard.press('Shift+ArrowDown'));
  const after = await page.getByLabel('Top in run R7', { exact: true }).inputValue();
  assert.ok(
    Math.abs(Number.parseFloat(after) - Number.parseFloat(before) - 0.1) < 1e-9,
    `${before} ${after}`,
  );
  await undo();
  await undo();
});

test('a photograph lies beside its run, by the hash of its content', async () => {
  const nothing = page.getByRole('button', { name: 'Choose nothing' });
  if ((await nothing.count()) > 0) await nothing.click();
  // Any real picture: the build's own icon.
  const png = await readFile(join(import.meta.dirname, '..', '..', '..', '..', 'out', 'web', 'icon-192.png'));
  await page
    .locator('input[type="file"]')
    .last()
    .setInputFiles({ name: 'core.png', mimeType: 'image/png', buffer: png });
  await page.locator('.column-drawing').getByRole('button', { name: 'Photograph of run R7' }).waitFor();
  await allSaved(page);
  await page.reload();
  await page.locator('.column-drawing').waitFor();
  await openRun('R7');
  await page.locator('.column-drawing').getByRole('button', { name: 'Photograph of run R7' }).click();
  await page.getByRole('heading', { name: 'Photograph of run R7' }).waitFor();
  await page.getByRole('img', { name: 'The core of run R7' }).waitFor();
});

const correlated = () => page.getByRole('table', { name: 'Correlations between holes' });

test('two contacts picked in section are correlated; the correlation is taken out again', async () => {
  await page.getByRole('button', { name: 'Section', exact: true }).click();
  const rows = correlated().locator('tbody tr');
  await rows.first().waitFor();
  const before = await rows.count();
  await page.getByRole('button', { name: /^Base of M2 unit 4, / }).focus();
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: /^Base of M1 unit 3, / }).focus();
  await page.keyboard.press('Enter');
  assert.equal(await rows.count(), before + 1);
  await page.getByLabel('Confidence of the correlation M2 4 to M1 3').selectOption('certain');
  await page.getByRole('button', { name: 'Delete the correlation M2 4 to M1 3' }).click();
  assert.equal(await rows.count(), before);
});

test('a proposal is accepted by keyboard and refused by pointer, and Undo takes each back', async () => {
  const rows = correlated().locator('tbody tr');
  const before = await rows.count();
  const proposals = page.getByRole('table', { name: 'Proposed correlations' }).locator('tbody tr');
  const proposal = (name: string) =>
    page.getByRole('button', { name: new RegExp(`^Proposal ${name}, margin `) });
  const show = (name: string) => page.getByRole('button', { name: `Show the proposal ${name}` });
  await proposal('M2 1 to M3 1').waitFor();
  const proposed = await proposals.count();

  // T1 was lost and is on no section line: what is proposed for it stands in the table.
  await show('T2 1 to T1 1').focus();
  await page.keyboard.press('Enter');
  const bar = page.getByRole('region', { name: 'Proposed correlation' });
  await bar.getByText('Base of T2 unit 1 with base of T1 unit 1').waitFor();
  await bar.getByRole('button', { name: 'Accept correlation' }).focus();
  await page.keyboard.press('Enter');
  await page.getByLabel('Confidence of the correlation T2 1 to T1 1').waitFor();
  assert.equal(await rows.count(), before + 1);
  assert.equal(await show('T2 1 to T1 1').count(), 0);
  // The next one down the section is chosen.
  await bar.getByText('Base of T2 unit 2 with base of T1 unit 2').waitFor();

  await proposal('M2 1 to M3 1').click({ force: true });
  await bar.getByText('Base of M2 unit 1 with base of M3 unit 1').waitFor();
  await bar.getByRole('button', { name: 'Refuse correlation' }).click();
  await rows.filter({ hasText: 'refused' }).waitFor();
  assert.equal(await rows.count(), before + 2);
  assert.equal(await proposal('M2 1 to M3 1').count(), 0);
  await undo();
  assert.equal(await rows.count(), before + 1);
  await proposal('M2 1 to M3 1').waitFor();
  await undo();
  await show('T2 1 to T1 1').waitFor();
  assert.deepEqual([await rows.count(), await proposals.count()], [before, proposed]);
});

test('doubtful proposals are shown when asked for', async () => {
  const proposals = page.getByRole('table', { name: 'Proposed correlations' }).locator('tbody tr');
  const clear = await proposals.count();
  await page.getByLabel(/doubtful proposals?,/).check();
  assert.ok((await proposals.count()) > clear);
  await page.getByLabel(/doubtful proposals?,/).uncheck();
  assert.equal(await proposals.count(), clear);
});

test('a horizon is named in a correlation and listed with its place in each hole', async () => {
  const name = page.getByLabel(/^Horizon of the correlation T3 3 to M1 2/);
  await name.fill('washover');
  await name.press('Enter');
  const listed = page.getByRole('table', { name: 'Horizons' }).locator('tbody tr');
  await listed.filter({ hasText: 'washover' }).waitFor();
  const words = (await listed.filter({ hasText: 'washover' }).textContent()) ?? '';
  // M1 unit 2 is correlated with M2 unit 3: the horizon goes on.
  for (const hole of ['T3 unit 3', 'M1 unit 2', 'M2 unit 3']) assert.ok(words.includes(hole), words);
  const others = (await listed.filter({ hasText: 'basal peat' }).textContent()) ?? '';
  for (const hole of ['T2 unit 9', 'T3 unit 10', 'M1 unit 5', 'M2 unit 5', 'M3 unit 2'])
    assert.ok(others.includes(hole), others);
  await undo();
  assert.equal(await name.inputValue(), '');
});

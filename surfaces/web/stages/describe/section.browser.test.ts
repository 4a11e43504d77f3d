/** The section on the screen: a contact chosen, lifted and ended by keyboard and by pointer, a line and a profile added; Undo takes each back. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Page } from 'playwright-core';
import { allSaved, onDevice, openDemo } from '../../browser/browser.ts';

let page: Page;
onDevice({}, async (at) => {
  page = at.page;
  // Its clock goes on as ours does, but can be held.
  await page.clock.install();
  const campaign = await openDemo(page);
  await page.goto(`${page.url().split('#')[0]}#/${campaign}/describe?view=section`);
  await page.locator('#section-fill').waitFor();
});

const undo = () => page.getByRole('button', { name: 'Undo' }).click();
/** Keys that follow each other are one movement, written when it comes to rest: the page's clock stands meanwhile. */
const oneMovement = async (press: () => Promise<void>): Promise<void> => {
  await page.clock.pauseAt(1000 + (await page.evaluate(() => Date.now())));
  await press();
  await page.clock.runFor(1000);
  await page.clock.resume();
  await allSaved(page);
};
const contacts = () => page.getByLabel('Contact', { exact: true });
const status = () => page.locator('.describe-said');
/** The first contact in the list that begins and goes on so. */
const choose = async (name: RegExp): Promise<string> => {
  const names = await contacts().locator('option').allTextContents();
  const found = names.find((each) => name.test(each));
  assert.ok(found !== undefined, `none of ${names.join('; ')}`);
  await contacts().selectOption({ label: found });
  return found;
};

test('a correlated contact is lifted by arrows and by dragging, and Undo takes it back', async () => {
  const name = await choose(/ and of /);
  const middle = page.getByRole('slider', { name: `Middle of ${name}` });
  const before = Number(await middle.getAttribute('aria-valuenow'));
  await middle.focus();
  await oneMovement(async () => {
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('Shift+ArrowUp');
    assert.equal(Number(await middle.getAttribute('aria-valuenow')).toFixed(2), (before + 0.06).toFixed(2));
  });
  await status().filter({ hasText: 'middle lifted by' }).waitFor();
  await undo();
  await page.waitForFunction(
    ([label, value]) =>
      document.querySelector(`[aria-label="${label}"]`)?.getAttribute('aria-valuenow') === value,
    [`Middle of ${name}`, String(before)] as const,
  );

  await middle.scrollIntoViewIfNeeded();
  const box = (await middle.locator('.target').boundingBox())!;
  assert.ok(box.width >= 47.5 && box.height >= 47.5, 'a target of 48 px');
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x, y - 12, { steps: 3 });
  await page.mouse.up();
  await allSaved(page);
  assert.ok(Number(await middle.getAttribute('aria-valuenow')) > before);
  await undo();
});

test('a contact is chosen in the drawing, its correlation broken, and Undo restores it', async () => {
  await contacts().selectOption('');
  await page.locator('.section-drawing path.choosable').first().dispatchEvent('click');
  assert.notEqual(await contacts().inputValue(), '');
  const name = await choose(/ and of /);
  const panel = page.getByRole('region', { name: 'Chosen contact' });
  await panel.getByRole('button', { name: 'Break correlation' }).click();
  await status()
    .filter({ hasText: `Correlation refused: ${name}` })
    .waitFor();
  const refused = page.getByRole('table', { name: 'Correlations between holes' }).getByText('refused');
  await refused.waitFor();
  await allSaved(page);
  await undo();
  await refused.waitFor({ state: 'detached' });
  await contacts().locator('option', { hasText: name }).waitFor({ state: 'attached' });
});

test('a contact of one hole is made to pinch out, its end moved along, and both are undone', async () => {
  const name = await choose(/ towards /);
  const panel = page.getByRole('region', { name: 'Chosen contact' });
  await panel.getByLabel('How it runs').selectOption('pinch_out');
  await status().filter({ hasText: 'pinches out' }).waitFor();
  const end = page.getByRole('slider', { name: `End of ${name}` });
  await end.focus();
  const before = Number(await end.getAttribute('aria-valuenow'));
  await oneMovement(async () => {
    await page.keyboard.press('ArrowRight');
    assert.notEqual(Number(await end.getAttribute('aria-valuenow')), before);
  });
  await undo();
  await undo();
  await panel.getByText('No person has said how it runs.').waitFor();
});

test('a section line is added by its holes, its ground pasted, and both are undone', async () => {
  const lines = page.getByLabel('Section line', { exact: true });
  const before = await lines.locator('option').count();
  await page.getByRole('button', { name: 'New section line' }).click();
  const form = page.getByRole('dialog', { name: 'New section line' });
  const label = await form.getByLabel('Name', { exact: true }).inputValue();
  for (const hole of ['T3', 'M1']) await form.getByRole('button', { name: `Add hole ${hole}` }).click();
  await form.getByRole('button', { name: 'Add section line' }).click();
  await lines.locator('option', { hasText: label }).waitFor({ state: 'attached' });
  await page.getByRole('group', { name: 'Section through 2 holes' }).waitFor();

  await page.getByRole('button', { name: 'Paste ground profile' }).click();
  const paste = page.getByRole('dialog', { name: 'Ground profile' });
  await paste.getByRole('textbox', { name: 'Distance and elevation, m' }).fill('0\t2.4\n60\t2.2\n200\t1.5');
  await paste.getByRole('button', { name: 'Save 3 places' }).click();
  await status().filter({ hasText: '3 places' }).waitFor();
  await allSaved(page);
  await lines.selectOption('fence of all lines');
  await page.getByRole('img', { name: /^Fence of 2 section lines, 5 holes/ }).waitFor();
  await undo();
  await undo();
  await page.waitForFunction(
    (count) => document.querySelectorAll('.section-lines option').length === count,
    before,
  );
});

test('at 360 px nothing is wider than the page', async () => {
  await page.setViewportSize({ width: 360, height: 760 });
  await choose(/ towards /);
  const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  assert.ok(over <= 0, `${over} px`);
});

/**
 * A no on a safety question, by touch, on the tablet and on a phone: its plate, the bar, the held action, Plan and Drill
 * side by side; and what the rig must not pass over: an unmarked cable, lost pipe, a lost hole.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { randomStream } from '@stillstand/science/base';
import type { Locator, Page } from 'playwright-core';
import { allSaved, onDevice, openDemo, served } from '../browser/browser.ts';
import { hand } from '../browser/hand.ts';

const SIZES = [
  { width: 820, height: 1180 },
  { width: 360, height: 740 },
] as const;

let drill: Page;
let plan: Page;
let home: string;

onDevice({ ...SIZES[0], touch: true }, async (tablet) => {
  drill = tablet.page;
  home = `${await served()}#/${await openDemo(drill)}`;
  await drill.getByRole('button', { name: 'Put the first steps away' }).click();
  await drill.goto(`${home}/drill`);
  await drill.locator('.drill').waitFor();
  // another window of the same campaign, at Plan
  plan = await tablet.context.newPage();
  await plan.goto(`${home}/plan`);
  await plan.getByRole('button', { name: 'Start today' }).tap();
  await plan.locator('.safety-list').waitFor();
});

const question = (page: Page, asked: string): Locator =>
  page.getByRole('group', { name: asked, exact: true });
/** Of two windows the browser draws the one behind once a second: the one that is touched comes to the front. */
const answer = async (page: Page, asked: string, given: string): Promise<void> => {
  await page.bringToFront();
  await question(page, asked).getByRole('button', { name: given, exact: true }).tap();
};
interface WithLines {
  /** The safety questions as the page shows them, a line each. */
  lines(): string;
}
const hazards = (page: Page): Promise<string[]> => page.locator('.danger-plate .hazard').allTextContents();

for (const [i, size] of SIZES.entries()) {
  test(`a no is a danger in Drill and in Plan until answered otherwise, and bars nothing: ${size.width} px`, async () => {
    await drill.setViewportSize(size);
    await plan.setViewportSize(size);
    const crew = hand(drill);
    const hole = `S${i + 1}`;
    await crew.startHole(hole);
    await drill.bringToFront();
    await drill.locator('.act .does', { hasText: 'Site check' }).waitFor();
    await crew.bar().tap();
    await drill.getByLabel('Recorder: name or role').fill('DK');
    await answer(drill, 'Buried services located', 'yes');
    await crew.bar().tap();
    await crew.take('Measure ground level');
    await crew.keys('27c');
    await crew.bar().tap();
    await drill.locator('.act .does', { hasText: 'Add the shoe' }).waitFor();

    // the old fault: answered no, and the bar went on to say Add the shoe
    await drill.locator('.unanswered button').tap();
    await answer(drill, 'Mast clear of overhead lines', 'no');
    await crew.take('Close site check');
    await drill.locator('.act .does', { hasText: 'Keep the mast down' }).waitFor();
    assert.doesNotMatch((await crew.bar().textContent()) ?? '', /shoe/i);
    assert.match((await crew.bar().textContent()) ?? '', /Overhead line within reach of the mast/);
    const plate = drill.locator('.danger-plate');
    const words = (await plate.textContent()) ?? '';
    assert.match(words, /Danger.*Overhead line within reach of the mast.*Lower the mast and keep it down/);
    assert.match(words, /no, DK \d\d:\d\d\. This stays until answered otherwise/);
    // it reaches the right edge, and can be seen without scrolling
    const box = (await plate.boundingBox())!;
    assert.ok(Math.abs(box.x + box.width - size.width) <= 1 && box.y < size.height / 2, JSON.stringify(box));
    // what is open is named
    assert.match(
      (await drill.locator('.unanswered').textContent()) ?? '',
      /Joints measured and numbered; Permits/,
    );

    // held, not gone
    const held = drill.locator('.choices button[data-held="true"]').first();
    assert.equal((await held.textContent())?.trim(), 'Add the shoe');
    await held.tap();
    await crew.addItem(`S${hole}`, '15c', 'shoe');
    await drill.locator('.book li', { hasText: `Added shoe S${hole}` }).waitFor();
    await drill.locator('.act .does', { hasText: 'Keep the mast down' }).waitFor();

    // Plan says the same, and names the hole; it is answered there, and Drill is free
    const there = plan.locator('.danger-plate', {
      hasText: `Overhead line within reach of the mast, hole ${hole}`,
    });
    await there.waitFor();
    const wide = await plan.evaluate(() => document.documentElement.scrollWidth > innerWidth);
    assert.ok(!wide, 'wider than the screen');
    await there.getByRole('button', { name: 'Answer again: Mast clear of overhead lines' }).tap();
    await answer(plan, 'Mast clear of overhead lines', 'yes');
    await there.waitFor({ state: 'detached' });
    await drill.locator('.act .does', { hasText: 'Add the first joint' }).waitFor();
    assert.equal(await plate.count(), 0);
    // kept: it is there after a reload
    await answer(plan, 'Nobody works alone', 'no');
    await allSaved(plan);
    await drill.reload();
    await drill.locator('.danger-plate', { hasText: 'Somebody works alone' }).waitFor();
    await answer(plan, 'Nobody works alone', 'yes');
    await drill.locator('.danger-plate').waitFor({ state: 'detached' });
  });
}

test('random answers in random order, from Plan and from Drill, by two people: both screens agree: seed 5', async () => {
  await drill.setViewportSize(SIZES[0]);
  await plan.setViewportSize(SIZES[0]);
  const stream = randomStream(5);
  const pick = <T>(of: readonly T[]): T => of[Math.floor(stream.uniform() * of.length)]!;
  const crew = hand(drill);
  await crew.startHole('S3');
  await crew.take('Site check');
  await plan.locator('.of-hole select').selectOption('S3');
  for (const page of [plan, drill])
    await page.evaluate(() => {
      const lines = (): string =>
        [...document.querySelectorAll('.safety-list li')]
          .map((li) => {
            const pressed = li.querySelector('[aria-pressed="true"]')?.textContent ?? '';
            const { check, state } = (li as HTMLElement).dataset;
            return [check, state, pressed, li.querySelector('.by')?.textContent].join(' | ');
          })
          .join('\n');
      Object.assign(globalThis, { lines });
    });
  const asked = await plan
    .locator('.safety-list [role=group]')
    .evaluateAll((all) => all.map((g) => g.getAttribute('aria-label') ?? ''));
  assert.equal(asked.length, 13);
  // Hundreds of them: stages/drill/checks.test.ts.
  for (let i = 0; i < 12; i++) {
    const page = pick([plan, drill]);
    await page.getByLabel('Recorder: name or role').fill(pick(['DK', 'JL']));
    await answer(page, pick(asked), pick(['yes', 'no', 'not needed']));
    // the other window hears of it
    const told = await page.evaluate(() => (globalThis as unknown as WithLines).lines());
    await (page === plan ? drill : plan).waitForFunction(
      (lines) => (globalThis as unknown as WithLines).lines() === lines,
      told,
    );
    assert.equal(told.split('| danger |').length - 1, (await hazards(drill)).length);
    assert.deepEqual(
      (await hazards(plan)).map((h) => h.replace(/, hole .*/, '')).sort(),
      (await hazards(drill)).sort(),
    );
  }
  for (const check of asked) await answer(plan, check, 'yes').then(() => undefined);
  // what was yes already is withdrawn by that: answered once more where it is open
  for (const check of asked) {
    const yes = question(plan, check).getByRole('button', { name: 'yes', exact: true });
    if ((await yes.getAttribute('aria-pressed')) !== 'true') await yes.tap();
  }
  assert.deepEqual(await hazards(plan), []);
  await drill.bringToFront();
  await crew.take('Close site check');
});

test('an older day that Plan shows hides no danger of today, and it is answered today', async () => {
  await answer(plan, 'Nobody works alone', 'no');
  const days = plan.locator('.which select');
  const today = await days.inputValue();
  await days.selectOption({ label: '2023-02-06' });
  const plate = plan.locator('.danger-plate', { hasText: 'Somebody works alone' });
  await plate.waitFor();
  await plate.getByRole('button', { name: /^Answer again/ }).tap();
  await plan.waitForFunction(
    (row_id) => document.querySelector<HTMLSelectElement>('.which select')?.value === row_id,
    today,
  );
  await answer(plan, 'Nobody works alone', 'yes');
  await plate.waitFor({ state: 'detached' });
  await drill.bringToFront();
  await drill.locator('.danger-plate').waitFor({ state: 'detached' });
});

test('a run without marks, zero or outside water says which; tape is drawn once it is said to be made', async () => {
  await drill.bringToFront();
  const crew = hand(drill);
  await crew.go('U1');
  await drill.locator('.act .does', { hasText: 'Mark the cable' }).waitFor();
  // the crew goes straight to the run
  await drill.locator('.drill-tools').getByRole('button', { name: 'Run' }).tap();
  const cautions = drill.locator('.run-cautions');
  // on a phone both the cautions and the field are in sight above the keys
  await drill.setViewportSize(SIZES[1]);
  await cautions.waitFor();
  const [field, keys] = [
    (await drill.locator('#drill-start_mark').boundingBox())!,
    (await drill.locator('.keypad').boundingBox())!,
  ];
  assert.ok(field.y + field.height <= keys.y + 1, `${field.y + field.height} ${keys.y}`);
  await drill.setViewportSize(SIZES[0]);
  assert.match(
    (await cautions.textContent()) ?? '',
    /Cable marks not confirmed\..*Zero of the cable not checked\./,
  );
  assert.doesNotMatch((await cautions.textContent()) ?? '', /Water outside/);
  await crew.bar().tap();
  await drill.locator('.drawing', { hasText: 'marks not' }).first().waitFor();
  assert.match((await drill.locator('.run-cautions').textContent()) ?? '', /Cable marks not confirmed/);
  assert.equal(await drill.locator('.drawing svg[aria-label*="cable marks are not confirmed"]').count(), 1);
  await crew.take('Lift the sampler');
  await crew.take('Refill the string');
  await crew.keys('10c');
  await crew.bar().tap();
  await crew.take('Lay out the core');
  await crew.keys('0c');
  await crew.bar().tap();
  await crew.take('Repeat sounding');
  await crew.keys('1.02');
  await crew.bar().tap();
  await crew.take('Mark the cable');
  await drill.getByText('stop', { exact: true }).first().waitFor();
  await crew.bar().tap();
  await crew.take('Run the sampler');
  assert.equal(await cautions.count(), 0);
  await crew.bar().tap();
  await drill.locator('.drawing', { hasText: 'sediment' }).first().waitFor();
  assert.equal(await drill.locator('.drawing', { hasText: 'marks not' }).count(), 0);
  await crew.take('Lift the sampler');
});

test('lost pipe is offered in no other hole, and a lost hole stays in sight while another is planned', async () => {
  const crew = hand(drill);
  // a hole is planned 75 m away
  await crew.startHole('S9');
  await crew.startHole('S4');
  await drill.bringToFront();
  await crew.begin('L9');
  await drill.getByRole('button', { name: 'Other event' }).tap();
  await drill.getByRole('button', { name: /^String lost/ }).tap();
  await drill.locator('.pad').getByRole('button', { name: 'joint L9' }).tap();
  await crew.bar().tap();
  await crew.take('Remeasure ground level');
  await crew.keys('30c');
  await crew.bar().tap();
  await crew.take('End hole');
  await crew.bar().tap();
  await drill.locator('.act .does', { hasText: 'Start replacement hole' }).waitFor();
  // Without a hole in its address it is still the lost one: while it is open, and opened again.
  await allSaved(drill);
  await drill.goto(`${home}/drill`);
  await drill.waitForFunction(() => !location.hash.includes('hole='));
  await drill.getByRole('heading', { name: 'S4', exact: true }).waitFor();
  await drill.goto(`${home}/plan`);
  await drill.goto(`${home}/drill`);
  await drill.getByRole('heading', { name: 'S4', exact: true }).waitFor();
  await crew.take('Start replacement hole');
  await crew.field('Distance from the lost hole');
  await crew.keys('2.4');
  await crew.bar().tap();
  await drill.getByRole('heading', { name: 'S4b', exact: true }).waitFor();
  await drill.locator('.drill-tools').getByRole('button', { name: 'Joint' }).tap();
  await drill.locator('.entry .field-row', { hasText: 'Label' }).tap();
  const offered = (await drill.locator('.pad .choices').first().textContent()) ?? '';
  assert.ok(!offered.includes('L9') && !offered.includes('U1'), offered);
});

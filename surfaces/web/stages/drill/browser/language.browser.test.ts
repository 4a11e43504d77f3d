/**
 * The rig in the crew's own language, by touch: chosen in Help with a form half filled, a turn of the routine read and
 * pressed in German at three sizes, and a record that says the same whatever the crew reads.
 */
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { test } from 'node:test';
import type { Page } from 'playwright-core';
import { atRest, devices, drillDemo } from '../../../browser/browser.ts';
import { hand } from '../../../browser/hand.ts';
import { speaker } from '../../../language/pattern.ts';

const { app, rooms } = JSON.parse(
  await readFile(join(import.meta.dirname, '..', '..', '..', 'language', 'de.json'), 'utf8'),
) as Record<'app' | 'rooms', Record<string, string>>;
const german = speaker({ ...rooms, ...app });

const SIZES = [
  [820, 1180],
  [1180, 820],
  [360, 740],
] as const;
const start = devices();

async function atWork([width, height]: readonly [number, number]): Promise<Page> {
  const { page } = await start({ width, height, touch: true });
  await drillDemo(page);
  return page;
}

/** Chosen in Help, by whoever reads English or German. */
async function speak(page: Page, language: string, say: (english: string) => string): Promise<void> {
  const menu = page.getByRole('button', { name: new RegExp(`^${say('Menu')}`) });
  if (await menu.isVisible()) await menu.click();
  await page
    .getByRole('button', { name: say('Help'), exact: true })
    .locator('visible=true')
    .first()
    .click();
  await page.getByLabel('On the rig · An der Bohrung', { exact: true }).selectOption({ label: language });
  await page.locator('.drill').waitFor();
}

/** What is read or read out on Drill and around it that still is English, or runs out of its place. */
async function faults(page: Page): Promise<string[]> {
  await atRest(page);
  return page.evaluate(() => {
    // no German word is spelt like these
    const english =
      /\b(?:the|of|and|with|from|is|not|are|this|water|hole|string|joints?|shoe|sampler|sounding|drive|record|add|fill|cable|ground|read|yes|no)\b/i;
    const told: string[] = [];
    if (document.documentElement.scrollWidth > innerWidth)
      told.push(`${document.documentElement.scrollWidth} px wide`);
    for (const root of document.querySelectorAll('.drill, .head, .rail, .dialog')) {
      const walk = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
      while (walk.nextNode()) {
        const words = walk.currentNode.textContent ?? '';
        // names that people gave
        if (walk.currentNode.parentElement?.closest('.site, .mark-of, h1') != null) continue;
        if (english.test(words)) told.push(words.trim());
      }
      // what would be undone is said in the words of the campaign
      for (const element of root.querySelectorAll('[aria-label], [title], [placeholder]'))
        for (const name of ['aria-label', 'title', 'placeholder'])
          if (
            !/^(?:Rückgängig|Wiederholen): /.test(element.getAttribute(name) ?? '') &&
            english.test(element.getAttribute(name) ?? '')
          )
            told.push(`${name}: ${element.getAttribute(name)}`);
    }
    for (const number of document.querySelectorAll<HTMLElement>('.numbers > .number'))
      if (number.checkVisibility() && number.scrollHeight > number.clientHeight + 1)
        told.push(`runs over: ${number.textContent}`);
    for (const box of document.querySelectorAll<HTMLElement>(
      '.drill button, .numbers h2, .numbers .say, .entry label',
    )) {
      const style = getComputedStyle(box);
      if (box.checkVisibility() && style.overflowX !== 'visible' && box.scrollWidth > box.clientWidth + 1)
        told.push(`cut: ${box.textContent}`);
    }
    return [...new Set(told)];
  });
}

for (const size of SIZES) {
  test(`a turn of the routine in German: ${size.join(' × ')}`, async () => {
    const page = await atWork(size);
    const found: string[] = [];
    const look = async (at: string): Promise<void> => {
      found.push(...(await faults(page)).map((fault) => `${at}: ${fault}`));
    };
    await speak(page, 'Deutsch', (english) => english);
    const crew = hand(page, german);
    await crew.startHole('H9');
    await look('a new hole');
    await crew.take('Site check');
    await look('the site check');
    // the unhappy answer first: hazard and what to do are what must be understood
    await crew.answer('Mast clear of overhead lines', 'no');
    await page
      .locator('.danger-plate', { hasText: german('Overhead line within reach of the mast') })
      .waitFor();
    await look('a danger');
    for (const question of ['Buried services located', 'Mast clear of overhead lines', 'Reference levelled'])
      await crew.answer(question, 'yes');
    await crew.answer('Joints measured and numbered', 'yes');
    await crew.take('Close site check');
    await crew.go('K1');
    await look('the first joint');
    await crew.take('Mark the cable');
    await look('marking the cable');
    await crew.field('Tape at the collar');
    await crew.keys('0');
    await crew.bar().click();
    await crew.take('Run the sampler');
    await crew.keys('1.02');
    await crew.bar().click();
    await crew.keys('1.35');
    await crew.bar().click();
    await page.locator('.run-book', { hasText: '1.35' }).waitFor();
    await look('a run in progress');
    // past the shoe: the words of a danger while it is typed
    await crew.keys('9.5');
    await page.locator('.says', { hasText: 'unter dem Schuh' }).first().waitFor();
    await look('a danger while it is typed');
    for (let i = 0; i < 3; i++)
      await page.getByRole('button', { name: german('delete'), exact: true }).click();
    await crew.take('Lift the sampler');
    await crew.take('Refill the string');
    await crew.keys('0.10');
    await crew.bar().click();
    await crew.take('Lay out the core');
    await crew.keys('0.98');
    await page.locator('.entry .field-row', { hasText: german('Laid out') }).click();
    await look('laying out');
    await page
      .locator('.pad')
      .getByRole('button', { name: german('in one piece') })
      .click();
    await crew.bar().click();
    await crew.take('Repeat sounding');
    await crew.keys('2.06');
    await crew.bar().click();
    await page
      .locator('.drill-tools')
      .getByRole('button', { name: german('Drive') })
      .click();
    await crew.field('Stick-up before');
    await look('a drive');
    await crew.keys('0.35');
    await crew.field('Stick-up after');
    await crew.keys('0.30');
    await page.locator('.entry .field-row', { hasText: german('Ended by') }).click();
    await page
      .locator('.pad')
      .getByRole('button', { name: german('obstruction'), exact: true })
      .click();
    await crew.bar().click();
    await crew.take('Record response');
    await look('an obstruction');
    await page
      .locator('.entry')
      .getByRole('button', { name: german('Leave: {0}').replace('{0}', german('Obstruction')) })
      .click();
    await page
      .locator('.drill-tools')
      .getByRole('button', { name: german('Log') })
      .click();
    await look('the field log');

    assert.deepEqual(found, []);

    // the record says the same whatever the crew reads
    await speak(page, 'English', german);
    await page.locator('.drill-tools').getByRole('button', { name: 'Log' }).click();
    const log = (await page.locator('.book').textContent()) ?? '';
    for (const words of [
      'Added shoe SK1',
      'Added joint K1',
      'Check: mast clear of overhead lines',
      'Cable marks',
      'Drive',
      'obstruction',
    ])
      assert.ok(log.includes(words), `${words} in ${log}`);
    assert.doesNotMatch(log, /Hindernis|Rohr|Schuh|nein/);
  });
}

test('a form half filled is there in the other language', async () => {
  const page = await atWork(SIZES[0]);
  const crew = hand(page);
  await crew.startHole('H9');
  await page.locator('.drill-tools').getByRole('button', { name: 'Water' }).click();
  await crew.keys('1.7');
  await speak(page, 'Deutsch', (english) => english);
  assert.equal(await page.evaluate(() => document.querySelector('.drill')?.getAttribute('lang')), 'de');
  await page
    .locator('.drill-tools')
    .getByRole('button', { name: german('Water') })
    .click();
  await page.getByLabel(german('To the water inside')).first().waitFor();
  assert.match((await page.locator('.entry').textContent()) ?? '', /Behalten von/);
  assert.ok(
    (
      await page
        .locator('.entry input, .entry .length')
        .evaluateAll((all) => all.map((e) => (e as HTMLInputElement).value ?? e.textContent))
    ).some((v) => v?.startsWith('1.7')),
  );
});

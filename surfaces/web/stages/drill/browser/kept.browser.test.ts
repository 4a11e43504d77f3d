/**
 * By touch, on a phone, on a tablet and on its side: what is half filled outlasts the form, the page, the hole and the
 * size; the field in hand lies in sight above the keys and the action; the keys of the row never move.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Locator, Page } from 'playwright-core';
import { allSaved, atRest, drillDemo, onDevice, served } from '../../../browser/browser.ts';
import { type Hand, hand } from '../../../browser/hand.ts';

const SIZES = [
  [360, 740],
  [820, 1180],
  [1180, 820],
] as const;

let page: Page;
let crew: Hand;
let id: string;

onDevice({ width: 820, height: 1180, touch: true }, async (tablet) => {
  page = tablet.page;
  crew = hand(page);
  id = await drillDemo(page);
  await crew.startHole('H9');
  await crew.begin('K1');
});

const turn = async ([width, height]: readonly [number, number]): Promise<void> => {
  await page.setViewportSize({ width, height });
  await atRest(page);
};
const upright = (): Promise<void> => turn(SIZES[1]);
const tool = (name: string): Locator =>
  page.locator('.drill-tools').getByRole('button', { name: new RegExp(`^${name}`) });
const leave = (): Promise<void> =>
  page
    .getByRole('button', { name: /^Leave/ })
    .first()
    .tap();
const field = (label: string): Locator => page.locator('.entry').getByLabel(label).first();
const typed = (column: string): Promise<string> => page.locator(`#drill-${column}`).inputValue();

async function tapKeys(text: string): Promise<void> {
  const pad = page.getByRole('region', { name: 'keypad' });
  const names: Record<string, string> = { '.': 'point', f: 'feet', m: 'metres' };
  for (const key of text) await pad.getByRole('button', { name: names[key] ?? key, exact: true }).tap();
}

for (const size of SIZES) {
  test(`a sounding half filled outlasts leaving, a reload, Back, another hole and turning, ${size[0]} px`, async () => {
    await turn(size);
    const holds = async (when: string): Promise<void> => {
      await page.locator('.entry h2', { hasText: 'Take sounding' }).waitFor();
      assert.equal(await typed('to_sediment'), '1.4', when);
      assert.equal(await typed('water_outside'), '5 ft', when);
    };
    await tool('Sounding').tap();
    await tapKeys('1.4');
    await field('Water outside').tap();
    await tapKeys('5f');
    await holds('typed');

    await leave();
    await tool('Sounding').tap();
    await holds('left');
    assert.match((await page.locator('.entry h2').textContent()) ?? '', /Kept from \d\d:\d\d/);
    assert.equal(await page.locator('.entry .assumed').count(), 0);

    await allSaved(page);
    await page.reload();
    await holds('loaded again');

    await page.goto(`${await served()}#/${id}/plan`);
    await page.locator('.plan, main.page').first().waitFor();
    await page.goBack();
    await holds('gone back to');

    await page.goto(`${await served()}#/${id}/drill?hole=T3`);
    await page.getByRole('heading', { name: 'T3', exact: true }).waitFor();
    assert.equal(await page.locator('.entry').count(), 0);
    await page.goto(`${await served()}#/${id}/drill?hole=H9`);
    await holds('of its own hole');

    await turn([size[1], size[0]]);
    await holds('turned');
    await turn(size);

    // cleared, and that taken back; then cleared for good
    await page.getByRole('button', { name: 'Clear form' }).tap();
    assert.equal(await typed('to_sediment'), '');
    await page.getByRole('button', { name: 'Undo clear' }).tap();
    await holds('cleared by mistake');
    await page.getByRole('button', { name: 'Clear form' }).tap();
    await leave();
    await tool('Sounding').tap();
    assert.equal(await typed('to_sediment'), '');
    assert.doesNotMatch((await page.locator('.entry h2').textContent()) ?? '', /Kept/);
    await leave();
    await upright();
  });
}

test('10 typed in metres for a joint is asked about in feet, and one press says so', async () => {
  for (const size of SIZES) {
    await turn(size);
    await tool('Joint').tap();
    await field('Length').tap();
    // whatever is lit
    await tapKeys('m10');
    const asks = page.getByRole('button', { name: /^Did you mean 10 ft\?/ });
    const box = await asks.boundingBox();
    assert.ok((box?.height ?? 0) >= 48, `${size[0]} px: ${box?.height} high`);
    assert.equal(await page.locator('.entry .says', { hasText: 'unusual' }).count(), 0);
    await asks.tap();
    assert.equal(await typed('length'), '10 ft');
    assert.equal(await asks.count(), 0);
    await page.getByRole('button', { name: 'Clear form' }).tap();
    await leave();
  }
  await upright();
});

/** What of the field in hand, its keys and the words about it is out of sight or cut. */
const outOfSight = (): Promise<string[]> =>
  page.evaluate(() => {
    const found: string[] = [];
    const boxOf = (e: Element | null | undefined) => e?.getBoundingClientRect();
    const name = (e: Element): string =>
      `${e.className || e.tagName} “${(e.textContent ?? '').slice(0, 30)}”`;
    const act = boxOf(document.querySelector('.drill .act'))!;
    const field = document.querySelector('.entry [data-focused="true"]');
    const pad = document.querySelector('.pad');
    const box = boxOf(field);
    if (field === null || box === undefined) return ['no field in hand'];
    const keys = [...(pad?.querySelectorAll('button') ?? [])].map((key) => boxOf(key)!);
    const crosses = (a: DOMRect, b: DOMRect): boolean =>
      a.left < b.right - 1 && b.left < a.right - 1 && a.top < b.bottom - 1 && b.top < a.bottom - 1;
    const inLeaf = boxOf(field.closest('.entry'))!;
    if (box.top < -1 || box.top < inLeaf.top - 1)
      found.push(`${name(field)} begins above: ${box.top.toFixed(0)}`);
    if (box.bottom > Math.min(act.top, innerHeight, inLeaf.bottom + 1) + 1)
      found.push(`${name(field)} ends at ${box.bottom.toFixed(0)}, the bar begins at ${act.top.toFixed(0)}`);
    if (keys.some((key) => crosses(key, box))) found.push(`${name(field)} lies under the keys`);
    const keypad = document.querySelector('.keypad');
    if (keypad !== null) {
      const last = Math.max(...keys.map((key) => key.bottom));
      if (last > Math.min(act.top, innerHeight) + 1)
        found.push(`keys end at ${last.toFixed(0)}, the bar begins at ${act.top.toFixed(0)}`);
    }
    // words that are cut off by their own box
    for (const e of document.querySelectorAll<HTMLElement>(
      '.drill :is(.entry, .pad, .act, .drill-tools) :is(p, span, label, button, h2, strong, small, th, td, li)',
    )) {
      const { overflowX, overflowY, textOverflow, visibility } = getComputedStyle(e);
      if (e.clientWidth === 0 || visibility === 'hidden' || e.classList.contains('unseen')) continue;
      const isHidden = [overflowX, overflowY].some((o) => o === 'hidden' || o === 'clip');
      const isOver = e.scrollWidth > e.clientWidth + 1 || (isHidden && e.scrollHeight > e.clientHeight + 1);
      if (isOver && (isHidden || e.tagName === 'BUTTON' || textOverflow === 'ellipsis'))
        found.push(`${name(e)} is cut`);
    }
    return found;
  });

/** Every field of the form that is open, taken in hand at every size. */
async function inSight(form: string): Promise<void> {
  const wrong: string[] = [];
  for (const size of SIZES) {
    await turn(size);
    const rows = page.locator('.entry-fields > *');
    for (let i = 0; i < (await rows.count()); i++) {
      const row = rows.nth(i);
      const input = row.locator('input');
      await ((await input.count()) > 0 ? input.first() : row).tap();
      await atRest(page);
      for (const each of await outOfSight()) wrong.push(`${form}, ${size[0]} px, field ${i + 1}: ${each}`);
    }
  }
  await upright();
  assert.deepEqual(wrong, []);
}

const other = async (name: RegExp): Promise<void> => {
  await page.getByRole('button', { name: 'Other event' }).tap();
  await page.locator('.something').getByRole('button', { name }).tap();
};

test('every field of every form lies in sight when it is in hand: a string of pipe', async () => {
  for (const name of ['Sounding', 'Water', 'Fill', 'Joint', 'Drive', 'Run']) {
    await tool(name).tap();
    await inSight(name);
    await leave();
  }
  for (const name of [
    /^Slowing or refusal/,
    /^Obstruction/,
    /^Joint loose/,
    /^String lost/,
    /^Stop for the tide/,
    /^Crew change/,
    /^Ground moved/,
    /^Anything else/,
    /^Pull the string/,
  ]) {
    await other(name);
    await inSight(String(name));
    if (name.source.includes('Pull')) {
      await page.locator('.rests-on').tap();
      await inSight('gear');
    }
    await leave();
  }
  await page.locator('.rests-on').first().tap();
  await inSight('water and plug');
  await leave();
  await crew.take('Mark the cable');
  await inSight('marks');
  await crew.bar().tap();
  await crew.take('Run the sampler');
  await crew.bar().tap();
  await page.locator('.run-book').waitFor();
  await crew.keys('1.62');
  await inSight('the cable');
  await crew.bar().tap();
  await page.locator('.run-book td button').last().tap();
  await inSight('a run amended');
  await leave();
  await crew.take('Lift the sampler');
  await crew.take('Refill the string');
  await crew.keys('10c');
  await crew.bar().click();
  await crew.take('Lay out the core');
  await inSight('laying out');
  await field('Came up').tap();
  await crew.keys('60c');
  await page.locator('.entry .field-row', { hasText: 'Laid out' }).tap();
  await page.locator('.pad').getByRole('button', { name: 'piece by piece' }).tap();
  await crew.bar().tap();
  await page.getByRole('heading', { name: 'Piece 1 of R1' }).waitFor();
  await inSight('a piece');
  await page.getByRole('button', { name: 'Skip' }).tap();
  for (const line of ['Ground', 'Added joint K1', 'Drive', 'Filled', 'Water']) {
    await page.locator('.book li', { hasText: line }).first().getByRole('button').first().tap();
    await inSight(`${line}, amended`);
    await leave();
  }
});

test('the keys of the row keep their places, whatever is suggested, waits or is in danger', async () => {
  const boxes = (): Promise<string[]> =>
    page.locator('.drill-tools').evaluate((row) => {
      const at = row.querySelector('.rest > button')!.getBoundingClientRect();
      const isPhone = innerWidth < 700;
      return [...row.querySelectorAll('button')].flatMap((key) => {
        const box = key.getBoundingClientRect();
        // on a phone the row lies below the numbers, and the stroke above the keys while it is counted
        if (isPhone && key.classList.contains('stroke')) return [];
        const [x, y] = isPhone ? [box.x - at.x, box.y - at.y] : [box.x, box.y];
        return [
          `${key.querySelector('.word')?.textContent} ${[x, y, box.width, box.height].map(Math.round).join(' ')}`,
        ];
      });
    });
  const places = async (): Promise<string[][]> => {
    const all: string[][] = [];
    for (const size of SIZES) {
      await turn(size);
      all.push(await boxes());
    }
    await upright();
    return all;
  };
  await crew.startHole('H8');
  const before = await places();
  assert.equal(before[1]?.length, 9);
  const same = async (state: string): Promise<void> => assert.deepEqual(await places(), before, state);
  await crew.take('Site check');
  await crew.answer('Mast clear of overhead lines', 'no');
  await crew.take('Close site check');
  await same('a danger');
  await crew.take('Keep the mast down');
  await crew.answer('Mast clear of overhead lines', 'yes');
  for (const question of ['Buried services located', 'Reference levelled', 'Joints measured and numbered'])
    await crew.answer(question, 'yes');
  await crew.take('Close site check');
  await crew.go('K8');
  await same('before a run');
  // one that is suggested or waits is pressed all the same
  await tool('Drive').tap();
  await page.locator('.entry h2', { hasText: 'Drive the string' }).waitFor();
  await leave();
  await same('a form was open');
  await crew.take('Mark the cable');
  await crew.bar().tap();
  await crew.take('Run the sampler');
  await crew.bar().tap();
  await page.locator('.run-book').waitFor();
  await same('the sampler in the hole');
  assert.equal(await tool('Drive').getAttribute('data-held'), 'true');
  await crew.keys('3.20');
  await crew.bar().tap();
  await page.locator('.risk[data-level="danger"]').waitFor();
  await same('the sampler past the shoe');
});

test('every field of every form lies in sight when it is in hand: pushes, an end, a hole instead', async () => {
  await crew.startHole('H7', 'tube');
  await crew.take('Site check');
  await crew.answer('Buried services located', 'not needed');
  await crew.take('Close site check');
  await crew.take('Measure ground level');
  await inSight('ground level');
  await field('Ground below the reference').tap();
  await crew.keys('12c');
  await crew.bar().tap();
  await crew.take('Record the first push');
  await inSight('a push');
  await field('Lower end').tap();
  await crew.keys('1.50');
  await crew.bar().tap();
  await other(/^End the hole/);
  await inSight('the end');
  await leave();
});

test('a second tap of a cold hand does not record what has only just come under it', async () => {
  await upright();
  await crew.startHole('H20');
  await crew.begin('Q1');
  await crew.take('Mark the cable');
  await crew.field('Tape at the collar');
  await crew.keys('0');
  await crew.bar().click();
  await page.locator('.act .does', { hasText: 'Run the sampler' }).waitFor();
  await page.locator('.act .action-bar:enabled').waitFor();
  const { x, y, width, height } = (await crew.bar().boundingBox())!;
  // its form comes with the mark as sounded: a press would record a touch that nobody has read
  for (let tap = 0; tap < 2; tap++) await page.touchscreen.tap(x + width / 3, y + height / 2);
  await page.locator('.act .does', { hasText: 'Record touch mark' }).waitFor();
  await page.locator('.act .action-bar:enabled').waitFor();
  assert.equal(await page.locator('.entry h2', { hasText: 'Run the sampler' }).count(), 1);
  assert.equal(await page.locator('.run-book').count(), 0);
  // after half a second it is the hand's own press
  await crew.bar().tap();
  await page.locator('.run-book').waitFor();
});

/** The curve in a real browser: an interval by hand and by keyboard, a point switched off, a trace down to a reading. */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { readFiles } from '@stillstand/campaign/document';
import type { Locator, Page } from 'playwright-core';
import { atRest, onDevice, openCampaign, openDemo, served } from '../../browser/browser.ts';

let page: Page;
let home: string;
onDevice({}, async (at) => {
  page = at.page;
  home = `${await served()}#/${await openDemo(page)}`;
});
const words = async (at: Locator): Promise<string> => (await at.textContent()) ?? '';

/** An edit makes it provisional before the hand is off the key. */
const final = (): Promise<void> => page.locator('[data-curve="final"]').waitFor();
/** The heading says so, at the latest when the drawing has followed. */
const rateOf = (interval: string): Promise<void> =>
  page.getByRole('heading', { name: `Rate, ${interval} cal BP` }).waitFor();
const rate = async (): Promise<{ mean: number; twoSd: number }> => {
  const number = page.locator('.curve .number');
  const read = async (part: string): Promise<number> =>
    Number((await words(number.locator(part))).replace('−', '-').replace(/[±+]/, ''));
  return { mean: await read('.value'), twoSd: await read('.pm') };
};

test('an interval is drawn along the time axis, moved by its grips, and typed', async () => {
  await page.goto(`${home}/curve`);
  await final();
  await rateOf('8,500 to 7,500');
  await atRest(page);
  const surface = (await page.locator('.curve .surface').boundingBox())!;
  const grip = async (which: string): Promise<number> => {
    const box = (await page.getByRole('slider', { name: `${which} end of the interval` }).boundingBox())!;
    return box.x + box.width / 2;
  };
  const perYear = ((await grip('Younger')) - (await grip('Older'))) / 1000;
  const x = (age: number, from: number): number => from + (8500 - age) * perYear;
  const older = await grip('Older');
  const y = surface.y + surface.height * 0.3;
  await page.mouse.move(x(6500, older), y);
  await page.mouse.down();
  await page.mouse.move(x(5600, older), y, { steps: 5 });
  // The number follows the hand.
  await rateOf('6,500 to 5,600');
  await page.mouse.move(x(5500, older), y, { steps: 3 });
  await page.mouse.up();
  await page.waitForURL(/interval=6500-5500/);
  await rateOf('6,500 to 5,500');

  await page.getByRole('slider', { name: 'Older end of the interval' }).focus();
  await page.keyboard.press('ArrowLeft');
  await page.waitForURL(/interval=6600-5500/);
  await page.getByRole('slider', { name: 'Younger end of the interval' }).focus();
  for (let i = 0; i < 3; i++) await page.keyboard.press('ArrowRight');
  await page.waitForURL(/interval=6600-5200/);

  await page.getByLabel('From', { exact: true }).fill('8000');
  await page.getByLabel('to', { exact: true }).fill('7000');
  await page.keyboard.press('Enter');
  await page.waitForURL(/interval=8000-7000/);
  await rateOf('8,000 to 7,000');
  const typed = await rate();
  assert.ok(
    Math.abs(typed.mean - 5.2) < 0.3 && typed.twoSd > 0.2 && typed.twoSd < 0.8,
    JSON.stringify(typed),
  );
  await page.getByLabel('Unit of rates').selectOption('cm/century');
  assert.ok(Math.abs((await rate()).mean - 10 * typed.mean) < 0.06);
  await page.getByLabel('Unit of rates').selectOption('mm/yr');
  await page.getByLabel('Probability of more than').fill('0');
  await page.locator('.curve .chance', { hasText: /more than 0\.9\d/ }).waitFor();
});

/** Every state of the curve that is drawn from now on, however short: its words, and whether it is hatched. */
async function statesDrawn(): Promise<() => Promise<string[]>> {
  await page.evaluate(() => {
    const drawn: string[] = [];
    Object.assign(globalThis, { drawn });
    const look = (): void => {
      const word = document.querySelector('.curve-state b')?.textContent ?? '';
      const isHatched = document.querySelector('[id="curve-on-screen-level-hatching"]') !== null;
      const isUnsure = /Not converged yet/.test(document.querySelector('.answer')?.textContent ?? '');
      const state = `${word}${isHatched ? ', hatched' : ''}${isUnsure ? ', not converged yet' : ''}`;
      if (drawn.at(-1) !== state) drawn.push(state);
    };
    new MutationObserver(look).observe(document.body, {
      subtree: true,
      childList: true,
      characterData: true,
    });
  });
  return () => page.evaluate(() => (globalThis as unknown as { drawn: string[] }).drawn);
}

test('a point switched off: a provisional curve first, hatched, then a final one', async () => {
  await page.goto(`${home}/curve?interval=8500-7500`);
  // Final it was before: another interval is shown until the address is followed.
  await rateOf('8,500 to 7,500');
  await final();
  const before = await rate();
  // The most influential is the first of the list.
  const first = page.locator('.influence li button').first();
  const grows = Number((await words(first.locator('.n'))).replace(/[^\d]/g, ''));
  await first.click();
  const drawn = await statesDrawn();
  await page.locator('.point-panel').getByRole('switch').click();
  await final();
  assert.ok(
    (await drawn()).some((state) => /^First look.*, hatched.*, not converged yet/.test(state)),
    `${(await drawn()).join('; ')}`,
  );
  const off = await rate();
  assert.ok(off.twoSd > before.twoSd, `± ${before.twoSd} grew to ${off.twoSd}; ${grows} % were foretold`);
  await page.getByText(`Before the last change`).waitFor();
  await page.getByLabel('Reason for exclusion', { exact: true }).fill('to see what it is worth');
  await page.keyboard.press('Enter');
  await page.locator('.point-panel').getByRole('switch').click();
  await final();
  assert.deepEqual(await rate(), before, 'switched on again it is the same curve');
});

test('an error changed beside the curve moves it', async () => {
  await page.goto(`${home}/curve?interval=8500-7500&point=P-T2-08`);
  await final();
  const before = await rate();
  await page
    .locator('.point-panel')
    .getByRole('button', { name: /^Sampling/ })
    .click();
  await page.locator('.point-panel').getByLabel('Size', { exact: true }).fill('1.5');
  await page.keyboard.press('Enter');
  await final();
  assert.ok((await rate()).twoSd > before.twoSd);
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: 'Take the declared value back' }).click();
  await final();
  assert.deepEqual(await rate(), before);
});

test('where a rate comes from: down to a reading, which opens in its place', async () => {
  await page.goto(`${home}/curve?interval=8700-7600`);
  await final();
  await page.locator('.curve .number .traced').click();
  const trace = page.locator('.trace-beside');
  await trace.getByText('Rate from 8700 to 7600 cal BP').waitFor();
  // An interval nobody reports stands on the levels at its ends, these on the points.
  await trace.getByText('RSL at 7600 cal BP').waitFor();
  await trace
    .getByRole('button', { name: /^Points, the most influential first/ })
    .first()
    .click();
  await trace
    .getByRole('button', { name: /^RSL at P-T2-08/ })
    .first()
    .click();
  for (const part of ['Elevation of T2-08', 'In-situ depth of T2-08', 'Removed by run R14']) {
    await trace.getByRole('button', { name: new RegExp(`^${part}`) }).click();
  }
  await trace.getByRole('button', { name: /^sounding before run/ }).click();
  const row = page.getByRole('dialog');
  await row.waitFor();
  await row.getByRole('heading', { name: /^Hole \w+, sounding/ }).waitFor();
  await row.getByRole('button', { name: 'Open in Drill' }).click();
  await page.waitForURL(/\/drill\?table=soundings/);
});

test('questions by keys alone: what is asked, its value, its time, the answer and where it comes from', async () => {
  await page.goto(`${home}/curve?interval=8500-7500`);
  await final();
  await rateOf('8,500 to 7,500');
  const panel = page.locator('.questions');
  const key = (name: string): Locator => panel.getByRole('button', { name, exact: true });
  const said = (pattern: RegExp): Promise<void> => panel.locator('.said', { hasText: pattern }).waitFor();
  await said(
    /The sea stood highest at \+\d.*Probability that this is above 0 of the datum: .*At least [\d,]+ effective draws/,
  );
  await key('Level passed').click();
  await panel.getByLabel('Level', { exact: true }).fill('-5');
  await said(
    /first rose through −5 m at 7,[0-9]+ cal BP \(95 % 7,\d+–7,\d+\).*within 9,\d00–0 cal BP: more than 0\.99/,
  );
  await key('Level: more').click();
  await said(/first rose through −4\.5 m/);
  await key('Level: less').click();
  await key('Level: less').click();
  await said(/first rose through −5\.5 m/);
  await panel.getByLabel('Level', { exact: true }).fill('x');
  await panel.getByText('Found “x”; expected a number in m.').waitFor();
  await panel.getByLabel('Level', { exact: true }).fill('30');
  await said(/Too few draws rise through \+30 m to date it.*less than 0\.01/);
  await key('Rate below').click();
  await said(/The rate first fell below \+\d mm\/yr at .*for good at/);
  await key('Fastest, slowest').click();
  await key('Length: less').click();
  await said(/The fastest 500 yr rose \+\d.*The slowest 500 yr/);
  await key('8,500 to 7,500').click();
  await key('Length: more').click();
  await key('Length: more').click();
  await panel.getByText(/Found stretches of 2000 yr; expected above 0, at most the 1000 yr/).waitFor();
  await key('Acceleration').click();
  await said(/Mean rate over 8,500–8,000 cal BP.*over 8,000–7,500 cal BP/);
  await panel.locator('.said .traced').click();
  const trace = page.locator('.trace-beside');
  await trace
    .getByText(/^Acceleration, 8500 to 7500 cal BP/)
    .first()
    .waitFor();
  await trace.getByText(/median over \d+ draws \(4 chains\)/).waitFor();
  await trace
    .getByText(/^Curve of a smooth rate through all points/)
    .first()
    .waitFor();
});

/** The demo with fewer draws and nothing that may be an outlier, in a fifth of the time; without the dates of some samples. */
function quickDemo(undated: readonly string[] = []): ReturnType<typeof readFiles>['document'] {
  const folder = join(import.meta.dirname, '../../../../demo/campaign');
  const quick = ['chains,2,q1,', 'draws,100,q2,', 'outliers,off,q3,'].join('\n');
  const edited = readdirSync(folder).map((name) => {
    const bytes = readFileSync(join(folder, name));
    const text = bytes.toString();
    if (name === 'settings.csv')
      return [name, new TextEncoder().encode(`${text.trimEnd()}\n${quick}\n`)] as const;
    if (name !== 'determinations.csv') return [name, new Uint8Array(bytes)] as const;
    const kept = text.split('\n').filter((line) => !undated.includes(line.split(',')[1] ?? ''));
    return [name, new TextEncoder().encode(kept.join('\n'))] as const;
  });
  return readFiles(new Map(edited)).document;
}

async function openQuick(): Promise<void> {
  await openCampaign(page, quickDemo(), 'curve');
  await final();
}

test('another curve is pasted and compared, a prediction is subtracted; one Undo takes each away', async () => {
  await openQuick();
  const others = page.getByRole('region', { name: 'Other curves' });
  const add = async (name: string, use: string, levels: string): Promise<void> => {
    await others.getByRole('button', { name: 'Add another curve or a prediction' }).click();
    const form = page.getByRole('dialog', { name: 'Another curve or a prediction' });
    await form.getByLabel('Name', { exact: true }).fill(name);
    await form.getByLabel('Use', { exact: true }).selectOption({ label: use });
    const field = form.getByLabel('Levels', { exact: true });
    await field.fill('6000 -4.5 0.3\nsome -1 0.2');
    await form.getByText('Line 2: found some, -1, 0.2').waitFor();
    assert.ok(await form.getByRole('button', { name: 'Add it' }).isDisabled());
    await field.fill(levels);
    await form.getByRole('button', { name: 'Add it' }).click();
    await form.waitFor({ state: 'detached' });
  };
  await add('Coast B', 'compare with it', '7000\t-4,0\t0,3\n5000\t-1,0\t0,2\n3000\t0,5\t0,2');
  await others.getByRole('heading', { name: 'This curve less Coast B' }).waitFor();
  await others.getByText('Its datum is not known').waitFor();
  assert.match(await words(others), /7,000 to 3,000/);
  await add('Land', 'subtract it, a prediction', 'age_cal_bp,level_m,sd_m\n9500,-2,0.5\n5000,-1,0.3\n0,0,0');
  await others.getByRole('heading', { name: 'What remains without Land' }).waitFor();
  const number = others.getByRole('row', { name: /^7,000 to 3,000/ }).getByRole('button');
  await number.click();
  await page
    .getByText(/Rate from 7000 to 3000 cal BP less that of Coast B/)
    .first()
    .waitFor();
  await others.getByRole('button', { name: 'Delete Coast B' }).click();
  await others.getByRole('heading', { name: 'This curve less Coast B' }).waitFor({ state: 'detached' });
  await page.keyboard.press('Control+z');
  await others.getByRole('heading', { name: 'This curve less Coast B' }).waitFor();
});

test('models of the rate stand side by side, one is taken, and one Undo takes it back', async () => {
  await openQuick();
  const choice = page.getByRole('region', { name: 'Model of the rate' });
  const chosen = (): Promise<string> =>
    choice.getByRole('combobox').evaluate((e: HTMLSelectElement) => e.selectedOptions[0]!.text);
  await choice.getByRole('button', { name: 'Compare models' }).click();
  await choice.getByText('The models are being computed').waitFor();
  await choice.getByRole('row', { name: /stepwise, 1 change, jumps/ }).waitFor();
  assert.equal(await choice.getByRole('row').count(), 1 + 7);
  assert.match(await words(choice), /The data (do not )?decide/);
  await choice.getByRole('combobox').selectOption({ label: 'smooth, slowing' });
  await page.getByText(/^The mean rate slowed by /).waitFor();
  // The models are the same ones: nothing is computed again.
  assert.equal(await choice.getByRole('row').count(), 1 + 7);
  await page.keyboard.press('Control+z');
  await page.getByText(/^The mean rate slowed/).waitFor({ state: 'detached' });
  await final();
  assert.equal(await chosen(), 'smooth');
  await choice.getByRole('button', { name: 'Do not compare' }).click();
  await choice.getByRole('table').waitFor({ state: 'detached' });
});

test('what to date next: layers by core and depth, two together, and what a price and a budget make of them', async () => {
  await openCampaign(page, quickDemo(['T3-03', 'T3-04', 'M2-02', 'T2-06']), 'curve');
  await final();
  await page.goto(`${page.url().split('?')[0]}?interval=7000-6000`);
  await final();
  const panel = page.getByRole('region', { name: 'What to date next' });
  await panel.getByRole('button', { name: 'core T3, 4.75 m, sample T3-03' }).first().waitFor();
  await panel.getByText('a new index point').first().waitFor();
  await panel.getByText('two dates together').waitFor();
  await panel.getByText(/^Together the two take \d+ % of the variance, alone \d+ % and \d+ %: /).waitFor();
  await panel.getByText(/A date gives no result with 5\.0 % \(assumed\): 95 % count\./).waitFor();
  await panel.getByText(/^Promised for a smooth rate\. .* the promise does not bind\.$/).waitFor();
  await panel.getByText(/^Not ranked, a limiting or a rejected point: .*sample T2-06/).waitFor();
  assert.equal(await panel.getByRole('columnheader', { name: 'price' }).count(), 0);
  await panel.getByText('Prices and failures').click();
  const type = async (name: string, value: string): Promise<void> => {
    await panel.getByLabel(name, { exact: true }).fill(value);
    await page.keyboard.press('Tab');
  };
  await type('Price of a date', '450');
  await panel.getByRole('columnheader', { name: 'price' }).waitFor();
  await type('Price of a core', '3000');
  await panel.getByRole('row', { name: /a new index point .* 3,450/ }).waitFor();
  await type('Dates without a result, %', '20');
  await panel.getByText(/A date gives no result with 20 %: 80 % count\./).waitFor();
  await type('Budget', '1000');
  await panel.getByText('within the budget').waitFor();
  // A core is not bought with 1,000.
  await panel
    .getByText(/A date costs 450, a new point also a core of 3,000, .* The budget is 1,000/)
    .waitFor();
  await page.keyboard.press('Control+z');
  await panel.getByText('within the budget').waitFor({ state: 'detached' });
  const size = page.viewportSize()!;
  await page.setViewportSize({ width: 360, height: 740 });
  await atRest(page);
  assert.ok(await panel.evaluate((e) => e.scrollWidth <= e.clientWidth), 'as wide as a telephone');
  await page.setViewportSize(size);
  // A finger finds every layer and the fold.
  for (const target of await panel.locator('button, summary').all()) {
    const box = await target.boundingBox();
    assert.ok(
      box === null || box.height >= 44 || (await target.getAttribute('class')) === 'ask',
      `${box?.height}`,
    );
  }
});

test('a point dated by its depth: the ages of its hole first, then the curve that has them', async () => {
  const header = page.locator('.one-point > header');
  const byLink = async (stage: 'Points' | 'Curve'): Promise<void> => {
    await page.getByRole('link', { name: stage, exact: true }).first().click();
    await page.waitForURL(new RegExp(`/${stage.toLowerCase()}`));
  };
  await page.goto(`${home}/points?point=P-M2-02`);
  const source = page.getByLabel('Source of the age', { exact: true });
  await source.selectOption('age_depth');
  await header.getByText('for now').waitFor();
  await byLink('Curve');
  await page.locator('[data-curve="provisional"]').waitFor();
  await page.locator('[data-curve="final"]').waitFor({ timeout: 300_000 });
  assert.match(await words(page.locator('.curve-state')), /Converged 33 points used, 2 rejected/);
  await byLink('Points');
  await page.locator('.point-list').getByText('P-M2-02').click();
  await header.getByText('by its depth').waitFor();
  // Its neighbours went with it: their dates are in the same history.
  await page.locator('.point-list').getByText('P-M2-04').click();
  await header.getByText('by its depth').waitFor();
  await page.locator('.point-list').getByText('P-M2-02').click();
  await source.selectOption('determination');
  await header.getByText(/by INV-\d+/).waitFor();
});

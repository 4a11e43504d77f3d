/**
 * What lies below, by touch: in Drill what is expected below the shoe, which moves no key and takes no press, and what
 * contradicts it; in Plan the depth that reaches a horizon, taken by one press. The demo with M1 not finished yet.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Locator, Page } from 'playwright-core';
import { violations } from '../../../browser/axe.ts';
import { atRest, computed, onDevice, openCampaign } from '../../../browser/browser.ts';
import { reopenedDemo } from '../../../browser/reopened-demo.ts';

let page: Page;
onDevice({ width: 820, height: 1180, touch: true }, async (tablet) => {
  page = tablet.page;
});

/** Levelled, as a hole is whose peg is set before. */
const LEVELLED = {
  target_depth: '6.2 m',
  reference_point: 'P1 peg',
  reference_elevation_m: '1.90',
  reference_sigma_m: '0.05',
  reference_datum: 'MSL',
};
const words = async (of: Locator): Promise<string> => ((await of.textContent()) ?? '').replace(/\s+/g, ' ');
const ahead = (): Locator => page.locator('.ahead');

/** Where the keys and numbers are on the screen, the page at its top. */
const places = (): Promise<string[]> =>
  page.evaluate(() => {
    scrollTo(0, 0);
    return [
      ...document.querySelectorAll('.drill :is(.drill-tools, .act, .choices) button, .numbers > *'),
    ].map((key) => {
      const { x, y, width, height } = key.getBoundingClientRect();
      return `${key.textContent}: ${[x, y, width, height].map(Math.round).join(' ')}`;
    });
  });

test('what is expected below the shoe: read, not pressed, and no key moves for it', async () => {
  await openCampaign(page, await reopenedDemo(LEVELLED), 'drill?hole=M1');
  await computed(page);
  await ahead().waitFor();
  const said = await words(ahead());
  assert.match(said, /^Expected below the shoe/);
  assert.match(said, /peat, basal peat6\.\d\d\.\d–\d\.\d\d\d %high marsh; \d,\d00–\d,\d00 cal BP/);
  assert.match(said, /From M2 \(126 m\), T3 \(156 m\).*expected, not seen/);
  assert.match(said, /Services, gas and ordnance are not foretold/);
  assert.ok((await ahead().locator('tbody tr:not(.about)').count()) <= 4);
  assert.equal(await ahead().locator('button, a, input').count(), 0);
  assert.doesNotMatch(await words(page.locator('.numbers')), /expected/i);
  assert.match(
    (await page.locator('.drawing svg').first().getAttribute('aria-label')) ?? '',
    /Expected below, not seen: .*peat down to 6\.\d m/,
  );
  for (const [width, height] of [
    [820, 1180],
    [360, 740],
    [1440, 900],
  ] as const) {
    await page.setViewportSize({ width, height });
    await atRest(page);
    const { scrollWidth } = await page.evaluate(() => document.documentElement);
    assert.ok((scrollWidth ?? width) <= width, `${scrollWidth} px wide`);
    if (width < 1000) assert.deepEqual(await violations(page), [], `${width} px`);
    const withIt = await places();
    await ahead().evaluate((e: HTMLElement) => {
      e.style.display = 'none';
    });
    await atRest(page);
    assert.deepEqual(await places(), withIt, `${width} px`);
    await ahead().evaluate((e: HTMLElement) => {
      e.style.display = '';
    });
  }
});

test('how deep P1 must go, taken by one press, and Undo', async () => {
  await page.setViewportSize({ width: 360, height: 740 });
  await page.goto(page.url().replace(/drill\?.*/, 'plan'));
  const expected = page.locator('.expected-contacts');
  await expected.waitFor();
  assert.match(await words(expected), /The target depth reaches basal peat with a probability of \w+ to/);
  const take = expected.getByRole('button', { name: /reaches basal peat with 95 %/ });
  const depth = await words(take);
  const box = await take.boundingBox();
  assert.ok(box !== null && box.height >= 48 && box.width >= 48, JSON.stringify(box));
  await atRest(page);
  assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= 360);
  assert.deepEqual(await violations(page), []);
  await take.tap();
  const target = page.getByRole('textbox', { name: 'P1', exact: true });
  assert.match(depth, /^6\.\d m$/);
  assert.equal(await target.inputValue(), depth);
  await expected.getByText(/reaches basal peat with a probability of more than 95 %/).waitFor();
  await page.getByRole('button', { name: /^Menu/ }).tap();
  await page.getByRole('button', { name: /^Undo/ }).locator('visible=true').first().tap();
  await page.waitForFunction(
    () => [...document.querySelectorAll('input')].some(({ value }) => value === '6.2 m'),
    null,
  );
});

test('a layer that is not as expected is said in one line, in the words of the problem', async () => {
  await page.setViewportSize({ width: 820, height: 1180 });
  // the base of the silt taken for that of the peat
  const wrong = { hole_a: 'M1', unit_a: '2', hole_b: 'M2', unit_b: '5', confidence: 'possible' };
  const document = await reopenedDemo(LEVELLED, (ties) => [
    ...ties.filter(
      ({ hole_a, unit_a, hole_b, unit_b }) =>
        !(hole_a === 'M1' && unit_a === '2') && !(hole_b === 'M1' && unit_b === '2'),
    ),
    { ...wrong, row_id: 'wrong' },
  ]);
  await openCampaign(page, document, 'drill?hole=M1');
  await computed(page);
  const line = page.locator('.ahead .contradicted');
  await line.waitFor();
  assert.match(
    await words(line),
    /^Not as expected, layer 2: its base at −0\.76 m; expected −\d\.\d\d m to −\d\.\d\d m \(95 %\), as the base of \w\d, unit \d+\./,
  );
});

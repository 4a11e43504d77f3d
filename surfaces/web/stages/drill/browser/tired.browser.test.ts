/**
 * A day with tired people, by touch on a tablet upright, on its side and on a phone: readings grow old while nobody
 * looks, a drive slows and meets something, the sampler is forgotten in the string, and water comes before the core.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Page } from 'playwright-core';
import { atRest, devices, openDemo, served } from '../../../browser/browser.ts';
import { type Hand, hand } from '../../../browser/hand.ts';

const SIZES = [
  [820, 1180],
  [1180, 820],
  [360, 740],
] as const;
const start = devices();

async function atWork([width, height]: readonly [number, number]): Promise<{ page: Page; crew: Hand }> {
  const { page } = await start({ width, height, touch: true });
  const crew = hand(page);
  const id = await openDemo(page);
  await page.getByRole('button', { name: 'Put the first steps away' }).click();
  await page.clock.install({ time: new Date('2026-06-11T08:00:00Z') });
  await page.goto(`${await served()}#/${id}/drill`);
  await page.locator('.drill').waitFor();
  return { page, crew };
}

const plate = (page: Page) => page.locator('.risk');
const number = (page: Page, name: string) => page.locator('.numbers > .number', { hasText: name });

/** Nothing wider than the screen, and no number that runs over its unit or its neighbour. */
async function holds(page: Page, at: string): Promise<void> {
  await atRest(page);
  const faults = await page.evaluate(() => {
    const wide = document.documentElement.scrollWidth > innerWidth ? ['wider than the screen'] : [];
    const over = [...document.querySelectorAll<HTMLElement>('.numbers .big')].flatMap((big) => {
      const parts = [...big.children].map((part) => part.getBoundingClientRect());
      return parts.some((p, i) =>
        parts
          .slice(i + 1)
          .some(
            (q) =>
              p.right > q.left + 1 && p.left < q.right - 1 && p.bottom > q.top + 8 && p.top < q.bottom - 8,
          ),
      )
        ? [`${big.textContent} overlaps itself`]
        : [];
    });
    return [...wide, ...over];
  });
  assert.deepEqual(faults, [], at);
}

for (const size of SIZES) {
  test(`readings lose weight, a drive slows, the sampler is not forgotten: ${size.join(' × ')}`, async () => {
    const { page, crew } = await atWork(size);
    const at = size.join(' × ');
    await page.locator('.tide-now').waitFor();
    await crew.startHole('H9');
    assert.equal(await page.getByText('not read', { exact: true }).count(), 0, 'nothing could be read yet');
    await crew.begin('K1');
    await holds(page, `${at}: begun`);

    // an hour and a half on: lighter, with its age, and the levels are what is asked for next
    await page.clock.fastForward('01:30:00');
    await plate(page).locator('.age', { hasText: '1 h' }).waitFor();
    await page.locator('.act .does', { hasText: 'Measure water levels' }).waitFor();
    await holds(page, `${at}: old`);
    // a lunch too long: not read, with what it was
    await page.clock.fastForward('02:00:00');
    await plate(page).locator('.blank', { hasText: 'not read' }).waitFor();
    assert.match((await plate(page).textContent()) ?? '', /\+1\.90 m at \d\d:\d\d, 3 h/);
    await holds(page, `${at}: not read`);

    // driven on: timed, then slower
    const drive = async (from: string, to: string, seconds: string): Promise<void> => {
      await page.locator('.drill-tools').getByRole('button', { name: 'Drive' }).click();
      await crew.field('Stick-up before');
      await crew.keys(from);
      await crew.field('Stick-up after');
      await crew.keys(to);
      await page.locator('.entry .field-row', { hasText: 'Time' }).click();
      await crew.keys(seconds);
    };
    await drive('35c', '25c', '2');
    await crew.bar().click();
    await number(page, 'Shoe depth').locator('.also', { hasText: '3.00' }).waitFor();
    await drive('25c', '12c', '10');
    await crew.bar().click();
    await plate(page).locator('.word', { hasText: 'Slowing' }).waitFor();
    assert.equal(await crew.big('Penetration rate'), '0.78');
    assert.match((await plate(page).textContent()) ?? '', /26 % of the usual 3\.00/);
    await holds(page, `${at}: slowing`);
    await drive('12c', '11c', '10');
    await page.locator('.entry .field-row', { hasText: 'Ended by' }).click();
    await page.locator('.pad').getByRole('button', { name: 'obstruction', exact: true }).click();
    await crew.bar().click();
    await plate(page).locator('.word', { hasText: 'Refusal' }).waitFor();
    await crew.take('Record response');
    await page.locator('.pad').getByRole('button', { name: 'lifted and retried' }).click();
    await crew.bar().click();
    // lifted: where it was is not where it is
    await crew.take('Drive the string again');
    assert.equal(await page.locator('#drill-stick_up_start').inputValue(), '');
    await page.getByRole('button', { name: /^Leave: Drive/ }).click();

    // water and a sounding, then a run that somebody drives on with
    await page.locator('.drill-tools').getByRole('button', { name: 'Fill' }).click();
    await crew.keys('10c');
    await crew.bar().click();
    await page.locator('.drill-tools').getByRole('button', { name: 'Sounding' }).click();
    await crew.keys('1.00');
    await crew.bar().click();
    await page.locator('.drill-tools').getByRole('button', { name: 'Run' }).click();
    await crew.bar().click();
    await crew.keys('1.60');
    await crew.bar().click();
    await drive('11c', '1c', '10');
    await crew.bar().click();
    await plate(page).locator('.word', { hasText: 'Sampler in string' }).waitFor();
    await page.locator('.act', { hasText: 'The string was driven with the sampler in it.' }).waitFor();
    await holds(page, `${at}: the sampler in the string`);
    await crew.take('Lift the sampler');
    await crew.take('Fill the string');
    await crew.keys('10c');
    await crew.bar().click();
    await page.locator('.act .does', { hasText: 'Lay out the core' }).waitFor();
  });
}

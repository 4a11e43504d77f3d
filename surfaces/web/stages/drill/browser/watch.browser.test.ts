/**
 * What keeps watch on the rig: the hour to leave by, the screen that stays awake, a danger that is heard and felt where
 * the crew allows it, and nothing that moves where nobody wants it to.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Page } from 'playwright-core';
import { drillDemo, onDevice } from '../../../browser/browser.ts';
import { type Hand, hand } from '../../../browser/hand.ts';

interface Watched {
  locks: string[];
  released: number;
  shakes: unknown[];
  tones: number[];
  /** Takes the lock away, as a system does when the page is hidden. */
  takeAway(): void;
}

let page: Page;
let crew: Hand;

onDevice({ width: 820, height: 1180, touch: true, zone: 'Etc/GMT+8' }, async (tablet) => {
  page = tablet.page;
  crew = hand(page);
  await page.addInitScript(() => {
    const watched: Watched = { locks: [], released: 0, shakes: [], tones: [], takeAway: () => undefined };
    Object.assign(globalThis, { watched });
    Object.defineProperty(navigator, 'wakeLock', {
      value: {
        request: async (kind: string) => {
          watched.locks.push(kind);
          const lock = { released: false, release: async () => void watched.released++ };
          watched.takeAway = () => {
            lock.released = true;
          };
          return lock;
        },
      },
    });
    Object.defineProperty(navigator, 'vibrate', { value: (how: unknown) => watched.shakes.push(how) > 0 });
    const parameter = { setValueAtTime: () => undefined, exponentialRampToValueAtTime: () => undefined };
    class Silence {
      currentTime = 0;
      destination = {};
      resume = async () => undefined;
      createGain = () => ({ gain: parameter, connect: <T>(to: T) => to });
      createOscillator = () => {
        const frequency = { value: 0 };
        return {
          frequency,
          connect: <T>(to: T) => to,
          start: () => watched.tones.push(frequency.value),
          stop: () => undefined,
        };
      };
    }
    Object.assign(globalThis, { AudioContext: Silence });
  });
  // the last drilled day of the demo, two hours before the spit must be left
  await page.clock.install({ time: new Date('2023-02-06T13:40:00-08:00') });
  await drillDemo(page);
});
/** The page's clock goes on to that time at once, its timers with it, and stands there. */
const goOnTo = (time: string): Promise<void> => page.clock.pauseAt(new Date(time));

const watched = (): Promise<Omit<Watched, 'takeAway'>> =>
  page.evaluate(() => {
    const { locks, released, shakes, tones } = (globalThis as unknown as { watched: Watched }).watched;
    return { locks, released, shakes, tones };
  });

test('leave by: the hour, then a warning in the last hour, then a danger, each by shape and word', async () => {
  const by = page.locator('.leave-by');
  await by.filter({ hasText: /^leave by 15:40$/ }).waitFor();
  assert.equal(await by.getAttribute('data-level'), 'normal');
  assert.equal(await by.locator('svg').count(), 0);
  await goOnTo('2023-02-06T14:55:30-08:00');
  await page.locator('.leave-by[data-level="caution"]').waitFor();
  assert.match((await by.textContent()) ?? '', /leave by 15:40\s*in 44 min/);
  assert.equal(await by.locator('svg').count(), 1);
  await goOnTo('2023-02-06T15:41:00-08:00');
  await page.locator('.leave-by[data-level="danger"]').waitFor();
  assert.match((await by.textContent()) ?? '', /Leave now: it was 15:40/);
  assert.equal(await by.getAttribute('role'), 'alert');
  assert.equal(await by.locator('svg').count(), 1);
  // the next day has an hour of its own
  await goOnTo('2023-02-07T09:00:00-08:00');
  await by.filter({ hasText: /^leave by 16:20$/ }).waitFor();
  await page.clock.resume();
});

test('the screen is kept awake: asked for once, asked again when the system took it, let go on leaving', async () => {
  assert.deepEqual((await watched()).locks, ['screen']);
  await page.evaluate(() => document.dispatchEvent(new Event('visibilitychange')));
  assert.deepEqual((await watched()).locks, ['screen']);
  await page.evaluate(() => {
    (globalThis as unknown as { watched: Watched }).watched.takeAway();
    document.dispatchEvent(new Event('visibilitychange'));
  });
  assert.deepEqual((await watched()).locks, ['screen', 'screen']);
  await page.getByRole('link', { name: 'Plan', exact: true }).first().click();
  await page.locator('.drill').waitFor({ state: 'detached' });
  assert.equal((await watched()).released, 1);
  await page.goBack();
  await page.locator('.drill').waitFor();
});

test('a danger is heard and felt, once, and is silent where the crew switched it off; the screen says it all the same', async () => {
  await crew.startHole('H9');
  await crew.begin('K1');
  await crew.take('Mark the cable');
  await crew.bar().click();
  await crew.take('Run the sampler');
  await crew.bar().click();
  await crew.keys('2.60');
  await crew.bar().click();
  await page.locator('.risk[data-level="caution"]').waitFor();
  assert.deepEqual((await watched()).tones, []);
  await crew.keys('3.20');
  await crew.bar().click();
  await page.locator('.risk[data-level="danger"]', { hasText: 'Stop' }).waitFor();
  assert.deepEqual((await watched()).tones, [880, 880, 880]);
  assert.equal((await watched()).shakes.length, 1);
  await crew.take('Lift the sampler now');
  await page.getByRole('button', { name: 'Other event' }).click();
  await page.getByRole('button', { name: 'Alarm on danger: on' }).click();
  await page.getByRole('button', { name: 'Alarm on danger: off' }).waitFor();
  await page.getByRole('button', { name: 'Leave', exact: true }).click();
  await crew.take('Refill the string');
  await crew.keys('10c');
  await crew.bar().click();
  await crew.take('Lay out the core');
  await crew.keys('1.50');
  await crew.bar().click();
  // another danger: a joint that goes down with its thread unconfirmed
  await page.locator('.drill-tools').getByRole('button', { name: 'Joint' }).click();
  await page.getByLabel('Label', { exact: true }).fill('K2');
  await crew.field('Length');
  await crew.keys('3.00m');
  await crew.bar().click();
  await page.locator('.drill-tools').getByRole('button', { name: 'Drive' }).click();
  await crew.field('Stick-up after');
  await crew.keys('40c');
  await crew.bar().click();
  await page.locator('.troubles .danger', { hasText: 'Drive' }).waitFor();
  assert.equal((await watched()).tones.length, 3);
  assert.equal((await watched()).shakes.length, 1);
});

test('where motion is not wanted, nothing moves', async () => {
  await page.emulateMedia({ reducedMotion: 'reduce' });
  await page.locator('.drill-tools').getByRole('button', { name: 'Sounding', exact: true }).click();
  await crew.keys('3.00');
  await crew.bar().click();
  const moving = await page.evaluate(() => ({
    settle: getComputedStyle(document.documentElement).getPropertyValue('--settle').trim(),
    animations: document.getAnimations().length,
    slow: [...document.querySelectorAll('.drill *')].filter((e) =>
      getComputedStyle(e)
        .transitionDuration.split(',')
        .some((d) => Number.parseFloat(d) > 0),
    ).length,
  }));
  assert.match(moving.settle, /^0m?s$/);
  assert.equal(moving.animations, 0);
  assert.equal(moving.slow, 0);
});

/** How soon what a hand does is on the screen, in a real browser; told by `bench/app`. */
import type { Page } from 'playwright-core';
import { device, drillDemo, openDemo, served } from './browser.ts';
import { hand } from './hand.ts';

export interface PressWaits {
  /** A key of the pad in Drill to the frame that shows it; median of twenty, at most 50 wanted. */
  key_ms: number;
  /** A reading recorded to its line in the book, with the numbers and the drawing; at most 200 wanted. */
  recorded_ms: number;
  /** A key in the form of a date, the age drawn anew: of the page's own time, mean of twenty; at most 50 wanted. */
  date_key_ms: number;
  /** From nothing to the rate of the demo by what the page offers: seconds of waiting; at most 30 wanted. */
  to_a_rate_s: number;
}

export async function pressWaits(): Promise<PressWaits> {
  return {
    to_a_rate_s: await onFresh(toARate),
    ...(await onFresh(inDrill)),
    date_key_ms: await onFresh(inDate),
  };
}

async function onFresh<T>(measure: (page: Page) => Promise<T>): Promise<T> {
  const it = await device({ width: 820, height: 1180, touch: true });
  try {
    return await measure(it.page);
  } finally {
    await it.close();
  }
}

async function toARate(page: Page): Promise<number> {
  const began = performance.now();
  await page.goto(await served());
  await page.getByRole('button', { name: 'Open the demo campaign' }).click();
  for (const next of ['Drill', 'Describe', 'Date', 'Points', 'Curve']) {
    await page.locator('main.page svg').first().waitFor();
    await page.getByRole('button', { name: `Next: ${next}` }).click();
  }
  await page.locator('.side .answer .number').waitFor();
  return (performance.now() - began) / 1000;
}

async function inDrill(page: Page): Promise<{ key_ms: number; recorded_ms: number }> {
  const crew = hand(page);
  await drillDemo(page);
  await crew.startHole('H9');
  await crew.begin('K1');
  await crew.take('Mark the cable');
  await crew.bar().click();
  await crew.take('Run the sampler');
  await crew.bar().click();
  const press = (name: string): Promise<number> =>
    page.evaluate(
      (key) =>
        new Promise<number>((done) => {
          const button = [...document.querySelectorAll<HTMLButtonElement>('.keypad .key')].find(
            (b) => (b.getAttribute('aria-label') ?? b.textContent) === key,
          )!;
          const from = performance.now();
          button.click();
          // The frame that shows it has been handed over when a task behind it runs.
          requestAnimationFrame(() => {
            const behind = new MessageChannel();
            behind.port1.onmessage = () => done(performance.now() - from);
            behind.port2.postMessage(0);
          });
        }),
      name,
    );
  const times: number[] = [];
  for (let i = 0; i < 20; i++) times.push(await press(i % 2 === 0 ? '1' : 'delete'));
  times.sort((a, b) => a - b);
  await crew.keys('1.82');
  const recorded_ms = await page.evaluate(
    () =>
      new Promise<number>((done) => {
        const lines = document.querySelectorAll('.book li').length;
        const from = performance.now();
        document.querySelector<HTMLButtonElement>('.act .action-bar')!.click();
        const look = (): void => {
          if (document.querySelectorAll('.book li').length <= lines) requestAnimationFrame(look);
          else done(performance.now() - from);
        };
        requestAnimationFrame(look);
      }),
  );
  return { key_ms: times[10]!, recorded_ms };
}

async function inDate(page: Page): Promise<number> {
  const id = await openDemo(page);
  await page.goto(`${await served()}#/${id}/date`);
  await page.getByRole('button', { name: 'INV-2522, sample M2-01', exact: true }).click();
  await page.getByRole('heading', { name: 'INV-2522' }).waitFor();
  await page.getByLabel('Conventional age', { exact: true }).focus();
  await page.keyboard.press('End');
  // Time of the page's own thread: what else the machine does is not in it.
  const tools = await page.context().newCDPSession(page);
  await tools.send('Performance.enable', { timeDomain: 'threadTicks' });
  const spent = async (): Promise<number> => {
    const { metrics } = await tools.send('Performance.getMetrics');
    return metrics.find((m) => m.name === 'TaskDuration')!.value * 1000;
  };
  const keys = 20;
  const before = await spent();
  for (let i = 0; i < keys / 2; i++) {
    await page.keyboard.press('Backspace');
    await page.keyboard.press(String(i % 10));
  }
  await page.evaluate(() => new Promise((drawn) => requestAnimationFrame(drawn)));
  return ((await spent()) - before) / keys;
}

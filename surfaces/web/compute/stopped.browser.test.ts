/** A fault inside a computing worker: said calmly, nothing lost, and tried again by a button or by the next edit. */
import assert from 'node:assert/strict';
import { after, test } from 'node:test';
import type { Page } from 'playwright-core';
import { allSaved, computed, type Device, device, openDemo, openOtherTables } from '../browser/browser.ts';

/** As the page asks for it. */
const WORKER = /\/assets\/compute\.worker-[\w-]+\.js$/;
const devices: Device[] = [];
after(async () => {
  for (const each of devices) await each.close();
});

async function fresh(): Promise<Page> {
  const it = await device({ keepsCopy: false });
  devices.push(it);
  return it.page;
}

const stopped = (page: Page) => page.getByText('The computation stopped');

test('a worker that throws: what it said is shown, and computing again computes', async () => {
  const page = await fresh();
  await page.route(WORKER, async (route) => {
    const response = await route.fetch();
    const body = 'self.onmessage = () => { throw new Error("the sieve is full"); };';
    await route.fulfill({ response, body });
  });
  await openDemo(page);
  await stopped(page).waitFor();
  await page.getByText('Details: Error: the sieve is full.').waitFor();
  await page.getByText('nothing typed is lost').waitFor();
  assert.ok((await page.locator('[data-computed="failed"]').count()) > 0);
  await page.unroute(WORKER);
  await page.getByRole('button', { name: 'Compute again' }).click();
  await computed(page);
  await stopped(page).waitFor({ state: 'detached' });
});

test('a worker that cannot be loaded: typing goes on, is kept, and the next edit tries again', async () => {
  const page = await fresh();
  await page.route(WORKER, (route) => route.abort());
  await openDemo(page);
  await stopped(page).waitFor();
  await page.getByText('Details: a part of it could not be loaded').waitFor();
  await page.unroute(WORKER);
  await openOtherTables(page);
  const name = page.locator('.choices input').first();
  await name.fill('Renamed while nothing computed');
  await name.press('Tab');
  await computed(page);
  await stopped(page).waitFor({ state: 'detached' });
  await allSaved(page);
  await page.reload();
  await page.getByRole('heading', { name: 'Renamed while nothing computed' }).waitFor();
});

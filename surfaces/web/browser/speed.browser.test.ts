/** Size of what is loaded first, and how long a person waits. Times are generous: they are measured on shared machines. */
import assert from 'node:assert/strict';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { gzipSync } from 'node:zlib';
import { newDocument, withRows, writeZip } from '@stillstand/campaign/document';
import { type Device, device, served } from './browser.ts';

const devices: Device[] = [];
after(async () => {
  for (const it of devices) await it.close();
  setTimeout(() => process.exit(), 500).unref();
});

test('what is loaded first is at most 250 kB of script, packed', async () => {
  const address = await served();
  const page = await (await fetch(address)).text();
  const scripts = [...page.matchAll(/(?:src|href)="\.?\/?(assets\/[^"]+\.js)"/g)].map(([, path]) => path!);
  assert.ok(scripts.length > 0);
  let bytes = 0;
  for (const path of new Set(scripts)) bytes += gzipSync(await (await fetch(address + path)).text()).length;
  console.log(`first script: ${bytes} bytes packed`);
  assert.ok(bytes <= 250_000, `${bytes} bytes`);
});

/** The quickest of five: what else runs on the machine is not what is measured. */
async function best(measure: () => Promise<number>): Promise<number> {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < 5; i++) least = Math.min(least, await measure());
  return least;
}

test('a campaign of 10,000 readings opens in a second and shows an edit in 50 ms, best of five', async () => {
  const folder = await mkdtemp(join(tmpdir(), 'stillstand-speed-'));
  const rows = Array.from({ length: 10_000 }, (_, i) => ({
    row_id: `s${i}`,
    hole: `H${i % 40}`,
    seq: String(Math.floor(i / 40) + 1),
    time: '2024-03-05T10:00:00+08:00',
    purpose: 'other',
    to_sediment: `${(i % 900) / 100} m`,
    by: 'hand',
    device: 'rig tablet',
  }));
  const holes = Array.from({ length: 40 }, (_, i) => ({ row_id: `h${i}`, hole: `H${i}`, method: 'string' }));
  const zip = writeZip(withRows(withRows(newDocument('Many readings'), 'holes', holes), 'soundings', rows));
  const path = join(folder, 'many.zip');
  await writeFile(path, zip);
  const it = await device();
  devices.push(it);
  const { page } = it;
  try {
    await page.goto(await served());
    await page.locator('input[type=file]').setInputFiles(path);
    await page.getByRole('heading', { name: 'Many readings' }).waitFor({ timeout: 30_000 });
    await page
      .locator('[data-computed="provisional"]')
      .first()
      .waitFor({ state: 'attached', timeout: 60_000 });
    const opened = await best(() =>
      page.evaluate(async () => {
        const { hash } = location;
        location.hash = '#/';
        while (document.querySelector('.home') === null)
          await new Promise((resolve) => setTimeout(resolve, 5));
        const started = performance.now();
        location.hash = hash;
        while (document.querySelector('main.page') === null)
          await new Promise((resolve) => setTimeout(resolve, 5));
        return performance.now() - started;
      }),
    );
    await page
      .locator('[data-computed="provisional"]')
      .first()
      .waitFor({ state: 'attached', timeout: 60_000 });
    // What holds the page up after an edit: results that arrive while others are computed.
    await page.evaluate(() => {
      const held: number[] = [];
      (globalThis as unknown as { held: number[] }).held = held;
      new PerformanceObserver((list) => {
        for (const entry of list.getEntries()) held.push(entry.duration);
      }).observe({ type: 'longtask', buffered: false });
    });
    let name = 0;
    const entered = await best(() =>
      page.evaluate(async (text) => {
        const box = document.querySelector<HTMLInputElement>('.choices input')!;
        const heading = document.querySelector('.head h1')!;
        box.focus();
        Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value')!.set!.call(box, text);
        box.dispatchEvent(new Event('input', { bubbles: true }));
        await new Promise((resolve) => setTimeout(resolve, 50));
        const started = performance.now();
        box.blur();
        while (heading.textContent !== text) await new Promise((resolve) => setTimeout(resolve, 0));
        const took = performance.now() - started;
        await new Promise((resolve) => setTimeout(resolve, 400));
        return took;
      }, `Renamed ${name++}`),
    );
    const held = await page.evaluate(() => (globalThis as unknown as { held: number[] }).held);
    console.log(
      `opened in ${opened.toFixed(0)} ms, edit on screen in ${entered.toFixed(1)} ms, tasks over 50 ms: ${held.map((ms) => ms.toFixed(0)).join(', ') || 'none'}`,
    );
    assert.ok(opened < 1000, `opened in ${opened} ms`);
    assert.ok(entered < 50, `edit in ${entered} ms`);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
});

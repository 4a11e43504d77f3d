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

test('a campaign of 10,000 readings opens in a second and takes a reading in 50 ms, the page never held up', async () => {
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
    await page.evaluate(() => {
      const held: number[] = [];
      (globalThis as unknown as { held: number[] }).held = held;
      new PerformanceObserver((list) => {
        for (const entry of list.getEntries()) held.push(entry.duration);
      }).observe({ type: 'longtask', buffered: false });
    });
    const opened = await page.evaluate(async () => {
      const hash = location.hash;
      location.hash = '#/';
      await new Promise((resolve) => setTimeout(resolve, 300));
      const started = performance.now();
      location.hash = hash;
      while (document.querySelector('main.page') === null)
        await new Promise((resolve) => setTimeout(resolve, 5));
      return performance.now() - started;
    });
    const held = await page.evaluate(() =>
      Math.max(0, ...(globalThis as unknown as { held: number[] }).held),
    );
    await page
      .locator('[data-computed="provisional"]')
      .first()
      .waitFor({ state: 'attached', timeout: 60_000 });
    const entered = await page.evaluate(async () => {
      const box = document.querySelector<HTMLInputElement>('.choices input')!;
      const heading = document.querySelector('.head h1')!;
      box.focus();
      Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value')!.set!.call(box, 'Renamed');
      box.dispatchEvent(new Event('input', { bubbles: true }));
      await new Promise((resolve) => setTimeout(resolve, 50));
      const started = performance.now();
      box.blur();
      while (heading.textContent !== 'Renamed') await new Promise((resolve) => setTimeout(resolve, 0));
      return performance.now() - started;
    });
    console.log(
      `opened in ${opened.toFixed(0)} ms, longest task ${held.toFixed(0)} ms, entry on screen in ${entered.toFixed(1)} ms`,
    );
    assert.ok(opened < 1000, `opened in ${opened} ms`);
    assert.ok(entered < 50, `entry in ${entered} ms`);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
});

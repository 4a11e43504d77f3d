/** How large the app is and how long a person waits for it, in a real browser; told by `bench/app`. */
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { newDocument, withRows, writeZip } from '@stillstand/campaign/document';
import { device, served } from './browser.ts';

/** Script a first visit loads, bytes packed. */
export async function firstScriptBytes(): Promise<number> {
  const address = await served();
  const page = await (await fetch(address)).text();
  const scripts = [...page.matchAll(/(?:src|href)="\.?\/?(assets\/[^"]+\.js)"/g)].map(([, path]) => path!);
  if (scripts.length === 0) throw new Error('the page loads no script');
  let bytes = 0;
  for (const path of new Set(scripts)) bytes += gzipSync(await (await fetch(address + path)).text()).length;
  return bytes;
}

/** The quickest of five: what else runs on the machine is not what is measured. */
async function best(measure: () => Promise<number>): Promise<number> {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < 5; i++) least = Math.min(least, await measure());
  return least;
}

export interface Waits {
  opened_ms: number;
  edit_ms: number;
  /** What held the page up after an edit. */
  tasks_over_50_ms: number[];
}

/** Opens a campaign of 10,000 readings and edits it; best of five. */
export async function waits(): Promise<Waits> {
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
    return { opened_ms: opened, edit_ms: entered, tasks_over_50_ms: held.map((ms) => Math.round(ms)) };
  } finally {
    await it.close();
    await rm(folder, { recursive: true, force: true });
  }
}

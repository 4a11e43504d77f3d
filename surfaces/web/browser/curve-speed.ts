/** How soon the curve on the screen follows an edit, in a real browser; told by `bench/app`. */
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type CampaignDocument, newDocument, withRows, writeZip } from '@stillstand/campaign/document';
import type { Page } from 'playwright-core';
import { device, openDemo, served } from './browser.ts';

export interface CurveWait {
  points: number;
  /** A point switched off to the moved curve drawn, a first look at it; at most 100 wanted. The quickest, as elsewhere:
   * what else runs on the machine is not what is measured; and the median. */
  first_look_ms: number;
  first_look_median_ms: number;
  /** The same to the whole curve; the quickest. */
  final_ms: number;
  /** The longest task of the page meanwhile, in time of its own: at most 50 wanted. */
  longest_task_ms: number;
}

const EDITS = 8;

/** The demo's points, and invented ones. */
export async function curveWaits(sizes: readonly number[]): Promise<CurveWait[]> {
  const folder = await mkdtemp(join(tmpdir(), 'stillstand-curve-speed-'));
  const it = await device();
  const { page } = it;
  try {
    const waits = [await waitsIn(page, `${await served()}#/${await openDemo(page)}/curve`)];
    for (const size of sizes) {
      const path = join(folder, `${size}.zip`);
      await writeFile(path, writeZip(rise(size)));
      await page.goto(await served());
      await page.locator('input[type=file]').setInputFiles(path);
      await page.getByRole('heading', { name: `Rise of ${size}` }).waitFor({ timeout: 30_000 });
      const [, id] = /#\/([0-9a-f]{12})/.exec(page.url())!;
      waits.push(await waitsIn(page, `${await served()}#/${id}/curve`));
    }
    return waits;
  } finally {
    await it.close();
    await rm(folder, { recursive: true, force: true });
  }
}

/** Switches points off one after another, the most influential first, each when the curve before it is whole. */
async function waitsIn(page: Page, address: string): Promise<CurveWait> {
  await page.goto(address);
  await page.locator('[data-curve="final"]').waitFor({ timeout: 240_000 });
  const tasks = await tasksOf(page);
  const { points, waits } = await page.evaluate(async (edits) => {
    // Methods, because the names that the loader writes beside functions are not known in the page.
    const screen = {
      isFirstLook() {
        return /First look/.test(document.querySelector('.curve-state')!.textContent);
      },
      isFinal() {
        return document.querySelector('[data-curve="final"]') !== null;
      },
      /** Resolves with the time at which what is true was drawn. */
      drawn(isTrue: () => boolean) {
        return new Promise<number>((resolve) => {
          const watch = new MutationObserver(() => {
            if (!isTrue()) return;
            watch.disconnect();
            requestAnimationFrame(() => setTimeout(() => resolve(performance.now())));
          });
          watch.observe(document.body, {
            subtree: true,
            childList: true,
            characterData: true,
            attributes: true,
          });
        });
      },
    };
    const waits: { first: number; final: number }[] = [];
    const points = document.querySelectorAll('.points-table tbody tr').length;
    for (let edit = 0; edit < edits; edit++) {
      await new Promise((resolve) => setTimeout(resolve, 300));
      const began = performance.now();
      document.querySelector<HTMLElement>('.points-table tr.accepted .switch')!.click();
      const first = (await screen.drawn(screen.isFirstLook)) - began;
      const final = (await screen.drawn(screen.isFinal)) - began;
      waits.push({ first, final });
    }
    return { points, waits };
  }, EDITS);
  const sorted = (of: 'first' | 'final'): number[] => waits.map((wait) => wait[of]).sort((a, b) => a - b);
  const first = sorted('first');
  return {
    points,
    first_look_ms: Math.round(first[0]!),
    first_look_median_ms: Math.round(first[EDITS >> 1]!),
    final_ms: Math.round(sorted('final')[0]!),
    longest_task_ms: Math.round(Math.max(...(await tasks()))),
  };
}

interface TraceEvent {
  name: string;
  pid: number;
  tid: number;
  /** Of the thread itself, microseconds: not what it waited for a processor. */
  tdur?: number;
}

/** Listens to the page's thread; what this returns tells how long each of its tasks took since, ms. */
async function tasksOf(page: Page): Promise<() => Promise<number[]>> {
  const browser = await page.context().newCDPSession(page);
  const events: TraceEvent[] = [];
  browser.on('Tracing.dataCollected', ({ value }) => events.push(...(value as unknown as TraceEvent[])));
  await browser.send('Tracing.start', {
    transferMode: 'ReportEvents',
    traceConfig: { includedCategories: ['toplevel', 'blink.user_timing'] },
  });
  const MARK = 'the page';
  await page.evaluate((mark) => performance.mark(mark), MARK);
  return async () => {
    const complete = new Promise((resolve) => browser.once('Tracing.tracingComplete', resolve));
    await browser.send('Tracing.end');
    await complete;
    await browser.detach();
    const own = events.find(({ name }) => name === MARK);
    return events.flatMap(({ name, pid, tid, tdur }) =>
      name.endsWith('RunTask') && pid === own?.pid && tid === own.tid && tdur !== undefined
        ? [tdur / 1000]
        : [],
    );
  };
}

/** A campaign of so many index points along a rise that dies away, ages normal, without holes. */
function rise(points: number): CampaignDocument {
  const at = Array.from({ length: points }, (_, i) => {
    const age = 500 + (8000 * i) / points;
    return { id: `S${i + 1}`, age, height: 12 * (Math.exp(-age / 4000) - 1) + 0.15 * Math.sin(37 * i) };
  });
  const sites = [{ site: 'A', name: 'A', latitude_deg: '-40', longitude_deg: '-120' }];
  const levels = [
    ['MHW', '0.8'],
    ['HAT', '1.4'],
  ].map(([level, elevation_m]) => ({
    site: 'A',
    level: level!,
    datum: 'MSL',
    elevation_m: elevation_m!,
    sigma_m: '0.05',
  }));
  const tables: [string, Record<string, string>[]][] = [
    ['settings', [{ name: 'datum', value: 'MSL' }]],
    ['datums', [{ datum: 'MSL', kind: 'mean_sea_level', epoch_from: '1993', epoch_to: '2011' }]],
    ['sites', sites],
    ['tide_levels', levels],
    [
      'samples',
      at.map(({ id, height }) => ({
        sample: id,
        depth_basis: 'elevation',
        site: 'A',
        elevation_m: (height + 1.1).toFixed(2),
        elevation_sigma_m: '0.1',
        elevation_datum: 'MSL',
        material: 'peat',
      })),
    ],
    [
      'determinations',
      at.map(({ id, age }) => ({
        lab_code: `INV-${id}`,
        sample: id,
        method: 'luminescence',
        value: String(Math.round(age + 73)),
        error: '60',
        reference_year: '2023',
        age_role: 'dates',
        status: 'accepted',
      })),
    ],
    [
      'points',
      at.map(({ id }) => ({
        point: `P-${id}`,
        sample: id,
        age_from: 'determination',
        indicator: 'high salt-marsh peat',
        kind: 'index',
        lower: 'MHW',
        upper: 'HAT',
        position: 'basal',
        status: 'accepted',
      })),
    ],
  ];
  return tables.reduce(
    (document, [table, rows]) =>
      withRows(
        document,
        table,
        rows.map((row, i) => ({ row_id: `${table}${i}`, ...row })),
      ),
    newDocument(`Rise of ${points}`),
  );
}

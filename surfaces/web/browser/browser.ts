/**
 * A browser for tests: the built app, served as people get it, in Debian's Chromium. Pages never leave this machine.
 */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { existsSync, rmSync } from 'node:fs';
import { cp, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before } from 'node:test';
import { type CampaignDocument, writeZip } from '@stillstand/campaign/document';
import { type BrowserContext, chromium, type Page } from 'playwright-core';
import { serve } from '../build/serve.ts';

const ROOT = join(import.meta.dirname, '..', '..', '..');
const CHROMIUM = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];

const ARGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/**
 * What a page is waited for is a condition, never a time: this only ends a wait for what will not come, and is longer than
 * anything that comes on a machine that does ten other things. The gate ends even where everything fails: gate.mjs.
 */
const HANGS_MS = 180_000;

let address: Promise<string> | null = null;

/**
 * Builds the app if its sources changed, and serves it; the same server for all tests of a file. The gate has built it
 * before, and says so.
 */
export function served(): Promise<string> {
  address ??= (async () => {
    if (process.env['STILLSTAND_APP'] !== 'built') {
      const built = spawnSync(process.execPath, [join(ROOT, 'scripts', 'start.mjs'), '--build-only'], {
        stdio: ['ignore', 'ignore', 'inherit'],
      });
      if (built.status !== 0) throw new Error('the app does not build');
    }
    // A copy, so that a build by somebody else changes nothing under a running test.
    const copy = await mkdtemp(join(tmpdir(), 'stillstand-served-'));
    await cp(join(ROOT, 'out', 'web'), copy, { recursive: true });
    process.on('exit', () => rmSync(copy, { recursive: true, force: true }));
    return await serve(copy, 0, false);
  })();
  return address;
}

export interface Device {
  context: BrowserContext;
  page: Page;
  /** Errors and refusals the pages have shown, to be empty at the end. */
  complaints: string[];
  /** The browser's own process. */
  pid: number;
  close(): Promise<void>;
}

export interface DeviceOptions {
  width?: number;
  height?: number;
  /** Folder with what the device keeps; the caller's to clear. A fresh one otherwise. */
  kept?: string;
  touch?: boolean;
  /** Where its clock stands, e.g. `Etc/GMT+8`; the machine's own zone otherwise. */
  zone?: string;
  /** Whether it keeps a copy of the app to open without network, as devices do; one that does loads nothing a test could put in its place. */
  keepsCopy?: boolean;
  /** What its camera sees, as a y4m file; it is then allowed without being asked for. */
  camera?: string;
  /** What its pages may say, because it is done to them: that there is no network. */
  mayComplain?: RegExp;
}

const cameraArgs = (file: string | undefined): string[] =>
  file === undefined
    ? []
    : [
        '--use-fake-ui-for-media-stream',
        '--use-fake-device-for-media-stream',
        `--use-file-for-fake-video-capture=${file}`,
      ];

/** Starts a browser with a memory of its own; a folder given again is the same device later. */
export async function device(options: DeviceOptions = {}): Promise<Device> {
  const kept = options.kept ?? (await mkdtemp(join(tmpdir(), 'stillstand-device-')));
  const context = await chromium.launchPersistentContext(kept, {
    ...browserOf(options),
    ...settingsOf(options),
  });
  return {
    ...(await watched(context, options)),
    pid: processOf(kept),
    close: async () => {
      await context.close().catch(() => undefined);
      if (options.kept === undefined) await rm(kept, { recursive: true, force: true });
    },
  };
}

/** Two devices in one browser, each with a memory of its own; closed after the last test of the file. */
export async function twoDevices(options: DeviceOptions = {}): Promise<[Watched, Watched]> {
  const browser = await chromium.launch(browserOf(options));
  after(() => browser.close());
  const one = async (): Promise<Watched> => watched(await browser.newContext(settingsOf(options)), options);
  return [await one(), await one()];
}

type Watched = Pick<Device, 'context' | 'page' | 'complaints'>;

function browserOf({ camera }: DeviceOptions) {
  const executablePath = CHROMIUM.find((path) => existsSync(path));
  if (executablePath === undefined) throw new Error('no Chromium: apt-get install chromium');
  return { executablePath, args: [...ARGS, ...cameraArgs(camera)] };
}

const settingsOf = (options: DeviceOptions) => ({
  viewport: { width: options.width ?? 1440, height: options.height ?? 900 },
  hasTouch: options.touch ?? false,
  acceptDownloads: true,
  serviceWorkers: options.keepsCopy === false ? ('block' as const) : ('allow' as const),
  ...(options.zone === undefined ? {} : { timezoneId: options.zone }),
});

async function watched(context: BrowserContext, options: DeviceOptions): Promise<Watched> {
  context.setDefaultTimeout(HANGS_MS);
  // The tests' own compiler names functions by a helper that a page does not have.
  await context.addInitScript('globalThis.__name = (f) => f');
  const complaints: string[] = [];
  const complain = (words: string): void => {
    if (options.mayComplain?.test(words) !== true) complaints.push(words);
  };
  const listen = (page: Page): void => {
    page.on('pageerror', (error) => complain(String(error)));
    page.on('console', (message) => {
      if (message.type() === 'error') complain(message.text());
    });
  };
  context.pages().forEach(listen);
  context.on('page', listen);
  return {
    context,
    page: context.pages()[0] ?? (await context.newPage()),
    complaints,
  };
}

/** The browser that keeps its memory in this folder: the one process whose command line says so and that is no helper. */
function processOf(kept: string): number {
  const { stdout } = spawnSync('ps', ['-eo', 'pid,args'], { encoding: 'utf8' });
  const line = stdout
    .split('\n')
    .find((row) => row.includes(`--user-data-dir=${kept}`) && !row.includes('--type='));
  return Number(line?.trim().split(/\s+/)[0] ?? Number.NaN);
}

/**
 * The device of a test file: there from its first test on, brought to where they begin, and closed after the last, when no
 * page may have complained.
 */
export function onDevice(options: DeviceOptions = {}, begin?: (device: Device) => Promise<void>): Device {
  const own = {} as Device;
  before(async () => {
    Object.assign(own, await device(options));
    await begin?.(own);
  });
  after(async () => {
    await own.close();
    assert.deepEqual(own.complaints, []);
  });
  return own;
}

/** Starts devices for the tests of a file, as many as they want; all are closed after the last test. */
export function devices(): typeof device {
  const all: Device[] = [];
  after(async () => {
    for (const each of all) await each.close();
  });
  return async (options) => {
    const started = await device(options);
    all.push(started);
    return started;
  };
}

/** Opens the demo from home; resolves with the campaign's id. */
export async function openDemo(page: Page): Promise<string> {
  await page.goto(await served());
  await page.getByRole('button', { name: /^Open the demo/ }).click();
  await page.waitForURL(/#\/[0-9a-f]{12}/);
  await page.locator('main.page').waitFor();
  return /#\/([0-9a-f]{12})/.exec(page.url())![1]!;
}

/** The demo at Drill, without the strip of first steps; resolves with the campaign's id. */
export async function drillDemo(page: Page): Promise<string> {
  const id = await openDemo(page);
  await page.getByRole('button', { name: 'Put the first steps away' }).click();
  await page.goto(`${await served()}#/${id}/drill`);
  await page.locator('.drill').waitFor();
  return id;
}

/** After a file was chosen: a campaign that is here already is opened as one of its own. Resolves once it is open. */
export async function openedSeparately(page: Page): Promise<void> {
  const asked = page.getByRole('button', { name: 'Open as a separate campaign' });
  const opened = page.waitForURL(/#\/[0-9a-f]{12}/);
  const isAsked = await Promise.race([opened.then(() => false), asked.waitFor().then(() => true)]);
  if (!isAsked) return;
  await asked.click();
  await opened;
}

/** Opens a campaign from home as a file; resolves with its id, once it is shown at the stage and query given. */
export async function openCampaign(
  page: Page,
  document: CampaignDocument,
  at = 'plan',
  address?: string,
): Promise<string> {
  const home = address ?? (await served());
  await page.goto(`${home}#/`);
  await page.getByRole('button', { name: 'Open a file' }).waitFor();
  await page.locator('input[type=file]').setInputFiles({
    name: 'campaign.zip',
    mimeType: 'application/zip',
    buffer: Buffer.from(writeZip(document) as Uint8Array<ArrayBuffer>),
  });
  await openedSeparately(page);
  const id = /#\/([0-9a-f]{12})/.exec(page.url())![1]!;
  await page.goto(`${home}#/${id}/${at}`);
  await page.locator('main.page').waitFor();
  return id;
}

/** Waits until the device has every change. */
export const allSaved = (page: Page): Promise<void> =>
  page.locator('[data-saved="saved"]').first().waitFor({ state: 'attached' });

/** Waits for the numbers of the campaign as it is now; the curve may still be a look at it. */
export const computed = (page: Page): Promise<void> =>
  page
    .locator('[data-computed="provisional"], [data-computed="final"]')
    .first()
    .waitFor({ state: 'attached' });

/**
 * Waits until nothing on the page moves by itself any more: typefaces are there, nothing says that it is busy, no
 * animation runs, and two frames have passed in which the page kept its size, so that what follows a frame later, as an
 * observer of sizes does, has followed.
 */
export const atRest = (page: Page): Promise<void> =>
  page.evaluate(async () => {
    await document.fonts.ready;
    const frame = (): Promise<unknown> => new Promise((drawn) => requestAnimationFrame(drawn));
    const size = (): string => {
      const { scrollWidth, scrollHeight } = document.documentElement;
      return `${innerWidth} ${innerHeight} ${scrollWidth} ${scrollHeight}`;
    };
    for (let still = 0, was = ''; still < 3; was = size()) {
      await frame();
      const isBusy =
        document.querySelector('[aria-busy="true"]') !== null ||
        document.getAnimations().some(({ playState, effect }) => {
          const { iterations } = effect?.getTiming() ?? {};
          return playState === 'running' && iterations !== Number.POSITIVE_INFINITY;
        });
      still = !isBusy && size() === was ? still + 1 : 0;
    }
  });

/** Opens the fold of Plan that has what is set up once for a campaign. */
export const openOtherTables = (page: Page): Promise<void> =>
  page.getByText('The campaign and its other tables', { exact: true }).click();

/**
 * A browser for tests: the built app, served as people get it, in Debian's Chromium. Pages never leave this machine.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, rmSync } from 'node:fs';
import { cp, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
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

let address: Promise<string> | null = null;

/** Builds the app if its sources changed, and serves it; the same server for all tests of a file. */
export function served(): Promise<string> {
  address ??= (async () => {
    const built = spawnSync(process.execPath, [join(ROOT, 'scripts', 'start.mjs'), '--build-only'], {
      stdio: ['ignore', 'ignore', 'inherit'],
    });
    if (built.status !== 0) throw new Error('the app does not build');
    // A copy, so that a build by somebody else changes nothing under a running test.
    const copy = await mkdtemp(join(tmpdir(), 'stillstand-served-'));
    await cp(join(ROOT, 'out', 'web'), copy, { recursive: true });
    process.on('exit', () => rmSync(copy, { recursive: true, force: true }));
    return await serve(copy, 0);
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
}

/** Starts a browser with a memory of its own; a folder given again is the same device later. */
export async function device(options: DeviceOptions = {}): Promise<Device> {
  const kept = options.kept ?? (await mkdtemp(join(tmpdir(), 'stillstand-device-')));
  const executablePath = CHROMIUM.find((path) => existsSync(path));
  if (executablePath === undefined) throw new Error('no Chromium: apt-get install chromium');
  const context = await chromium.launchPersistentContext(kept, {
    executablePath,
    args: ARGS,
    viewport: { width: options.width ?? 1440, height: options.height ?? 900 },
    hasTouch: options.touch ?? false,
    acceptDownloads: true,
    ...(options.zone === undefined ? {} : { timezoneId: options.zone }),
  });
  const complaints: string[] = [];
  const listen = (page: Page): void => {
    page.on('pageerror', (error) => complaints.push(String(error)));
    page.on('console', (message) => {
      if (message.type() === 'error') complaints.push(message.text());
    });
  };
  context.pages().forEach(listen);
  context.on('page', listen);
  return {
    context,
    page: context.pages()[0] ?? (await context.newPage()),
    complaints,
    pid: processOf(kept),
    close: async () => {
      await context.close().catch(() => undefined);
      if (options.kept === undefined) await rm(kept, { recursive: true, force: true });
    },
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

/** Opens the demo from home; resolves with the campaign's id. */
export async function openDemo(page: Page): Promise<string> {
  await page.goto(await served());
  await page.getByRole('button', { name: /^Open the demo/ }).click();
  await page.waitForURL(/#\/[0-9a-f]{12}/);
  await page.locator('main.page').waitFor();
  return /#\/([0-9a-f]{12})/.exec(page.url())![1]!;
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
  await page.waitForURL(/#\/[0-9a-f]{12}/);
  const id = /#\/([0-9a-f]{12})/.exec(page.url())![1]!;
  await page.goto(`${home}#/${id}/${at}`);
  await page.locator('main.page').waitFor();
  return id;
}

/** Waits until the device has every change. */
export const allSaved = (page: Page): Promise<void> =>
  page.locator('[data-saved="saved"]').first().waitFor({ state: 'attached', timeout: 15_000 });

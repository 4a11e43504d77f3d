/**
 * Curve and age against depth by Workers of Chromium: the bytes of Node, whatever the number of Workers. The sources are
 * served as they are, types stripped. Seed 5.
 */
import assert from 'node:assert/strict';
import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { createServer } from 'node:http';
import { stripTypeScriptTypes } from 'node:module';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { test } from 'node:test';
import { inProcess } from '@stillstand/science/base';
import { chromium, type Page } from 'playwright-core';
import { CASES, written } from './cases.ts';

const ROOT = join(import.meta.dirname, '..', '..');
const CHROMIUM = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];
const PAGE =
  '<!doctype html><meta charset="utf-8"><script type="module" src="/checks/chains/browser-page.js"></script>';
/** Ends a wait for what will not come: longer than anything that comes on a busy machine. */
const HANGS_MS = 180_000;

/** A source as a browser reads it: without types, rooms by their doors. */
async function readable(path: string): Promise<string> {
  const source = await readFile(join(ROOT, path), 'utf8');
  const plain = path.endsWith('.ts') ? stripTypeScriptTypes(source) : source;
  return plain.replaceAll(/'@stillstand\/science\/(\w+)'/g, "'/science/$1/index.ts'");
}

/** Waits until no Worker is left running: a browser tells of an end after it. */
async function allEnded(page: Page): Promise<void> {
  for (let left = page.workers(); left[0] !== undefined; left = page.workers())
    await left[0].waitForEvent('close', { timeout: HANGS_MS });
}

const server = createServer((request, response) => {
  const { pathname } = new URL(request.url ?? '/', 'http://localhost');
  if (pathname === '/') response.setHeader('content-type', 'text/html').end(PAGE);
  else if (!/^\/(science|checks)\/[\w/-]+\.(ts|js)$/.test(pathname)) response.writeHead(404).end();
  else
    readable(pathname).then(
      (text) => response.setHeader('content-type', 'text/javascript').end(text),
      () => response.writeHead(404).end(),
    );
});

test('1, 2 and 4 Workers, and the page itself, give the bytes of Node (seed 5)', async () => {
  const here = Object.values(CASES).map((work) => written(inProcess(work())));
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const executablePath = CHROMIUM.find((path) => existsSync(path));
  if (executablePath === undefined) throw new Error('no Chromium: apt-get install chromium');
  const browser = await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu'] });
  try {
    const page = await browser.newPage();
    page.setDefaultTimeout(HANGS_MS);
    await page.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/`);
    await page.waitForFunction('typeof globalThis.computed === "function"');
    for (const threads of [0, 1, 2, 4]) {
      const there = (await page.evaluate(`globalThis.computed(${threads})`)) as string[];
      assert.ok(
        there.every((text, k) => text === here[k]) && there.length === here.length,
        `${threads} Workers give other bytes`,
      );
      await allEnded(page);
    }
  } finally {
    await browser.close();
    server.close();
  }
});

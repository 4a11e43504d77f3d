/** A page that is closed, or a browser that is killed, in the middle of a merge: the device has the old state or the new, whole. */
import assert from 'node:assert/strict';
import { cp, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { newDocument, withRows } from '@stillstand/campaign/document';
import { randomStream } from '@stillstand/science/base';
import type { Page } from 'playwright-core';
import { device, openedSeparately, served } from '../../browser/browser.ts';
import { copied, hands, opened, zipOf } from './fixtures/copies.ts';

/** The gate takes four, `STILLSTAND_KILLS=10` the ten it was first written with. */
const ROUNDS = Number(process.env['STILLSTAND_KILLS'] ?? 4);
const PHOTOS = 40;
const READINGS = 300;

let folder: string;
before(async () => {
  folder = await mkdtemp(join(tmpdir(), 'stillstand-merge-killed-'));
});
after(() => rm(folder, { recursive: true, force: true }));

/** Small, so that the time goes into the merge. */
const ours = opened(
  withRows(newDocument('Killed', 'd1000000-0000-4000-8000-000000000001'), 'holes', [
    { hole: 'T2', method: 'string', state: 'open', row_id: 't2' },
  ]),
);
const theirs = copied(ours);
const driller = hands(theirs, 'driller', 'tablet B', () => '2023-02-15T18:20:00-08:00');
for (let i = 0; i < READINGS; i++) {
  driller.addReading('soundings', { hole: 'T2', purpose: 'other', to_sediment: `${i} cm` });
}
/** Twenty megabytes that do not pack: the transaction takes its time. */
const noise = randomStream(7);
const photos = new Map(
  Array.from({ length: PHOTOS }, (_, i) => [
    `photos/${i}.jpg`,
    Uint8Array.from({ length: 500_000 }, () => noise.integer(256)),
  ]),
);

interface Kept {
  merged: boolean;
  before: number;
  photos: number;
  updates: number;
}

/** What the device has of its one campaign. */
const keptOn = (page: Page): Promise<Kept> =>
  page.evaluate(async () => {
    const db = await new Promise<IDBDatabase>((done, fail) => {
      const request = indexedDB.open('stillstand');
      request.onsuccess = () => done(request.result);
      request.onerror = () => fail(request.error);
    });
    const t = db.transaction(['campaigns', 'updates', 'files', 'before']);
    const all = <T>(store: string): Promise<T[]> =>
      new Promise((done, fail) => {
        const request = t.objectStore(store).getAll();
        request.onsuccess = () => done(request.result);
        request.onerror = () => fail(request.error);
      });
    const [campaigns, updates, files, before] = await Promise.all([
      all<{ merged?: string }>('campaigns'),
      all('updates'),
      all<{ blob: Blob }>('files'),
      all('before'),
    ]);
    // A photo is there when its bytes are.
    const sizes = await Promise.all(files.map(async ({ blob }) => (await blob.arrayBuffer()).byteLength));
    db.close();
    return {
      merged: campaigns[0]!.merged !== undefined,
      before: before.length,
      photos: sizes.filter((size) => size === 500_000).length,
      updates: updates.length,
    };
  });

async function choose(page: Page, buffer: Buffer): Promise<void> {
  await page.goto(`${await served()}#/`);
  await page.getByRole('button', { name: 'Open a file' }).waitFor();
  await page
    .locator('input[type=file]')
    .setInputFiles({ name: 'copy.zip', mimeType: 'application/zip', buffer });
}

test(`closed or killed in the middle of a merge, ${ROUNDS} times (seed 11): the old state or the new, never a half`, async (t) => {
  const moments = randomStream(11);
  const prepared = join(folder, 'prepared');
  const first = await device({ kept: prepared });
  await choose(first.page, zipOf(ours));
  await openedSeparately(first.page);
  await first.page.locator('main.page').waitFor();
  const old = await keptOn(first.page);
  assert.deepEqual(old, { merged: false, before: 0, photos: 0, updates: old.updates });
  await first.close();
  const copy = zipOf(theirs, photos);
  let whole_ms = 0;
  const found = { old: 0, merged: 0 };
  for (let round = 0; round <= ROUNDS; round++) {
    const kept = join(folder, `round-${round}`);
    await cp(prepared, kept, { recursive: true });
    const it = await device({ kept });
    await choose(it.page, copy);
    await it.page.getByRole('button', { name: 'Merge into this campaign' }).click();
    const key = it.page.getByRole('button', { name: /^Merge copy/ });
    await key.waitFor();
    const began = performance.now();
    await key.click();
    if (round === 0) {
      // How long it takes unhindered.
      await it.page.locator('.store-news p', { hasText: /^Merged: / }).waitFor();
      whole_ms = performance.now() - began;
    } else {
      await new Promise((done) => setTimeout(done, 1.1 * whole_ms * moments.uniform()));
      if (round % 2 === 0) process.kill(it.pid, 'SIGKILL');
      else await it.page.close();
    }
    await it.close();
    const again = await device({ kept });
    await again.page.goto(`${await served()}#/`);
    await again.page.locator('.campaigns a').click();
    await again.page.locator('main.page').waitFor();
    const now = await keptOn(again.page);
    if (now.merged) found.merged += 1;
    else found.old += 1;
    assert.deepEqual(
      now,
      now.merged ? { merged: true, before: 1, photos: PHOTOS, updates: old.updates + 1 } : old,
      `round ${round}`,
    );
    const undo = again.page.getByRole('button', { name: /^Undo/ }).first();
    assert.equal(await undo.isDisabled(), !now.merged, 'what was merged can be undone');
    assert.deepEqual(again.complaints, []);
    await again.close();
    await rm(kept, { recursive: true, force: true });
  }
  t.diagnostic(`old ${found.old}, merged ${found.merged}`);
});

/** What is entered is kept: through reload, in two tabs, without network, and when the browser is killed. */
import assert from 'node:assert/strict';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';
import { newDocument, withRows } from '@stillstand/campaign/document';
import { randomStream } from '@stillstand/science/base';
import type { Page } from 'playwright-core';
import { allSaved, computed, device, devices, openCampaign, openDemo, served } from './browser.ts';
import { station, writeSight } from './level-book.ts';

const started = devices();

test('the demo opens, and a reading, an edit and an amendment are there after a reload', async () => {
  const { page, complaints } = await started();
  await openDemo(page);
  await page.getByRole('button', { name: 'Hole T3, finished' }).waitFor();
  await writeSight(page, 'peg A');
  await page.getByLabel('Contacts', { exact: true }).fill('harbour office, channel 16');
  await page.getByLabel('Contacts', { exact: true }).press('Enter');
  const together = page
    .getByRole('group', { name: 'Nobody works alone' })
    .getByRole('button', { name: 'yes' });
  await together.click();
  const book = page.locator('.level-book');
  const line = page.locator('.level-book tr', { has: page.locator('input[value="peg A"]') });
  await line.getByLabel(/^backsight of line/).fill('1.324');
  await book.getByRole('button', { name: 'Record changes' }).click();
  await book.getByText(/Recorded: 1 amendment/).waitFor();
  await line.getByRole('button', { name: /^amended: open the record/ }).click();
  await page.getByText(/Amended by a later entry/).waitFor();
  await page.getByRole('button', { name: 'Close' }).click();
  await allSaved(page);
  await page.reload();
  await book.getByRole('combobox', { name: 'Loop' }).selectOption({ index: 0 });
  await station(page, 'peg A').waitFor();
  assert.equal(await book.locator('s').textContent(), '1.234');
  assert.equal(await page.getByLabel('Contacts', { exact: true }).inputValue(), 'harbour office, channel 16');
  assert.equal(await together.getAttribute('aria-pressed'), 'true');
  // Interpretations are undone, readings never.
  assert.ok(await page.getByRole('button', { name: 'Undo' }).isDisabled(), 'nothing to undo after a reload');
  const permits = page.getByLabel('Permits', { exact: true });
  const before = await permits.inputValue();
  await permits.fill('heritage too');
  await permits.press('Enter');
  await page.getByRole('button', { name: 'Undo' }).click();
  await page.waitForFunction(
    (value) => ![...document.querySelectorAll('input')].some((input) => input.value === value),
    'heritage too',
  );
  assert.equal(await permits.inputValue(), before);
  assert.ok(await page.getByRole('button', { name: 'Undo' }).isDisabled());
  await page.getByRole('button', { name: 'Redo' }).click();
  await page.waitForFunction(
    (value) => [...document.querySelectorAll('input')].some((input) => input.value === value),
    'heritage too',
  );
  assert.deepEqual(complaints, []);
});

test('two tabs of one campaign agree, and each undoes its own', async () => {
  const { page, context, complaints } = await started();
  await openDemo(page);
  const other = await context.newPage();
  await other.goto(page.url());
  await other.getByRole('button', { name: 'Hole T3, finished' }).waitFor();
  await page.getByLabel('Permits', { exact: true }).fill('heritage too');
  await page.getByLabel('Permits', { exact: true }).press('Enter');
  await other.waitForFunction(() =>
    [...document.querySelectorAll('input')].some((input) => input.value === 'heritage too'),
  );
  await Promise.all([writeSight(page, 'from one'), writeSight(other, 'from two')]);
  await station(page, 'from two').waitFor({ state: 'attached' });
  await station(other, 'from one').waitFor({ state: 'attached' });
  await other.getByLabel('Crew', { exact: true }).fill('two hands');
  await other.getByLabel('Crew', { exact: true }).press('Enter');
  await page.waitForFunction(() =>
    [...document.querySelectorAll('input')].some((input) => input.value === 'two hands'),
  );
  await page.getByRole('button', { name: 'Undo' }).click();
  await other.waitForFunction(
    () => ![...document.querySelectorAll('input')].some((input) => input.value === 'heritage too'),
  );
  assert.equal(await page.getByLabel('Crew', { exact: true }).inputValue(), 'two hands');
  const rows = (at: Page): Promise<string[]> => at.locator('section.rows').allTextContents();
  // Some cells are computed.
  for (const each of [page, other]) {
    await allSaved(each);
    await computed(each);
  }
  assert.deepEqual(await rows(page), await rows(other));
  assert.deepEqual(complaints, []);
});

test('Undo and the other tools stand still while a change is saved, computed and taken back', async () => {
  const { page } = await started();
  await page.setViewportSize({ width: 1280, height: 700 });
  await openDemo(page);
  await computed(page);
  await page.evaluate(() => {
    const places = new Set<string>();
    const look = (): void => {
      const tools = [...document.querySelectorAll('.rail .tools button')];
      places.add(tools.map((tool) => Math.round(tool.getBoundingClientRect().top)).join(' '));
      requestAnimationFrame(look);
    };
    look();
    Object.assign(window, { places });
  });
  const words = new Set<string>();
  await page.exposeFunction('said', (text: string) => words.add(text));
  await page.evaluate(() => {
    const { said } = window as unknown as { said: (text: string) => void };
    new MutationObserver(() => said(document.querySelector('.rail .kept')!.textContent!)).observe(
      document.querySelector('.rail .kept')!,
      { childList: true, characterData: true, subtree: true },
    );
  });
  await page.getByLabel('Permits', { exact: true }).fill('heritage too');
  await page.getByLabel('Permits', { exact: true }).press('Enter');
  await allSaved(page);
  await page.getByRole('button', { name: 'Undo' }).click();
  await computed(page);
  await allSaved(page);
  assert.ok(words.size >= 3, `its words changed meanwhile: ${[...words].join(' | ')}`);
  const places = await page.evaluate(() => [...(window as unknown as { places: Set<string> }).places]);
  assert.equal(places.length, 1, places.join(' | '));
});

test('without network: opens, computes, keeps', async () => {
  const { page, context } = await started();
  const id = await openDemo(page);
  await page.waitForFunction(
    () => navigator.serviceWorker.controller !== null || navigator.serviceWorker.ready.then(() => true),
  );
  await page.waitForFunction(async () => {
    const names = await caches.keys();
    const cache = names[0] === undefined ? null : await caches.open(names[0]);
    return cache !== null && (await cache.keys()).length > 15;
  });
  await context.setOffline(true);
  await page.goto(`${await served()}#/`);
  await page.reload();
  await page.getByRole('link', { name: /Tessarn Spit/ }).click();
  await page.waitForURL(new RegExp(id));
  await page.getByRole('cell', { name: /\+2\.52/ }).waitFor();
  await writeSight(page, 'offline peg');
  await allSaved(page);
  await page.reload();
  await page.locator('.level-book select').selectOption({ index: 0 });
  await station(page, 'offline peg').waitFor();
  await context.setOffline(false);
});

/** The gate kills six times, `STILLSTAND_SETS=20` twenty times; the first six are the same. */
const KILLS = Number(process.env['STILLSTAND_SETS'] ?? 6);

/** A day and a hole: opened once a kill and more. */
const SMALL = withRows(
  withRows(newDocument('Killed'), 'holes', [{ hole: 'H1', method: 'string', state: 'finished' }]),
  'field_days',
  [{ date: '2024-03-05' }],
);

test(`killed ${KILLS} times at random moments (seed 20), nothing that was shown as saved is lost`, async () => {
  const kept = await mkdtemp(join(tmpdir(), 'stillstand-killed-'));
  const moments = randomStream(20);
  const saved: string[] = [];
  let contact = '';
  let url = '';
  let cut = 0;
  try {
    for (let round = 0; round < KILLS; round++) {
      const { page, pid, close } = await device({ kept });
      assert.ok(pid > 0, 'the browser’s own process is known');
      if (url === '') {
        await openCampaign(page, SMALL);
        url = page.url();
      } else await page.goto(url);
      await page.locator('.level-book').waitFor();
      for (const point of saved) {
        assert.ok(await station(page, point).count(), `round ${round}: ${point} is lost`);
      }
      if (contact !== '') {
        const found = await page.getByLabel('Contacts', { exact: true }).inputValue();
        assert.ok(found >= contact, `round ${round}: found ${found}, saved was ${contact}`);
      }
      // Of the hand's acts one is the last, and the kill comes some milliseconds into it or what follows: the moment is
      // random, but how much is written before does not depend on how fast the machine is.
      let left = moments.integer(30);
      const into_ms = 60 * moments.uniform();
      let isAlive = true;
      const next = (): void => {
        if (left-- !== 0) return;
        setTimeout(() => {
          isAlive = false;
          process.kill(pid, 'SIGKILL');
        }, into_ms);
      };
      try {
        for (let i = 0; ; i++) {
          const point = `k${String(round).padStart(2, '0')}-${i}`;
          await writeSight(page, point, next);
          next();
          await allSaved(page);
          saved.push(point);
          next();
          await page.getByLabel('Contacts', { exact: true }).fill(point);
          next();
          await page.getByLabel('Contacts', { exact: true }).press('Enter');
          next();
          await allSaved(page);
          contact = point;
        }
      } catch (error) {
        if (isAlive) throw error;
        cut += 1;
      }
      await close();
    }
    assert.equal(cut, KILLS);
    assert.ok(saved.length >= KILLS, `only ${saved.length} readings were written between kills`);
    const { page, close } = await device({ kept });
    await page.goto(url);
    await station(page, saved.at(-1)!).waitFor();
    for (const point of saved) {
      assert.equal(await station(page, point).count(), 1, `${point} once`);
    }
    await close();
  } finally {
    await rm(kept, { recursive: true, force: true });
  }
});

/**
 * A first day planned from nothing, with what a person types the evening before: at most 45 fields and 3 dialogs from an
 * empty campaign to “ready to drill”, both counted as they are used. Presses of keys and ticks are not fields.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Locator, Page } from 'playwright-core';
import { violations } from '../../browser/axe.ts';
import { allSaved, onDevice, served } from '../../browser/browser.ts';

const MOST_FIELDS = 45;
const MOST_DIALOGS = 3;

const at = onDevice({ zone: 'Etc/GMT+8' });

/** Counts every field that is typed into or chosen from, and every dialog that opens, on this page. */
async function counting(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const fields = new WeakSet<EventTarget>();
    const counts = { fields: 0, dialogs: 0, names: [] as string[] };
    Object.assign(window, { counts });
    const isField = (element: Element): boolean =>
      element.matches('input:not([type="checkbox"], [type="radio"], [type="button"]), select, textarea');
    addEventListener(
      'input',
      ({ target }) => {
        if (!(target instanceof Element) || !isField(target) || fields.has(target)) return;
        fields.add(target);
        counts.fields++;
        counts.names.push(target.getAttribute('aria-label') ?? target.id);
      },
      true,
    );
    const { showModal } = HTMLDialogElement.prototype;
    HTMLDialogElement.prototype.showModal = function () {
      counts.dialogs++;
      showModal.call(this);
    };
  });
}

const counts = (page: Page): Promise<{ fields: number; dialogs: number; names: string[] }> =>
  page.evaluate(() => (window as unknown as { counts: never }).counts);

test('from an empty campaign to ready to drill', async () => {
  const { page } = at;
  await counting(page);
  await page.clock.install({ time: new Date('2024-03-04T18:00:00-08:00') });
  await page.goto(await served());
  await page.getByRole('button', { name: 'Begin a campaign' }).first().click();
  const dialog = page.getByRole('dialog');
  await dialog.getByRole('textbox').first().fill('First coast');
  await dialog.getByRole('button', { name: /Begin/ }).click();
  await page.waitForURL(/#\/[0-9a-f]{12}/);
  // The address is changed, not the page: one count from beginning to end.
  if (!page.url().includes('/plan')) await page.getByRole('link', { name: 'Plan' }).first().click();

  const strip = page.getByRole('navigation', { name: 'Parts of the plan' });
  const part = (name: string): Locator => strip.getByRole('button', { name: new RegExp(`^${name}`) });
  const next = page.locator('.plan-head > .action-bar');
  const fill = (of: Locator | Page, name: string, text: string): Promise<void> =>
    of.getByLabel(name, { exact: true }).fill(text);

  // Where and how deep: the hole names its site, its peg and its pipe, which are made with it.
  await next.getByText('Plan a hole').waitFor();
  await next.click();
  for (const [name, text] of [
    ['Hole (needed)', 'P1'],
    ['Site', 'Spit'],
    ['Position', '46° 24.660′ S 121° 18.780′ W'],
    ['Target depth', '9.6 m'],
    ['Reference point', 'P1 peg'],
    ['Pipe', '3 in'],
  ] as const)
    await fill(dialog, name, text);
  await dialog.getByRole('button', { name: 'Write it down' }).click();
  await part('Where').getByText('P1').waitFor();
  await part('How deep').getByText('9.60 m').waitFor();

  // Heights: a bench mark, and a loop from it over the peg and back.
  await next.getByText('P1: not levelled').waitFor();
  await next.click();
  await page.getByRole('button', { name: 'Add a bench mark' }).click();
  const mark = page.getByRole('form', { name: 'Add a bench mark' });
  for (const [name, text] of [
    ['Benchmark (needed)', 'TBM 1'],
    ['Elevation', '2.418'],
    ['Sigma', '0.01'],
    ['Datum', 'MSL'],
  ] as const)
    await fill(mark, name, text);
  await mark.getByRole('button', { name: 'Write it down' }).click();
  await mark.getByRole('button', { name: 'Done' }).click();
  const book = page.locator('.level-book');
  const level = (name: string, line: number, text: string): Promise<void> =>
    fill(book, `${name} of line ${line}`, text);
  await level('station', 1, 'TBM 1');
  await level('backsight', 1, '1.482');
  await level('station', 2, 'P1 peg');
  await level('foresight', 2, '1.655');
  await level('backsight', 2, '1.702');
  await level('station', 3, 'TBM 1');
  await level('foresight', 3, '1.530');
  await book.getByRole('button', { name: 'Record level loop' }).click();
  await part('Heights').getByText('P1 levelled').waitFor();

  // The day: tomorrow, as the key offers it.
  await next.getByText('Start the next day').waitFor();
  await next.click();

  // Gear: the pipe as a series; what follows from it is listed.
  await page.getByRole('button', { name: 'Add series of joints' }).click();
  await fill(dialog, 'Last label', 'A5');
  await fill(dialog, 'Length of each', '10 ft');
  await dialog.getByRole('button', { name: 'Add 5 items' }).click();
  await dialog.waitFor({ state: 'detached' });

  // Who.
  const people = page.getByRole('region', { name: /^Who/ });
  for (const [name, text] of [
    ['Crew', 'geologist, driller, hand'],
    ['Emergency contact', 'coast guard, channel 16'],
    ['Emergency position', '46° 24.660′ S 121° 18.780′ W, by boat from the jetty'],
    ['Contacts', 'harbour office, +00 555 0100'],
  ] as const) {
    await fill(people, name, text);
    await people.getByLabel(name, { exact: true }).press('Enter');
  }

  // Hazards: permits found out, every question answered by a name.
  const permits = page.getByRole('region', { name: /^Permits/ });
  for (const kind of ['buried services', 'unexploded ordnance', 'landowner']) {
    await permits.getByRole('button', { name: `Add ${kind}` }).click();
    const record = permits
      .locator('.records > li')
      .filter({ has: page.locator('summary b', { hasText: new RegExp(`^${kind}`, 'i') }) });
    await record
      .getByLabel('State', { exact: true })
      .selectOption(kind === 'landowner' ? 'granted' : 'not_needed');
  }
  const list = page.locator('.safety-list');
  await fill(list, 'Recorder: name or role', 'geologist');
  for (const yes of await list.getByRole('button', { name: 'yes', exact: true }).all()) await yes.click();

  // Tide: the official table of the day pasted, its zero, the lowest point of the route, and the time that gives.
  await next.getByText('Enter the tide').waitFor();
  await next.click();
  const table = page.locator('.tide-table');
  for (const [i, [time, height]] of [
    ['04:24', '2.4'],
    ['10:36', '1.0'],
    ['16:50', '2.6'],
    ['23:02', '1.1'],
  ].entries()) {
    await fill(table, `time of water ${i + 1}`, time!);
    await fill(table, `height of water ${i + 1}`, height!);
  }
  await table.getByLabel('Zero of the table', { exact: true }).selectOption('below');
  await table.locator('.table-facts input').last().fill('1.70');
  await table.getByRole('button', { name: 'Record tide table' }).click();
  await page.locator('.tide-picture svg').waitFor();
  const access = page.locator('.tide-day');
  await fill(access, 'Lowest point on route', '0.4');
  await access.getByLabel('Lowest point on route', { exact: true }).press('Enter');
  // On foot while the water is below 0.40 m less the margin: the time is taken as it is offered.
  await access.getByRole('button', { name: /^Leave by 13:12/ }).click();
  await part('Tide').getByText('leave by 13:12').waitFor();
  await part('Tide').getByText('high water 16:50, +0.90').waitFor();

  // On a phone too the part that was pressed comes first.
  const wide = page.viewportSize()!;
  await page.setViewportSize({ width: 390, height: 844 });
  const tops = await page
    .locator('.plan-part')
    .evaluateAll((parts) => parts.map((it) => [it.id, it.getBoundingClientRect().top] as const));
  assert.deepEqual(
    tops.sort(([, a], [, b]) => a - b).map(([id]) => id.slice('plan-'.length)),
    ['tide', 'where', 'deep', 'heights', 'gear', 'who', 'hazards'],
  );
  await page.setViewportSize(wide);

  // Ready, with what is only to be known about; the key goes on to the hole.
  const ready = page.locator('.readiness');
  await ready.getByText('Ready to drill P1; check: pulling gear with its ratings read').waitFor();
  const { fields, dialogs } = await counts(page);
  console.log(`A first day from nothing: ${fields} fields, ${dialogs} dialogs.`);
  assert.ok(fields <= MOST_FIELDS, `${fields} fields`);
  assert.ok(dialogs <= MOST_DIALOGS, `${dialogs} dialogs`);
  assert.deepEqual(await violations(page), []);
  await allSaved(page);
  await next.getByText('Go to Drill').waitFor();
  await next.click();
  await page.getByRole('heading', { name: 'P1', exact: true }).waitFor();

  // A no to one question stops, whatever else is done.
  await page.getByRole('link', { name: 'Plan' }).first().click();
  await ready.getByText(/^ ?Ready to drill/).waitFor();
  await list.locator('[data-check="overhead"]').getByRole('button', { name: 'no', exact: true }).click();
  await ready.getByText(/^ ?Not ready: .*verhead line/).waitFor();
  assert.equal(await part('Hazards').getAttribute('data-state'), 'stop');
});

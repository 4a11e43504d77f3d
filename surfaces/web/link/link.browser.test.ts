/** Two devices in one Chromium exchange their copies over a direct link; and what is said where that does not work. */
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { test } from 'node:test';
import { type CampaignDocument, newDocument, readZip, withRows } from '@stillstand/campaign/document';
import type { Page } from 'playwright-core';
import { violations } from '../browser/axe.ts';
import { allSaved, atRest, openCampaign, served, twoDevices } from '../browser/browser.ts';
import { readPairing, textOf } from './pairing.ts';

const campaign = (name: string, id: string, bytes = 0): CampaignDocument => ({
  ...withRows(newDocument(name, id), 'settings', [{ name: 'name', value: name }]),
  files: new Map(
    bytes === 0 ? [] : [['photos/a.jpg', new Uint8Array(bytes).map((_, i) => (i * 7919) % 251)]],
  ),
});

/** The dialog of a direct link over an open campaign. */
async function linkOf(page: Page) {
  await page.getByRole('button', { name: 'Save a copy', exact: true }).click();
  await page.getByRole('button', { name: 'Link devices' }).click();
  return dialogOf(page);
}
const dialogOf = (page: Page) => page.getByRole('dialog', { name: 'Direct link' });
type Dialog = ReturnType<typeof dialogOf>;

async function codeOf(dialog: Dialog): Promise<string> {
  await dialog.getByText('Code in letters').click();
  return (await dialog.locator('.code-letters').textContent())!;
}

/** A picture of the code that one device shows is chosen as a photograph on the other. */
async function photographed(from: Dialog, to: Dialog, label: string): Promise<void> {
  const buffer = await from.locator('.shown-code').screenshot();
  await to.getByLabel(label).setInputFiles({ name: 'code.png', mimeType: 'image/png', buffer });
}

/** Letters that one device shows are typed on the other. */
async function typed(code: string, to: Dialog, field: string, button: string): Promise<void> {
  await to.getByLabel(field, { exact: true }).fill(code.toLowerCase());
  await to.getByRole('button', { name: button }).click();
}

async function paired(a: Dialog, b: Dialog): Promise<void> {
  await a.getByRole('button', { name: 'Show code' }).click();
  await b.getByRole('button', { name: 'Scan code' }).click();
  await typed(await codeOf(a), b, 'Code in letters', 'Enter code');
  await a.getByRole('button', { name: 'Scan answer' }).click();
  await typed(await codeOf(b), a, 'Answer in letters', 'Enter answer');
}

async function contentOf(page: Page): Promise<CampaignDocument> {
  await page.getByRole('button', { name: 'Save a copy', exact: true }).click();
  const [file] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: 'Save as zip' }).click(),
  ]);
  return readZip(new Uint8Array(await readFile(await file.path()))).document;
}

test('codes as pictures one way and letters the other; copies with photos arrive whole on both', async () => {
  const [a, b] = await twoDevices({ width: 1280, height: 900 });
  await openCampaign(a.page, campaign('North coast', 'c-1', 3_000_000));
  await openCampaign(b.page, campaign('North coast', 'c-1', 1_000_000));
  const permits = a.page.getByLabel('Permits', { exact: true }).first();
  if (await permits.isVisible()) {
    await permits.fill('heritage too');
    await permits.press('Enter');
  }
  await allSaved(a.page);
  const [one, two] = [await linkOf(a.page), await linkOf(b.page)];
  await one.getByRole('button', { name: 'Show code' }).click();
  await one.locator('.shown-code').waitFor();
  await atRest(a.page);
  assert.deepEqual(await violations(a.page), []);
  await two.getByRole('button', { name: 'Scan code' }).click();
  await two
    .getByText(/camera/)
    .first()
    .waitFor();
  await typed('SL-WRONG-LETTE-RS', two, 'Code in letters', 'Enter code');
  await two.getByText(/expected the code of a direct link/).waitFor();
  await photographed(one, two, 'Photograph of a code');
  await two.locator('.shown-code').waitFor();
  await one.getByRole('button', { name: 'Scan answer' }).click();
  await typed(await codeOf(two), one, 'Answer in letters', 'Enter answer');
  await one.getByText('Copies exchanged.').waitFor();
  await two.getByText('Copies exchanged.').waitFor();
  await two.getByRole('button', { name: 'Open received copy' }).click();
  // It is asked what becomes of it, with nothing over the question; the copy is kept until that is decided.
  await b.page.getByRole('button', { name: 'Open as a separate campaign' }).click();
  await b.page.locator('.received').waitFor({ state: 'detached' });
  assert.equal(await b.page.getByRole('dialog').count(), 0);
  await b.page.locator('main.page').waitFor();
  const there = await contentOf(b.page);
  await one.getByRole('button', { name: 'Close' }).first().click();
  await a.page.getByText(/The last copy was saved today\./).waitFor();
  await a.page.getByRole('dialog', { name: 'Save a copy' }).getByRole('button', { name: 'Close' }).click();
  await a.page.getByText(/Copy received: North coast\.zip/).waitFor();
  const here = await contentOf(a.page);
  assert.equal(there.files.get('photos/a.jpg')?.length, 3_000_000);
  assert.deepEqual([...there.files.values()], [...here.files.values()]);
  assert.deepEqual(
    [...there.tables].map(([name, { rows }]) => [name, rows.map(({ cells }) => cells)]),
    [...here.tables].map(([name, { rows }]) => [name, rows.map(({ cells }) => cells)]),
  );
  assert.deepEqual([a.complaints, b.complaints], [[], []]);
});

test('a device without a campaign receives one from home', async () => {
  const [a, b] = await twoDevices({ width: 820, height: 1100, touch: true });
  await b.page.goto(await served());
  await b.page.getByRole('button', { name: 'Receive from a device' }).click();
  await openCampaign(a.page, campaign('North coast', 'c-1'));
  const menu = a.page.getByRole('button', { name: /^Menu/ });
  if (await menu.isVisible()) await menu.click();
  const [one, two] = [await linkOf(a.page), dialogOf(b.page)];
  await paired(one, two);
  await one.getByText('Copy sent.').waitFor();
  await two.getByText('Copy received.').waitFor();
  await two.getByRole('button', { name: 'Open received copy' }).click();
  await b.page.getByRole('heading', { name: 'North coast' }).waitFor();
  assert.deepEqual([a.complaints, b.complaints], [[], []]);
});

test('another campaign is named on both devices, and nothing is sent', async () => {
  const [a, b] = await twoDevices();
  await openCampaign(a.page, campaign('North coast', 'c-1'));
  await openCampaign(b.page, campaign('South coast', 'c-2'));
  const [one, two] = [await linkOf(a.page), await linkOf(b.page)];
  await paired(one, two);
  await one
    .getByText(/another campaign open, “South coast”; here it is “North coast”.*keep what they had/)
    .waitFor();
  await two
    .getByText(/another campaign open, “North coast”; here it is “South coast”.*keep what they had/)
    .waitFor();
  assert.equal(await b.page.getByText('Copy received:').count(), 0);
  assert.deepEqual([a.complaints, b.complaints], [[], []]);
});

test('cut in the middle: named, nothing half is kept, and the campaign is as it was; an answer to another code is refused', async () => {
  const [a, b] = await twoDevices();
  await openCampaign(a.page, campaign('North coast', 'c-1'));
  await openCampaign(b.page, campaign('North coast', 'c-1', 48_000_000));
  const [one, two] = [await linkOf(a.page), await linkOf(b.page)];
  await paired(one, two);
  await a.page.waitForFunction(() => {
    const bar = document.querySelector<HTMLProgressElement>('progress[aria-label="Received"]');
    return bar !== null && bar.value > 0 && bar.value < bar.max;
  });
  await b.page.close();
  await one.getByText(/The link was cut\./).waitFor();
  assert.equal(await a.page.getByText('Copy received:').count(), 0);
  await one.getByRole('button', { name: 'Link again' }).click();

  // No path: whoever answered has gone, and the address in the answer leads nowhere.
  await one.getByRole('button', { name: 'Show code' }).click();
  const other = await b.context.newPage();
  await openCampaign(other, campaign('North coast', 'c-1'));
  const three = await linkOf(other);
  await three.getByRole('button', { name: 'Scan code' }).click();
  await typed(await codeOf(one), three, 'Code in letters', 'Enter code');
  const answer = readPairing(await codeOf(three));
  assert.ok(answer.ok);
  await other.close();
  await one.getByRole('button', { name: 'Scan answer' }).click();
  await typed(textOf({ ...answer.pairing, to: 1 }), one, 'Answer in letters', 'Enter answer');
  await one.getByText(/This answer belongs to another code/).waitFor();
  const nowhere = { ...answer.pairing, addresses: [{ host: '192.0.2.77', port: 9 }] };
  await typed(textOf(nowhere), one, 'Answer in letters', 'Enter answer');
  await one.getByText('Looking for the other device…').waitFor();
  await one.getByText(/not found in time.*same hotspot or Wi-Fi.*client isolation.*save the zip/).waitFor();
  assert.deepEqual(a.complaints, []);
});

/** Labels read in a real browser: off its camera, off a photograph, typed; and where none of that leads anywhere. */
import assert from 'node:assert/strict';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { labelCode } from '@stillstand/campaign/tables';
import type { Page } from 'playwright-core';
import { violations } from '../browser/axe.ts';
import { atRest, devices, openDemo, served } from '../browser/browser.ts';
import { labelFilm, labelPhoto } from './fixtures/label-picture.ts';

const CAMPAIGN = 'd3000000-0000-4000-8000-000000000001';
const start = devices();
const folder = await mkdtemp(join(tmpdir(), 'stillstand-film-'));
after(() => rm(folder, { recursive: true, force: true }));

async function scanning(page: Page): Promise<void> {
  const at = `${await served()}#/${await openDemo(page)}`;
  await page.goto(`${at}/describe?hole=T2`);
  await page.getByRole('button', { name: 'Scan a label' }).click();
  await page.getByRole('dialog', { name: 'Scan a label' }).waitFor();
}

test('a label held before the camera opens its sample, ready for the next entry', async () => {
  const film = join(folder, 'label.y4m');
  await writeFile(film, labelFilm(labelCode(CAMPAIGN, { kind: 'sample', sample: 'T2-04' })));
  const { page, complaints } = await start({ camera: film });
  await scanning(page);
  await page.getByRole('heading', { name: 'Sample T2-04' }).waitFor();
  await page.getByRole('button', { name: 'Record storing' }).waitFor();
  assert.equal(await page.getByRole('dialog').count(), 0);
  assert.deepEqual(complaints, []);
});

test('without a camera a photograph or the label in words leads there; other codes are refused with what to do', async () => {
  const { page, complaints } = await start({ width: 390, height: 844, touch: true });
  await scanning(page);
  const dialog = page.getByRole('dialog', { name: 'Scan a label' });
  await dialog
    .getByText(/camera.*Choose a photograph of the label, or type what is written on it\./)
    .waitFor();
  await atRest(page);
  assert.deepEqual(await violations(page), []);
  const show = (name: string, buffer: Buffer): Promise<void> =>
    dialog.getByLabel('Photograph of a label').setInputFiles({ name, mimeType: 'image/png', buffer });
  await show('other.png', labelPhoto(labelCode('ffffffff', { kind: 'sample', sample: 'T2-04' })));
  await dialog.getByText(/expected a code of this campaign\. The label is of another campaign/).waitFor();
  await show('goods.png', labelPhoto('4006381333931'));
  await dialog.getByText(/Found “4006381333931”; expected a code of our labels/).waitFor();
  await show('notes.png', Buffer.from('no picture'));
  await dialog.getByText(/notes\.png is no picture this browser can read/).waitFor();
  await dialog.getByLabel('Code or label', { exact: true }).fill('T2 R99');
  await dialog.getByRole('button', { name: 'Open label' }).click();
  await dialog.getByText(/Found “T2 R99”.*Perhaps T2 R9 is meant\./).waitFor();
  await show('core.png', labelPhoto(labelCode(CAMPAIGN, { kind: 'core', hole: 'T2', run: 'R3' })));
  await page.getByRole('heading', { name: 'Core T2 R3' }).waitFor();
  await page.getByRole('button', { name: 'Scan a label' }).click();
  await dialog.getByLabel('Code or label', { exact: true }).fill('t2-05');
  await dialog.getByRole('button', { name: 'Open label' }).click();
  await page.getByRole('heading', { name: 'Sample T2-05' }).waitFor();
  assert.deepEqual(complaints, []);
});

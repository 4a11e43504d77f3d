/** Photographs in the report and in exported figures of a real browser: the strips that the command line makes. */
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { computeCampaign } from '@stillstand/campaign/steps';
import { columnBottom } from '@stillstand/output/figures';
import { stripInGreys, stripOfPhotograph } from '@stillstand/output/paper';
import { unzipSync } from 'fflate';
import type { Page } from 'playwright-core';
import { corePicture } from '../../../../output/photographs/fixtures/core-picture.ts';
import { cornersOf } from '../../../../output/photographs/fixtures/corners.ts';
import { decoded, hrefOfPng } from '../../../../output/photographs/fixtures/decoded.ts';
import { computed, onDevice, openCampaign } from '../../browser/browser.ts';

const { png, strip } = corePicture([
  { from_m: 0, to_m: 0.3, colour: '#c02020' },
  { from_m: 0.3, to_m: 0.4, colour: '#20a020' },
  { from_m: 0.4, to_m: 1, colour: '#2020c0' },
]);
/** Held turned: 64 px wide and 96 high upright; 1 px is a millimetre, the middle line at the left edge. */
const TURNED = new Uint8Array(cornersOf(6));

const mark = (n: 1 | 2, { at_m, x_px, y_px }: { at_m: number; x_px: number; y_px: number }) => ({
  [`mark_${n}`]: `${at_m} m`,
  [`mark_${n}_x_px`]: String(x_px),
  [`mark_${n}_y_px`]: String(y_px),
});
const place = { hole: 'H1', depth_basis: 'in_situ' };
const PHOTOS = [
  {
    ...place,
    file: 'photos/core.png',
    top: '0 m',
    bottom: '1 m',
    ...mark(1, strip.mark_1),
    ...mark(2, strip.mark_2),
    strip_width: `${strip.width_m} m`,
    strip_offset: `${strip.offset_m} m`,
  },
  {
    ...place,
    file: 'photos/turned.jpg',
    top: '1 m',
    bottom: '1.096 m',
    ...mark(1, { at_m: 1, x_px: 0, y_px: 0 }),
    ...mark(2, { at_m: 1.096, x_px: 0, y_px: 96 }),
    strip_width: '64 mm',
    strip_offset: '32 mm',
  },
  {
    ...place,
    file: 'photos/phone.heic',
    top: '1.2 m',
    bottom: '1.5 m',
    ...mark(1, { at_m: 1, x_px: 0, y_px: 0 }),
    ...mark(2, { at_m: 2, x_px: 0, y_px: 900 }),
    strip_width: '64 mm',
  },
];

let document = newDocument('photographed');
document = withRows(document, 'holes', [{ hole: 'H1', method: 'hand' }]);
document = withRows(document, 'units', [
  { hole: 'H1', unit: '1', depth_basis: 'in_situ', top: '0 m', bottom: '1.6 m', sediment: 'peat' },
]);
document = withRows(document, 'photos', PHOTOS);
const FILES = new Map([
  ['photos/core.png', new Uint8Array(png)],
  ['photos/turned.jpg', TURNED],
  ['photos/phone.heic', new Uint8Array(Buffer.from('\0\0\0\x18ftypheic\0\0\0\0', 'latin1'))],
]);

let page: Page;
onDevice({}, async (at) => {
  page = at.page;
  await openCampaign(page, { ...document, files: FILES }, 'report');
  await page.locator('.report-page').first().waitFor();
  await computed(page);
});

/** The strips as Node makes them, by the same rows. */
function fromNode() {
  const { campaign, problems } = parseCampaign(document);
  const { results } = computeCampaign(campaign, { curves: {} }, problems, { withCurve: false });
  const bottom_m = columnBottom(results, results.holes[0]!);
  return results.photographs
    .slice(0, 2)
    .map((photograph) => stripOfPhotograph(photograph, FILES.get(photograph.file)!, bottom_m));
}

/** Alike but for how two renderers treat the pixels next to an edge: one row in fifty. */
function assertAlike(found: string, expected: string): void {
  const [a, b] = [decoded(found), decoded(expected)];
  assert.deepEqual([a.width, a.height], [b.width, b.height]);
  let differing = 0;
  for (let i = 0; i < a.pixels.length; i++) if (Math.abs(a.pixels[i]! - b.pixels[i]!) > 16) differing += 1;
  assert.ok(differing < a.pixels.length / 50, `${differing} of ${a.pixels.length} differ`);
}

const hrefsOf = (text: string): string[] =>
  [...text.matchAll(/<image [^>]*?href="(data:image\/png;base64,[^"]+)"/g)].map((match) => match[1]!);

async function saved(name: string): Promise<Record<string, Uint8Array>> {
  const waiting = page.waitForEvent('download');
  await page.getByRole('dialog').getByRole('button', { name }).click();
  return unzipSync(new Uint8Array(await readFile(await (await waiting).path())));
}

test('the page shows the strips, and names the photograph that cannot be drawn with what to do', async () => {
  await page.locator('.report-page image').nth(1).waitFor();
  assert.equal(await page.locator('.report-page image').count(), 2);
  await page
    .getByText(/^Photograph of H1 \(photos\/phone\.heic\) not drawn \(HEIC\): convert to JPEG/)
    .first()
    .waitFor({ state: 'attached' });
});

test('exported figures have the strips that the command line makes, turned pictures too', async () => {
  await page.getByRole('button', { name: 'Export figures' }).first().click();
  await page.getByRole('dialog').locator('.paper img').waitFor();
  await page.getByRole('dialog').getByLabel('Width', { exact: true }).selectOption('190');
  const files = await saved('Export figures');
  const hrefs = hrefsOf(new TextDecoder().decode(files['column-H1.svg']));
  const expected = fromNode();
  assert.equal(hrefs.length, 2);
  for (const [i, picture] of expected.entries()) {
    assert.ok('url' in picture);
    assertAlike(hrefs[i]!, picture.url);
  }
  assert.match(Buffer.from(files['column-H1.pdf']!).toString('latin1'), /\/Subtype \/Image/);
  // Red of the first band is in the picture of dots.
  const dots = decoded(hrefOfPng(files['column-H1.png']!));
  let red = 0;
  for (let i = 0; i < dots.pixels.length; i += 4)
    if (Math.abs(dots.pixels[i]! - 0xc0) < 8 && Math.abs(dots.pixels[i + 1]! - 0x20) < 8) red += 1;
  assert.ok(red > 1000, `${red} red pixels`);
});

test('in shades of grey they are grey', async () => {
  await page.getByRole('dialog').getByText('Shades of grey').click();
  const files = await saved('Export figures');
  const hrefs = hrefsOf(new TextDecoder().decode(files['column-H1.svg']));
  for (const [i, picture] of fromNode().map(stripInGreys).entries()) {
    assert.ok('url' in picture);
    assertAlike(hrefs[i]!, picture.url);
  }
});

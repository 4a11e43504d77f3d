/** Figures exported in a real browser: chosen, looked at in true size, packed, and the files opened and read. */
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { test } from 'node:test';
import { crc32 } from 'node:zlib';
import { figureToPdf } from '@stillstand/output/paper';
import { unzipSync } from 'fflate';
import type { Locator, Page } from 'playwright-core';
import { readPdf } from '../../../../../output/paper/read-pdf.ts';
import { violations } from '../../../browser/axe.ts';
import { computed, onDevice, openDemo, served } from '../../../browser/browser.ts';

let page: Page;
onDevice({}, async (at) => {
  page = at.page;
  await page.goto(`${await served()}#/${await openDemo(page)}/report`);
  await page.locator('.report-page').first().waitFor();
  await computed(page);
});

const panel = (): Locator => page.getByRole('dialog', { name: 'Export figures' });
const field = (name: string): Locator => panel().getByLabel(name, { exact: true });
const text = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);

async function open(): Promise<void> {
  await page.getByRole('button', { name: 'Export figures' }).first().click();
  await panel().locator('.paper img').waitFor();
}

/** Millimetres of the picture on the screen, at 96 dots to the inch as CSS has it. */
async function shownWidth(): Promise<number> {
  const box = await panel().locator('.paper img').boundingBox();
  return (box!.width * 25.4) / 96;
}

test('a figure is shown in its printed size, and follows what is chosen', async () => {
  await open();
  assert.ok(Math.abs((await shownWidth()) - 90) < 0.5, `${await shownWidth()} mm`);
  await field('Preview of').selectOption('curve');
  await panel()
    .getByText(/^Relative sea level \(a\) and its rate \(b\)\. Boxes are/)
    .waitFor();
  await field('Width').selectOption('140');
  await panel()
    .getByText(/^140 × \d+ mm$/)
    .waitFor();
  assert.ok(Math.abs((await shownWidth()) - 140) < 0.5);
  await field('Width').selectOption('typed');
  await field('Other width').fill('40');
  await panel().getByText('Found “40”. Expected a width of 60 to 250 mm.').waitFor();
  assert.ok(await panel().getByRole('button', { name: 'Export figures' }).isDisabled());
  await field('Other width').fill('100');
  await panel()
    .getByText(/^100 × \d+ mm$/)
    .waitFor();
  assert.deepEqual(await violations(page), []);
});

test('what a width cannot hold is said at the figure', async () => {
  await field('Width').selectOption('90');
  await field('Preview of').selectOption('column-T2');
  await panel()
    .getByText(/Narrow: the core as it came up.* whole from \d+ mm wide/)
    .waitFor();
});

test('the summary plate is the last figure, made for a page of 190 mm', async () => {
  await field('Preview of').selectOption('plate');
  assert.equal(await field('Preview of').locator('option').last().getAttribute('value'), 'plate');
  await panel()
    .getByText(/Narrow: made for 190 mm.* whole from 190 mm wide/)
    .waitFor();
  await field('Width').selectOption('190');
  const size = panel().getByText(/^190 × \d+ mm$/);
  await size.waitFor();
  assert.ok(Number(/× (\d+)/.exec((await size.textContent())!)![1]) <= 240);
  assert.ok(Math.abs((await shownWidth()) - 190) < 0.5);
  await panel()
    .getByText(/^Summary of the campaign\. \(a\) Holes at their distance/)
    .waitFor();
  await field('Width').selectOption('90');
});

test('the export packs SVG, PDF and PNG in their size, letters in them, and the captions apart', async () => {
  await panel().getByText('Axes of the curve').click();
  await field('Ages').selectOption('ce');
  await field('Rates').selectOption('m/kyr');
  await field('Decimal mark').selectOption('comma');
  await panel().getByText('Shades of grey').click();
  await panel().getByRole('button', { name: 'Clear selection' }).click();
  await panel().getByText('Choose a figure.').waitFor();
  const taken = panel().locator('.taken');
  await taken.getByLabel(/relative sea level$/).check();
  await taken.getByLabel('Recovery, hole T2').check();
  const waiting = page.waitForEvent('download');
  await panel().getByRole('button', { name: 'Export figures' }).click();
  const saved = await waiting;
  assert.match(saved.suggestedFilename(), /-figures\.zip$/);
  const files = unzipSync(new Uint8Array(await readFile(await saved.path())));
  assert.deepEqual(Object.keys(files).sort(), [
    'captions.txt',
    'curve.pdf',
    'curve.png',
    'curve.svg',
    'recovery-T2.pdf',
    'recovery-T2.png',
    'recovery-T2.svg',
  ]);

  assert.match(
    text(files['captions.txt']!),
    /^recovery-T2\nFigure 1\. .+\n\ncurve\nFigure 2\. .*1950 less the age/s,
  );

  const svg = text(files['curve.svg']!);
  assert.match(svg, /^<svg[^>]*width="90mm"/);
  assert.match(
    svg,
    /font-family:"Atkinson Hyperlegible Next Plain Zero";font-weight:400;src:url\(data:font\/ttf/,
  );
  assert.match(svg, />\(b\) Rate, m\/kyr</);
  assert.match(svg, /BCE</);
  assert.doesNotMatch(svg, /R-hat/);
  for (const [colour] of svg.replace(/<style>.*?<\/style>/gs, '').matchAll(/#[0-9A-Fa-f]{6}\b/g))
    assert.match(colour, /^#(..)\1\1$/);

  const { width, faces, pieces } = readPdf(Buffer.from(files['curve.pdf']!));
  assert.ok(Math.abs(width - (90 * 72) / 25.4) < 0.02, `${width} points`);
  assert.ok(faces.length >= 2);
  for (const { name, file } of faces) {
    assert.ok(file !== null, `${name} is embedded`);
    assert.ok(file.length > 1000, `${name}: ${file.length} bytes`);
  }
  // Word for word and place for place what Node writes of the same drawing.
  const fromNode = readPdf(await figureToPdf(svg.replace(/<style>.*?<\/style>/gs, '')));
  const set = ({ text: words, x, y, size }: (typeof pieces)[number]) => [words, x, y, size];
  assert.deepEqual(pieces.map(set), fromNode.pieces.map(set));
  assert.ok(pieces.some((piece) => piece.text.includes('Rate, m/kyr')));

  const png = Buffer.from(files['curve.png']!);
  assert.equal(png.readUInt32BE(16), Math.round((90 * 600) / 25.4));
  assert.equal(png.toString('latin1', 37, 41), 'pHYs', 'right after the head');
  assert.deepEqual([png.readUInt32BE(41), png.readUInt32BE(45), png[49]], [23_622, 23_622, 1]);
  assert.equal(png.readUInt32BE(50), crc32(png.subarray(37, 50)));
});

test('choices stay on the device', async () => {
  await page.reload();
  await page.locator('.report-page').first().waitFor();
  await open();
  assert.equal(await field('Width').inputValue(), '90');
  assert.equal(await field('Decimal mark').inputValue(), 'comma');
  await panel()
    .getByText(/^2 of \d+ figures$/)
    .waitFor();
});

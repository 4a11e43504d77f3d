/** Figures on paper: size, faces, text. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { curveFigure, graphicLog } from '@stillstand/output/figures';
import { create, type Font } from 'fontkit';
import { textWidth } from '../drawing/text.tsx';
import { oneHole } from '../figures/fixtures/column.ts';
import { notConverged, seaLevel } from '../figures/fixtures/curve.ts';
import { readSvg, type SvgElement, translation } from '../typeset/svg-tree.ts';
import { setWidth } from '../typeset/typefaces.ts';
import { figureToPdf, figureToPng, figureToSvg, fontCss } from './index.ts';
import { readPdf } from './read-pdf.ts';

const column = graphicLog(oneHole, 'T3');

test('a picture has its size and is not blank', () => {
  const png = Buffer.from(figureToPng(column.svg, 144));
  assert.equal(png.subarray(0, 8).toString('latin1'), '\x89PNG\r\n\x1a\n');
  const width = png.readUInt32BE(16);
  const height = png.readUInt32BE(20);
  assert.equal(width, Math.round((190 * 72 * 2) / 25.4));
  assert.ok(Math.abs(height - (column.height_mm * 72 * 2) / 25.4) <= 1);
  assert.ok(png.length > 50_000, `${png.length} bytes`);
});

/** Points; PDF numbers are written with a few decimals. */
const PLACE = 0.02;

const textOf = (pdf: Uint8Array): string =>
  readPdf(pdf)
    .pieces.map((piece) => piece.text)
    .join('\n');

test('a PDF is one page of true size, its faces embedded', async () => {
  const pdf = await figureToPdf(column.svg);
  const raw = Buffer.from(pdf).toString('latin1');
  assert.match(raw, /^%PDF-1\.\d/);
  assert.doesNotMatch(raw, /\/Subtype \/Image/, 'nothing is a picture of dots');
  const { width, height, faces } = readPdf(pdf);
  assert.ok(Math.abs(width - (190 * 72) / 25.4) < PLACE);
  assert.ok(Math.abs(height - (column.height_mm * 72) / 25.4) < PLACE);
  assert.deepEqual(faces.map((face) => face.name).sort(), [
    'AtkinsonHyperlegibleNext-Regular',
    'AtkinsonHyperlegibleNext-SemiBold',
    'STIXTwoText-Regular',
    'STIXTwoText-SemiBold',
  ]);
  for (const { name, file, letters } of faces) {
    assert.ok(file !== null, `${name} is not embedded`);
    const font = create(Buffer.from(file)) as Font;
    assert.ok(font.numGlyphs >= letters.size, `${name}: ${font.numGlyphs} glyphs, ${letters.size} letters`);
  }
});

/** Every text of an SVG as it stands there, and where it begins. */
function textsOf(
  element: SvgElement,
  dx = 0,
  dy = 0,
): { text: string; x: number; y: number; anchor: string }[] {
  const [x, y] = translation(element);
  if (element.name === 'text') {
    const inside = (of: SvgElement): string =>
      of.children.map((child) => (typeof child === 'string' ? child : inside(child))).join('');
    const a = element.attributes;
    return [
      {
        text: inside(element),
        x: dx + Number(a['x']),
        y: dy + Number(a['y']),
        anchor: a['text-anchor'] ?? 'start',
      },
    ];
  }
  return element.children.flatMap((child) =>
    typeof child === 'string' ? [] : textsOf(child, dx + x, dy + y),
  );
}

for (const [name, figure] of Object.entries({ column, curve: curveFigure(notConverged) })) {
  test(`every text of the ${name} is in its PDF, in its place, and can be read back`, async () => {
    const { pieces } = readPdf(await figureToPdf(figure.svg));
    let next = 0;
    for (const { text, x, y, anchor } of textsOf(readSvg(figure.svg))) {
      // Parts in other faces are pieces of their own.
      const first = pieces[next]!;
      let read = '';
      while (read.length < text.length && next < pieces.length) {
        assert.ok(Math.abs(pieces[next]!.y - y) < PLACE, `“${text}” stands at ${pieces[next]!.y}, not ${y}`);
        read += pieces[next]!.text;
        next++;
      }
      assert.equal(read, text);
      if (anchor === 'start')
        assert.ok(Math.abs(first.x - x) < PLACE, `“${text}” begins at ${first.x}, not ${x}`);
    }
    assert.equal(next, pieces.length, 'nothing else is set');
  });
}

test('letters keep their names after their glyphs were drawn as outlines', async () => {
  // 25 November 2026: after a PNG with a semicolon, whose glyph holds a comma's, the PDF's commas could not be read.
  figureToPng(curveFigure(notConverged).svg, 72);
  const text = textOf(await figureToPdf(column.svg));
  for (const words of ['8,719\n (8,979–8,602)', 'mean sea level', 'ΔR −120 ± 45', 'Compact, leafy.']) {
    assert.ok(text.includes(words), words);
  }
});

test('the same figure gives the same PDF', async () => {
  assert.deepEqual(await figureToPdf(column.svg), await figureToPdf(column.svg));
});

test('a PDF that warns carries the warning', async () => {
  assert.match(textOf(await figureToPdf(curveFigure(notConverged).svg)), /Not converged: the hatched bands/);
});

test('a PDF that is not ours is refused with what was expected', () => {
  assert.throws(() => readPdf(Buffer.from('%PDF-1.4\n')), /expected one page, found 0/);
});

test('an SVG that carries its letters names only the faces it uses and stays small', async () => {
  const { svg } = curveFigure(seaLevel);
  const alone = await figureToSvg(svg);
  const faces = [
    ...alone.matchAll(/@font-face\{font-family:"([^"]+)";font-weight:(\d+);font-style:(\w+)/g),
  ].map((m) => m.slice(1).join(' '));
  assert.deepEqual(faces, [
    'Atkinson Hyperlegible Next 300 normal',
    'Atkinson Hyperlegible Next 400 normal',
    'Atkinson Hyperlegible Next 600 normal',
    'STIX Two Text 400 normal',
    'STIX Two Text 600 normal',
    'STIX Two Text 400 italic',
  ]);
  assert.ok(alone.length - svg.length < 60_000, `${alone.length - svg.length} bytes of letters`);
  for (const [, data] of alone.matchAll(/base64,([^)]+)\)/g)) {
    assert.equal(Buffer.from(data!, 'base64').subarray(0, 4).toString('latin1'), 'wOFF');
  }
  // The drawing itself is untouched.
  assert.equal(alone.replace(/<style>.*?<\/style>/, ''), svg);
  assert.ok(figureToPng(alone, 72).length > 1000);
});

test('styles for a page bring every face once', async () => {
  assert.equal([...(await fontCss()).matchAll(/@font-face/g)].length, 6);
});

test('labels are as wide as they were measured, within kerning', () => {
  const words = [
    '5,524 (5,587–5,468)',
    'Clay, silty',
    'terrestrial limiting: sea was below',
    '−10.01 ±0.31 m',
    'Average wavy Tarns',
  ];
  for (const text of words) {
    const set = setWidth(text, 'text400', 7);
    assert.ok(Math.abs(textWidth(text) - set) < 0.025 * set + 0.1, `${text}: ${textWidth(text)} and ${set}`);
  }
});

test('what is not our SVG is refused with what was found', async () => {
  assert.throws(() => readSvg('<svg><g></svg>'), /expected <\/g>, found <\/svg>/);
  assert.throws(() => readSvg('no drawing'), RangeError);
  await assert.rejects(figureToPdf('<svg viewBox="0 0 9 9"><video></video></svg>'), /no drawing for <video>/);
  await assert.rejects(
    figureToPdf('<svg viewBox="0 0 9 9"><image href="a.png"></image></svg>'),
    /expected a PNG as data, found “a.png”/,
  );
  await assert.rejects(figureToPdf('<svg></svg>'), /expected viewBox/);
});

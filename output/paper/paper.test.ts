/** Figures on paper: size, faces, text. Poppler reads the PDFs where it is installed; ours checks them everywhere. */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';
import { inflateSync } from 'node:zlib';
import { columnFigure, curveFigure } from '@stillstand/output/figures';
import { oneHole } from '../figures/fixtures/column.ts';
import { notConverged, seaLevel } from '../figures/fixtures/curve.ts';
import { textWidth } from '../figures/parts/text.tsx';
import { figureToPdf, figureToPng, figureToSvg, fontCss } from './index.ts';
import { readSvg } from './svg-tree.ts';
import { setWidth } from './typefaces.ts';

const column = columnFigure(oneHole, 'T3');

test('a picture has its size and is not blank', () => {
  const png = Buffer.from(figureToPng(column.svg, 2));
  assert.equal(png.subarray(0, 8).toString('latin1'), '\x89PNG\r\n\x1a\n');
  const width = png.readUInt32BE(16);
  const height = png.readUInt32BE(20);
  assert.equal(width, Math.round((190 * 72 * 2) / 25.4));
  assert.ok(Math.abs(height - (column.height_mm * 72 * 2) / 25.4) <= 1);
  assert.ok(png.length > 50_000, `${png.length} bytes`);
});

const poppler = spawnSync('pdffonts', ['-v']).error === undefined;

function read(pdf: Uint8Array, command: string, ...options: string[]): string {
  const folder = mkdtempSync(join(tmpdir(), 'figure-'));
  try {
    const file = join(folder, 'figure.pdf');
    writeFileSync(file, pdf);
    const out = spawnSync(command, [...options, file, ...(command === 'pdftotext' ? ['-'] : [])], {
      encoding: 'utf8',
    });
    assert.equal(out.status, 0, out.stderr);
    assert.equal(out.stderr, '');
    return out.stdout;
  } finally {
    rmSync(folder, { recursive: true });
  }
}

test('a PDF is one page of true size, its faces embedded', async () => {
  const pdf = Buffer.from(await figureToPdf(column.svg));
  const text = pdf.toString('latin1');
  assert.match(text, /^%PDF-1\.\d/);
  assert.equal([...text.matchAll(/\/Type \/Page\b/g)].length, 1);
  const box = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(text);
  assert.ok(Math.abs(Number(box?.[1]) - (190 * 72) / 25.4) < 0.01);
  assert.ok(Math.abs(Number(box?.[2]) - (column.height_mm * 72) / 25.4) < 0.02);
  for (const face of [
    'AtkinsonHyperlegibleNext-Regular',
    'AtkinsonHyperlegibleNext-SemiBold',
    'STIXTwoText-Regular',
    'STIXTwoText-SemiBold',
  ]) {
    assert.match(text, new RegExp(`/FontName /[A-Z]{6}\\+${face}`));
  }
  assert.ok([...text.matchAll(/\/FontFile2/g)].length >= 4);
  assert.doesNotMatch(text, /\/Subtype \/Image/, 'nothing is a picture of dots');
});

test('the text of a PDF can be read back', {
  skip: poppler ? false : 'poppler is not installed',
}, async () => {
  const pdf = await figureToPdf(column.svg);
  assert.match(
    read(pdf, 'pdffonts'),
    /AtkinsonHyperlegibleNext-Regular +CID TrueType +Identity-H +yes yes yes/,
  );
  const text = read(pdf, 'pdftotext', '-layout');
  for (const words of [
    'Hole T3, the spit',
    'core as it came up',
    '8,719 (8,979–8,602)',
    'ΔR −120 ± 45 yr',
    'Compact, leafy.',
  ]) {
    assert.ok(text.includes(words), words);
  }
  assert.match(read(pdf, 'pdfinfo'), /Page size: +538\.58 x/);
});

test('letters keep their names after their glyphs were drawn as outlines', {
  skip: poppler ? false : 'poppler is not installed',
}, async () => {
  // 25 November 2026: after a PNG with a semicolon, whose glyph holds a comma's, the PDF's commas could not be read.
  figureToPng(curveFigure(notConverged).svg, 1);
  const text = read(await figureToPdf(column.svg), 'pdftotext', '-layout');
  assert.ok(text.includes('8,719 (8,979–8,602)'));
  assert.ok(text.includes('mean sea level'));
});

test('the same figure gives the same PDF', async () => {
  assert.deepEqual(await figureToPdf(column.svg), await figureToPdf(column.svg));
});

test('a PDF that warns carries the warning', async () => {
  const pdf = await figureToPdf(curveFigure(notConverged).svg);
  if (poppler) assert.match(read(pdf, 'pdftotext', '-layout'), /Not converged: the hatched bands/);
  else assert.ok(pdf.length > 20_000);
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
    assert.equal(Buffer.from(data!, 'base64').subarray(0, 4).toString('latin1'), 'wOF2');
  }
  // The drawing itself is untouched.
  assert.equal(alone.replace(/<style>.*?<\/style>/, ''), svg);
  assert.ok(figureToPng(alone, 1).length > 1000);
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
  await assert.rejects(figureToPdf('<svg viewBox="0 0 9 9"><image></image></svg>'), /no drawing for <image>/);
  await assert.rejects(figureToPdf('<svg></svg>'), /expected viewBox/);
});

test('the PDF’s content is paths and text, as the SVG’s', async () => {
  const pdf = Buffer.from(await figureToPdf(column.svg));
  let content = '';
  const raw = pdf.toString('latin1');
  for (const match of raw.matchAll(/\/FlateDecode\n?[^>]*>>\nstream\n/g)) {
    const from = match.index + match[0].length;
    const to = raw.indexOf('\nendstream', from);
    const bytes = inflateSync(pdf.subarray(from, to)).toString('latin1');
    if (bytes.includes(' Tf')) content += bytes;
  }
  const texts = (column.svg.match(/<text /g) ?? []).length;
  const set = (content.match(/\bT[jJ]\b/g) ?? []).length;
  assert.ok(set >= texts, `${set} pieces of text set, ${texts} texts drawn`);
});

/** Pictures with bands of known depth must show them at their in-situ depths, in the strip and in the figure. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { Resvg } from '@resvg/resvg-js';
import type { PhotographResult } from '@stillstand/campaign/results';
import { graphicLog } from '@stillstand/output/figures';
import { MOST_PICTURE, readPictureFile, type StripPicture, stripPlan } from '@stillstand/output/photographs';
import { oneHole } from '../figures/fixtures/column.ts';
import { corePicture } from '../photographs/fixtures/core-picture.ts';
import { cornersOf } from '../photographs/fixtures/corners.ts';
import { decoded, hrefOfPng, type Pixels } from '../photographs/fixtures/decoded.ts';
import { opaquePng } from '../typeset/opaque-png.ts';
import { figureToPdf, figureToPng, stripOfPhotograph } from './index.ts';

const BANDS = [
  { from_m: 0, to_m: 0.2, colour: '#c02020' },
  { from_m: 0.2, to_m: 0.25, colour: '#20a020' },
  { from_m: 0.25, to_m: 0.6, colour: '#2020c0' },
  { from_m: 0.6, to_m: 1, colour: '#e0c020' },
] as const;

/** The upper half of the core lay in twice its length, the lower in its own; 3 m to 4.5 m down. */
const SLICES = [
  { from_m: 0, to_m: 0.5, depth_from_m: 3, depth_to_m: 4 },
  { from_m: 0.5, to_m: 1, depth_from_m: 4, depth_to_m: 4.5 },
];
/** In-situ depths of the four bands’ ends, by hand: 3 + 2 × 0.2, 3 + 2 × 0.25, 4 + 0.1. */
const ENDS_M = [3, 3.4, 3.5, 4.1, 4.5];
const BOTTOM_M = 14.32;

const photograph = (parts: Partial<PhotographResult> = {}): PhotographResult => ({
  row_id: 'photo-1',
  hole: 'T3',
  run: '3',
  file: 'photos/core.png',
  strip: corePicture([]).strip,
  slices: SLICES,
  ...parts,
});

const urlOf = (picture: StripPicture): string => {
  assert.ok('url' in picture, JSON.stringify(picture));
  return picture.url;
};

const apart = (a: string, b: string): number =>
  Math.max(
    ...[1, 3, 5].map((i) => Math.abs(parseInt(a.slice(i, i + 2), 16) - parseInt(b.slice(i, i + 2), 16))),
  );

/** The band a pixel is of. */
const bandAt = (colour: string): number =>
  colour === '' ? -1 : BANDS.findIndex((band) => apart(band.colour, colour) < 60);

/** Every row farther than 1 px from an end is of the band that lies there. */
function assertBands(picture: Pixels, x: number, y: (depth_m: number) => number): void {
  let seen = 0;
  for (const [i, { colour }] of BANDS.entries()) {
    const [top, bottom] = [y(ENDS_M[i]!), y(ENDS_M[i + 1]!)];
    for (let row = Math.ceil(top + 1); row <= Math.floor(bottom - 1) - 1; row++) {
      assert.equal(bandAt(picture.at(x, row)), i, `row ${row}: ${picture.at(x, row)}, expected ${colour}`);
      seen += 1;
    }
  }
  assert.ok(seen > 20, `${seen} rows`);
}

test('bands of a turned core with its tape alongside are at their in-situ depths in the strip', () => {
  const { png, strip } = corePicture(BANDS);
  const picture = decoded(urlOf(stripOfPhotograph(photograph({ strip }), png, BOTTOM_M)));
  // 300 dots to the inch: 14 pt wide; 1.5 m of 14.32 m in 470 pt.
  assert.equal(picture.width, 58);
  assert.equal(picture.height, Math.round(((470 * 1.5) / BOTTOM_M) * (300 / 72)));
  const y = (depth_m: number) => ((depth_m - 3) / 1.5) * picture.height;
  for (const x of [1, 29, picture.width - 2]) assertBands(picture, x, y);
});

test('read upwards, turned round or the other way: the same strip', () => {
  for (const turned_deg of [0, 90, 173, -60]) {
    // Room for every turn.
    const { png, strip } = corePicture(BANDS, {
      turned_deg,
      width_px: 3400,
      height_px: 3400,
      top: { x: 1700, y: 1700 },
    });
    const upwards = { ...strip, mark_1: strip.mark_2, mark_2: strip.mark_1 };
    for (const each of [strip, upwards]) {
      const picture = decoded(urlOf(stripOfPhotograph(photograph({ strip: each }), png, BOTTOM_M)));
      assertBands(picture, 29, (depth_m) => ((depth_m - 3) / 1.5) * picture.height);
    }
  }
});

test('what the geometry was given wrongly shows other things than the core', () => {
  // Faults put in: the tape taken for the middle of the core, the other side taken for right, a mark 5 cm off.
  const { png, strip } = corePicture(BANDS);
  const faults = [
    { ...strip, offset_m: 0 },
    { ...strip, offset_m: -strip.offset_m },
    { ...strip, mark_2: { ...strip.mark_2, at_m: 1.05 } },
  ];
  for (const each of faults) {
    const picture = decoded(urlOf(stripOfPhotograph(photograph({ strip: each }), png, BOTTOM_M)));
    assert.throws(() => assertBands(picture, 29, (m) => ((m - 3) / 1.5) * picture.height), /row|rows/);
  }
});

const DOTS = 300;

/** Pixel of a depth on the figure, from the outline of its first unit, 0 to 1.35 m; and the middle of the lane. */
function onFigure(svg: string): { x: number; y(depth_m: number): number } {
  const [, widthPt] = /viewBox="0 0 ([\d.]+) /.exec(svg)!;
  const k = Math.round((Number(widthPt) * DOTS) / 72) / Number(widthPt);
  const [, left, top] =
    /<g transform="translate\((\d+) 0\)">.*?<g transform="translate\(0 ([\d.]+)\)">/s.exec(svg)!;
  const [, zero, contact] = /<path d="M153 ([\d.]+)V([\d.]+)/.exec(svg)!;
  const perMetre = (Number(contact) - Number(zero)) / 1.35;
  return {
    x: Math.round((Number(left) + 130 + 7) * k),
    y: (depth_m) => (Number(top) + Number(zero) + depth_m * perMetre) * k,
  };
}

test('the figure draws them within a pixel of where its column has those depths', () => {
  const { png, strip } = corePicture(BANDS);
  const row = photograph({ strip });
  const pictures = new Map([[row.row_id, stripOfPhotograph(row, png, BOTTOM_M)]]);
  const results = { ...oneHole, photographs: [row] };
  const figure = graphicLog(results, 'T3', { pictures });
  assert.match(figure.caption, /without correction of perspective or lens/);
  assert.deepEqual(figure.warnings, graphicLog(oneHole, 'T3').warnings);
  const drawn = figureToPng(figure.svg, DOTS);
  const picture = decoded(hrefOfPng(drawn));
  const { x, y } = onFigure(figure.svg);
  assertBands(picture, x, y);
  // Without pictures nothing is said of them, and the column is as it was.
  assert.equal(graphicLog(results, 'T3').svg, graphicLog(oneHole, 'T3').svg);
});

test('a PDF carries the strip, stays small and is the same each time', async () => {
  const { png, strip } = corePicture(BANDS, { isReal: true });
  const row = photograph({ strip });
  const results = { ...oneHole, photographs: [row] };
  const pictures = new Map([[row.row_id, stripOfPhotograph(row, png, BOTTOM_M)]]);
  const { svg } = graphicLog(results, 'T3', { pictures });
  const pdf = await figureToPdf(svg);
  assert.match(Buffer.from(pdf).toString('latin1'), /\/Subtype \/Image/);
  const without = await figureToPdf(graphicLog(oneHole, 'T3').svg);
  assert.ok(pdf.length - without.length < 120_000, `${pdf.length - without.length} bytes of picture`);
  assert.deepEqual(await figureToPdf(svg), pdf);
});

/**
 * EXIF 2.3, orientation: where the 0th row and the 0th column of the stored picture are on the upright one. Red is in
 * both, green in the row alone, blue in the column alone.
 */
const ORIENTATIONS = [
  [1, 'top', 'left'],
  [2, 'top', 'right'],
  [3, 'bottom', 'right'],
  [4, 'bottom', 'left'],
  [5, 'left', 'top'],
  [6, 'right', 'top'],
  [7, 'right', 'bottom'],
  [8, 'left', 'bottom'],
] as const;

for (const [orientation, row, column] of ORIENTATIONS) {
  test(`a picture of orientation ${orientation} is cut as it is seen upright`, () => {
    for (const isLittle of [false, true]) {
      const jpeg = cornersOf(orientation, isLittle);
      const across = orientation >= 5 ? 64 : 96;
      const down = orientation >= 5 ? 96 : 64;
      // The whole upright picture as a strip, 1 px a millimetre: down the page, its middle line at the left edge.
      const strip = {
        top_m: 0,
        bottom_m: down / 1000,
        mark_1: { x_px: 0, y_px: 0, at_m: 0 },
        mark_2: { x_px: 0, y_px: down, at_m: down / 1000 },
        width_m: across / 1000,
        offset_m: across / 2000,
      };
      const slices = [{ from_m: 0, to_m: down / 1000, depth_from_m: 0, depth_to_m: 1 }];
      const found = decoded(urlOf(stripOfPhotograph(photograph({ strip, slices }), jpeg, 1)));
      const corner = (sides: readonly string[]) =>
        found.at(
          Math.round(found.width * (sides.includes('left') ? 0.25 : 0.75)),
          Math.round(found.height * (sides.includes('top') ? 0.25 : 0.75)),
        );
      const opposite = { top: 'bottom', bottom: 'top', left: 'right', right: 'left' } as const;
      const colours = {
        '#d02020': [row, column],
        '#20a020': [row, opposite[column]],
        '#2020d0': [opposite[row], column],
        '#d0c020': [opposite[row], opposite[column]],
      };
      for (const [colour, sides] of Object.entries(colours))
        assert.ok(apart(corner(sides), colour) < 25, `${sides}: ${corner(sides)}, expected ${colour}`);
    }
  });
}

test('what is no picture, damaged, too large or beside the core is named, and the figure is drawn without it', () => {
  const { png, strip } = corePicture(BANDS);
  const cases: [Uint8Array, string][] = [
    [Buffer.from('\0\0\0\x18ftypheic\0\0\0\0', 'latin1'), 'heic'],
    [Buffer.from('GIF89a'), 'not-a-picture'],
    [new Uint8Array(0), 'not-a-picture'],
    [png.subarray(0, 20), 'broken'],
    [png.subarray(0, 60), 'broken'],
    [cornersOf(1).subarray(0, 100), 'broken'],
    [withSize(png, 20_000, 20_000), 'too-large'],
  ];
  const row = photograph({ strip });
  const results = { ...oneHole, photographs: [row] };
  for (const [bytes, fault] of cases) {
    const picture = stripOfPhotograph(row, bytes, BOTTOM_M);
    assert.deepEqual(picture, { fault });
    const figure = graphicLog(results, 'T3', { pictures: new Map([[row.row_id, picture]]) });
    assert.equal(
      figure.warnings.filter((words) => /^Photograph of T3 3 \(photos\/core\.png\) not drawn \(/.test(words))
        .length,
      1,
    );
  }
  const beyond = {
    ...strip,
    mark_1: { ...strip.mark_1, x_px: 9000 },
    mark_2: { ...strip.mark_2, x_px: 9000 },
  };
  assert.deepEqual(stripOfPhotograph(photograph({ strip: beyond }), png, BOTTOM_M), { fault: 'off-picture' });
});

function withSize(png: Uint8Array, width: number, height: number): Uint8Array {
  const out = Buffer.from(png);
  out.writeUInt32BE(width, 16);
  out.writeUInt32BE(height, 20);
  return out;
}

test('any bytes that begin as a picture give a size or a fault, and never an error', () => {
  const heads = [cornersOf(6), Buffer.from(corePicture([]).png)];
  for (const head of heads)
    for (let n = 0; n < 400; n++) {
      const bytes = Uint8Array.from(head.subarray(0, 700));
      for (let i = 0; i < 5; i++)
        bytes[2 + ((n * 7919 + i * 104729) % (bytes.length - 2))] = (n * 31 + i * 17) % 256;
      const found = readPictureFile(bytes);
      assert.ok(typeof found === 'string' || found.width_px * found.height_px <= MOST_PICTURE.px);
    }
});

test('a strip that runs off the picture is blank there', () => {
  // The picture ends 0.8 m down the core, within the last band.
  const { png, strip } = corePicture(BANDS, {
    width_px: 130 + Math.round(0.8 * 1500 * Math.cos(Math.PI / 30)),
  });
  const picture = decoded(urlOf(stripOfPhotograph(photograph({ strip }), png, BOTTOM_M)));
  const row = (depth_m: number) => Math.round(((depth_m - 3) / 1.5) * picture.height);
  assert.equal(bandAt(picture.at(29, row(4.2))), 3);
  assert.equal(picture.at(29, row(4.4)), '');
});

test('a plan holds to its budget: a whole column is 58 × 1,958 px, the straight core 16 million', () => {
  const { strip } = corePicture(BANDS);
  const scale = (k: number) => ({
    ...strip,
    mark_1: { ...strip.mark_1, x_px: strip.mark_1.x_px * k, y_px: strip.mark_1.y_px * k },
    mark_2: { ...strip.mark_2, x_px: strip.mark_2.x_px * k, y_px: strip.mark_2.y_px * k },
  });
  const row = photograph({ strip: scale(8) });
  const plan = stripPlan(row, { width_px: 13_600, height_px: 4_480 }, 1.5);
  assert.ok(typeof plan !== 'string');
  assert.ok(plan.large.width_px * plan.large.height_px <= 16_000_000);
  assert.equal(plan.large.width_px / 2 ** plan.halvings.across, 58);
  assert.equal(plan.large.height_px / 2 ** plan.halvings.along, 1958);
});

test('laid on white for a PDF a picture keeps its colours, and half of them where it is half transparent', () => {
  // Every filter of PNG is used by a renderer for noise; four alphas on one colour, and noise.
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="64" height="40"><filter id="n"><feTurbulence baseFrequency="0.4" numOctaves="2"/></filter><rect width="64" height="20" filter="url(#n)"/><rect y="20" width="16" height="20" fill="#204060"/><rect x="16" y="20" width="16" height="20" fill="#204060" fill-opacity="0.5"/></svg>`;
  const whole = new Resvg(svg).render().asPng();
  const onWhite = new Resvg(svg, { background: '#fff' }).render().pixels;
  const opaque = decoded(hrefOfPng(opaquePng(whole)));
  for (let y = 0; y < 40; y++)
    for (let x = 0; x < 64; x++) {
      const at = 4 * (64 * y + x);
      const expected = `#${[...onWhite.subarray(at, at + 3)].map((c) => c.toString(16).padStart(2, '0')).join('')}`;
      // Colours under transparency are kept in PNG to 8 bits of their own.
      assert.ok(
        apart(opaque.at(x, y), expected) <= 2,
        `${x}, ${y}: ${opaque.at(x, y)}, expected ${expected}`,
      );
    }
  assert.equal(opaque.at(8, 30), '#204060');
  assert.deepEqual(opaquePng(opaquePng(whole)), opaquePng(whole));
});

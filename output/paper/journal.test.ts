/** Figures as a journal prints them: measured on the drawing, at every width, of every figure. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { crc32 } from 'node:zlib';
import { INKS, inksFor } from '@stillstand/output/drawing';
import {
  captionsText,
  curveFigure,
  type Figure,
  type FigureOptions,
  figuresOf,
  withResolution,
} from '@stillstand/output/figures';
import { exp, log } from '@stillstand/science/base';
import { create, type Font } from 'fontkit';
import { agesInDoubt, agesTogether } from '../figures/fixtures/age-depth.ts';
import { oneHole } from '../figures/fixtures/column.ts';
import { notConverged, partOfTheCoast, pointsAlone, seaLevel, withGauge } from '../figures/fixtures/curve.ts';
import { cutOff, twoHoles } from '../figures/fixtures/dates.ts';
import { boiledIn, drilledHole, justBegun } from '../figures/fixtures/drilled.ts';
import { coastThroughTime, twoLinesThroughTime } from '../figures/fixtures/environments.ts';
import { assumedPoint, measuredPoint } from '../figures/fixtures/error-budget.ts';
import { fence } from '../figures/fixtures/fence.ts';
import { leadCutOff, leadProfile } from '../figures/fixtures/lead.ts';
import {
  cliffSection,
  clusteredPoints,
  farBothEnds,
  farPoint,
  sectionOfLongNames,
  sectionOfTwentyFour,
  sixtyDates,
  twoHundredPoints,
} from '../figures/fixtures/much.ts';
import { section, tied } from '../figures/fixtures/section.ts';
import { sectioned } from '../figures/fixtures/sectioned.ts';
import { crowdedColumn, fallingSea, fortyDates, manyParts, sixtyPoints } from '../figures/fixtures/stress.ts';
import {
  type Inherited,
  inherit,
  readSvg,
  type SvgElement,
  svgSize,
  translation,
} from '../typeset/svg-tree.ts';
import { setWidth, type TypefaceName, typeface } from '../typeset/typefaces.ts';
import { setText } from '../typeset/typesetting.ts';
import { figureToPdf, figureToPng, figureToSvg } from './index.ts';
import { readPdf } from './read-pdf.ts';

const CAMPAIGNS = {
  agesInDoubt,
  agesTogether,
  assumedPoint,
  boiledIn,
  cliffSection,
  clusteredPoints,
  crowdedColumn,
  cutOff,
  drilledHole,
  fallingSea,
  farBothEnds,
  farPoint,
  fence,
  coastThroughTime,
  twoLinesThroughTime,
  fortyDates,
  justBegun,
  leadCutOff,
  leadProfile,
  manyParts,
  measuredPoint,
  notConverged,
  oneHole,
  partOfTheCoast,
  pointsAlone,
  seaLevel,
  section,
  sectionOfLongNames,
  sectionFilled: sectioned(tied, { ages_cal_bp: [3000, 6000] }),
  sectionFilledTwentyFour: sectioned(sectionOfTwentyFour),
  sectionOfTwentyFour,
  sixtyDates,
  sixtyPoints,
  twoHoles,
  twoHundredPoints,
  withGauge,
};

const everyFigure = (options: FigureOptions): [string, Figure][] =>
  Object.entries(CAMPAIGNS).flatMap(([name, results]) =>
    figuresOf(results, options).map((figure): [string, Figure] => [`${name}: ${figure.name}`, figure]),
  );

interface Measured {
  /** Least of any letter and of any line that is drawn, points. */
  type: number;
  line: number;
  /** Texts, and how far each reaches. */
  texts: { text: string; left: number; right: number }[];
}

function measured(svg: string): Measured {
  const out: Measured = { type: Infinity, line: Infinity, texts: [] };
  const visit = (element: SvgElement, from: Inherited, dx: number): void => {
    const style = inherit(from, element);
    const [x] = translation(element);
    if (element.name === 'desc' || element.name === 'clipPath') return;
    if (element.name === 'text') {
      for (const piece of setText(element, style)) {
        out.type = Math.min(out.type, piece.size);
        const left = dx + x + piece.x;
        out.texts.push({ text: piece.text, left, right: left + piece.width });
      }
      return;
    }
    if (element.name !== 'g' && element.name !== 'svg' && (style['stroke'] ?? 'none') !== 'none') {
      out.line = Math.min(out.line, Number(style['stroke-width'] ?? 1));
    }
    for (const child of element.children) if (typeof child !== 'string') visit(child, style, dx + x);
  };
  visit(readSvg(svg), {}, 0);
  return out;
}

/** What journals ask for at the printed size: common practice, no source. */
const LEAST_TYPE = 7;
const LEAST_LINE = 0.35;

for (const width_mm of [60, 90, 140, 190]) {
  test(`every figure is laid out at ${width_mm} mm, its type 7 pt and its lines 0.35 pt or more`, () => {
    for (const [name, figure] of everyFigure({ width_mm, journal: true })) {
      assert.equal(figure.width_mm, width_mm, name);
      const { width } = svgSize(readSvg(figure.svg));
      assert.ok(Math.abs(width - (width_mm * 72) / 25.4) < 0.01, `${name}: ${width} points wide`);
      assert.match(figure.svg, new RegExp(`^<svg [^>]*width="${width_mm}mm"`));
      for (const [, transform] of figure.svg.matchAll(/transform="([^"]+)"/g)) {
        assert.match(transform!, /^translate\(/, `${name} is moved, never scaled`);
      }
      const { type, line, texts } = measured(figure.svg);
      assert.ok(type >= LEAST_TYPE, `${name}: type of ${type} pt`);
      assert.ok(line >= LEAST_LINE, `${name}: line of ${line} pt`);
      const over = texts.filter(({ left, right }) => left < -0.5 || right > width + 0.5);
      assert.deepEqual(over, [], `${name}: words off the paper, ${width} points wide`);
    }
  });
}

test('a figure that leaves something out at a width says so, and the least width that holds it does', () => {
  let said = 0;
  const checked = new Set<string>();
  for (const width_mm of [60, 90, 140]) {
    for (const [name, figure] of everyFigure({ width_mm })) {
      const narrow = figure.warnings.find((warning) => warning.startsWith('Narrow: '));
      if (narrow === undefined) continue;
      said += 1;
      const least = Number(/whole from (\d+) mm wide$/.exec(narrow)?.[1]);
      assert.ok(least > width_mm, `${name}: ${narrow}`);
      if (least > 250 || checked.has(figure.name)) continue;
      checked.add(figure.name);
      const [campaign] = name.split(': ');
      const whole = figuresOf(CAMPAIGNS[campaign as keyof typeof CAMPAIGNS], { width_mm: least }).find(
        (each) => each.name === figure.name,
      )!;
      assert.ok(!whole.warnings.some((warning) => warning.startsWith('Narrow: ')), `${name} at ${least} mm`);
    }
  }
  assert.ok(said > 20, `${said}`);
});

test('a width that no figure is laid out at is refused with what was expected', () => {
  for (const width_mm of [59, 251, Number.NaN]) {
    assert.throws(() => curveFigure(seaLevel, { width_mm }), /expected 60 to 250 mm, found/);
  }
});

test('a journal’s form has no title, count or diagnostic; what warns stands first in the caption', () => {
  const plain = curveFigure(notConverged);
  const { svg, caption, warnings, height_mm } = curveFigure(notConverged, { journal: true });
  const drawing = svg.split('</desc>')[1]!;
  for (const words of ['relative sea level', 'R-hat', 'effective draws', 'points', 'Boxes are']) {
    assert.ok(plain.svg.split('</desc>')[1]!.includes(words), words);
    assert.ok(!drawing.includes(words), `“${words}” is drawn`);
  }
  assert.ok(height_mm < plain.height_mm - 20);
  assert.ok(caption.startsWith('Not converged: the hatched bands and rates are not to be used'), caption);
  for (const warning of warnings) assert.ok(caption.includes(warning), warning);
  assert.match(drawing, />\(a\) Relative sea level, m</);
  assert.match(drawing, />\(b\) Rate, mm\/yr</);
  assert.match(caption, /Relative sea level \(a\) and its rate \(b\)\./);
  // The hatching stays, and so does its word in the legend.
  assert.match(drawing, /id="curve-level-hatching"/);
  assert.match(drawing, /not converged: do not use/);
});

test('no warning of any figure vanishes from a journal’s form', () => {
  for (const [name, { caption, warnings }] of everyFigure({ journal: true, width_mm: 90 })) {
    for (const warning of warnings.filter((words) => !words.startsWith('Narrow: '))) {
      assert.ok(caption.includes(warning), `${name}: ${warning}`);
    }
    assert.doesNotMatch(caption, /Narrow: /);
  }
});

test('captions are numbered in the order of their figures, each under the name of its file', () => {
  const text = captionsText([
    { name: 'column-T1', caption: 'Column of hole T1.' },
    { name: 'curve', caption: 'Not converged: do not use. Sea level.' },
  ]);
  assert.equal(
    text,
    'column-T1\nFigure 1. Column of hole T1.\n\ncurve\nFigure 2. Not converged: do not use. Sea level.\n',
  );
});

/** CIE L* of a grey or a colour (CIE 15:2004, from memory), 0 black to 100 white. */
function lightness(colour: string): number {
  const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) => {
    const c = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : exp(2.4 * log((c + 0.055) / 1.055));
  });
  const y = 0.2126 * r + 0.7152 * g + 0.0722 * b;
  return y <= 0.008856 ? 903.3 * y : 116 * Math.cbrt(y) - 16;
}

/** Least difference of lightness between two fills of different meaning; set before the greys were chosen. */
const TOLD_APART = 5;

test('in greys any two fills of different meaning differ by 5 of lightness', () => {
  assert.ok(Math.abs(lightness('#777777') - 50.03) < 0.05, 'a known value');
  const { tints, paper, seaWash, seaWash2, leaf, rule, ink } = inksFor({ grey: true });
  const together = [Object.values(tints), [paper, seaWash, seaWash2, ink], [paper, leaf, rule, ink]];
  for (const fills of together) {
    for (const [i, a] of fills.entries()) {
      for (const b of fills.slice(i + 1)) {
        assert.ok(Math.abs(lightness(a) - lightness(b)) >= TOLD_APART, `${a} and ${b}`);
      }
    }
  }
  // In colour they differ by hue: the silt and the clay are one grey on a copier.
  const day = INKS.print.tints;
  assert.ok(Math.abs(lightness(day.silt) - lightness(day.clay)) < TOLD_APART);
});

test('a figure in greys holds no colour, and has the shapes that colour stood for', () => {
  for (const [name, { svg }] of everyFigure({ grey: true, width_mm: 140, journal: true })) {
    for (const [colour] of svg.matchAll(/#[0-9A-Fa-f]{6}/g)) {
      assert.match(colour, /^#(..)\1\1$/, `${name}: ${colour}`);
    }
  }
  const [, hung] = everyFigure({ grey: true }).find(([name]) => name === 'section: section')!;
  const inColour = figuresOf(section, {}).find(({ name }) => name === 'section')!;
  const italics = (svg: string): number => svg.split('font-style="italic"').length - 1;
  assert.ok(italics(hung.svg) > italics(inColour.svg), 'marine ages are in italics');
  assert.match(hung.caption, /marine ones in italics/);
});

test('numbers take a decimal comma and thin spaces; names and identifiers stay as they are', () => {
  const { svg, caption } = curveFigure(seaLevel, { decimals: 'comma' });
  const drawing = svg.split('</desc>')[1]!;
  assert.doesNotMatch(drawing, />[^<]*\d\.\d[^<]*</);
  assert.match(drawing, />8\u2009000</);
  assert.match(drawing, /±0,\d/);
  assert.match(drawing, /T3-\d/);
  assert.doesNotMatch(caption, /\d\.\d/);
  // Coordinates keep their points.
  assert.match(svg, / y="\d+\.\d+"/);
});

/** Chunks of a PNG as its specification has them: length, type, data, CRC over type and data. */
function chunksOf(png: Uint8Array): { type: string; data: Buffer; crc: number; sum: number }[] {
  const bytes = Buffer.from(png);
  const out = [];
  for (let at = 8; at < bytes.length; at += 12 + bytes.readUInt32BE(at)) {
    const length = bytes.readUInt32BE(at);
    out.push({
      type: bytes.toString('latin1', at + 4, at + 8),
      data: bytes.subarray(at + 8, at + 8 + length),
      crc: bytes.readUInt32BE(at + 8 + length),
      // Node's own sum is the outside check of ours.
      sum: crc32(bytes.subarray(at + 4, at + 8 + length)),
    });
  }
  return out;
}

test('a PNG has its dots and says how many: 300 are 11,811 to the metre, 600 are 23,622', () => {
  const { svg } = curveFigure(seaLevel, { width_mm: 90, journal: true });
  for (const [dots, perMetre] of [
    [300, 11_811],
    [600, 23_622],
  ] as const) {
    const png = figureToPng(svg, dots);
    const chunks = chunksOf(png);
    for (const { type, crc, sum } of chunks) assert.equal(crc, sum, type);
    assert.deepEqual(
      chunks.slice(0, 2).map(({ type }) => type),
      ['IHDR', 'pHYs'],
    );
    assert.equal(chunks[0]!.data.readUInt32BE(0), Math.round((90 * dots) / 25.4));
    const { data } = chunks[1]!;
    assert.deepEqual([data.readUInt32BE(0), data.readUInt32BE(4), data[8]], [perMetre, perMetre, 1]);
    // Said again, it is said once.
    const again = chunksOf(withResolution(png, 72));
    assert.equal(again.filter(({ type }) => type === 'pHYs').length, 1);
    assert.equal(again[1]!.data.readUInt32BE(0), 2835);
    assert.equal(again.length, chunks.length);
  }
  assert.throws(() => withResolution(new Uint8Array(40), 300), /expected its signature/);
  assert.throws(() => withResolution(figureToPng(svg, 72), 0), /expected dots to the inch above 0/);
});

/** Contours of the zero a face draws in a table of numbers. */
const contoursOfZero = (name: TypefaceName): number => {
  const { font } = typeface(name);
  return font.layout('0', { tnum: true }).glyphs[0]!.path.commands.filter((c) => c.command === 'moveTo')
    .length;
};

test('zeros are slashed on the screen and plain in a journal’s form, and every other letter is as it was', () => {
  for (const weight of [300, 400, 600] as const) {
    assert.equal(contoursOfZero(`text${weight}`), 3, 'outside and two halves');
    assert.equal(contoursOfZero(`plain${weight}`), 2, 'outside and inside');
    const [slashed, plain] = [typeface(`text${weight}`), typeface(`plain${weight}`)];
    for (let code = 0x20; code < 0x180; code++) {
      if (code === 0x30 || !slashed.font.hasGlyphForCodePoint(code)) continue;
      const [a, b] = [slashed.font.glyphForCodePoint(code), plain.font.glyphForCodePoint(code)];
      assert.equal(a.path.toSVG(), b.path.toSVG(), String.fromCodePoint(code));
    }
    assert.equal(setWidth('1,000.05', `text${weight}`, 7), setWidth('1,000.05', `plain${weight}`, 7));
    // Checksums of the tables and of the whole (OpenType 1.9): 0xB1B0AFBA in all.
    const file = Buffer.from(plain.file);
    let sum = 0;
    for (let at = 0; at + 4 <= file.length; at += 4) sum = (sum + file.readUInt32BE(at)) >>> 0;
    assert.equal(sum, 0xb1b0afba);
  }
});

test('the plain zero is in the SVG, in the PDF and in the picture', async () => {
  const plain = curveFigure(seaLevel, { width_mm: 90, journal: true });
  const alone = await figureToSvg(plain.svg);
  const families = [...alone.matchAll(/font-family:"([^"]+)";font-weight:(\d+)/g)].map((m) =>
    m.slice(1).join(' '),
  );
  assert.ok(families.includes('Atkinson Hyperlegible Next Plain Zero 400'), families.join());
  assert.ok(!families.some((family) => family.startsWith('Atkinson Hyperlegible Next 4')));
  const data = /Plain Zero";font-weight:400[^}]*base64,([^)]+)\)/.exec(alone)![1]!;
  const inSvg = create(Buffer.from(data, 'base64')) as Font;
  const zero = inSvg.layout('0', { tnum: true }).glyphs[0]!;
  assert.equal(zero.path.commands.filter((c) => c.command === 'moveTo').length, 2);

  const { faces, width, pieces } = readPdf(await figureToPdf(plain.svg));
  assert.ok(Math.abs(width - (90 * 72) / 25.4) < 0.02);
  assert.ok(pieces.every(({ size }) => size >= LEAST_TYPE));
  let zeros = 0;
  for (const { name, file, letters } of faces) {
    assert.ok(file !== null, `${name} is embedded`);
    const font = create(Buffer.from(file)) as Font;
    for (const [glyph, letter] of letters) {
      if (letter !== '0' || !name.startsWith('Atkinson')) continue;
      zeros += 1;
      const moves = font.getGlyph(glyph).path.commands.filter((c) => c.command === 'moveTo').length;
      assert.equal(moves, 2, name);
    }
  }
  assert.ok(zeros >= 2, `${zeros} faces with a zero`);

  const slashed = plain.svg.replace('Atkinson Hyperlegible Next Plain Zero', 'Atkinson Hyperlegible Next');
  assert.notDeepEqual(figureToPng(plain.svg, 72), figureToPng(slashed, 72));
});

for (const width_mm of [90, 140, 190]) {
  test(`a PDF of every figure of a hole is ${width_mm} mm wide, every face in it`, async () => {
    for (const { name, svg } of figuresOf(drilledHole, { width_mm, journal: true })) {
      const { width, faces } = readPdf(await figureToPdf(svg));
      assert.ok(Math.abs(width - (width_mm * 72) / 25.4) < 0.02, name);
      for (const face of faces) assert.ok(face.file !== null, `${name}: ${face.name}`);
    }
  });
}

/** A figure as a PDF of one page at its true size: paths as paths, text as text in embedded subsets of its fonts. */

import { concatenated } from '@stillstand/campaign/document';
import PDFDocument from 'pdfkit';
import { opaquePng } from './opaque-png.ts';
import { type Inherited, inherit, readSvg, type SvgElement, svgSize, translation } from './svg-tree.ts';
import { layout, TYPEFACE_NAMES, type Typeface, typeface } from './typefaces.ts';
import { outlines, setText } from './typesetting.ts';

type Document = InstanceType<typeof PDFDocument>;

// biome-ignore lint/plugin: a fixed moment, so that the same figure is the same file
const NO_TIME = new Date(Date.UTC(2000, 0, 1));

const number = (text: string | undefined, otherwise: number): number =>
  text === undefined ? otherwise : Number(text);

function clipShapes(element: SvgElement, into: Map<string, string>): void {
  for (const child of element.children) {
    if (typeof child === 'string') continue;
    if (child.name === 'clipPath') {
      const shape = child.children.find((c) => typeof c !== 'string');
      if (shape === undefined || shape.name !== 'path') {
        throw new RangeError('SVG clipPath: expected one path');
      }
      into.set(child.attributes['id'] ?? '', shape.attributes['d'] ?? '');
    } else clipShapes(child, into);
  }
}

/** Fills and strokes what `shape` has traced; twice traced where both are asked, as each uses the path up. */
function paint(doc: Document, style: Inherited, shape: () => void): void {
  const fill = style['fill'] ?? '#000';
  const stroke = style['stroke'] ?? 'none';
  if (fill !== 'none') {
    shape();
    doc.fillOpacity(number(style['fill-opacity'], 1)).fill(fill);
  }
  if (stroke === 'none') return;
  doc.lineWidth(number(style['stroke-width'], 1));
  doc.lineCap((style['stroke-linecap'] ?? 'butt') as 'butt' | 'round');
  doc.lineJoin((style['stroke-linejoin'] ?? 'miter') as 'miter' | 'round');
  const dash = style['stroke-dasharray'];
  if (dash === undefined) doc.undash();
  else dashed(doc, dash);
  shape();
  doc.strokeOpacity(1).stroke(stroke);
}

function dashed(doc: Document, dash: string): void {
  const [on = 1, off = on] = dash.split(/[ ,]+/).map(Number);
  doc.dash(on, { space: off });
}

/** The inside of pdfkit's embedded font that is lent our store of layouts. */
interface FontInside {
  layoutRun?: (text: string) => { glyphs: unknown[]; positions: unknown[]; advanceWidth: number };
}

/**
 * pdfkit parses a font's tables anew in every file and lays each text out twice: two thirds of the time. It is lent
 * our store of the same layouts. Where a later version has no such place, nothing is lent and nothing else changes.
 */
function setFace(doc: Document, face: Typeface, lent: Set<string>): void {
  doc.font(face.name);
  if (lent.has(face.name)) return;
  lent.add(face.name);
  const inside = (doc as unknown as { _font?: FontInside })._font;
  if (typeof inside?.layoutRun !== 'function') return;
  const k = 1000 / face.font.unitsPerEm;
  inside.layoutRun = (text) => {
    const run = layout(text, face);
    const letters = [...text];
    return {
      // A glyph that was first met as part of another (the comma of a semicolon) has forgotten its letter.
      glyphs: run.glyphs.map(({ id, advanceWidth, codePoints }, i) => ({
        id,
        advanceWidth,
        codePoints: letters.length === run.glyphs.length ? [letters[i]!.codePointAt(0)!] : codePoints,
      })),
      positions: run.positions.map((p, i) => ({
        xAdvance: p.xAdvance * k,
        yAdvance: p.yAdvance * k,
        xOffset: p.xOffset * k,
        yOffset: p.yOffset * k,
        advanceWidth: run.glyphs[i]!.advanceWidth * k,
      })),
      advanceWidth: run.advanceWidth * k,
    };
  };
}

function drawText({ doc, lent }: Sheet, element: SvgElement, style: Inherited): void {
  for (const piece of setText(element, style)) {
    const fill = piece.style['fill'] ?? '#000';
    if (element.attributes['paint-order'] === 'stroke') {
      doc.undash().lineJoin('round').lineWidth(number(element.attributes['stroke-width'], 1));
      doc
        .path(outlines(piece))
        .strokeOpacity(1)
        .stroke(element.attributes['stroke'] ?? '#fff');
    }
    setFace(doc, piece.face, lent);
    doc.fontSize(piece.size).fillColor(fill).fillOpacity(1);
    doc.text(piece.text, piece.x, piece.y, {
      baseline: 'alphabetic',
      lineBreak: false,
      features: ['tnum', 'kern'],
    });
  }
}

/** The document being written, its clip shapes by id, and the faces that have been lent a layout. */
interface Sheet {
  doc: Document;
  clips: ReadonlyMap<string, string>;
  lent: Set<string>;
}

function draw(sheet: Sheet, element: SvgElement, from: Inherited): void {
  const { doc, clips } = sheet;
  const style = inherit(from, element);
  const a = element.attributes;
  switch (element.name) {
    case 'svg':
    case 'g': {
      const [x, y] = translation(element);
      const clip = /^url\(#(.+)\)$/.exec(a['clip-path'] ?? '')?.[1];
      const apart = x !== 0 || y !== 0 || clip !== undefined;
      if (apart) doc.save();
      if (x !== 0 || y !== 0) doc.translate(x, y);
      if (clip !== undefined) doc.path(clips.get(clip) ?? '').clip();
      for (const child of element.children) if (typeof child !== 'string') draw(sheet, child, style);
      if (apart) doc.restore();
      return;
    }
    case 'path':
      paint(doc, style, () => doc.path(a['d'] ?? ''));
      return;
    case 'rect':
      paint(doc, style, () =>
        doc.rect(number(a['x'], 0), number(a['y'], 0), number(a['width'], 0), number(a['height'], 0)),
      );
      return;
    case 'circle':
      paint(doc, style, () => doc.circle(number(a['cx'], 0), number(a['cy'], 0), number(a['r'], 0)));
      return;
    case 'text':
      drawText(sheet, element, style);
      return;
    case 'image':
      doc.image(pictureIn(a['href'] ?? '') as Buffer, number(a['x'], 0), number(a['y'], 0), {
        width: number(a['width'], 0),
        height: number(a['height'], 0),
      });
      return;
    case 'clipPath':
    case 'desc':
      return;
    default:
      throw new RangeError(`SVG: no drawing for <${element.name}>`);
  }
}

/** Pictures are in the drawing itself: nothing is loaded. */
function pictureIn(href: string): Uint8Array {
  const data = /^data:image\/png;base64,(.+)$/.exec(href)?.[1];
  if (data === undefined)
    throw new RangeError(`SVG image: expected a PNG as data, found “${href.slice(0, 40)}”`);
  return opaquePng(Uint8Array.from(atob(data), (byte) => byte.charCodeAt(0)));
}

/**
 * The figure as PDF. Takes the SVG our figures write; anything else throws RangeError. The same SVG gives the same
 * bytes: the file's dates are those of 1 January 2000.
 */
export async function figureToPdf(svg: string): Promise<Uint8Array<ArrayBuffer>> {
  const root = readSvg(svg);
  const { width, height } = svgSize(root);
  const doc = new PDFDocument({
    size: [width, height],
    margin: 0,
    // None of its own: outside Node it has none, and ours are registered below.
    font: '',
    info: {
      Title: root.attributes['aria-label'] ?? 'figure',
      Producer: 'Stillstand',
      Creator: 'Stillstand',
      CreationDate: NO_TIME,
      ModDate: NO_TIME,
    },
  });
  const chunks: Uint8Array[] = [];
  const finished = new Promise<void>((resolve, reject) => {
    doc.on('data', (chunk: Uint8Array) => chunks.push(chunk));
    doc.on('end', () => resolve());
    doc.on('error', reject);
  });
  for (const name of TYPEFACE_NAMES) doc.registerFont(name, typeface(name).file as Buffer);
  const clips = new Map<string, string>();
  clipShapes(root, clips);
  draw({ doc, clips, lent: new Set() }, root, {});
  doc.end();
  await finished;
  return concatenated(chunks);
}

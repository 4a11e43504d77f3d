/** A line of text with its parts in their faces, placed: what PNG and PDF draw for an SVG `text`. */
import { type Inherited, inherit, type SvgElement } from './svg-tree.ts';
import { layout, setInFaces, setWidth, type Typeface, typefaceFor } from './typefaces.ts';

export interface SetPiece {
  text: string;
  face: Typeface;
  size: number;
  /** Baseline start, points. */
  x: number;
  y: number;
  width: number;
  style: Inherited;
}

interface Part {
  text: string;
  style: Inherited;
}

function parts(element: SvgElement, style: Inherited): Part[] {
  const out: Part[] = [];
  for (const child of element.children) {
    if (typeof child === 'string') out.push({ text: child, style });
    else if (child.name === 'tspan') out.push(...parts(child, inherit(style, child)));
    else throw new RangeError(`SVG text: expected tspan, found ${child.name}`);
  }
  return out;
}

/** Pieces of an SVG `text` from left to right; `style` is the element's own, inheritance done. */
export function setText(element: SvgElement, style: Inherited): SetPiece[] {
  const pieces: SetPiece[] = [];
  const y = Number(element.attributes['y'] ?? 0);
  let x = 0;
  for (const part of parts(element, style)) {
    const size = Number(part.style['font-size'] ?? 7);
    const wanted = typefaceFor(
      part.style['font-family'] ?? '',
      Number(part.style['font-weight'] ?? 400),
      part.style['font-style'] === 'italic',
    );
    for (const piece of setInFaces(part.text, wanted)) {
      const width = setWidth(piece.text, piece.face.name, size);
      pieces.push({ ...piece, size, x, y, width, style: part.style });
      x += width;
    }
  }
  const start = Number(element.attributes['x'] ?? 0);
  const anchor = style['text-anchor'];
  const shift = start - (anchor === 'end' ? x : anchor === 'middle' ? x / 2 : 0);
  for (const piece of pieces) piece.x += shift;
  return pieces;
}

const r3 = (x: number): number => Math.round(x * 1000) / 1000;

/** The letters' outlines as one path. */
export function outlines(piece: SetPiece): string {
  const { font } = piece.face;
  const k = piece.size / font.unitsPerEm;
  const run = layout(piece.text, piece.face);
  let x = piece.x;
  let d = '';
  for (const [i, glyph] of run.glyphs.entries()) {
    const position = run.positions[i]!;
    const left = x + position.xOffset * k;
    const base = piece.y - position.yOffset * k;
    for (const { command, args } of glyph.path.commands) {
      const point = (at: number): string => `${r3(left + args[at]! * k)} ${r3(base - args[at + 1]! * k)}`;
      if (command === 'moveTo') d += `M${point(0)}`;
      else if (command === 'lineTo') d += `L${point(0)}`;
      else if (command === 'quadraticCurveTo') d += `Q${point(0)} ${point(2)}`;
      else if (command === 'bezierCurveTo') d += `C${point(0)} ${point(2)} ${point(4)}`;
      else d += 'Z';
    }
    x += position.xAdvance * k;
  }
  return d;
}

/** A figure as a picture of dots. Text is outlined first, so that it is set as in the PDF, figures of equal width. */
import { Resvg } from '@resvg/resvg-js';
import { withResolution } from '@stillstand/output/figures';
import { type Inherited, inherit, readSvg, type SvgElement, svgSize } from './svg-tree.ts';
import { outlines, setText } from './typesetting.ts';

const POINTS_PER_INCH = 72;

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;');

const attributes = (of: Record<string, string>): string =>
  Object.entries(of)
    .map(([key, value]) => ` ${key}="${escaped(value)}"`)
    .join('');

function outlinedText(element: SvgElement, style: Inherited): string {
  let out = '';
  for (const piece of setText(element, style)) {
    const d = outlines(piece);
    const fill = piece.style['fill'] ?? '#000';
    // Halo first, letters over it.
    if (element.attributes['paint-order'] === 'stroke') {
      out += `<path d="${d}" fill="none" stroke="${element.attributes['stroke']}" stroke-width="${element.attributes['stroke-width']}" stroke-linejoin="round"/>`;
    }
    out += `<path d="${d}" fill="${fill}" stroke="none"/>`;
  }
  return out;
}

function outlined(element: SvgElement, from: Inherited): string {
  const style = inherit(from, element);
  if (element.name === 'text') return outlinedText(element, style);
  if (element.name === 'desc') return '';
  const inside = element.children
    .map((child) => (typeof child === 'string' ? escaped(child) : outlined(child, style)))
    .join('');
  return `<${element.name}${attributes(element.attributes)}>${inside}</${element.name}>`;
}

/**
 * The figure as PNG, 216 dots to the inch if not said otherwise; the file says how many.
 * Takes the SVG our figures write; anything else throws RangeError.
 */
export function figureToPng(svg: string, dots_per_inch = 216): Uint8Array {
  const root = readSvg(svg);
  const { width } = svgSize(root);
  const picture = new Resvg(outlined(root, {}), {
    fitTo: { mode: 'width', value: Math.round((width * dots_per_inch) / POINTS_PER_INCH) },
    font: { loadSystemFonts: false },
  });
  return withResolution(picture.render().asPng(), dots_per_inch);
}

/** Text as outlines, so that it is set as in the PDF, figures of equal width, whatever draws the picture. */
import { type Inherited, inherit, readSvg, type SvgElement } from './svg-tree.ts';
import { outlines, setText } from './typesetting.ts';

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

/** The figure with every text as a path; takes the SVG our figures write, anything else throws RangeError. */
export const outlinedSvg = (svg: string): string => outlined(readSvg(svg), {});

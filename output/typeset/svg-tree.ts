/**
 * Reads the SVG that our figures write: elements, attributes and text, no namespaces, styles or scripts. It is a
 * reader for our own files, not for SVG at large; what it does not know, it says.
 */

export interface SvgElement {
  name: string;
  attributes: Record<string, string>;
  children: (SvgElement | string)[];
}

const ENTITIES: Record<string, string> = {
  amp: '&',
  lt: '<',
  gt: '>',
  quot: '"',
  '#x27': "'",
  '#39': "'",
  apos: "'",
};

const unescaped = (text: string): string =>
  text.replace(/&(#?\w+);/g, (whole, name: string) => ENTITIES[name] ?? whole);

/** The root element. Throws RangeError where the text is no tree of elements. */
export function readSvg(svg: string): SvgElement {
  const root: SvgElement = { name: '', attributes: {}, children: [] };
  const open: SvgElement[] = [root];
  const token = /<(\/?)([A-Za-z][\w:-]*)((?:[^<>"]|"[^"]*")*?)(\/?)>|([^<]+)/g;
  for (const match of svg.matchAll(token)) {
    const [, closes, name = '', attributes = '', empty, text] = match;
    const parent = open.at(-1)!;
    if (text !== undefined) {
      parent.children.push(unescaped(text));
    } else if (closes === '/') {
      if (open.length === 1 || parent.name !== name) {
        throw new RangeError(`SVG: expected </${parent.name}>, found </${name}>`);
      }
      open.pop();
    } else {
      const element: SvgElement = { name, attributes: {}, children: [] };
      for (const [, key = '', value = ''] of attributes.matchAll(/([\w:-]+)="([^"]*)"/g)) {
        element.attributes[key] = unescaped(value);
      }
      parent.children.push(element);
      if (empty !== '/') open.push(element);
    }
  }
  const svgElement = root.children.find((child) => typeof child !== 'string');
  if (open.length !== 1 || svgElement === undefined || typeof svgElement === 'string') {
    throw new RangeError(`SVG: expected one whole <svg> element, found ${open.length - 1} left open`);
  }
  return svgElement;
}

/** Width and height of the drawing's own units, here points. */
export function svgSize(svg: SvgElement): { width: number; height: number } {
  const [, , width = 0, height = 0] = (svg.attributes['viewBox'] ?? '').split(' ').map(Number);
  if (!(width > 0 && height > 0)) {
    throw new RangeError(
      `SVG: expected viewBox="0 0 WIDTH HEIGHT", found “${svg.attributes['viewBox'] ?? ''}”`,
    );
  }
  return { width, height };
}

/** What an element has from itself or from those around it. */
export type Inherited = Readonly<Record<string, string>>;

const INHERITED = new Set([
  'fill',
  'fill-opacity',
  'stroke',
  'stroke-width',
  'stroke-linecap',
  'stroke-linejoin',
  'stroke-dasharray',
  'font-family',
  'font-size',
  'font-weight',
  'font-style',
  'text-anchor',
]);

export function inherit(from: Inherited, element: SvgElement): Inherited {
  const out: Record<string, string> = { ...from };
  for (const [key, value] of Object.entries(element.attributes)) if (INHERITED.has(key)) out[key] = value;
  return out;
}

/** `translate(x y)`, the only transform our figures use; 0, 0 where there is none. */
export function translation(element: SvgElement): [number, number] {
  const transform = element.attributes['transform'];
  if (transform === undefined) return [0, 0];
  const match = /^translate\((-?[\d.]+)[ ,](-?[\d.]+)\)$/.exec(transform);
  if (match === null) throw new RangeError(`SVG: expected translate(x y), found “${transform}”`);
  return [Number(match[1]), Number(match[2])];
}

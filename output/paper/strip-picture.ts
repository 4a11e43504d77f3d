/** A strip of a photograph as a small PNG, cut and straightened by the renderer of SVG. */
import { Resvg } from '@resvg/resvg-js';
import type { PhotographResult } from '@stillstand/campaign/results';
import {
  matrixText,
  type PictureFile,
  type PictureSize,
  readPictureFile,
  type StripPicture,
  type StripPlan,
  stripPlan,
  toUpright,
  uprightSize,
} from '@stillstand/output/photographs';

/** Of a JPEG or PNG, for a figure of a column `bottom_m` deep, or why there is none. Never throws. */
export function stripOfPhotograph(
  photograph: PhotographResult,
  bytes: Uint8Array,
  bottom_m: number,
): StripPicture {
  const file = readPictureFile(bytes);
  if (typeof file === 'string') return { fault: file };
  const plan = stripPlan(photograph, uprightSize(file), bottom_m);
  if (typeof plan === 'string') return { fault: plan };
  const straight = straightCore(plan, file, bytes);
  // What cannot be decoded is left out of the drawing without a word.
  if (straight === null) return { fault: 'broken' };
  return { url: smaller(inTheGround(straight, plan), plan) };
}

const url = (bytes: Uint8Array, type: string): string =>
  `data:${type};base64,${Buffer.from(bytes.buffer, bytes.byteOffset, bytes.length).toString('base64')}`;

const render = ({ width_px, height_px }: PictureSize, inside: string) =>
  new Resvg(
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width_px}" height="${height_px}">${inside}</svg>`,
    { font: { loadSystemFonts: false } },
  ).render();

function straightCore({ large, matrix }: StripPlan, file: PictureFile, bytes: Uint8Array): string | null {
  const { width_px, height_px, type } = file;
  const drawing = render(
    large,
    `<image href="${url(bytes, type)}" width="${width_px}" height="${height_px}" transform="${matrixText(matrix)} ${matrixText(toUpright(file))}"/>`,
  );
  const { pixels } = drawing;
  for (let alpha = 3; alpha < pixels.length; alpha += 4)
    if (pixels[alpha] !== 0) return url(drawing.asPng(), 'image/png');
  return null;
}

function inTheGround(straight: string, { large, slices }: StripPlan): string {
  const drawn = slices.map(({ from, to }, i) => {
    const k = (to.bottom - to.top) / (from.bottom - from.top);
    const clip = `M0 ${to.top}H${large.width_px}V${to.bottom}H0Z`;
    return `<clipPath id="s${i}"><path d="${clip}"/></clipPath><g clip-path="url(#s${i})"><use href="#core" transform="translate(0 ${to.top - from.top * k}) scale(1 ${k})"/></g>`;
  });
  // Once for all slices: a large picture would be written as often as there are.
  const core = `<defs><g id="core">${image(straight, large)}</g></defs>`;
  return url(render(large, core + drawn.join('')).asPng(), 'image/png');
}

const image = (href: string, { width_px, height_px }: PictureSize): string =>
  `<image href="${href}" width="${width_px}" height="${height_px}" preserveAspectRatio="none"/>`;

/** Halved step by step, so that every pixel of the large one counts. */
function smaller(from: string, { large, halvings }: StripPlan): string {
  let [href, size] = [from, large];
  for (let n = 0; n < Math.max(halvings.across, halvings.along); n++) {
    size = {
      width_px: n < halvings.across ? size.width_px / 2 : size.width_px,
      height_px: n < halvings.along ? size.height_px / 2 : size.height_px,
    };
    href = url(render(size, image(href, size)).asPng(), 'image/png');
  }
  return href;
}

/** The same strip in shades of grey: luminance alone (SVG 1.1, feColorMatrix saturate 0, in sRGB). */
export function stripInGreys(picture: StripPicture): StripPicture {
  if ('fault' in picture) return picture;
  const size = sizeOfPng(picture.url);
  const drawing = render(
    size,
    `<filter id="grey" x="0" y="0" width="1" height="1" color-interpolation-filters="sRGB"><feColorMatrix type="saturate" values="0"/></filter><g filter="url(#grey)">${image(picture.url, size)}</g>`,
  );
  return { url: url(drawing.asPng(), 'image/png') };
}

function sizeOfPng(href: string): PictureSize {
  const file = readPictureFile(Buffer.from(href.slice(href.indexOf(',') + 1), 'base64'));
  if (typeof file === 'string') throw new RangeError(`strip of a photograph: expected a PNG, found ${file}`);
  return file;
}

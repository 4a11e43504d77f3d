/**
 * A PNG laid on white, without transparency, as a PDF takes it byte for byte. (The writer of the PDF would part colour
 * from transparency in a worker of its own making, which a page that trusts its own files alone does not start.)
 */

import { concatenated } from '@stillstand/campaign/document';
import { pngChunk } from '@stillstand/output/figures';
import { unzlibSync, zlibSync } from 'fflate';

const SIGNATURE = 8;
const RGB = 2;
const RGBA = 6;

/**
 * 8-bit RGBA without interlacing comes back as RGB on white; what is RGB already, as it is. RangeError for any other
 * kind (PNG 3rd edition, 11.2.1).
 */
export function opaquePng(png: Uint8Array): Uint8Array {
  const view = new DataView(png.buffer, png.byteOffset, png.length);
  const data: Uint8Array[] = [];
  for (let at = SIGNATURE; at + 12 <= png.length; at += 12 + view.getUint32(at))
    if (String.fromCharCode(...png.subarray(at + 4, at + 8)) === 'IDAT')
      data.push(png.subarray(at + 8, at + 8 + view.getUint32(at)));
  const [width, height] = [view.getUint32(16), view.getUint32(20)];
  const [bits, colours, , , interlaced] = png.subarray(24, 29);
  if (colours === RGB) return png;
  if (bits !== 8 || colours !== RGBA || interlaced !== 0)
    throw new RangeError(
      `PNG: expected 8-bit RGBA, found ${bits} bits, colour type ${colours}, interlace ${interlaced}`,
    );
  const rows = unfiltered(unzlibSync(concatenated(data)), width * 4, height);
  // Each row begins with its filter: none.
  const out = new Uint8Array(height * (1 + 3 * width));
  for (let pixel = 0; pixel < width * height; pixel++) {
    const to = 1 + 3 * pixel + Math.floor(pixel / width);
    const alpha = rows[4 * pixel + 3]!;
    for (let i = 0; i < 3; i++)
      out[to + i] = Math.round((rows[4 * pixel + i]! * alpha + 255 * (255 - alpha)) / 255);
  }
  const head = png.slice(SIGNATURE + 8, SIGNATURE + 21);
  head[9] = RGB;
  return concatenated([
    png.subarray(0, SIGNATURE),
    pngChunk('IHDR', head),
    pngChunk('IDAT', zlibSync(out)),
    pngChunk('IEND', new Uint8Array(0)),
  ]);
}

/** Pixels of 4 bytes from the filters None, Sub, Up, Average and Paeth (PNG 3rd edition, 9.2). */
function unfiltered(from: Uint8Array, stride: number, height: number): Uint8Array {
  const out = new Uint8Array(stride * height);
  for (let y = 0; y < height; y++) {
    const filter = from[y * (stride + 1)]!;
    for (let x = 0; x < stride; x++) {
      const at = y * stride + x;
      const left = x >= 4 ? out[at - 4]! : 0;
      const up = y > 0 ? out[at - stride]! : 0;
      const corner = x >= 4 && y > 0 ? out[at - stride - 4]! : 0;
      out[at] = from[at + y + 1]! + predicted(filter, left, up, corner);
    }
  }
  return out;
}

function predicted(filter: number, left: number, up: number, corner: number): number {
  switch (filter) {
    case 1:
      return left;
    case 2:
      return up;
    case 3:
      return Math.floor((left + up) / 2);
    case 4: {
      const [a, b, c] = [Math.abs(up - corner), Math.abs(left - corner), Math.abs(left + up - 2 * corner)];
      return a <= b && a <= c ? left : b <= c ? up : corner;
    }
    default:
      return 0;
  }
}

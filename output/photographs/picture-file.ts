/** What the first bytes of a picture say: JPEG or PNG, its size, and how it must be turned to be upright. */
import type { Matrix, PictureSize } from './strip.ts';

/** As it is stored; `orientation` as EXIF 2.3 has it (tag 0112), 1 where nothing is said. */
export interface PictureFile extends PictureSize {
  type: 'image/jpeg' | 'image/png';
  orientation: number;
}

/** Why a picture cannot be drawn. */
export type PictureFault = 'missing' | 'heic' | 'not-a-picture' | 'too-large' | 'broken' | 'off-picture';

/** Of a file and of a picture; four bytes a pixel are held while it is drawn (common practice, no source). */
export const MOST_PICTURE = { bytes: 60_000_000, px: 120_000_000 } as const;

export function readPictureFile(bytes: Uint8Array): PictureFile | PictureFault {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  const found = startsWith(bytes, 0, '\xff\xd8\xff')
    ? readJpeg(view, bytes)
    : startsWith(bytes, 0, '\x89PNG\r\n\x1a\n')
      ? readPng(view)
      : isHeic(bytes)
        ? 'heic'
        : 'not-a-picture';
  if (typeof found === 'string') return found;
  if (found.width_px === 0 || found.height_px === 0) return 'broken';
  const isLarge = bytes.length > MOST_PICTURE.bytes || found.width_px * found.height_px > MOST_PICTURE.px;
  return isLarge ? 'too-large' : found;
}

const startsWith = (bytes: Uint8Array, at: number, text: string): boolean =>
  bytes.length >= at + text.length && [...text].every((letter, i) => bytes[at + i] === letter.charCodeAt(0));

/** The brand of an ISO base media file (ISO/IEC 14496-12, `ftyp`) that is a picture. */
const isHeic = (bytes: Uint8Array): boolean =>
  startsWith(bytes, 4, 'ftyp') &&
  ['heic', 'heix', 'heim', 'heis', 'hevc', 'mif1', 'msf1', 'avif'].some((brand) =>
    startsWith(bytes, 8, brand),
  );

/** IHDR is the first chunk (PNG 3rd edition, 11.2.1). */
function readPng(view: DataView): PictureFile | 'broken' {
  if (view.byteLength < 33) return 'broken';
  return { type: 'image/png', width_px: view.getUint32(16), height_px: view.getUint32(20), orientation: 1 };
}

/** Segments up to the frame header, which has the size (ITU-T T.81, annex B). */
function readJpeg(view: DataView, bytes: Uint8Array): PictureFile | 'broken' {
  let orientation = 1;
  for (let at = 2; at + 9 < view.byteLength; ) {
    if (view.getUint8(at) !== 0xff) return 'broken';
    const marker = view.getUint8(at + 1);
    // A marker may be filled up with FF; those without a length are RST, SOI and TEM.
    if (marker === 0xff) at += 1;
    else if (marker === 0x01 || (marker >= 0xd0 && marker <= 0xd8)) at += 2;
    else {
      const length = view.getUint16(at + 2);
      if (length < 2) return 'broken';
      if (isFrame(marker)) {
        const [height_px, width_px] = [view.getUint16(at + 5), view.getUint16(at + 7)];
        return { type: 'image/jpeg', width_px, height_px, orientation };
      }
      if (marker === 0xe1 && startsWith(bytes, at + 4, 'Exif\0\0')) {
        const end = Math.min(bytes.length, at + 2 + length);
        orientation = orientationOf(
          new DataView(view.buffer, view.byteOffset + at + 10, Math.max(0, end - at - 10)),
        );
      }
      at += 2 + length;
    }
  }
  return 'broken';
}

/** SOF0 to SOF15 without the tables DHT, JPG and DAC among them. */
const isFrame = (marker: number): boolean =>
  marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;

/** Tag 0112 of the first directory of a TIFF header (EXIF 2.3, 4.5 and 4.6.4); 1 for whatever is no such thing. */
function orientationOf(tiff: DataView): number {
  if (tiff.byteLength < 14) return 1;
  const isLittle = tiff.getUint16(0) === 0x4949;
  const first = tiff.getUint32(4, isLittle);
  if (first + 2 > tiff.byteLength) return 1;
  const entries = tiff.getUint16(first, isLittle);
  for (let at = first + 2; at + 12 <= tiff.byteLength && at < first + 2 + 12 * entries; at += 12) {
    if (tiff.getUint16(at, isLittle) !== 0x0112) continue;
    const value = tiff.getUint16(at + 8, isLittle);
    return value >= 1 && value <= 8 ? value : 1;
  }
  return 1;
}

/** The size as it is seen: 5 to 8 are turned on their side. */
export const uprightSize = ({ width_px, height_px, orientation }: PictureFile): PictureSize =>
  orientation >= 5 ? { width_px: height_px, height_px: width_px } : { width_px, height_px };

/** From the stored pixels to the upright picture. What the eight mean: EXIF 2.3, 4.6.4, orientation. */
export function toUpright({ width_px: w, height_px: h, orientation }: PictureFile): Matrix {
  switch (orientation) {
    case 2:
      return { a: -1, b: 0, c: 0, d: 1, e: w, f: 0 };
    case 3:
      return { a: -1, b: 0, c: 0, d: -1, e: w, f: h };
    case 4:
      return { a: 1, b: 0, c: 0, d: -1, e: 0, f: h };
    case 5:
      return { a: 0, b: 1, c: 1, d: 0, e: 0, f: 0 };
    case 6:
      return { a: 0, b: 1, c: -1, d: 0, e: h, f: 0 };
    case 7:
      return { a: 0, b: -1, c: -1, d: 0, e: h, f: w };
    case 8:
      return { a: 0, b: -1, c: 1, d: 0, e: 0, f: w };
    default:
      return { a: 1, b: 0, c: 0, d: 1, e: 0, f: 0 };
  }
}

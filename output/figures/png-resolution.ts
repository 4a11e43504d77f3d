/** The resolution of a PNG, written in the file, so that a picture is placed at the size it was laid out for. */

const SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a] as const;
/** Signature and IHDR, which is always first and always so long (PNG 3rd edition, 5.6 and 11.2.1). */
const HEAD = 8 + 12 + 13;
const M_PER_INCH = 0.0254;

/** CRC-32 of PNG (polynomial EDB88320 reflected; PNG 3rd edition, annex D), bit by bit: chunks are small. */
function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return (crc ^ 0xffffffff) >>> 0;
}

/**
 * The same picture with its resolution as a pHYs chunk, in whole dots to the metre (300 to the inch is 11,811). One that
 * it had is replaced. RangeError for bytes that are no PNG and for a resolution that is none.
 */
export function withResolution(png: Uint8Array, dots_per_inch: number): Uint8Array<ArrayBuffer> {
  if (png.length < HEAD || SIGNATURE.some((byte, i) => png[i] !== byte)) {
    throw new RangeError(`PNG: expected its signature, found ${[...png.subarray(0, 4)].join(' ')}`);
  }
  const perMetre = Math.round(dots_per_inch / M_PER_INCH);
  if (!(perMetre > 0 && perMetre < 0x80000000)) {
    throw new RangeError(`PNG: expected dots to the inch above 0, found ${dots_per_inch}`);
  }
  const rest = withoutResolution(png.subarray(HEAD));
  const data = new Uint8Array(9);
  const view = new DataView(data.buffer);
  view.setUint32(0, perMetre);
  view.setUint32(4, perMetre);
  // The unit: 1 is the metre.
  view.setUint8(8, 1);
  const chunk = pngChunk('pHYs', data);
  const out = new Uint8Array(HEAD + chunk.length + rest.length);
  out.set(png.subarray(0, HEAD));
  out.set(chunk, HEAD);
  out.set(rest, HEAD + chunk.length);
  return out;
}

/** Length, name of four letters, data and checksum (PNG 3rd edition, 5.3). */
export function pngChunk(name: string, data: Uint8Array): Uint8Array {
  const out = new Uint8Array(12 + data.length);
  const view = new DataView(out.buffer);
  view.setUint32(0, data.length);
  for (const [i, letter] of [...name].entries()) out[4 + i] = letter.charCodeAt(0);
  out.set(data, 8);
  view.setUint32(8 + data.length, crc32(out.subarray(4, 8 + data.length)));
  return out;
}

/** Chunks after IHDR, without a pHYs among them. */
function withoutResolution(chunks: Uint8Array): Uint8Array {
  const view = new DataView(chunks.buffer, chunks.byteOffset, chunks.length);
  for (let at = 0; at + 12 <= chunks.length; at += 12 + view.getUint32(at)) {
    if (String.fromCharCode(...chunks.subarray(at + 4, at + 8)) !== 'pHYs') continue;
    const end = at + 12 + view.getUint32(at);
    const out = new Uint8Array(chunks.length - (end - at));
    out.set(chunks.subarray(0, at));
    out.set(chunks.subarray(end), at);
    return out;
  }
  return chunks;
}

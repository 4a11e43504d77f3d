/**
 * A screenshot as a PNG of at most 256 colours, which is a third of its size: pages are paper, ink and few tints. PNG
 * (ISO/IEC 15948) of 8 bits a channel, not interlaced, as Chromium writes it.
 */
import { crc32, deflateSync, inflateSync } from 'node:zlib';

const SIGNATURE = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);

export function smallPng(png: Buffer): Buffer {
  const { width, height, channels, pixels } = read(png);
  const counts = new Map<number, number>();
  const colours = new Uint32Array(width * height);
  for (let i = 0; i < colours.length; i++) {
    const at = i * channels;
    const colour = (pixels[at]! << 16) | (pixels[at + 1]! << 8) | pixels[at + 2]!;
    colours[i] = colour;
    counts.set(colour, (counts.get(colour) ?? 0) + 1);
  }
  const palette = [...counts]
    .sort((a, b) => b[1] - a[1])
    .slice(0, 256)
    .map(([colour]) => colour);
  const nearest = new Map(palette.map((colour, i) => [colour, i]));
  for (const colour of counts.keys()) {
    if (!nearest.has(colour)) nearest.set(colour, nearestOf(colour, palette));
  }
  const rows = Buffer.alloc(height * (width + 1));
  for (let y = 0; y < height; y++) {
    for (let x = 0; x < width; x++) rows[y * (width + 1) + 1 + x] = nearest.get(colours[y * width + x]!)!;
  }
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  // 8 bits, by palette.
  head.set([8, 3, 0, 0, 0], 8);
  return Buffer.concat([
    SIGNATURE,
    chunk('IHDR', head),
    chunk('PLTE', Buffer.from(palette.flatMap((c) => [c >> 16, (c >> 8) & 255, c & 255]))),
    chunk('IDAT', deflateSync(rows, { level: 9 })),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

function read(png: Buffer): { width: number; height: number; channels: number; pixels: Buffer } {
  const data: Buffer[] = [];
  for (let at = 8; at < png.length; ) {
    const length = png.readUInt32BE(at);
    if (png.toString('latin1', at + 4, at + 8) === 'IDAT') data.push(png.subarray(at + 8, at + 8 + length));
    at += length + 12;
  }
  const [width, height, kind] = [png.readUInt32BE(16), png.readUInt32BE(20), png[25]];
  if (png[24] !== 8 || (kind !== 2 && kind !== 6) || png[28] !== 0)
    throw new RangeError(`a PNG of 8 bits, RGB or RGBA, not interlaced, was expected; came kind ${kind}`);
  const channels = kind === 6 ? 4 : 3;
  const raw = inflateSync(Buffer.concat(data));
  const stride = width * channels;
  const pixels = Buffer.alloc(height * stride);
  for (let y = 0; y < height; y++) {
    const filter = raw[y * (stride + 1)]!;
    for (let x = 0; x < stride; x++) {
      const left = x < channels ? 0 : pixels[y * stride + x - channels]!;
      const up = y === 0 ? 0 : pixels[(y - 1) * stride + x]!;
      const corner = y === 0 || x < channels ? 0 : pixels[(y - 1) * stride + x - channels]!;
      const before = [0, left, up, (left + up) >> 1, paeth(left, up, corner)][filter]!;
      pixels[y * stride + x] = raw[y * (stride + 1) + 1 + x]! + before;
    }
  }
  return { width, height, channels, pixels };
}

function paeth(left: number, up: number, corner: number): number {
  const to = left + up - corner;
  const [a, b, c] = [Math.abs(to - left), Math.abs(to - up), Math.abs(to - corner)];
  return a <= b && a <= c ? left : b <= c ? up : corner;
}

function nearestOf(colour: number, palette: readonly number[]): number {
  let best = 0;
  let least = Number.POSITIVE_INFINITY;
  for (const [i, other] of palette.entries()) {
    const far = [16, 8, 0].reduce(
      (sum, by) => sum + (((colour >> by) & 255) - ((other >> by) & 255)) ** 2,
      0,
    );
    if (far < least) {
      least = far;
      best = i;
    }
  }
  return best;
}

function chunk(name: string, data: Buffer): Buffer {
  const body = Buffer.concat([Buffer.from(name, 'latin1'), data]);
  const out = Buffer.alloc(body.length + 8);
  out.writeUInt32BE(data.length, 0);
  out.set(body, 4);
  out.writeUInt32BE(crc32(body), body.length + 4);
  return out;
}

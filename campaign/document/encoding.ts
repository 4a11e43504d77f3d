/**
 * Bytes to text: UTF-8, UTF-16 (with a byte-order mark, or told by its zero bytes), else Windows-1252, which western
 * spreadsheets still write. Bytes that are no text at all are refused.
 */

export type Decoded =
  | { text: string; encoding: 'utf-8' | 'utf-16le' | 'utf-16be' | 'windows-1252'; bom: boolean }
  | { text: null; reason: string };

/** At most one character in so many may be a control character, or it is no text. */
const TEXT_PER_CONTROL = 1000;

/** Decodes the bytes of a table. Never throws. */
export function decode(bytes: Uint8Array): Decoded {
  if (bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf) return eightBit(bytes.subarray(3), true);
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return sixteenBit(bytes.subarray(2), 'utf-16le', true);
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return sixteenBit(bytes.subarray(2), 'utf-16be', true);
  if (bytes.length >= 4) {
    const [a, b, c, d] = bytes as unknown as [number, number, number, number];
    if (a !== 0 && b === 0 && c !== 0 && d === 0) return sixteenBit(bytes, 'utf-16le', false);
    if (a === 0 && b !== 0 && c === 0 && d !== 0) return sixteenBit(bytes, 'utf-16be', false);
  }
  return eightBit(bytes, false);
}

function eightBit(bytes: Uint8Array, bom: boolean): Decoded {
  let controls = 0;
  for (let i = 0; i < bytes.length; i++) {
    const byte = bytes[i]!;
    if (byte === 0) return { text: null, reason: 'it has zero bytes' };
    if (isControl(byte)) controls++;
  }
  if (controls * TEXT_PER_CONTROL > bytes.length && controls > 1) {
    return { text: null, reason: `${controls} of its ${bytes.length} bytes are control characters` };
  }
  try {
    return {
      text: new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes),
      encoding: 'utf-8',
      bom,
    };
  } catch {
    const undefinedBytes = bytes.reduce((count, byte) => count + (WINDOWS_1252_HOLES.has(byte) ? 1 : 0), 0);
    if (undefinedBytes > 0) return { text: null, reason: 'its bytes are neither UTF-8 nor Windows-1252' };
    return { text: windows1252(bytes), encoding: 'windows-1252', bom };
  }
}

function sixteenBit(bytes: Uint8Array, encoding: 'utf-16le' | 'utf-16be', bom: boolean): Decoded {
  if (bytes.length % 2 !== 0) return { text: null, reason: 'it is UTF-16 with half a character at its end' };
  let text: string;
  try {
    text = new TextDecoder(encoding, { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return { text: null, reason: 'it begins like UTF-16 but is not' };
  }
  let controls = 0;
  for (let i = 0; i < text.length; i++) if (isControl(text.charCodeAt(i))) controls++;
  if (controls * TEXT_PER_CONTROL > text.length && controls > 1) {
    return { text: null, reason: `${controls} of its ${text.length} characters are control characters` };
  }
  return { text, encoding, bom };
}

/** Control characters other than tab, line feed, vertical tab, form feed, carriage return and an old end-of-file mark. */
const isControl = (code: number): boolean =>
  code < 9 || (code > 13 && code < 32 && code !== 26) || code === 127;

/** Bytes that mean nothing in Windows-1252. */
const WINDOWS_1252_HOLES: ReadonlySet<number> = new Set([0x81, 0x8d, 0x8f, 0x90, 0x9d]);

/** Windows-1252 0x80–0x9f (Unicode Consortium, CP1252.TXT); above and below it is Latin-1. */
const WINDOWS_1252_80 = '€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ';

function windows1252(bytes: Uint8Array): string {
  const parts: string[] = [];
  const codes = new Uint16Array(8192);
  for (let from = 0; from < bytes.length; from += codes.length) {
    const part = bytes.subarray(from, from + codes.length);
    for (let i = 0; i < part.length; i++) {
      const byte = part[i]!;
      codes[i] = byte >= 0x80 && byte <= 0x9f ? WINDOWS_1252_80.charCodeAt(byte - 0x80) : byte;
    }
    parts.push(String.fromCharCode(...codes.subarray(0, part.length)));
  }
  return parts.join('');
}

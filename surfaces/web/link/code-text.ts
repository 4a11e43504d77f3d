/**
 * Bytes as text that a QR code holds in its smallest kind (ISO/IEC 18004, alphanumeric) and a hand can type: base32
 * (RFC 4648, 6) in groups, with a sum that finds a slip of the hand.
 */

const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ234567';
/** What the text of our codes begins with. */
const PREFIX = 'SL';
const GROUP = 5;

/** "SL-ABCDE-FGHIJ-…" */
export function codeText(bytes: Uint8Array): string {
  const checked = new Uint8Array([...bytes, ...sumOf(bytes)]);
  let letters = '';
  let held = 0;
  let bits = 0;
  for (const byte of checked) {
    held = (held << 8) | byte;
    bits += 8;
    while (bits >= 5) {
      bits -= 5;
      letters += LETTERS[(held >> bits) & 31]!;
    }
    held &= (1 << bits) - 1;
  }
  if (bits > 0) letters += LETTERS[(held << (5 - bits)) & 31]!;
  return [PREFIX, ...(letters.match(new RegExp(`.{1,${GROUP}}`, 'g')) ?? [])].join('-');
}

/** The bytes again, whatever blanks, dashes and small letters a hand put in; null for anything else. */
export function codeBytes(text: string): Uint8Array | null {
  const plain = text.toUpperCase().replace(/[\s-]/g, '');
  if (!plain.startsWith(PREFIX)) return null;
  const bytes: number[] = [];
  let held = 0;
  let bits = 0;
  for (const letter of plain.slice(PREFIX.length)) {
    // A digit that is not in use, for the letter it looks like.
    const value = LETTERS.indexOf(letter === '0' ? 'O' : letter === '1' ? 'I' : letter);
    if (value < 0) return null;
    held = (held << 5) | value;
    bits += 5;
    if (bits >= 8) {
      bits -= 8;
      bytes.push((held >> bits) & 255);
      held &= (1 << bits) - 1;
    }
  }
  const content = new Uint8Array(bytes.slice(0, -2));
  const [high, low] = sumOf(content);
  return bytes.length > 2 && bytes.at(-2) === high && bytes.at(-1) === low ? content : null;
}

/** CRC-16/XMODEM (polynomial 0x1021, from 0): finds every slip of one letter and every swap of two neighbours. */
export function sumOf(bytes: Uint8Array): [high: number, low: number] {
  let sum = 0;
  for (const byte of bytes) {
    sum ^= byte << 8;
    for (let i = 0; i < 8; i++) sum = sum & 0x8000 ? ((sum << 1) ^ 0x1021) & 0xffff : (sum << 1) & 0xffff;
  }
  return [sum >> 8, sum & 255];
}

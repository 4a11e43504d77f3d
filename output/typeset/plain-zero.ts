/**
 * Atkinson Hyperlegible Next without the slash through its zero. The face has no plain zero of its own, and its licence
 * (SIL Open Font License 1.1, no reserved name) allows a changed copy: of the three contours of the glyph, the outside
 * and the two halves of the inside, the halves are joined where the slash parts them. Widths stay as they are, so that
 * nothing is laid out anew.
 */

import { square } from '@stillstand/science/base';

interface Point {
  x: number;
  y: number;
  on: boolean;
}

/** Where the bytes of a table are, by its tag (OpenType 1.9, "Organization of an OpenType font"). */
function tables(view: DataView): Map<string, { record: number; at: number; length: number }> {
  const found = new Map<string, { record: number; at: number; length: number }>();
  for (let i = 0; i < view.getUint16(4); i++) {
    const record = 12 + 16 * i;
    const tag = [0, 1, 2, 3].map((j) => String.fromCharCode(view.getUint8(record + j))).join('');
    found.set(tag, { record, at: view.getUint32(record + 8), length: view.getUint32(record + 12) });
  }
  return found;
}

const ON = 1;
const X_SHORT = 2;
const Y_SHORT = 4;
const REPEAT = 8;
const X_SAME = 16;
const Y_SAME = 32;

/** A simple glyph as contours (OpenType 1.9, "glyf"). */
function contoursOf(view: DataView, start: number): Point[][] {
  const count = view.getInt16(start);
  const ends = Array.from({ length: count }, (_, i) => view.getUint16(start + 10 + 2 * i));
  let at = start + 10 + 2 * count;
  at += 2 + view.getUint16(at);
  const flags: number[] = [];
  while (flags.length <= ends.at(-1)!) {
    const flag = view.getUint8(at++);
    const times = flag & REPEAT ? view.getUint8(at++) + 1 : 1;
    for (let i = 0; i < times; i++) flags.push(flag);
  }
  const along = (short: number, same: number): number[] => {
    let value = 0;
    return flags.map((flag) => {
      if (flag & short) value += flag & same ? view.getUint8(at++) : -view.getUint8(at++);
      else if (!(flag & same)) {
        value += view.getInt16(at);
        at += 2;
      }
      return value;
    });
  };
  const xs = along(X_SHORT, X_SAME);
  const ys = along(Y_SHORT, Y_SAME);
  const points = flags.map((flag, i) => ({ x: xs[i]!, y: ys[i]!, on: (flag & ON) !== 0 }));
  return ends.map((end, i) => points.slice(i === 0 ? 0 : ends[i - 1]! + 1, end + 1));
}

/** The contour begun after its longest straight side, which is the slash. */
function openedAtSlash(contour: readonly Point[]): Point[] {
  const length = (i: number): number => {
    const [a, b] = [contour[i]!, contour[(i + 1) % contour.length]!];
    return a.on && b.on ? square(a.x - b.x) + square(a.y - b.y) : 0;
  };
  const slash = contour.reduce((best, _, i) => (length(i) > length(best) ? i : best), 0);
  return [...contour.slice(slash + 1), ...contour.slice(0, slash + 1)];
}

/** Written plainly: no repeated flags, every coordinate in two bytes unless it stays. */
function written(contours: readonly (readonly Point[])[], box: Uint8Array): Uint8Array {
  const points = contours.flat();
  const bytes: number[] = [];
  const word = (value: number): void => void bytes.push((value >> 8) & 255, value & 255);
  word(contours.length);
  bytes.push(...box);
  for (const [i] of contours.entries()) word(contours.slice(0, i + 1).flat().length - 1);
  word(0);
  const steps = (of: 'x' | 'y'): number[] => points.map((p, i) => p[of] - (i === 0 ? 0 : points[i - 1]![of]));
  const [dx, dy] = [steps('x'), steps('y')];
  const flag = (step: number, short: number, same: number): number =>
    step === 0 ? same : Math.abs(step) < 256 ? short | (step > 0 ? same : 0) : 0;
  const flags = points.map(
    (p, i) => (p.on ? ON : 0) | flag(dx[i]!, X_SHORT, X_SAME) | flag(dy[i]!, Y_SHORT, Y_SAME),
  );
  bytes.push(...flags);
  for (const all of [dx, dy]) {
    for (const step of all) {
      if (step === 0) continue;
      if (Math.abs(step) < 256) bytes.push(Math.abs(step));
      else word(step);
    }
  }
  return Uint8Array.from(bytes);
}

/** Sum of a table's 32-bit words, the last filled up with zeros. */
function checksum(bytes: Uint8Array): number {
  let sum = 0;
  for (let i = 0; i < bytes.length; i += 4) {
    sum =
      (sum +
        (((bytes[i]! << 24) |
          ((bytes[i + 1] ?? 0) << 16) |
          ((bytes[i + 2] ?? 0) << 8) |
          (bytes[i + 3] ?? 0)) >>>
          0)) >>>
      0;
  }
  return sum;
}

/**
 * A copy of a static TrueType file of the face whose glyph `zero` is plain; those made of it (tabular, fractions) follow.
 * RangeError for a glyph that is not made as the face's is.
 */
export function withPlainZero(file: Uint8Array, zero: number): Uint8Array<ArrayBuffer> {
  const out = Uint8Array.from(file);
  const view = new DataView(out.buffer);
  const all = tables(view);
  const glyf = all.get('glyf');
  const loca = all.get('loca');
  const head = all.get('head');
  if (glyf === undefined || loca === undefined || head === undefined) {
    throw new RangeError('plain zero: expected a TrueType file');
  }
  const isLong = view.getInt16(head.at + 50) === 1;
  const place = (i: number): number =>
    isLong ? view.getUint32(loca.at + 4 * i) : 2 * view.getUint16(loca.at + 2 * i);
  const start = glyf.at + place(zero);
  const room = place(zero + 1) - place(zero);
  const [outside, ...halves] = view.getInt16(start) === 3 ? contoursOf(view, start) : [];
  if (outside === undefined) throw new RangeError(`plain zero: expected three contours in glyph ${zero}`);
  const glyph = written([outside, halves.flatMap(openedAtSlash)], out.slice(start + 2, start + 10));
  if (glyph.length > room) throw new RangeError(`plain zero: ${glyph.length} bytes, room for ${room}`);
  out.fill(0, start, start + room);
  out.set(glyph, start);
  view.setUint32(glyf.record + 4, checksum(out.subarray(glyf.at, glyf.at + glyf.length)));
  // Of the whole file, counted with itself as 0 (OpenType 1.9, "head").
  view.setUint32(head.at + 8, 0);
  view.setUint32(head.at + 8, (0xb1b0afba - checksum(out)) >>> 0);
  return out;
}

/**
 * `results.draws.bin`: a small header, then 8-byte floating-point numbers (IEEE 754), little-endian throughout.
 *
 *   byte  0  8  the letters STLDRAWS
 *         8  4  version of this layout, unsigned
 *        12  4  length of the header in bytes, a multiple of 8, unsigned
 *        16  8  seed, floating point
 *        24  8  count of numbers, floating point
 *        32  4  length of the hash of inputs in bytes, unsigned
 *        36     the hash, UTF-8, filled up with zeros
 */

import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import { type Problem, problem } from '@stillstand/campaign/problems';
import { DRAWS_FILE } from './file-shape.ts';

const MAGIC = 'STLDRAWS';
const VERSION = 1;
const FIXED_BYTES = 36;

/** What `results.json` knows the file by. */
export const drawsDigest = (bytes: Uint8Array): string => bytesToHex(sha256(bytes));

export interface DrawsFile {
  seed: number;
  inputs: string;
  numbers: Float64Array;
}

/** The runs one after another, in the order given. */
export function writeDraws(seed: number, inputs: string, runs: readonly Float64Array[]): Uint8Array {
  const hash = new TextEncoder().encode(inputs);
  const headerBytes = Math.ceil((FIXED_BYTES + hash.length) / 8) * 8;
  const count = runs.reduce((sum, run) => sum + run.length, 0);
  const bytes = new Uint8Array(headerBytes + count * 8);
  const view = new DataView(bytes.buffer);
  for (let i = 0; i < MAGIC.length; i++) view.setUint8(i, MAGIC.charCodeAt(i));
  view.setUint32(8, VERSION, true);
  view.setUint32(12, headerBytes, true);
  view.setFloat64(16, seed, true);
  view.setFloat64(24, count, true);
  view.setUint32(32, hash.length, true);
  bytes.set(hash, FIXED_BYTES);
  let at = headerBytes;
  for (const run of runs) {
    for (let i = 0; i < run.length; i++, at += 8) {
      const value = run[i]!;
      view.setFloat64(at, value, true);
      // An engine may write any of the many bit patterns of "not a number": fix one, so that bytes are the same.
      if (Number.isNaN(value)) view.setBigUint64(at, 0x7ff8000000000000n, true);
    }
  }
  return bytes;
}

/** What the file holds, or the problem that stops it from being read. Never throws. */
export function readDraws(
  bytes: Uint8Array,
): { ok: true; file: DrawsFile } | { ok: false; problem: Problem } {
  if (bytes.length < FIXED_BYTES || !startsWithMagic(bytes)) {
    return broken('not-draws', `${bytes.length} bytes`, `a file that begins with ${MAGIC}`);
  }
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const version = view.getUint32(8, true);
  if (version !== VERSION) return broken('draws-version', `version ${version}`, `version ${VERSION}`);
  const headerBytes = view.getUint32(12, true);
  const count = view.getFloat64(24, true);
  const hashBytes = view.getUint32(32, true);
  const whole =
    headerBytes % 8 === 0 &&
    headerBytes >= FIXED_BYTES + hashBytes &&
    Number.isSafeInteger(count) &&
    count >= 0 &&
    bytes.length === headerBytes + count * 8;
  if (!whole) {
    return broken(
      'draws-length',
      `${bytes.length} bytes`,
      `a header of ${headerBytes} bytes and ${count} numbers`,
    );
  }
  const numbers = new Float64Array(count);
  for (let i = 0, at = headerBytes; i < count; i++, at += 8) numbers[i] = view.getFloat64(at, true);
  const hash = bytes.subarray(FIXED_BYTES, FIXED_BYTES + hashBytes);
  return {
    ok: true,
    file: { seed: view.getFloat64(16, true), inputs: new TextDecoder().decode(hash), numbers },
  };
}

function startsWithMagic(bytes: Uint8Array): boolean {
  for (let i = 0; i < MAGIC.length; i++) if (bytes[i] !== MAGIC.charCodeAt(i)) return false;
  return true;
}

function broken(code: string, found: string, expected: string): { ok: false; problem: Problem } {
  const mend = 'Compute the campaign again, or copy results.json and this file again, together.';
  return {
    ok: false,
    problem: problem({ severity: 'error', code, table: DRAWS_FILE, found, expected, mend }),
  };
}

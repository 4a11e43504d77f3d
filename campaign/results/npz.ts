/**
 * Runs of numbers as one `.npz`: a zip of `.npy` arrays (NEP 1 of NumPy, format version 1.0), as `numpy.load` reads
 * it. 8-byte floating point, little-endian, row after row; nothing is compressed, so that an array can be found in
 * place. The same arrays give the same bytes.
 */
import { unzipSync, type Zippable, zipSync } from 'fflate';

export interface NumberArray {
  readonly shape: readonly number[];
  readonly values: Float64Array;
}

const MAGIC = [0x93, ...new TextEncoder().encode('NUMPY'), 1, 0];
const NUMBER_BYTES = 8;
/** A header with its length and the magic fills whole blocks of so many bytes. */
const BLOCK = 64;
const ENDING = '.npy';

export function writeNpz(arrays: ReadonlyMap<string, NumberArray>): Uint8Array {
  const files: Zippable = {};
  for (const [name, array] of arrays) files[name + ENDING] = npyOf(array);
  // biome-ignore lint/plugin: a fixed date, where zip's time begins, is no clock
  return zipSync(files, { level: 0, mtime: new Date(1980, 0, 1) });
}

function npyOf({ shape, values }: NumberArray): Uint8Array {
  const tuple = shape.length === 1 ? `(${shape[0]},)` : `(${shape.join(', ')})`;
  const header = `{'descr': '<f8', 'fortran_order': False, 'shape': ${tuple}, }`;
  const before = MAGIC.length + 2;
  const headerBytes = Math.ceil((before + header.length + 1) / BLOCK) * BLOCK - before;
  const bytes = new Uint8Array(before + headerBytes + values.length * NUMBER_BYTES);
  bytes.set(MAGIC);
  const view = new DataView(bytes.buffer);
  view.setUint16(MAGIC.length, headerBytes, true);
  bytes.set(new TextEncoder().encode(`${header.padEnd(headerBytes - 1)}\n`), before);
  for (let i = 0, at = before + headerBytes; i < values.length; i++, at += NUMBER_BYTES) {
    const value = values[i]!;
    // "Not a number" has many bit patterns; which one an engine keeps is its own affair.
    view.setFloat64(at, Number.isNaN(value) ? Number.NaN : value, true);
  }
  return bytes;
}

/** @returns what is wrong, in words, for bytes that are no such file. Never throws. */
export function readNpz(bytes: Uint8Array): Map<string, NumberArray> | string {
  let files: Record<string, Uint8Array>;
  try {
    // What is compressed is none of ours; unpacking it could fill the memory.
    files = unzipSync(bytes, { filter: ({ compression }) => compression === 0 });
  } catch (error) {
    return error instanceof Error ? error.message : String(error);
  }
  const arrays = new Map<string, NumberArray>();
  for (const [name, file] of Object.entries(files)) {
    const array = name.endsWith(ENDING) ? readNpy(file) : null;
    if (array === null) return name;
    arrays.set(name.slice(0, -ENDING.length), array);
  }
  return arrays;
}

function readNpy(bytes: Uint8Array): NumberArray | null {
  const before = MAGIC.length + 2;
  if (bytes.length < before || MAGIC.some((byte, i) => bytes[i] !== byte)) return null;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const from = before + view.getUint16(MAGIC.length, true);
  const header = new TextDecoder().decode(bytes.subarray(before, from));
  const said = /^\{'descr': '<f8', 'fortran_order': False, 'shape': \((\d+(?:, ?\d+)*),?\), *\} *\n$/.exec(
    header,
  );
  if (said === null) return null;
  const shape = said[1]!.split(',').map(Number);
  const count = shape.reduce((product, n) => product * n, 1);
  if (bytes.length !== from + count * NUMBER_BYTES) return null;
  const values = new Float64Array(count);
  for (let i = 0, at = from; i < count; i++, at += NUMBER_BYTES) values[i] = view.getFloat64(at, true);
  return { shape, values };
}

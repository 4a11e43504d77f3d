/**
 * SHA-256 of plain data by its content: equal data, equal digest, whatever objects they stand in. What a memo is keyed
 * by, so that nothing that enters a computation can be forgotten in a list of it.
 */
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';

/**
 * 64 hexadecimal digits. Data are null, undefined, booleans, numbers (NaN is itself, −0 is not 0), strings, lists,
 * plain objects (members in any order), maps (in their order) and typed arrays. They must never be changed afterwards:
 * digests of objects are remembered.
 * @throws TypeError for anything else, a function above all: it could hide what it depends on.
 */
export function digest(value: unknown): string {
  return bytesToHex(sha256(written(value)));
}

/** Objects and runs of numbers are written as digests of their own, remembered for as long as they live. */
const remembered = new WeakMap<object, Uint8Array>();

function written(value: unknown): Uint8Array {
  if (typeof value !== 'object' || value === null) return utf8ToBytes(scalar(value));
  return digestOf(value);
}

function digestOf(value: object): Uint8Array {
  const known = remembered.get(value);
  if (known !== undefined) return known;
  const fresh = sha256(contentOf(value));
  remembered.set(value, fresh);
  return fresh;
}

function contentOf(value: object): Uint8Array {
  if (ArrayBuffer.isView(value)) return runContent(value);
  if (Array.isArray(value)) return parts('[', value);
  if (value instanceof Map) return parts('{map', [...value.entries()].flat());
  const prototype: unknown = Object.getPrototypeOf(value);
  if (prototype !== Object.prototype && prototype !== null) {
    throw new TypeError(`digest: ${value.constructor?.name ?? 'an object'}: expected plain data`);
  }
  const members = value as Record<string, unknown>;
  return parts(
    '{',
    Object.keys(members)
      .sort()
      .flatMap((name) => [name, members[name]]),
  );
}

function runContent(run: ArrayBufferView): Uint8Array {
  const name = utf8ToBytes(`${run.constructor.name} ${run.byteLength}:`);
  const bytes = new Uint8Array(name.length + run.byteLength);
  bytes.set(name);
  bytes.set(new Uint8Array(run.buffer, run.byteOffset, run.byteLength), name.length);
  return bytes;
}

/** Scalars as words, each ended; objects as their digests: no two different lists are written alike. */
function parts(kind: string, values: readonly unknown[]): Uint8Array {
  const pieces: Uint8Array[] = [];
  let words = `${kind} ${values.length};`;
  for (const value of values) {
    if (typeof value === 'object' && value !== null) {
      pieces.push(utf8ToBytes(`${words}d`), digestOf(value));
      words = '';
    } else words += scalar(value);
  }
  pieces.push(utf8ToBytes(words));
  let length = 0;
  for (const piece of pieces) length += piece.length;
  const bytes = new Uint8Array(length);
  let at = 0;
  for (const piece of pieces) {
    bytes.set(piece, at);
    at += piece.length;
  }
  return bytes;
}

function scalar(value: unknown): string {
  switch (typeof value) {
    case 'string':
      return `s${value.length}:${value};`;
    case 'number':
      return Object.is(value, -0) ? 'n-0;' : `n${value};`;
    case 'boolean':
    case 'undefined':
      return `${value};`;
    default:
      if (value === null) return 'null;';
      throw new TypeError(`digest: a ${typeof value}: expected plain data`);
  }
}

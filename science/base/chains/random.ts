/**
 * Seeded, splittable streams of random numbers: xoshiro128** (Blackman & Vigna 2021, ACM Trans. Math. Softw. 47:36),
 * period 2^128 − 1, in 32-bit arithmetic, which JavaScript does exactly and fast. A stream is named by its seed and
 * the path of names it was split by; a 128-bit hash of that name is its starting state. Splitting therefore takes
 * nothing from the parent: a stream is the same however much its parent or its siblings have drawn, and however many
 * workers share the task.
 */

import { exponentialDeviate, gammaDeviate, normalDeviate } from '../functions/deviates.ts';
import { power } from '../functions/powers.ts';

/** Of the 52 bits of a uniform draw; how many values 32 bits have. */
const STEP = power(2, -52);
const VALUES = power(2, 32);

export interface RandomStream {
  /** 0 to 2^32 − 1, whole, even. */
  bits(): number;
  /** Even on (0, 1), both ends excluded; 52 bits. */
  uniform(): number;
  /** Mean 0, sd 1. */
  normal(): number;
  /** Mean 1. */
  exponential(): number;
  /** Scale 1, mean `shape` > 0. */
  gamma(shape: number): number;
  /** 0 to below − 1, whole, even; 1 ≤ below ≤ 2^32. */
  integer(below: number): number;
  /** The stream of that name below this one; independent of what was drawn. */
  split(name: string | number): RandomStream;
  /** Its name, hashed: plain data from which `streamOf` makes the same stream from its beginning. */
  readonly key: StreamKey;
}

/** Four words of 32 bits; never all zero. */
export type StreamKey = readonly [number, number, number, number];

/** @throws RangeError where a number is not finite. */
export function randomStream(seed: number | string): RandomStream {
  return streamOf(named([0, 0, 0, 0], seed));
}

/** The stream of that key, from its beginning. */
export function streamOf(key: StreamKey): RandomStream {
  const s = Int32Array.from(key);
  const bits = (): number => {
    const s1 = s[1]!;
    const five = Math.imul(s1, 5);
    const result = Math.imul((five << 7) | (five >>> 25), 9);
    const s2 = s[2]! ^ s[0]!;
    const s3 = s[3]! ^ s1;
    s[1] = s1 ^ s2;
    s[0] = s[0]! ^ s3;
    s[2] = s2 ^ (s1 << 9);
    s[3] = (s3 << 11) | (s3 >>> 21);
    return result >>> 0;
  };
  // 26 + 26 bits and a half: exactly representable, never 0 or 1.
  const uniform = (): number => ((bits() >>> 6) * 67108864 + (bits() >>> 6) + 0.5) * STEP;
  const stream: RandomStream = {
    bits,
    uniform,
    normal: () => normalDeviate(bits, uniform),
    exponential: () => exponentialDeviate(uniform),
    gamma: (shape) => gammaDeviate(bits, uniform, shape),
    integer: (below) => integerBelow(bits, below),
    split: (name) => streamOf(named(key, name)),
    key,
  };
  return stream;
}

/** Rejects the incomplete last cycle, so that no value is favoured. */
function integerBelow(bits: () => number, below: number): number {
  if (!(Number.isInteger(below) && below >= 1 && below <= VALUES)) {
    throw new RangeError(`integer(${below}): expected a whole number from 1 to 2^32`);
  }
  const end = VALUES - (VALUES % below);
  let draw = bits();
  while (draw >= end) draw = bits();
  return draw % below;
}

const DOUBLE = new Float64Array(1);
const DOUBLE_WORDS = new Uint32Array(DOUBLE.buffer);

/** Key of the stream `name` below `parent`: each of four lanes hashes parent and name with MurmurHash3's 32-bit
 * mixing (Appleby, public domain) from its own start. A number and its decimal string name different streams. */
function named(parent: StreamKey, name: string | number): StreamKey {
  const lane = (start: number): number => {
    let h = start;
    for (const word of parent) h = absorb(h, word);
    if (typeof name === 'number') {
      if (!Number.isFinite(name))
        throw new RangeError(`random stream named ${name}: expected a finite number`);
      DOUBLE[0] = name + 0; // −0 and 0 are one name
      h = absorb(absorb(absorb(h, 1), DOUBLE_WORDS[0]!), DOUBLE_WORDS[1]!);
    } else {
      h = absorb(h, 2);
      for (let i = 0; i < name.length; i++) h = absorb(h, name.charCodeAt(i));
      h = absorb(h, name.length);
    }
    return finish(h);
  };
  // First 32 bits of the fractions of √2, √3, √5, √7.
  const key: StreamKey = [lane(0x6a09e667), lane(0xbb67ae85), lane(0x3c6ef372), lane(0xa54ff53a)];
  return key.every((word) => word === 0) ? [1, 2, 3, 4] : key;
}

function absorb(h: number, word: number): number {
  let k = Math.imul(word, 0xcc9e2d51);
  k = Math.imul((k << 15) | (k >>> 17), 0x1b873593);
  const mixed = h ^ k;
  return (Math.imul((mixed << 13) | (mixed >>> 19), 5) + 0xe6546b64) | 0;
}

function finish(h: number): number {
  let f = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  f = Math.imul(f ^ (f >>> 13), 0xc2b2ae35);
  return f ^ (f >>> 16);
}

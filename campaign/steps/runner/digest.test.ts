import assert from 'node:assert/strict';
import { createHash } from 'node:crypto';
import { test } from 'node:test';
import fc from 'fast-check';
import { digest } from './digest.ts';

const data = fc.letrec((tie) => ({
  any: fc.oneof(
    { depthSize: 'small' },
    fc.constantFrom(null, undefined, 0, -0, Number.NaN, 1, '1', '', 'a', ';', 'true', true, false),
    fc.double(),
    fc.string(),
    fc.array(tie('any'), { maxLength: 4 }),
    fc.dictionary(fc.string({ maxLength: 2 }), tie('any'), { maxKeys: 3, noNullPrototype: true }),
    fc.float64Array({ maxLength: 3 }),
    fc.float32Array({ maxLength: 3 }),
    fc.array(fc.tuple(fc.constantFrom('x', 'y'), fc.nat(3)), { maxLength: 2 }).map((pairs) => new Map(pairs)),
  ),
})).any;

const same = (a: unknown, b: unknown): boolean => {
  try {
    assert.deepStrictEqual(a, b);
    return true;
  } catch {
    return false;
  }
};

test('a copy has the same digest, other data another (seed 31)', () => {
  fc.assert(
    fc.property(data, data, (a, b) => {
      assert.equal(digest(structuredClone(a)), digest(a));
      assert.equal(digest(a) === digest(b), same(a, b));
    }),
    { seed: 31, numRuns: 5000 },
  );
});

test('neighbours do not run into each other, and the order of members does not matter', () => {
  assert.notEqual(digest(['ab', 'c']), digest(['a', 'bc']));
  assert.notEqual(digest([['a'], 'b']), digest([['a', 'b']]));
  assert.notEqual(digest({ a: [] }), digest({ a: {} }));
  assert.notEqual(digest(new Float64Array(2)), digest(new Float32Array(4)));
  assert.notEqual(digest(new Float64Array([1]).subarray(0, 0)), digest(new Float64Array([1])));
  assert.equal(digest({ a: 1, b: 2 }), digest({ b: 2, a: 1 }));
  assert.equal(digest('x'), createHash('sha256').update('s1:x;').digest('hex'));
});

test('what could hide something is refused', () => {
  for (const hidden of [() => 1, { f: () => 1 }, new Date(0), Symbol('s'), 1n, new Set([1])]) {
    assert.throws(() => digest(hidden), TypeError);
  }
});

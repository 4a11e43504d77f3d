import assert from 'node:assert/strict';
import { test } from 'node:test';
import { isDeepStrictEqual } from 'node:util';
import fc from 'fast-check';
import { firstDifference } from './first-difference.ts';

test('the first place where two values differ, as Node tells equal from other (seed 3)', () => {
  const a = { list: [{ x: 1, draws: Float64Array.of(1, 2, 3) }], of: new Map([['k', 0]]) };
  const same = { list: [{ x: 1, draws: Float64Array.of(1, 2, 3) }], of: new Map([['k', 0]]) };
  assert.equal(firstDifference(a, same), null);
  same.list[0]!.draws[2] = 3 + 2 ** -51;
  assert.equal(firstDifference(a, same), '.list[0].draws[2]: 3 and 3.0000000000000004');
  assert.equal(firstDifference({ x: 0 }, { x: -0 }), '.x: 0 and 0');
  assert.equal(firstDifference({ x: undefined }, {}), ': 1 and 0 of x');
  assert.match(firstDifference(new Map([['k', 1]]), new Map([['k', 2]])) ?? '', /k|1 and 2/);
  const value = fc.object({ withTypedArray: true, withMap: true, withSet: true, withSparseArray: false });
  fc.assert(
    fc.property(value, value, (one, other) => {
      assert.equal(
        firstDifference(one, structuredClone(one)) === null,
        isDeepStrictEqual(one, structuredClone(one)),
      );
      if (!isDeepStrictEqual(one, other)) assert.notEqual(firstDifference(one, other), null);
    }),
    { seed: 3, numRuns: 300 },
  );
});

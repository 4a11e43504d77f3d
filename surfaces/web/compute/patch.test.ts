import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import { difference, patched } from './patch.ts';

const data = fc.letrec((tie) => ({
  any: fc.oneof(
    { depthSize: 'small' },
    fc.constantFrom(null, 0, -0, Number.NaN, 1, '', 'a', true),
    fc.array(tie('any'), { maxLength: 4 }),
    fc.dictionary(fc.constantFrom('a', 'b', 'c'), tie('any'), { noNullPrototype: true }),
    fc.float64Array({ maxLength: 3 }),
    fc
      .array(fc.tuple(fc.constantFrom('x', 'y'), fc.nat(3)), { maxLength: 2 })
      .map((entries) => new Map(entries)),
  ),
})).any;

test('a difference, sent as a copy, leads from any data to any other (seed 17)', () => {
  fc.assert(
    fc.property(data, data, (before, after) => {
      const kept = structuredClone(before);
      assert.deepEqual(patched(before, structuredClone(difference(before, after))), after);
      assert.deepEqual(before, kept, 'what was there is not changed');
    }),
    { seed: 17, numRuns: 2000 },
  );
});

test('what did not change is the same object, and costs nothing to send', () => {
  const hole = { name: 'H1', states: [{ seq: 1 }, { seq: 2 }], depth: new Float64Array([1, 2]) };
  const before = {
    holes: [hole, { ...hole, name: 'H2', states: [{ seq: 1 }, { seq: 2 }] }],
    settings: new Map([['a', '1']]),
  };
  const after = structuredClone(before);
  after.holes[1]!.states.push({ seq: 3 });
  const patch = difference(before, after);
  assert.deepEqual(patch, {
    kind: 'parts',
    length: null,
    parts: [
      [
        'holes',
        {
          kind: 'parts',
          length: 2,
          parts: [
            [
              1,
              {
                kind: 'parts',
                length: null,
                parts: [
                  [
                    'states',
                    { kind: 'parts', length: 3, parts: [[2, { kind: 'whole', value: { seq: 3 } }]] },
                  ],
                ],
              },
            ],
          ],
        },
      ],
    ],
  });
  const result = patched(before, patch) as typeof before;
  assert.equal(result.holes[0], before.holes[0]);
  assert.equal(result.holes[1]!.depth, before.holes[1]!.depth);
  assert.equal(result.settings, before.settings);
  assert.deepEqual(difference(before, structuredClone(before)), { kind: 'same' });
});

import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import { offspring, probabilities } from './resampling.ts';

test('resampling: each draw gets its share of slots, up or down to the next whole; goers-on keep theirs (seed 4262)', () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: -30, max: 0, noNaN: true }), { minLength: 1, maxLength: 40 }),
      fc.double({ min: 0.001, max: 0.999, noNaN: true }),
      (logs, u) => {
        const n = logs.length;
        const share = new Float64Array(n);
        const effective = probabilities(Float64Array.from(logs), share);
        assert.ok(effective >= 1 - 1e-9 && effective <= n + 1e-9);
        const slots = new Int32Array(n);
        offspring(share, slots, new Int32Array(n), u);
        for (let j = 0; j < n; j++) {
          const children = slots.filter((s) => s === j).length;
          assert.ok(Math.abs(children - n * share[j]!) < 1 + 1e-9, `${children} for ${n * share[j]!}`);
          if (children > 0) assert.equal(slots[j], j);
        }
      },
    ),
    { seed: 4262 },
  );
});

test('weights that are all lost count as even; one that is no number counts as none', () => {
  const share = new Float64Array(3);
  assert.equal(probabilities(Float64Array.of(-Infinity, NaN, -Infinity), share), 0);
  assert.deepEqual([...share], [1 / 3, 1 / 3, 1 / 3]);
  probabilities(Float64Array.of(0, NaN, 0), share);
  assert.deepEqual([...share], [0.5, 0, 0.5]);
});

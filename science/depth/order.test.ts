import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import { quantilesOf } from './order.ts';
import { offspring, probabilities } from './resampling.ts';

test('quantiles by selection are those of the sorted draws, at p(n + 1) (seed 4261)', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: -20, max: 20 }), { minLength: 1, maxLength: 60 }), (values) => {
      const sorted = [...values].sort((a, b) => a - b);
      const shares = [0, 0.025, 0.3, 0.5, 0.975, 1];
      const expected = shares.map((p) => {
        const at = Math.max(1, Math.min(values.length, p * (values.length + 1)));
        const below = sorted[Math.floor(at) - 1]!;
        return below + (at % 1) * ((sorted[Math.floor(at)] ?? below) - below);
      });
      const found = quantilesOf(Float64Array.from(values), shares);
      found.forEach((q, i) => {
        assert.ok(Math.abs(q - expected[i]!) < 1e-9, `${shares[i]}: ${q} ${expected[i]}`);
      });
    }),
    { seed: 4261 },
  );
});

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

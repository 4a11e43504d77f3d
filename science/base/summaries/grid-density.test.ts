import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import { randomStream } from '../chains/random.ts';
import { normalDensity } from '../functions/normal.ts';
import { type GridDensity, gridMoments, highestDensitySets, sampleGrid } from './grid-density.ts';
import { highestDensityLevel } from './highest-density.ts';

const normal: GridDensity = {
  from: -10,
  step: 0.01,
  density: Float64Array.from({ length: 2001 }, (_, i) => normalDensity((-10 + i * 0.01 - 1) / 0.8)),
};

test('a normal density has its moments, its sets and its samples (seed 5)', () => {
  const m = gridMoments(normal);
  assert.ok(Math.abs(m.mean - 1) < 1e-9 && Math.abs(m.sd - 0.8) < 1e-9 && Math.abs(m.median - 1) < 1e-6);
  const [set, ...others] = highestDensitySets(normal, 0.954499736);
  assert.equal(others.length, 0);
  assert.ok(Math.abs(set!.low - (1 - 1.6)) < 0.0101 && Math.abs(set!.high - (1 + 1.6)) < 0.0101);
  const s = randomStream(5);
  const draw = sampleGrid(normal);
  let sum = 0;
  for (let i = 0; i < 10_000; i++) sum += draw(s.uniform());
  assert.ok(Math.abs(sum / 10_000 - 1) < 3.3 * 0.008);
});

test('two peaks give two sets', () => {
  const sets = highestDensitySets(
    { from: 100, step: 5, density: Float64Array.of(0, 4, 5, 1, 0, 3, 3, 0) },
    0.9,
  );
  assert.deepEqual(sets, [
    { low: 105, high: 110, probability: 9 / 16 },
    { low: 125, high: 130, probability: 6 / 16 },
  ]);
});

test('no mass: no set, no moments, no sampler', () => {
  const none = { from: 0, step: 1, density: new Float64Array(3) };
  assert.deepEqual(highestDensitySets(none, 0.95), []);
  assert.ok(Number.isNaN(gridMoments(none).mean));
  assert.throws(() => sampleGrid(none), RangeError);
});

/** The obvious twin: sort everything, add from the top. */
function levelBySorting(density: Float64Array, target: number): number {
  let sum = 0;
  for (const d of Float64Array.from(density).sort().reverse()) {
    sum += d;
    if (sum >= target) return d;
  }
  return 0;
}

test('the level found by bands is the level found by sorting (seed 42)', () => {
  const values = fc.array(
    fc.oneof(fc.integer({ min: 0, max: 5 }), fc.double({ min: 0, max: 1, noNaN: true })),
    {
      minLength: 1,
      maxLength: 300,
    },
  );
  fc.assert(
    fc.property(values, fc.double({ min: 0.01, max: 0.999, noNaN: true }), (list, mass) => {
      const density = Float64Array.from(list);
      const total = density.reduce((a, b) => a + b, 0);
      fc.pre(total > 1e-300);
      const target = mass * total;
      const got = highestDensityLevel(density, 0, density.length, target);
      const expected = levelBySorting(density, target);
      // Summing in another order may move a target that is hit to the last bit by one value.
      const share = (level: number): number => density.reduce((a, d) => (d >= level ? a + d : a), 0);
      assert.ok(
        Math.abs(got - expected) <= 1e-12 * expected ||
          Math.abs(share(Math.max(got, expected)) - target) <= 1e-12 * total,
        `${got} ${expected}`,
      );
    }),
    { seed: 42, numRuns: 500 },
  );
});

import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import { randomStream } from '../chains/random.ts';
import { median, quantileSorted, quantiles, quantilesBySelection } from './quantiles.ts';

test('type 6 of Hyndman & Fan: what numpy 2.4 gives', () => {
  // numpy.quantile([1, 2, 4, 8, 16], [0.1, 0.33, 0.6, 0.975], method='weibull')
  const found = quantiles([16, 2, 8, 1, 4], [0.1, 0.33, 0.6, 0.975]);
  [1, 1.98, 6.4, 16].forEach((expected, i) => {
    assert.ok(Math.abs(found[i]! - expected) < 1e-12, `${found[i]}, expected ${expected}`);
  });
  assert.equal(median([3, 1, 2]), 2);
  assert.equal(median([4, 1, 2, 3]), 2.5);
  assert.ok(Number.isNaN(median([])));
  assert.equal(quantileSorted(Float64Array.of(-Infinity, -Infinity, 5), 0.4), -Infinity);
});

test('95 % of what is to come lies between the outer quantiles of 100 draws, on average (seed 4263)', (t) => {
  const stream = randomStream(4263);
  const sets = 20_000;
  let within = 0;
  for (let k = 0; k < sets; k++) {
    const draws = Float64Array.from({ length: 100 }, () => stream.uniform());
    const [low, high] = quantilesBySelection(draws, [0.025, 0.975]) as [number, number];
    // Of an even law between 0 and 1 the share between is the distance.
    within += (high - low) / sets;
  }
  t.diagnostic(`${(100 * within).toFixed(3)} %`);
  // The distance has an sd of √(0.95·0.05/102); type 7 would give 0.94.
  assert.ok(Math.abs(within - 0.95) < 5 * Math.sqrt(0.000466 / sets), `${within}`);
});

test('by selection: the same numbers as by sorting, bit for bit (seed 4261)', () => {
  fc.assert(
    fc.property(
      fc.oneof(
        fc.array(fc.integer({ min: -20, max: 20 }), { minLength: 1, maxLength: 60 }),
        fc.array(fc.double({ noNaN: true, min: -1e9, max: 1e9 }), { minLength: 1, maxLength: 60 }),
      ),
      (values) => {
        const shares = [0, 0.025, 0.3, 0.5, 0.975, 1];
        const found = quantilesBySelection(Float64Array.from(values), shares);
        // −0 is 0: selection does not tell them apart.
        quantiles(values, shares).forEach((expected, i) => {
          assert.ok(found[i] === expected, `${shares[i]}: ${found[i]}, by sorting ${expected}`);
        });
      },
    ),
    { seed: 4261 },
  );
});

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { randomStream } from '@stillstand/science/base';
import { sharedLoadings } from './shared-depth-errors.ts';

const N = 20000;

/** Draws with a stated common and own sd; seed in the test's name. */
function draws(seed: number, parts: readonly { common: number; own: number }[]): Float64Array[] {
  const stream = randomStream(seed);
  const common = Float64Array.from({ length: N }, () => stream.normal());
  return parts.map((part) => common.map((c) => part.common * c + part.own * stream.normal()));
}

test('a shared error comes back from the draws of one hole, seed 7', (t) => {
  const parts = Array.from({ length: 8 }, () => ({ common: 0.05, own: 0.02 }));
  for (const { own, shared } of sharedLoadings(draws(7, parts))) {
    t.diagnostic(`shared ${shared.toFixed(4)}, own ${own.toFixed(4)}`);
    // Eight samples: their own errors leak 1/8 of their variance into the mean, at most 2 mm here.
    assert.ok(Math.abs(shared - 0.05) < 0.003, `shared ${shared}`);
    assert.ok(Math.abs(own - 0.02) < 0.005, `own ${own}`);
  }
});

test('own and shared parts make up the whole variance, seed 8', (t) => {
  const sets = draws(8, [
    { common: 0.1, own: 0.01 },
    { common: 0.0, own: 0.05 },
    { common: 0.03, own: 0.03 },
  ]);
  const totals = [0.1 ** 2 + 0.01 ** 2, 0.05 ** 2, 0.03 ** 2 + 0.03 ** 2];
  for (const [i, { own, shared }] of sharedLoadings(sets).entries()) {
    const ratio = (own ** 2 + shared ** 2) / totals[i]!;
    t.diagnostic(`own and shared over the whole variance: ${ratio.toFixed(3)}`);
    // Five errors of a variance of 20,000 draws (0.01).
    assert.ok(Math.abs(ratio - 1) < 0.05, `${ratio}`);
  }
});

test('a single sample shares nothing', () => {
  const [only] = sharedLoadings(draws(9, [{ common: 0.1, own: 0 }]));
  assert.equal(only!.shared, 0);
});

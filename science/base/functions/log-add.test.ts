import assert from 'node:assert/strict';
import { test } from 'node:test';
import { logAdd } from './log-add.ts';

test('sums by logarithms: of numbers that are written out, of nothing, and of what no number holds', () => {
  for (const [a, b] of [
    [2, 3],
    [0.5, 0.25],
    [1e-3, 4e5],
  ] as const)
    assert.ok(Math.abs(logAdd(Math.log(a), Math.log(b)) - Math.log(a + b)) < 1e-12);
  assert.equal(logAdd(-Infinity, -3), -3);
  assert.equal(logAdd(-3, -Infinity), -3);
  assert.equal(logAdd(-Infinity, -Infinity), -Infinity);
  assert.ok(Math.abs(logAdd(-5000, -5000) - (-5000 + Math.LN2)) < 1e-12);
});

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { cholesky, solveCholesky } from './algebra.ts';
import { randomStream } from './chains/random.ts';
import { mean, standardDeviation } from './summaries/summaries.ts';

test('Cholesky: the printed factor, and the solution of A·x = b (seed 3)', () => {
  // Common textbook example (from memory): L = [[2,0,0],[6,1,0],[-8,5,3]].
  const a = Float64Array.of(4, 12, -16, 12, 37, -43, -16, -43, 98);
  assert.deepEqual([...cholesky(a, 3)!], [2, 0, 0, 6, 1, 0, -8, 5, 3]);
  const n = 12;
  const s = randomStream(3);
  const root = Float64Array.from({ length: n * n }, () => s.normal());
  const b = Float64Array.from({ length: n }, () => s.normal());
  const spd = new Float64Array(n * n);
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++)
      for (let k = 0; k < n; k++)
        spd[i * n + j]! += root[i * n + k]! * root[j * n + k]! + (i === j ? 1 / n : 0);
  const x = solveCholesky(cholesky(spd, n)!, b, n);
  for (let i = 0; i < n; i++) {
    let sum = 0;
    for (let j = 0; j < n; j++) sum += spd[i * n + j]! * x[j]!;
    assert.ok(Math.abs(sum - b[i]!) < 1e-10);
  }
  assert.equal(cholesky(Float64Array.of(1, 2, 2, 1), 2), null);
});

test('mean and sd', () => {
  assert.equal(mean([1, 2, 6]), 3);
  assert.equal(standardDeviation([1e9, 1e9 + 2]), Math.SQRT2);
  assert.ok(Number.isNaN(standardDeviation([1])));
});

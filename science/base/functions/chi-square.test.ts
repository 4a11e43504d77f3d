import assert from 'node:assert/strict';
import { test } from 'node:test';
import { chiSquareUpperTail } from './chi-square.ts';

test('the 95 % points of chi-square, 1 to 10 degrees of freedom, leave 5 %', () => {
  // Abramowitz & Stegun 1964, table 26.8.
  const points = [3.841, 5.991, 7.815, 9.488, 11.07, 12.592, 14.067, 15.507, 16.919, 18.307];
  for (const [i, x] of points.entries()) assert.ok(Math.abs(chiSquareUpperTail(x, i + 1) - 0.05) < 2e-5);
  assert.equal(chiSquareUpperTail(0, 3), 1);
  assert.ok(Number.isNaN(chiSquareUpperTail(1, 0)));
  // mpmath 1.3, 40 digits (scipy 1.17 the same): the far tail keeps its digits.
  assert.ok(Math.abs(chiSquareUpperTail(200, 5) / 2.8406228986415315e-41 - 1) < 1e-12);
});

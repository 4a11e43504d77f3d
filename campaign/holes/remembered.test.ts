import assert from 'node:assert/strict';
import { test } from 'node:test';
import { remembered } from './remembered.ts';

test('read again when any of its tables is another, and only then', () => {
  let times = 0;
  const sum = remembered(
    ({ a, b }: { a: number[]; b: number[]; other: number[] }) => [a, b],
    ({ a, b }) => {
      times++;
      return [...a, ...b].reduce((x, y) => x + y, 0);
    },
  );
  const first = { a: [1], b: [2], other: [3] };
  assert.deepEqual([sum(first), sum({ ...first, other: [] }), times], [3, 3, 1]);
  assert.deepEqual([sum({ ...first, a: [5] }), times], [7, 2]);
  assert.deepEqual([sum({ ...first, b: [7] }), times], [8, 3]);
  assert.deepEqual([sum(first), times], [3, 4]);
});

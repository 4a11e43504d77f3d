import assert from 'node:assert/strict';
import { test } from 'node:test';
import { straightSlices } from './slices.ts';

test('a straight map is one piece', () => {
  assert.deepEqual(
    straightSlices((at) => 30 + 100 * at, 0, 1),
    [{ from_m: 0, to_m: 1, y1: 30, y2: 130 }],
  );
});

test('a bend is followed to a third of a point, in few pieces', () => {
  // Squeezed to half near the top: depth = 2x − x²/2, drawn at 500 pt/m.
  const y = (at: number): number => 500 * (2 * at - (at * at) / 2);
  const slices = straightSlices(y, 0, 1);
  assert.ok(slices.length < 40, `${slices.length}`);
  for (const [i, { from_m, to_m, y1, y2 }] of slices.entries()) {
    if (i > 0) assert.equal(from_m, slices[i - 1]!.to_m);
    for (const part of [0.1, 0.3, 0.5, 0.7, 0.9]) {
      const drawn = y1 + part * (y2 - y1);
      assert.ok(Math.abs(drawn - y(from_m + part * (to_m - from_m))) < 0.4);
    }
  }
  assert.equal(slices[0]!.from_m, 0);
  assert.equal(slices.at(-1)!.to_m, 1);
});

test('core without a place in the ground is left out: fallen in on top', () => {
  const y = (at: number): number => 100 * Math.max(0, at - 0.2);
  const slices = straightSlices(y, 0, 1);
  const { from_m, to_m, y1, y2 } = slices[0]!;
  // At most half a point of it shows.
  assert.equal(y1, 0);
  assert.ok(((0.2 - from_m) / (to_m - from_m)) * (y2 - y1) < 0.5, `${from_m}`);
  assert.deepEqual(
    slices.every(({ y1, y2 }) => y2 > y1),
    true,
  );
});

/** Names on the map: each by its own hole, none on another, none beyond the frame. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { placeNames } from './map-labels.ts';

const FRAME = { left: 8, right: 452, top: 8, bottom: 362 };
/** Of a name of eleven characters at 16 px, at least: no character of the face is narrower than 7 px. */
const LEAST_WIDTH = 77;

test('alone, a name is right of its hole; at the right edge it is left of it', () => {
  const [alone] = placeNames([{ name: 'T1', x: 100, y: 100 }], FRAME);
  assert.deepEqual([alone!.x, alone!.y], [112, 105]);
  const [edge] = placeNames([{ name: 'T1', x: 445, y: 100 }], FRAME);
  assert.ok(edge!.x < 433 - 14, 'ends left of the ring');
});

test('24 holes in a line have their names apart, nearly all of them near by', () => {
  const holes = Array.from({ length: 24 }, (_, i) => ({
    name: `TS-VC-12-${i + 1}`.padEnd(11, '0'),
    x: 120 + 10 * i,
    y: 290 - 10 * i,
  }));
  const placed = placeNames(holes, FRAME).filter((at) => at !== null);
  assert.ok(placed.length >= 20, `${placed.length} named`);
  for (const [i, a] of placed.entries()) {
    assert.ok(a.x >= FRAME.left && a.x + LEAST_WIDTH <= FRAME.right);
    for (const b of placed.slice(i + 1))
      assert.ok(
        Math.abs(a.y - b.y) >= 19 || Math.abs(a.x - b.x) >= LEAST_WIDTH,
        `${i}: ${a.x} ${a.y} on ${b.x} ${b.y}`,
      );
  }
});

test('a name without room is left out, not written on another', () => {
  const many = Array.from({ length: 200 }, (_, i) => ({ name: 'TS-VC-12-01', x: 200 + (i % 3), y: 200 }));
  const placed = placeNames(many, FRAME);
  assert.ok(placed.includes(null));
  assert.ok(placed.some((at) => at !== null));
});

/** Outlines against shapes whose room is known by hand. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { boxAround, isWithin, levelWithin, PatternWithin, roomWithin, sedimentOf } from './index.ts';

/** A U: two arms 10 wide, 40 high, over a foot of 10. */
const U = [
  [0, 0],
  [10, 0],
  [10, 30],
  [50, 30],
  [50, 0],
  [60, 0],
  [60, 40],
  [0, 40],
] as const;

test('a place is within an outline that is not convex, a level is in pieces there', () => {
  assert.deepEqual(boxAround(U), { x1: 0, y1: 0, x2: 60, y2: 40 });
  assert.ok(isWithin(5, 10, U) && isWithin(55, 10, U) && isWithin(30, 35, U));
  assert.ok(!isWithin(30, 10, U) && !isWithin(-1, 10, U) && !isWithin(30, 41, U));
  assert.deepEqual(levelWithin(10, U), [
    [0, 10],
    [50, 60],
  ]);
  assert.deepEqual(levelWithin(35, U), [[0, 60]]);
  assert.deepEqual(levelWithin(50, U), []);
});

test('a box is put where it has most room, and nowhere where it has none', () => {
  const free = () => true;
  const wide = roomWithin(U, { width: 20, height: 6 }, free, 1)!;
  assert.ok(wide.y >= 30 && wide.y <= 34 && Math.abs(wide.x - 20) < 0.01, JSON.stringify(wide));
  assert.equal(roomWithin(U, { width: 20, height: 12 }, free, 1), null);
  assert.ok(roomWithin(U, { width: 8, height: 12 }, free, 1) !== null);
  assert.equal(
    roomWithin(U, { width: 20, height: 6 }, () => false, 1),
    null,
  );
});

test('a pattern in an outline has no dot outside it, and is as dense as in its box', () => {
  const dots = (outline: readonly (readonly [number, number])[]): [number, number][] => {
    const svg = renderToStaticMarkup(
      createElement(PatternWithin, { sediment: sedimentOf('medium sand'), outline, id: 'x', seed: 7 }),
    );
    return [...svg.matchAll(/M([\d.]+) ([\d.]+)h\.01/g)].map(([, x, y]) => [Number(x), Number(y)]);
  };
  const inU = dots(U);
  assert.ok(inU.length > 20);
  for (const [x, y] of inU) assert.ok(isWithin(x, y, U), `${x} ${y}`);
  const all = dots([
    [0, 0],
    [60, 0],
    [60, 40],
    [0, 40],
  ]);
  // The U is 1,200 of 2,400 square points.
  assert.ok(Math.abs(inU.length / all.length - 0.5) < 0.1, `${inU.length} of ${all.length}`);
});

/** Slips put into a loop by hand, found again by its misclosure. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { LevelSight } from './level-book.ts';
import { reduceLoop } from './levelling.ts';
import { likelySlips } from './slips.ts';
import { slippedPoint, staffDoubt } from './staff-reading.ts';

/** Out over CP 1 and P to CP 3 and back over the same points; closes to 0. */
const LOOP: [string, number | null, number | null][] = [
  ['BM', 1.5, null],
  ['CP 1', 1.4, 1.1],
  ['P', 1.213, 0.9],
  ['CP 3', 1.7, 1.313],
  ['P', 1.2, 1.6],
  ['CP 1', 1.25, 1.7],
  ['BM', null, 1.65],
];

/** The loop with one reading written otherwise: line, 1 for the back and 2 for the fore sight. */
const slipsWith = (changes: readonly (readonly [number, 1 | 2, number | null])[]) => {
  const typed = LOOP.map((line) => [...line] as [string, number | null, number | null]);
  for (const [line, column, reading] of changes) typed[line]![column] = reading;
  const sights = typed.map(
    ([point, backsight_m, foresight_m], i): LevelSight => ({
      row_id: `${i}`,
      point,
      backsight_m,
      intermediate_m: null,
      foresight_m,
      distance_m: null,
    }),
  );
  const { lines, closures } = reduceLoop(sights, [{ point: 'BM', elevation_m: 2, sigma_m: 0 }]);
  return likelySlips(sights, lines, closures[0]!.misclosure_m);
};

test('a loop that closes asks nothing', () => {
  assert.deepEqual(slipsWith([]), []);
  assert.deepEqual(slipsWith([[1, 1, 1.43]]), []);
});

test('a metre or a decimetre misread, on either side of 5 mm, and between which points sighted twice', () => {
  // Beyond P on the way out: P and CP 1 differ by it between their sights, so it is after P, before P again.
  assert.deepEqual(slipsWith([[3, 1, 0.7]]), [{ kind: 'round', slip_m: 1, between: { from: '2', to: '4' } }]);
  // Before CP 1: both points agree between their sights; first or last set-up, so no single stretch.
  assert.deepEqual(slipsWith([[0, 1, 1.6]]), [{ kind: 'round', slip_m: 0.1, between: null }]);
  assert.equal(slipsWith([[0, 1, 1.6049]]).length, 1);
  assert.deepEqual(slipsWith([[0, 1, 1.606]]), []);
});

test('a reading in the wrong column moves the end by twice itself: its line is named', () => {
  const sights = LOOP.map(
    ([point, backsight_m, foresight_m], i): LevelSight => ({
      row_id: `${i}`,
      point,
      backsight_m,
      intermediate_m: null,
      foresight_m,
      distance_m: null,
    }),
  );
  const { lines } = reduceLoop(sights, [{ point: 'BM', elevation_m: 2, sigma_m: 0 }]);
  // 2 × 1.313 too low, within 2 mm: a fore sight too much. 2 × 1.213 too high: a back sight too much.
  assert.deepEqual(likelySlips(sights, lines, -2.624), [
    { kind: 'column', row_id: '3', point: 'CP 3', reading_m: 1.313, in: 'fore' },
  ]);
  assert.deepEqual(likelySlips(sights, lines, 2.428), [
    { kind: 'column', row_id: '2', point: 'P', reading_m: 1.213, in: 'back' },
  ]);
});

test('a reading beyond the staff: its point is asked about; upside down is allowed', () => {
  assert.deepEqual(
    [staffDoubt(4.99), staffDoubt(5.01), staffDoubt(-1.2), staffDoubt(-14)],
    [null, 'long', 'inverted', 'long'],
  );
  assert.deepEqual([14.82, 148.2, 1482, -14.82, 1.482].map(slippedPoint), [
    1.482,
    1.482,
    1.482,
    -1.482,
    null,
  ]);
});

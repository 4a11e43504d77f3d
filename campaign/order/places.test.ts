import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import { movesFor, placeNextTo, placesBetween } from './places.ts';

const SEED = 20_261_130;

test('between 4 and 5 there is 4.5, behind everything the next whole number', () => {
  assert.deepEqual(placesBetween(4, 5, 1), [4.5]);
  assert.deepEqual(placesBetween(4, 5, 2), [4.3, 4.7]);
  assert.deepEqual(placesBetween(4, 7, 2), [5, 6]);
  assert.deepEqual(placesBetween(4.5, 5, 1), [4.8]);
  assert.deepEqual(placesBetween(4.35, 4.36, 1), [4.355]);
  assert.deepEqual(placesBetween(0, 1, 1), [0.5]);
  assert.deepEqual(placesBetween(7.5, Number.POSITIVE_INFINITY, 2), [8, 9]);
  assert.deepEqual(placesBetween(5, 5, 0), []);
  assert.throws(() => placesBetween(5, 5, 1), RangeError);
});

test('next to a place, behind the last and before the first', () => {
  assert.equal(placeNextTo(5, 'before', [4, 5, 6]), 4.5);
  assert.equal(placeNextTo(5, 'after', [4, 5, 5, 6]), 5.5);
  assert.equal(placeNextTo(6, 'after', [4, 5]), 7);
  assert.equal(placeNextTo(1, 'before', [2]), 0.5);
  assert.equal(placeNextTo(0, 'before', [2]), null);
});

test('as many keep their place as can', () => {
  const moved = (order: number[], low: number | null, high: number | null) =>
    movesFor(
      order.map((seq) => ({ seq })),
      low,
      high,
    ).map(({ reading, seq }) => `${reading.seq} to ${seq}`);
  assert.deepEqual(moved([11, 12, 13], 10, null), []);
  // Ours 11 to 13, then theirs 11 and 12: theirs go behind, there is nothing after them.
  assert.deepEqual(moved([11, 12, 13, 11, 12], 10, null), ['11 to 14', '12 to 15']);
  assert.deepEqual(moved([7, 7], 6, 8), ['7 to 7.5']);
  // The other first, with a neighbour behind.
  assert.deepEqual(moved([12, 11], 10, 13), ['12 to 10.5']);
  assert.deepEqual(moved([1, 0], null, null), ['0 to 2']);
});

test(`any order between any neighbours is reached, and is strict (seed ${SEED})`, () => {
  const seqs = fc.array(fc.nat(40), { minLength: 1, maxLength: 12 });
  fc.assert(
    fc.property(seqs, fc.boolean(), fc.boolean(), (tenths, hasLow, hasHigh) => {
      const order = tenths.map((each) => ({ seq: each / 4 }));
      const low = hasLow ? Math.min(...order.map(({ seq }) => seq)) - 0.5 : null;
      const high = hasHigh ? Math.max(...order.map(({ seq }) => seq)) + 0.25 : null;
      const moved = new Map(movesFor(order, low, high).map(({ reading, seq }) => [reading, seq]));
      const places = [low ?? -1, ...order.map((each) => moved.get(each) ?? each.seq), high ?? Infinity];
      for (let i = 1; i < places.length; i++) assert.ok(places[i - 1]! < places[i]!, places.join(' '));
    }),
    { seed: SEED, numRuns: 2000 },
  );
});

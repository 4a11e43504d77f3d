import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import { nearest } from './near.ts';

const SEED = 1966;

/** Levenshtein (1966) distance as it is defined. */
function edits(a: string, b: string): number {
  if (a === '' || b === '') return a.length + b.length;
  return Math.min(
    edits(a.slice(1), b) + 1,
    edits(a, b.slice(1)) + 1,
    edits(a.slice(1), b.slice(1)) + (a[0] === b[0] ? 0 : 1),
  );
}

test('names the word somebody meant', () => {
  assert.equal(nearest('to_sedimnt', ['to_water_inside', 'to_sediment']), 'to_sediment');
  assert.equal(nearest('h3', ['H1', 'H3']), 'H3');
  assert.equal(nearest('H8', ['H1', 'H3']), null);
  assert.equal(nearest('weather', ['to_sediment']), null);
  assert.equal(nearest('', ['a']), null);
});

test(`twin: the first of the fewest edits by definition (seed ${SEED})`, () => {
  const word = fc.string({ unit: fc.constantFrom('a', 'b', 'c'), minLength: 1, maxLength: 6 });
  fc.assert(
    fc.property(word, fc.array(word, { maxLength: 6 }), (sought, candidates) => {
      const allowed = Math.floor(sought.length / 3);
      const counts = candidates.map((candidate) => edits(sought, candidate));
      const least = Math.min(...counts);
      const expected = least <= allowed ? candidates[counts.indexOf(least)]! : null;
      assert.equal(nearest(sought, candidates), expected);
    }),
    { seed: SEED, numRuns: 300 },
  );
});

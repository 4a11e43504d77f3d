/** The text of the package against what it must say, and how it looks. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import type { JsonObject } from './document.ts';
import { newDocument } from './package.ts';
import { packageText } from './package-text.ts';

const SEED = 16;

test('a new campaign: the same package back, a column in a line, in fewer than two thirds of the bytes of a line for each member', () => {
  const description = newDocument('Marsh').package!;
  const text = packageText(description);
  assert.deepEqual(JSON.parse(text), description);
  const site = text.split('\n').find((line) => line.includes('"description": "label of the site"'));
  assert.match(site!, /^ +\{ "name": "site", .* \},?$/);
  assert.ok(text.length < (2 / 3) * JSON.stringify(description, null, 2).length);
});

test(`any package comes back as it was (seed ${SEED})`, () => {
  fc.assert(
    fc.property(fc.dictionary(fc.string(), fc.jsonValue()), (description) => {
      const text = packageText(description as JsonObject);
      assert.deepEqual(JSON.parse(text), JSON.parse(JSON.stringify(description)));
    }),
    { seed: SEED, numRuns: 300 },
  );
});

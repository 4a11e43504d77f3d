/**
 * Environments through time on simulated coasts outside of what the method takes for granted: printed, whatever it is, of
 * the coasts of `simulated-coast.test.ts`. No bound: nothing is promised of a hole that is 500 yr too old.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { AgeSettings } from './aged-coast.ts';
import { COASTS, covered, print, SEED } from './coasts.ts';
import type { CoastSettings } from './simulated-coast.ts';

const outside: [name: string, coast: CoastSettings, ages: Partial<AgeSettings>][] = [
  ['the sea rises in leaps, and the edge with it', { leaps: true }, {}],
  ['one layer of ten is named wrongly', {}, { misnamed: 0.1 }],
  ['all ages of one hole are 500 yr too old', {}, { one_off_yr: 500 }],
  ['an error of 150 yr that all holes share, draw by draw', {}, { shared_yr: 150 }],
  ['the same, draws paired at random', {}, { shared_yr: 150, isPaired: false }],
];

for (const [name, coast, ages] of outside)
  test(`outside of the model, printed: ${name}, ${COASTS} coasts, seed ${SEED}`, (t) => {
    const all = covered(coast, ages);
    for (const line of print(all)) t.diagnostic(line);
    assert.ok(all.edge.of > 0);
  });

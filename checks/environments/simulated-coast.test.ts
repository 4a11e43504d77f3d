/**
 * Environments through time on simulated coasts (`simulated-coast.ts`), whose generator shares no number with the method;
 * ages are joint draws with errors of known size (`aged-coast.ts`), so that only what is made of the ages is asked.
 * Promised before measuring, of 200 coasts: the 95 % band of the edge holds 0.90 to 0.99 of the ages at which it truly
 * was between the holes (wide, because between two holes the way of the edge is taken as even at random, and is not);
 * 95 % ranges of when it passed a hole hold 0.92 to 0.98 (some 700 passages, of 200 coasts that each go together:
 * 2 standard errors of 0.015); what stood at least so long with 0.95 did so in 0.92 or more (one-sided, 2 of 0.015).
 * Printed, whatever it is: probabilities of spells by tenths, surfaces, and all of it outside of the model.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { randomStream } from '@stillstand/science/base';
import { type AgeSettings, agedCoast } from './aged-coast.ts';
import { type Coverage, cover, inWords, noCoverage, part, tenthsInWords } from './coverage.ts';
import { type CoastSettings, simulatedCoast } from './simulated-coast.ts';

const COASTS = 200;
const SEED = 1751;
const AGES: AgeSettings = { draws: 200, sigma_yr: [30, 120] };

function covered(coast: CoastSettings, ages: AgeSettings): Coverage {
  const all = noCoverage();
  for (let i = 0; i < COASTS; i++) {
    const random = randomStream(SEED).split('coasts').split(i);
    const truth = simulatedCoast(coast, random.split('coast'));
    cover(all, truth, agedCoast(truth, ages, random.split('ages')), random.split('edge'));
  }
  return all;
}

const print = (all: Coverage): string[] => [
  `edge ${inWords(all.edge)}; where it went on to the next hole ${inWords(all.through)}, where it came back ${inWords(all.back)}; band ${(all.width_m / all.edge.of).toFixed(0)} m wide, holes ${(all.apart_m / all.edge.of).toFixed(0)} m apart`,
  `passages ${inWords(all.passages)}; of all holes their layers have as many as there were in ${inWords(all.told)}`,
  `stood at least so long ${inWords(all.atLeast)}; surface ${inWords(all.surface)}`,
  `of spells said, true: ${tenthsInWords(all.spells)}`,
];

test(`${COASTS} simulated coasts, seed ${SEED}`, (t) => {
  const all = covered({}, AGES);
  for (const line of print(all)) t.diagnostic(line);
  assert(part(all.edge) >= 0.9 && part(all.edge) <= 0.99, `edge ${part(all.edge)}`);
  assert(part(all.passages) >= 0.92 && part(all.passages) <= 0.98, `passages ${part(all.passages)}`);
  assert(part(all.atLeast) >= 0.92, `at least ${part(all.atLeast)}`);
});

const outside: [name: string, coast: CoastSettings, ages: Partial<AgeSettings>][] = [
  ['the sea rises in leaps, and the edge with it', { leaps: true }, {}],
  ['one layer of ten is named wrongly', {}, { misnamed: 0.1 }],
  ['all ages of one hole are 500 yr too old', {}, { one_off_yr: 500 }],
  ['an error of 150 yr that all holes share, draw by draw', {}, { shared_yr: 150 }],
  ['the same, draws paired at random', {}, { shared_yr: 150, isPaired: false }],
];

for (const [name, coast, ages] of outside)
  test(`outside of the model, printed: ${name}, ${COASTS} coasts, seed ${SEED}`, (t) => {
    const all = covered(coast, { ...AGES, ...ages });
    for (const line of print(all)) t.diagnostic(line);
    assert.ok(all.edge.of > 0);
  });

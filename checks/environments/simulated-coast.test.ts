/**
 * Environments through time on simulated coasts (`simulated-coast.ts`), whose generator shares no number with the method;
 * ages are joint draws with errors of known size (`aged-coast.ts`), so that only what is made of the ages is asked.
 * Promised before measuring, of 200 coasts: the 95 % band of the edge holds 0.90 to 0.99 of the ages at which it truly
 * was between the holes (wide, because between two holes the way of the edge is taken as even at random, and is not);
 * 95 % ranges of when it passed a hole hold 0.92 to 0.98 (some 700 passages, of 200 coasts that each go together:
 * 2 standard errors of 0.015); what stood at least so long with 0.95 did so in 0.92 or more (one-sided, 2 of 0.015).
 * Printed, whatever it is: probabilities of spells by tenths, surfaces; outside of the model in `outside-coast.long.test.ts`.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { knownToFail } from '../bounds/known-to-fail.ts';
import { COASTS, covered, print, SEED } from './coasts.ts';
import { inWords, part } from './shares.ts';

/*
 * The edge misses its promise, because storms and the sea's cutting leave holes that lack a change of side or have one too
 * many: of coasts without such a hole it holds 0.953.
 */
test(`${COASTS} simulated coasts, seed ${SEED}`, async (t) => {
  const all = covered({}, {});
  for (const line of print(all)) t.diagnostic(line);
  assert(part(all.edge) <= 0.99, `edge ${part(all.edge)}`);
  assert(part(all.passages) >= 0.92 && part(all.passages) <= 0.98, `passages ${part(all.passages)}`);
  const recorded = { since: '2026-12-01', page: 'docs/methods/environments.md' };
  await knownToFail(t, {
    what: `environments, 95 % band of the edge, ${COASTS} coasts, seed ${SEED}`,
    bound: { at_least: 0.9 },
    measured: part(all.edge),
    stated: '0.891',
    ...recorded,
  });
  assert(part(all.atLeast) >= 0.92, `stood at least so long ${part(all.atLeast)}`);
});

/*
 * First age, last age and longest time are each by one hole since holes joined draw by draw held 0.80, 0.68 and 0.79 at seed
 * 1751. Bound of the 95 % ranges set then, before they were asked at this seed: 0.92 to 0.98.
 */
test(`how long environments stood, ${COASTS} coasts, seed ${SEED + 1}`, (t) => {
  const { began, ended, longest } = covered({}, {}, SEED + 1);
  t.diagnostic(`first age ${inWords(began)}, last ${inWords(ended)}, longest ${inWords(longest)}`);
  for (const each of [began, ended, longest]) assert(part(each) >= 0.92 && part(each) <= 0.98, inWords(each));
});

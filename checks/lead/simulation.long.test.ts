/**
 * Coverage of lead-210 ages over profiles of known truth, asked of the base (constant concentration: the middle) of the
 * slices nearest to 20, 50 and 80 years, 200 profiles each. A model is held to its bound where the truth is its own; of the
 * other truths its coverage is printed, whatever it is.
 * Set before measuring: 95 % hold at least 0.888 and 68 % between 0.55 and 0.815 of each age (4 standard errors of 200).
 * Seed 241. An age that is not printed counts for neither; so many are printed too.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { randomStream } from '@stillstand/science/base';
import {
  LEAD_MODELS,
  leadAges,
  leadDefaults,
  leadLikelihood,
  leadPriorDefaults,
} from '@stillstand/science/lead';
import { knownToFail } from '../bounds/known-to-fail.ts';
import { simulated, TRUTHS } from './simulated-profile.ts';

const SETS = 200;
const ASKED_YR = [20, 50, 80];

/** What lies below is known better in this truth than it is taken to be. */
const TOO_WIDE: Record<string, string> = { 'even, cut off at 22 cm': '0.915' };

interface Count {
  in68: number;
  in95: number;
  printed: number;
  error: number;
}

for (const [name, { truth, holds }] of Object.entries(TRUTHS))
  test(`${name}: ages of ${SETS} profiles (seed 241)`, async (t) => {
    const counts = new Map<string, Count>();
    const stream = randomStream(241).split(name);
    for (let set = 0; set < SETS; set++) {
      const { profile, bases_yr } = simulated(truth, stream.split(set));
      const ages = leadAges(profile, { ...leadDefaults, draws: 400 }, stream.split(set).split('ages'));
      for (const asked of ASKED_YR) {
        const i = nearest(bases_yr, asked);
        for (const model of LEAD_MODELS) {
          const key = `${model} ${asked}`;
          const count = counts.get(key) ?? { in68: 0, in95: 0, printed: 0, error: 0 };
          counts.set(key, count);
          const isMiddle = model === 'constant_concentration';
          const age = isMiddle ? ages.cells[i]?.[model].middle : ages.cells[i]?.[model].base;
          if (age === undefined || age === null) continue;
          const true_yr = isMiddle ? (bases_yr[i]! + (bases_yr[i - 1] ?? 0)) / 2 : bases_yr[i]!;
          count.printed += 1;
          count.error += age.value - true_yr;
          if (Math.abs(age.value - true_yr) <= age.sigma) count.in68 += 1;
          if (age.lower95 <= true_yr && true_yr <= age.upper95) count.in95 += 1;
        }
      }
    }
    const missed: string[] = [];
    let widest = 0;
    for (const [of, { in68, in95, printed, error }] of counts) {
      const [share68, share95] = [in68 / printed, in95 / printed];
      const isHeld = holds.some((model) => of.startsWith(model));
      t.diagnostic(
        `${of} yr: 68 % ${share68.toFixed(3)}, 95 % ${share95.toFixed(3)}, mean error ${(error / printed).toFixed(1)} yr, ${printed} printed${isHeld ? ', held' : ''}`,
      );
      // Of fewer than half the profiles the standard error is larger than the bound's.
      if (!isHeld || printed < SETS / 2) continue;
      if (!(share95 >= 0.888)) missed.push(`${of} yr: 95 % ${share95}`);
      widest = Math.max(widest, share68);
      if (!(share68 >= 0.55)) missed.push(`${of} yr: 68 % ${share68}`);
    }
    assert.deepEqual(missed, []);
    const too_wide = TOO_WIDE[name];
    if (too_wide === undefined) assert.ok(widest <= 0.815, `68 %: ${widest}`);
    else
      await knownToFail(t, {
        what: `lead-210, largest coverage of 68 %, ${name}, 200 profiles, seed 241`,
        bound: { at_most: 0.815 },
        measured: widest,
        stated: too_wide,
        since: '2026-11-30',
        page: 'docs/methods/lead.md',
      });
  });

/**
 * The likelihood as a history uses it, over the simplest of histories: one rate. The posterior of the rate on a grid,
 * even beforehand, supply and supported activity integrated out. Set before measuring: the bounds above, of those profiles that have one.
 */
test('likelihood of one rate, even supply and sedimentation, 200 profiles (seed 242)', (t) => {
  const truths = { even: 'each_slice', 'from the tail': 'tail' } as const;
  for (const [name, supported] of Object.entries(truths)) {
    const stream = randomStream(242).split(name);
    let [in68, in95, of] = [0, 0, 0];
    for (let set = 0; set < SETS; set++) {
      const truth = { ...TRUTHS['even supply and sedimentation']!.truth, supported };
      const { profile, bases_yr } = simulated(truth, stream.split(set));
      const { likelihood } = leadLikelihood(profile, { ...leadPriorDefaults, scatter: 0 });
      // No tail is found in a few: they have no supported activity, and are counted out.
      if (likelihood === null) continue;
      of += 1;
      // One mass rate: ages of the true shape, all times one factor.
      const ends = [0, ...bases_yr];
      const factors = Array.from({ length: 401 }, (_, k) => 0.6 + 0.002 * k);
      const logs = factors.map((factor) =>
        likelihood.logLikelihood(Float64Array.from(ends, (age) => age * factor - 70)),
      );
      const most = Math.max(...logs);
      const weights = logs.map((value) => Math.exp(value - most));
      const sum = weights.reduce((a, b) => a + b, 0);
      const below = weights.slice(0, factors.indexOf(1)).reduce((a, b) => a + b, 0) / sum;
      if (below > 0.15865 && below < 0.84135) in68 += 1;
      if (below > 0.025 && below < 0.975) in95 += 1;
    }
    t.diagnostic(`${name}: 68 % ${(in68 / of).toFixed(3)}, 95 % ${(in95 / of).toFixed(3)}, of ${of}`);
    assert.ok(in95 / of >= 0.888, `${name}: 95 % ${in95 / of}`);
    assert.ok(in68 / of >= 0.55 && in68 / of <= 0.815, `${name}: 68 % ${in68 / of}`);
  }
});

function nearest(bases: Float64Array, age: number): number {
  let best = 0;
  for (const [i, base] of bases.entries()) if (Math.abs(base - age) < Math.abs(bases[best]! - age)) best = i;
  return best;
}

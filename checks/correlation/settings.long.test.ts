/**
 * The settings of the comparison, on the sections they were set on: seeds 17, 18 and 19, 60 of each, apart from the seed
 * that is held to its bounds. Each is halved and doubled: what is then proposed of the true ties where 0.93 of the
 * proposals are right is printed, and is nowhere more than 0.02 better (what no user would see).
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { type CorrelationSettings, correlationDefaults } from '@stillstand/science/correlate';
import { scored } from './scored.ts';

const SEEDS = [17, 18, 19];
const SECTIONS = 60;
const PRECISION = 0.93;

const defaults = correlationDefaults;
const SCALED: Record<string, (by: number) => CorrelationSettings> = {
  'odds of the same name': (by) => ({
    ...defaults,
    odds: { ...defaults.odds, same: defaults.odds.same * by },
  }),
  'odds of names akin': (by) => ({ ...defaults, odds: { ...defaults.odds, akin: defaults.odds.akin * by } }),
  'odds of different names': (by) => ({
    ...defaults,
    odds: { ...defaults.odds, different: defaults.odds.different * by },
  }),
  'sd of log thickness': (by) => ({ ...defaults, thickness_log_sd: defaults.thickness_log_sd * by }),
  relief: (by) => ({ ...defaults, relief_m: defaults.relief_m * by }),
  slope: (by) => ({ ...defaults, slope: defaults.slope * by }),
  dip: (by) => ({ ...defaults, dip: defaults.dip * by }),
  blunder: (by) => ({ ...defaults, blunder: defaults.blunder * by }),
  missing: (by) => ({ ...defaults, missing: defaults.missing * by }),
};

/** The largest share of true ties that is proposed with at least that precision, over all margins. */
function recallOf(settings: CorrelationSettings): number {
  const shares = SEEDS.map((seed) => {
    const { truly, proposed } = scored({}, SECTIONS, seed, settings);
    const sorted = [...proposed].sort((a, b) => b.margin - a.margin);
    let [right, best] = [0, 0];
    sorted.forEach(({ isTrue }, i) => {
      if (isTrue) right += 1;
      if (right / (i + 1) >= PRECISION) best = right / truly;
    });
    return best;
  });
  return shares.reduce((sum, share) => sum + share, 0) / shares.length;
}

test(`settings halved and doubled, ${SECTIONS} sections each of seeds 17, 18 and 19`, (t) => {
  const as_set = recallOf(defaults);
  t.diagnostic(`as set: ${as_set.toFixed(3)}`);
  for (const [name, scaled] of Object.entries(SCALED)) {
    const [halved, doubled] = [recallOf(scaled(0.5)), recallOf(scaled(2))];
    t.diagnostic(`${name}: halved ${halved.toFixed(3)}, doubled ${doubled.toFixed(3)}`);
    assert.ok(Math.max(halved, doubled) <= as_set + 0.02, name);
  }
});

/**
 * Lead-210 of the demo's marsh against the growth it was made from, over many coasts: the generator keeps the truth, the
 * computation sees what its laboratory sent, with a gap, a limit and a slice without radium. Invented data, from demo/.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { parseCampaign } from '@stillstand/campaign/document';
import { computeCampaign } from '@stillstand/campaign/steps';
import { openFiles } from '@stillstand/campaign/versions';
import { demoCampaign } from '@stillstand/demo';
import { loadCurve } from '@stillstand/published/curves';

const curves = { shcal20: await loadCurve('shcal20'), marine20: await loadCurve('marine20') };
const SEEDS = 20;

interface Held {
  of: number;
  within: number;
}
const share = ({ of, within }: Held): number => within / of;

test(`constant supply holds the true ages of the marsh and its supply (seeds 1 to ${SEEDS})`, (t) => {
  const base: Held = { of: 0, within: 0 };
  const supply: Held = { of: 0, within: 0 };
  const count = (held: Held, isWithin: boolean): void => {
    held.of += 1;
    if (isWithin) held.within += 1;
  };
  for (let seed = 1; seed <= SEEDS; seed++) {
    const { files, truth } = demoCampaign(seed, curves);
    const { document, problems } = openFiles(files);
    const parsed = parseCampaign(document);
    const { results } = computeCampaign(parsed.campaign, { curves }, [...problems, ...parsed.problems], {
      withCurve: false,
    });
    const [profile] = results.lead_profiles;
    assert.equal(profile!.hole, truth.marsh.hole);
    // What the messy rows are is said, and nothing worse.
    const said = results.problems.filter(({ code }) => code.startsWith('lead-'));
    assert.ok(
      said.every(({ severity }) => severity === 'note' || severity === 'warning'),
      JSON.stringify(said),
    );
    assert.ok(said.some(({ code, found }) => code === 'lead-gap' && found.includes('0.11 to 0.12 m')));
    const { lower95, upper95 } = profile!.supply_bq_m2_yr!;
    count(supply, lower95 < truth.marsh.supply_bq_m2_yr && truth.marsh.supply_bq_m2_yr < upper95);
    for (const { bottom_m, ages } of profile!.slices) {
      const found = ages.find(({ model }) => model === 'constant_supply')?.base_yr ?? null;
      if (found === null) continue;
      const true_yr = truth.marsh.age_cal_bp(bottom_m) - (1950 - profile!.collected_ce!);
      count(base, found.lower95 < true_yr && true_yr < found.upper95);
    }
  }
  t.diagnostic(
    `of ${base.of} ages 95 % hold ${share(base).toFixed(3)}, of ${supply.of} supplies ${supply.within}`,
  );
  assert.ok(base.of > 10 * SEEDS, `${base.of} ages`);
  // 0.95 where nothing is missing (docs/methods/lead.md: 0.888 and more); the ages of a profile go together.
  assert.ok(share(base) >= 0.85, `${share(base)}`);
  // Of 20 at 0.95, 16 or more in all but 3 of 1,000.
  assert.ok(supply.within >= 16, `${supply.within}`);
});

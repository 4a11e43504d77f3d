/** Ages against printed samples, the equation forwards, and draws of the same errors. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { exp, quantiles, randomStream, standardDeviation } from '@stillstand/science/base';
import { type ActivityRatios, DECAY_CONSTANTS, openSystem, type UraniumAge, uraniumAge } from './index.ts';

const { cheng2013 } = DECAY_CONSTANTS;

const ratios = (thorium: number, uranium: number, of: Partial<ActivityRatios> = {}): ActivityRatios => ({
  th230_u238: { value: thorium, sd: 0.001 * thorium },
  u234_u238: { value: uranium, sd: 0.001 },
  correlation: 0,
  th230_th232: null,
  ...of,
});
const aged = (of: ActivityRatios, ...[initial]: Parameters<typeof uraniumAge>[2][]): UraniumAge => {
  const made = uraniumAge(of, cheng2013, initial ?? null);
  assert.equal(made.kind, 'age');
  return made as UraniumAge;
};
const close = (found: number, expected: number, within: number, what: string): void =>
  assert.ok(Math.abs(found - expected) <= within, `${what}: ${found}, expected ${expected} within ${within}`);

/** 230Th/238U of a closed system, forwards. */
function grown(age: number, delta_now: number, initial230 = 0): number {
  const { lambda230: l0, lambda234: l4 } = cheng2013;
  return (
    1 -
    exp(-l0 * age) +
    (delta_now / 1000) * (l0 / (l0 - l4)) * (1 - exp(-(l0 - l4) * age)) +
    initial230 * exp(-l0 * age)
  );
}

// Printed with constants of 2013 (Journal of the Geological Society, lyellcollection.org/highwire/markup/29832, table 3): δ234U,
// 230Th/238U, age before correction; ratios printed rounded, which moves the last by 32 yr and the others by 4 at most.
test('four printed samples come back within the rounding of their ratios', () => {
  for (const [delta, thorium, printed, rounding] of [
    [214.9, 0.1226, 11_564, 5],
    [668, 0.1269, 8583, 5],
    [621, 0.1527, 10_727, 5],
    [388, 0.349, 31_177, 50],
  ] as const)
    close(aged(ratios(thorium, 1 + delta / 1000)).age_yr, printed, rounding, `δ234U ${delta}`);
});

test('initial δ234U of the printed corrected ages comes back', () => {
  // At the corrected age: 230Th/238U is taken as the age has it.
  for (const [delta, age, printed] of [
    [214.9, 9019, 220.4],
    [668, 7391, 682],
    [621, 8677, 636.4],
    [388, 18_580, 408.9],
  ] as const) {
    const found = aged(ratios(grown(age, delta), 1 + delta / 1000));
    close(found.age_yr, age, 0.01, 'age');
    close(found.initial_delta234u_permil, printed, 0.15, `initial δ234U of ${delta}`);
  }
});

test('a correction takes off what the detritus had when the sample formed', () => {
  // 5 ppm: 5e-6 · 9.1705e-6 / (ln 2 / 14.05e9) = 0.92943 in activities; 232Th/238U 0.02: 0.0185886 of 230Th/238U at the start.
  const thorium = grown(8000, 150, 0.0185886);
  const found = aged(ratios(thorium, 1.15, { th230_th232: thorium / 0.02 }), { atomic_ppm: 5, sd_ppm: 2.5 });
  close(found.age_yr, 8000, 0.1, 'age');
  // Half of the correction is its sigma: 0.0092943 e^(−λ230·8000) over the slope λ230 e^(−λ230·8000)(1 − 0.01859 + 0.15 e^(λ234·8000)).
  close(found.initial_thorium_yr, 0.0092943 / (9.1705e-6 * (0.9814114 + 0.15 * 1.022834)), 0.1, 'its error');
  const without = aged(ratios(thorium, 1.15, { th230_th232: thorium / 0.02 }));
  assert.ok(without.age_yr > 9500 && /too old/.test(without.doubts[0]!.fix));
});

test('errors agree with draws of the ratios, correlation and detritus among them (seed 7)', (t) => {
  const stream = randomStream(7);
  const of = ratios(0.75, 1.11, { correlation: 0.5, th230_th232: 20 });
  of.th230_u238.sd = 0.006;
  of.u234_u238.sd = 0.004;
  const initial = { atomic_ppm: 4, sd_ppm: 2 };
  const found = aged(of, initial);
  const ages: number[] = [];
  const deltas: number[] = [];
  for (let k = 0; k < 8000; k++) {
    const a = stream.normal();
    const b = 0.5 * a + Math.sqrt(0.75) * stream.normal();
    const thorium = 0.75 + 0.006 * a;
    const drawn = aged(
      {
        ...of,
        th230_u238: { value: thorium, sd: 1e-9 },
        u234_u238: { value: 1.11 + 0.004 * b, sd: 1e-9 },
      },
      { atomic_ppm: Math.max(1e-6, 4 + 2 * stream.normal()), sd_ppm: 0 },
    );
    ages.push(drawn.age_yr);
    deltas.push(drawn.initial_delta234u_permil);
  }
  const ratio = standardDeviation(ages) / found.error_yr;
  const other = standardDeviation(deltas) / found.initial_delta234u_sd_permil;
  t.diagnostic(`sd of drawn ages over first order ${ratio.toFixed(4)}, of initial δ234U ${other.toFixed(4)}`);
  // An sd of 8,000 draws is known to 0.8 %; an initial ratio cut at 0 and the bend of the equation take some 1 %.
  assert.ok(Math.abs(ratio - 1) < 0.04 && Math.abs(other - 1) < 0.04);
});

test('near the reach of the method the older end is far, as in draws, or none (seed 8)', () => {
  const stream = randomStream(8);
  const of = ratios(1.06, 1.06);
  of.th230_u238.sd = 0.006;
  of.u234_u238.sd = 1e-6;
  const found = aged(of);
  const drawn = Array.from({ length: 20_000 }, () => {
    const made = uraniumAge(
      { ...of, th230_u238: { value: 1.06 + 0.006 * stream.normal(), sd: 1e-9 } },
      cheng2013,
      null,
    );
    return made.kind === 'age' ? made.age_yr : Infinity;
  });
  const [younger, older] = quantiles(drawn, [0.025, 0.975]) as [number, number];
  // Quantiles of 20,000 draws are known to about 1 % of the half width each.
  close(found.younger95_yr, younger, 0.05 * (found.age_yr - younger), 'younger');
  close(found.older95_yr!, older, 0.05 * (older - found.age_yr), 'older');
  assert.ok(older - found.age_yr > 1.1 * (found.age_yr - younger), 'the older side is the longer');
  of.th230_u238 = { value: 1.085, sd: 0.01 };
  assert.equal(aged(of).older95_yr, null);
});

test('the constants of 2000 give another age', () => {
  const of = ratios(0.7867, 1.1186);
  const old = uraniumAge(of, DECAY_CONSTANTS.cheng2000, null);
  assert.ok(old.kind === 'age');
  const off = Math.abs(old.age_yr - aged(of).age_yr);
  assert.ok(off > 30 && off < 600, `${off} yr`);
});

test('a coral far from the sea is named, and one near it is not', () => {
  assert.equal(openSystem(aged(ratios(grown(8000, 143), 1.143))), null);
  assert.match(openSystem(aged(ratios(grown(120_000, 121), 1.121)))!.found, /initial δ234U 169\.8/);
});

test('what gives no age is named: no error, ratios out of physics, all detritus, an initial without 232Th', () => {
  const of = (
    given: ActivityRatios,
    initial: { atomic_ppm: number; sd_ppm: number } | null = null,
  ): string => {
    const made = uraniumAge(given, cheng2013, initial);
    assert.equal(made.kind, 'not_dated');
    return made.kind === 'not_dated' ? made.findings[0]!.of : '';
  };
  const usual = { atomic_ppm: 4.4, sd_ppm: 2.2 };
  assert.equal(of(ratios(-0.1, 1.1)), 'th230_u238');
  assert.equal(of(ratios(NaN, 1.1)), 'th230_u238');
  assert.equal(of(ratios(0.5, 110)), 'u234_u238');
  assert.equal(of({ ...ratios(0.5, 1.1), u234_u238: { value: 1.1, sd: 0 } }), 'u234_u238');
  assert.equal(of(ratios(1.4, 1.1)), 'th230_u238');
  assert.equal(of(ratios(0.9, 0.7)), 'th230_u238');
  assert.equal(of(ratios(0.5, 1.1, { correlation: 1.2 })), 'correlation');
  assert.equal(of(ratios(0.5, 1.1), usual), 'th230_th232');
  assert.equal(of(ratios(0.5, 1.1, { th230_th232: 0.3 }), usual), 'th230_th232');
  assert.equal(of(ratios(0.5, 1.1, { th230_th232: -3 })), 'th230_th232');
  assert.equal(of(ratios(0.5, 1.1, { th230_th232: 30 }), { atomic_ppm: 0, sd_ppm: 1 }), 'initial_thorium');
});

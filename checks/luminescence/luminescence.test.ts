/** Ages and dose rates against published samples, and whether stated errors cover known truths. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { DOSE_FACTORS, type DoseFactorSet } from '@stillstand/published/dose-factors';
import { mean, randomStream, square } from '@stillstand/science/base';
import {
  type DoseRate,
  doseRate,
  exactly,
  type LuminescenceAge,
  luminescenceAge,
  type Measured,
  type Sediment,
} from '@stillstand/science/luminescence';
import { knownToFail } from '../bounds/known-to-fail.ts';
import { cosmicOf, grainsOf, SAMPLES, type Sample } from './published-samples.ts';

const aged = (dose: Measured, rate: Measured): LuminescenceAge => {
  const made = luminescenceAge(dose, rate);
  assert.equal(made.kind, 'age');
  return made as LuminescenceAge;
};
const rated = (of: Sediment, set: DoseFactorSet = 'guerin2011'): DoseRate => {
  const made = doseRate(of, DOSE_FACTORS[set]);
  assert.equal(made.kind, 'rate');
  return made as DoseRate;
};
const own = (value: number, random: number): Measured => ({ value, random, systematic: 0 });

test('published ages are dose over rate: 57 of 67 within 1 %, 61 within 2 %', (t) => {
  const off = SAMPLES.map(({ dose_gy, rate_gy_ka, age_ka }) => {
    const { age_yr } = aged(own(Number(dose_gy), 1), own(Number(rate_gy_ka), 0.1));
    return Math.abs(age_yr / 1000 / Number(age_ka) - 1);
  });
  const within = (part: number): number => off.filter((each) => each <= part).length;
  t.diagnostic(`of ${off.length}: ${within(0.01)} within 1 %, ${within(0.02)} within 2 %`);
  assert.equal(off.length, 67);
  // Counted apart in Python when the table was made: rounding of ages and slips of the table explain the rest.
  assert.deepEqual([within(0.01), within(0.02)], [57, 61]);
});

const sedimentOf = (s: Sample): Sediment => {
  const { isFine, ...grains } = grainsOf(s);
  return {
    uranium: exactly(Number(s.uranium_ppm)),
    thorium: exactly(Number(s.thorium_ppm)),
    potassium: exactly(Number(s.potassium_percent)),
    water: exactly(Number(s.water_percent) / 100),
    grains: { ...grains, etched: !isFine },
    cosmic: exactly(cosmicOf(s)),
  };
};

for (const [set, stated] of [
  ['guerin2011', '0.156'],
  ['adamiec1998', '0.135'],
] as const)
  test(`published dose rates from contents come back within 10 % where grains and water are known: ${set}`, async (t) => {
    const all = SAMPLES.map((s) => ({
      id: s.id,
      off: rated(sedimentOf(s), set).rate.value / Number(s.rate_gy_ka) - 1,
    }));
    for (const [paper, rows] of Map.groupBy(all, ({ id }) => id.slice(0, 4)))
      t.diagnostic(`${paper}, percent off: ${rows.map(({ off }) => Math.round(100 * off)).join(' ')}`);
    const farthest = (of: RegExp): number =>
      Math.max(...all.filter(({ id }) => of.test(id)).map(({ off }) => Math.abs(off)));
    // Sand, water and cosmic rate stated.
    assert.ok(farthest(/^SI13/) <= 0.1);
    // Called silt in the table; as sand (beta × 0.9) all of them would be within 8 %.
    await knownToFail(t, {
      what: `luminescence, dose rates of seven samples called silt, farthest from the printed, ${set}`,
      bound: { at_most: 0.1 },
      measured: farthest(/^MO07-00[2345689]/),
      stated,
      since: '2026-11-30',
      page: 'docs/methods/luminescence.md',
    });
  });

/** What is measured of one sample, and its true age. */
const TRUE: Sediment = {
  uranium: exactly(1.5),
  thorium: exactly(5),
  potassium: exactly(1),
  water: exactly(0.25),
  grains: { from_um: 180, to_um: 220, etched: true },
  cosmic: exactly(0.17),
};
const TRUE_AGE_YR = 60_000;
const SETS = 4000;
/** Four standard errors of a share of 0.95 of so many sets: √(0.95·0.05/4000) = 0.0034. */
const ALLOWED = 0.0138;
const Z95 = 1.959964;

/**
 * Ages of `count` samples measured together, as the laboratory would report them. Contents and doses have errors of their own;
 * the dose's source, the factors, the attenuation, water and cosmic rate are off alike for all. `truth`: the ground as it was,
 * where that is not what is measured.
 */
function measuredTogether(seed: number, count: number, truth: Sediment = TRUE): LuminescenceAge[] {
  const stream = randomStream(seed);
  const draw = (sd: number): number => sd * stream.normal();
  const off = {
    source: draw(0.03),
    factors: draw(0.02),
    attenuation: draw(0.02),
    water: draw(0.05),
    cosmic: draw(0.017),
  };
  const lived = rated({
    ...truth,
    water: exactly(Math.max(0, truth.water.value + off.water)),
    cosmic: exactly(truth.cosmic.value + off.cosmic),
    beta_attenuation: exactly(0.89 + off.attenuation),
  });
  const { parts_gy_ka: p } = lived;
  const rate = (p.beta + p.gamma) * (1 + off.factors) + p.cosmic;
  const dose = (rate * TRUE_AGE_YR) / 1000;
  return Array.from({ length: count }, () => {
    const found = rated({
      ...TRUE,
      uranium: own(1.5 + draw(0.08), 0.08),
      thorium: own(5 + draw(0.25), 0.25),
      potassium: own(1 + draw(0.04), 0.04),
      water: { value: 0.25, random: 0, systematic: 0.05 },
      cosmic: { value: 0.17, random: 0, systematic: 0.017 },
    });
    const value = dose * (1 + off.source) * (1 + draw(0.04));
    return aged({ value, random: 0.04 * value, systematic: 0.03 * value }, found.rate);
  });
}

const isHeld = ({ younger95_yr, older95_yr }: LuminescenceAge): boolean =>
  younger95_yr <= TRUE_AGE_YR && (older95_yr === null || TRUE_AGE_YR <= older95_yr);

const coverage = (truth?: Sediment): number =>
  mean(Array.from({ length: SETS }, (_, k) => (isHeld(measuredTogether(k, 1, truth)[0]!) ? 1 : 0)));

test('95 % of single ages hold their truth, every input drawn (4,000 samples, seeds 0 to 3999)', (t) => {
  const found = coverage();
  t.diagnostic(`${(100 * found).toFixed(1)} %`);
  assert.ok(Math.abs(found - 0.95) < ALLOWED, `${found}`);
});

test('the mean of 12 ages measured together is as sure as its parts say, not as 12 own errors (1,000 sets, seeds 0 to 999)', (t) => {
  let parted = 0;
  let alone = 0;
  for (let k = 0; k < 1000; k++) {
    const ages = measuredTogether(k, 12);
    const off = Math.abs(mean(ages.map((a) => a.age_yr)) - TRUE_AGE_YR);
    const random = mean(ages.map((a) => a.random_yr));
    const systematic = mean(ages.map((a) => a.systematic_yr));
    if (off < Z95 * Math.sqrt(square(systematic) + square(random) / 12)) parted += 1;
    if (off < (Z95 * Math.hypot(systematic, random)) / Math.sqrt(12)) alone += 1;
  }
  t.diagnostic(`held with shared parts ${parted / 10} %; taken as 12 own errors ${alone / 10} %`);
  // Four standard errors of 0.95 of 1,000.
  assert.ok(Math.abs(parted / 1000 - 0.95) < 0.0276, `${parted}`);
});

test('truths outside the model, printed (seeds 0 to 3999)', (t) => {
  const printed = (what: string, truth: Sediment): void =>
    t.diagnostic(`95 % hold the truth of ${(100 * coverage(truth)).toFixed(1)} %: ${what}`);
  printed('ground wetter than thought, 35 % of dry mass for 25 ± 5', { ...TRUE, water: exactly(0.35) });
  printed('ground drier than thought, 10 %', { ...TRUE, water: exactly(0.1) });
  printed('half of the uranium came late', { ...TRUE, uranium: exactly(0.75) });
  printed('cosmic rate 0.23 for 0.17 ± 0.017: buried late', { ...TRUE, cosmic: exactly(0.23) });
});

/** Whatever classes come: nothing throws, what is known adds up, and order does not matter. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import {
  fromPanWeights,
  type GrainClass,
  grainClasses,
  grainStatistics,
  SIZE_SCALES,
  textureName,
} from './index.ts';

const SEED = 17;

/** Classes over each other, open at either end, with limits and what is no amount. */
const anyClass = fc
  .record({
    coarser: fc.option(fc.integer({ min: -6, max: 10 }), { nil: null }),
    width: fc.option(fc.integer({ min: 1, max: 5 }), { nil: null }),
    amount: fc.oneof(
      fc.double({ min: 0, max: 100, noNaN: true }),
      fc.constantFrom(0, 100, -1, Number.NaN, Infinity, 1e300),
    ),
    sigma: fc.option(fc.double({ min: 0, max: 10, noNaN: true }), { nil: null }),
    is_limit: fc.boolean(),
  })
  .filter(({ coarser, width }) => coarser !== null || width !== null);

const classesOf = (
  drawn: readonly (typeof anyClass extends fc.Arbitrary<infer T> ? T : never)[],
): GrainClass[] =>
  drawn.map(({ coarser, width, ...rest }, i) => ({
    id: `${i}`,
    name: `class ${i}`,
    coarser_phi: coarser,
    finer_phi: width === null ? null : (coarser ?? -2) + width,
    ...rest,
  }));

test('any classes: curves rise, parts lie between 0 and 100 % and add up where they are known', () => {
  fc.assert(
    fc.property(fc.array(anyClass, { maxLength: 12 }), fc.boolean(), (drawn, is_mass) => {
      const made = grainClasses(classesOf(drawn), is_mass);
      for (const { found, expected, fix } of made.faults) assert.ok(found && expected && fix);
      const statistics = grainStatistics(made, SIZE_SCALES.wentworth);
      if (statistics === null) return;
      const { phi, percent_coarser } = statistics.curve;
      for (let i = 1; i < phi.length; i++)
        assert.ok(phi[i]! > phi[i - 1]! && percent_coarser[i]! >= percent_coarser[i - 1]! - 1e-9);
      const { gravel, sand, silt, clay, mud } = statistics.parts;
      for (const part of [gravel, sand, silt, clay, mud])
        assert.ok(part === null || (part >= -1e-9 && part <= 100 + 1e-9), `${part}`);
      if (gravel !== null && sand !== null && mud !== null)
        assert.ok(Math.abs(gravel + sand + mud - 100) < 1e-6);
      if (silt !== null && clay !== null && mud !== null) assert.ok(Math.abs(silt + clay - mud) < 1e-6);
      const known = statistics.percentiles_phi.filter((each) => each !== null);
      assert.deepEqual(
        known,
        known.toSorted((a, b) => a - b),
      );
      textureName(statistics.parts);
    }),
    { numRuns: 2000, seed: SEED },
  );
});

test('a whole analysis is the same in any order', () => {
  const whole = fc.array(fc.double({ min: 0.1, max: 50, noNaN: true }), { minLength: 2, maxLength: 10 });
  fc.assert(
    fc.property(whole, fc.array(fc.nat(), { minLength: 10, maxLength: 10 }), (amounts, keys) => {
      const sum = amounts.reduce((total, amount) => total + amount, 0);
      const classes = amounts.map(
        (amount, i): GrainClass => ({
          id: `${i}`,
          name: `${i}`,
          coarser_phi: i,
          finer_phi: i + 1,
          amount: (100 * amount) / sum,
          sigma: 1,
          is_limit: false,
        }),
      );
      const mixed = classes.map((each, i) => ({ each, key: keys[i]! })).sort((a, b) => a.key - b.key);
      const of = (given: readonly GrainClass[]) =>
        grainStatistics(grainClasses(given, false), SIZE_SCALES.wentworth)!;
      const [one, other] = [of(classes), of(mixed.map(({ each }) => each))];
      assert.deepEqual(other.percentiles_phi, one.percentiles_phi);
      assert.deepEqual(other.parts, one.parts);
    }),
    { numRuns: 500, seed: SEED },
  );
});

test('any weights: nothing throws, and a loss on ignition that is given lies between 0 and 100 %', () => {
  const weighing = fc.option(
    fc.record({
      value: fc.oneof(fc.double({ min: -5, max: 60, noNaN: true }), fc.constantFrom(0, Number.NaN, Infinity)),
      sigma: fc.option(fc.double({ min: 0, max: 1, noNaN: true }), { nil: null }),
    }),
    { nil: null },
  );
  const any = fc.record({ pan: weighing, wet: weighing, dry: weighing, burnt: weighing, volume: weighing });
  fc.assert(
    fc.property(any, (weights) => {
      const exact = Object.values(weights).every((each) => each === null || each.sigma === null);
      const { loss_on_ignition, dry_density } = fromPanWeights(weights).weighed;
      if (loss_on_ignition !== null && exact)
        assert.ok(loss_on_ignition.value >= -1 && loss_on_ignition.value <= 101, `${loss_on_ignition.value}`);
      if (dry_density !== null) assert.ok(dry_density.value > 0 && dry_density.value < 3);
    }),
    { numRuns: 3000, seed: SEED },
  );
});

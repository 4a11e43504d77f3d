import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import { lineLoad, pullEstimate, reevingEfficiency, SHEAVE_K, shaftFriction_kn } from './line-pull.ts';

const near = (a: number, b: number, tolerance = 1e-9) =>
  assert.ok(Math.abs(a - b) <= tolerance * Math.max(1, Math.abs(b)), `${a} is not ${b}`);

/** Slow twin: tension handed from sheave to sheave, each taking its share; the parts together hold the load. */
function fastLineByHand(load: number, parts: number, k: number): { fast: number; dead: number } {
  let tension = 1;
  let held = 0;
  for (let i = 0; i < parts; i++) {
    tension /= k;
    held += tension;
  }
  return { fast: load / held, dead: (load / held) * tension };
}

test('reeving is the sum of its parts (seed 4254)', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 16 }),
      fc.constantFrom<'roller' | 'plain'>('roller', 'plain'),
      fc.integer({ min: 1, max: 500 }),
      (parts, bearing, load) => {
        const line = lineLoad(load, { parts, sheaves: parts, bearing });
        const hand = fastLineByHand(load, parts, SHEAVE_K[bearing]);
        near(line.fast_line_kn, hand.fast);
        near(line.dead_line_kn, hand.dead);
        near(line.head_kn, load + hand.fast + hand.dead);
      },
    ),
    { seed: 4254, numRuns: 200 },
  );
  near(reevingEfficiency(4, 4, 1), 1);
  assert.throws(() => reevingEfficiency(0, 0, 1.04), RangeError);
});

test('a sheave block carries its resultant: the hook, or both ends of the line on one sheave', () => {
  // straight over one roller sheave: 10 on the hook, 10.4 to the winch, both on the sheave
  near(lineLoad(10, { parts: 1, sheaves: 1, bearing: 'roller' }).block_kn, 20.4);
  // four parts: fast = 10·1.04⁴·0.04/(1.04⁴ − 1) = 2.7549, twice it is less than the hook's 10
  near(lineLoad(10, { parts: 4, sheaves: 4, bearing: 'roller' }).block_kn, 10);
});

test('friction on a shaft: the closed form is the integral in millimetres', () => {
  let sum = 0;
  for (let i = 0; i < 8000; i++) sum += Math.PI * 0.0889 * 0.6 * 11 * ((i + 0.5) / 1000) * 0.001;
  near(shaftFriction_kn(88.9, 8).high, sum, 1e-6);
});

test('a string of 12 m of 3 in pipe, 10 m in the ground, with a caution in hand', () => {
  const pull = pullEstimate({
    pipe: { outside_diameter_mm: 88.9, wall_mm: 5.49, mass_kg_per_m: 11.29 },
    collar_to_shoe_m: 12,
    penetration_m: 10,
    plug_m: 2,
    extra_kg: 60,
    reeving: { parts: 4, sheaves: 4, bearing: 'roller' },
    rated: [
      { part: 'rope', rated_kn: 20, on: 'line' },
      { part: 'tripod', rated_kn: 40, on: 'head' },
      { part: 'shackle', rated_kn: 1, on: 'hook' },
    ],
  })!;
  near(pull.weight_air_kn, ((11.29 * 12 + 60) * 9.80665) / 1000);
  near(pull.weight_air_kn - pull.weight_water_kn, (112.9 * 1025 * 9.80665) / 7850 / 1000);
  assert.ok(pull.friction_kn.high > 10 * pull.friction_kn.low);
  assert.ok(pull.vibrated.hook_kn.high < pull.still.hook_kn.high);
  assert.deepEqual(
    pull.still.against.map((a) => a.verdict),
    ['could exceed', 'could exceed', 'exceeds'],
  );
  assert.match(pull.caution, /competent person/);
});

test('impossible strings have no estimate', () => {
  const input = {
    pipe: { outside_diameter_mm: 88.9, wall_mm: 5.49, mass_kg_per_m: null },
    collar_to_shoe_m: 5,
    penetration_m: 4,
    plug_m: null,
    extra_kg: 0,
    reeving: { parts: 1, sheaves: 0, bearing: 'plain' as const },
    rated: [],
  };
  assert.ok(pullEstimate(input) !== null);
  assert.equal(pullEstimate({ ...input, penetration_m: 6 }), null);
  assert.equal(pullEstimate({ ...input, collar_to_shoe_m: Number.NaN }), null);
  assert.equal(pullEstimate({ ...input, pipe: { ...input.pipe, wall_mm: 50 } }), null);
});

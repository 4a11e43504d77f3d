import assert from 'node:assert/strict';
import { test } from 'node:test';
import { randomStream } from '@stillstand/science/base';
import fc from 'fast-check';
import {
  decline,
  LEAD_MODELS,
  type LeadSlice,
  leadAges,
  leadDefaults,
  leadLikelihood,
  leadPriorDefaults,
} from './index.ts';

const near = (actual: number | undefined, expected: number, within: number) =>
  assert.ok(Math.abs(actual! - expected) <= within, `${actual} is not ${expected} ± ${within}`);

const slice = (i: number, thickness_m: number, cells: Partial<LeadSlice>): LeadSlice => ({
  id: `slice ${i + 1}`,
  top_m: i * thickness_m,
  bottom_m: (i + 1) * thickness_m,
  total: null,
  supported: null,
  density_g_cm3: null,
  caesium: null,
  ...cells,
});

const EXACT = {
  ...leadDefaults,
  half_life_yr: { value: 22.26, sigma: 0 },
  below: 'none' as const,
  draws: 50,
};

/** Invented: eight slices of 2 cm, Bq/kg and g/cm³. */
const C = [200, 150, 110, 80, 55, 35, 18, 6];
const DENSITY = [0.4, 0.45, 0.5, 0.52, 0.55, 0.58, 0.6, 0.62];
const worked = C.map((bq_kg, i) =>
  slice(i, 0.02, { total: { bq_kg, sigma_bq_kg: 0 }, density_g_cm3: DENSITY[i]! }),
);
const NONE = { bq_kg: 0, sigma_bq_kg: 0 };

test('constant supply: the worked example, by hand', () => {
  const ages = leadAges({ slices: worked, supported: NONE, collected_ce: 2020 }, EXACT, randomStream(1));
  near(ages.supply?.inventory_bq_m2.value, 6183.4, 1e-9);
  // ln(6183.4/(6183.4 − 1600))/0.0311387 and so on down; the last base has nothing below it.
  const bases = [9.616, 20.821, 34.175, 50.048, 70.128, 98.218, 141.951];
  for (const [i, age] of bases.entries()) near(ages.cells[i]!.constant_supply.base?.value, age, 0.001);
  assert.equal(ages.cells[7]!.constant_supply.base, null);
  // λA/C with A at the middle of the slice.
  const rates = [0.08382, 0.08113, 0.07596, 0.06685, 0.05655, 0.0439, 0.03155, 0.01931];
  for (const [i, rate] of rates.entries()) near(ages.cells[i]!.rate_g_cm2_yr?.value, rate, 1e-5);
  near(ages.cells[0]!.rate_mm_yr?.value, (10 * 0.08382) / 0.4, 1e-3);
});

test('constant concentration: the logarithm of the ratio; the surface by the mean decline', () => {
  const ages = leadAges({ slices: worked, supported: NONE, collected_ce: 2020 }, EXACT, randomStream(1));
  const at = (i: number) => ages.cells[i]!.constant_concentration.middle!.value;
  near(at(3) - at(0), Math.log(200 / 80) / (Math.LN2 / 22.26), 1e-9);
  assert.ok(at(0) > 0 && at(0) < 9.616);
});

test('constant flux and sedimentation: a textbook set, against depth', () => {
  // Depth 1.0 to 5.0 cm; least squares of ln C by hand: intercept 6.0072, slope 0.47443 per cm.
  const depth = [1, 1.5, 2, 2.5, 3, 3.5, 4, 4.5, 5];
  const fit = decline(
    depth,
    [247, 199, 160, 123, 101, 78, 62, 46, 38],
    depth.map(() => 1),
  );
  near(fit?.intercept, 6.0072, 1e-4);
  near(fit?.slope, 0.47443, 1e-5);
  near(0.031 / fit!.slope, 0.06534, 1e-5);
});

test('an even profile is read alike by all three models', () => {
  const lambda = Math.LN2 / 22.26;
  // 4 yr a slice, 50 Bq/kg/yr·kg: the mean over a slice, so that the inventory is exact.
  const even = Array.from({ length: 40 }, (_, i) =>
    slice(i, 0.01, {
      total: {
        bq_kg: (100 / (4 * lambda)) * (Math.exp(-lambda * 4 * i) - Math.exp(-lambda * 4 * (i + 1))),
        sigma_bq_kg: 0,
      },
      density_g_cm3: 0.5,
    }),
  );
  const ages = leadAges(
    { slices: even, supported: NONE, collected_ce: 2020 },
    { ...EXACT, below: 'estimated' },
    randomStream(1),
  );
  for (const i of [0, 5, 10, 20]) {
    near(ages.cells[i]!.constant_supply.base?.value, 4 * (i + 1), 0.15);
    near(ages.cells[i]!.constant_flux.base?.value, 4 * (i + 1), 1e-6);
    near(ages.cells[i]!.constant_concentration.middle?.value, 4 * i + 2, 1e-6);
  }
  near(ages.flux?.rate_mm_yr.value, 2.5, 1e-9);
  near(ages.flux?.rate_g_cm2_yr?.value, 0.125, 1e-9);
});

test('what cannot be so is named, and the rest computes', () => {
  const odd = worked.map((s) => ({ ...s }));
  odd[1] = { ...odd[1]!, density_g_cm3: -0.45 };
  odd[3] = { ...odd[3]!, total: null };
  odd.push({ ...odd[2]!, id: 'twice' }, { ...odd[2]!, id: 'upside down', top_m: 0.3, bottom_m: 0.28 });
  const ages = leadAges({ slices: odd, supported: NONE, collected_ce: null }, EXACT, randomStream(1));
  const codes = ages.faults.map(({ code, slice: of }) => `${code} ${of}`);
  for (const code of [
    'density slice 2',
    'overlap twice',
    'no_thickness upside down',
    'collected null',
    'gap null',
  ])
    assert.ok(codes.includes(code), `${code} in ${codes}`);
  assert.equal(ages.cells.length, 8);
  // Taken from the neighbours, as √(110·55) and (0.4 + 0.5)/2: nearly as measured.
  near(ages.cells[5]!.constant_supply.base?.value, 98.2, 1);
  assert.ok(ages.cells[3]!.is_estimated);
  const nothing = leadAges({ slices: [], supported: null, collected_ce: null }, EXACT, randomStream(1));
  assert.deepEqual(nothing.cells, []);
});

test('a missing surface: one slice is estimated, more is refused for all but constant flux', () => {
  const below = (from: number) => ({ slices: worked.slice(from), supported: NONE, collected_ce: 2020 });
  const one = leadAges(below(1), EXACT, randomStream(1));
  assert.equal(one.faults.find(({ code }) => code === 'surface')?.severity, 'warning');
  assert.ok(one.cells[1]!.constant_supply.base!.sigma > 0);
  const more = leadAges(below(2), EXACT, randomStream(1));
  assert.equal(more.faults.find(({ code }) => code === 'surface')?.severity, 'error');
  assert.equal(more.supply, null);
  assert.ok(more.cells.every((cell) => cell.constant_concentration.middle === null));
  assert.ok(more.flux !== null);
});

test('lead-210 below the last slice: estimated, or too much and refused', () => {
  const profile = (n: number) => ({ slices: worked.slice(0, n), supported: NONE, collected_ce: 2020 });
  const settings = { ...EXACT, below: 'estimated' as const };
  const most = leadAges(profile(8), settings, randomStream(1));
  assert.equal(most.faults.find(({ code }) => code === 'below')?.severity, 'warning');
  assert.ok(most.supply!.below_bq_m2!.value > 0);
  const few = leadAges(profile(4), settings, randomStream(1));
  assert.equal(few.faults.find(({ code }) => code === 'below')?.severity, 'error');
  assert.equal(few.supply, null);
});

test('supported from the deepest slices, and shared by all', () => {
  const tail = [31, 29, 30, 30.5, 29.5].map((bq_kg, i) =>
    slice(8 + i, 0.02, { total: { bq_kg, sigma_bq_kg: 1 }, density_g_cm3: 0.6 }),
  );
  const raised = worked.map((s) => ({ ...s, total: { bq_kg: s.total!.bq_kg + 30, sigma_bq_kg: 1 } }));
  const ages = leadAges(
    { slices: [...raised, ...tail], supported: null, collected_ce: 2020 },
    { ...EXACT, draws: 2000 },
    randomStream(1),
  );
  // Five agree; of the deeper three, (30 + 30.5 + 29.5)/3 = 30 ± 1/√3.
  assert.equal(ages.supported?.slices.length, 3);
  near(ages.supported?.bq_kg, 30, 1e-9);
  near(ages.supported?.sigma_bq_kg, 1 / Math.sqrt(3), 1e-9);
  // The worked example, and two more slices with 1 and −1 Bq/kg, which sum to nothing.
  near(ages.cells[3]!.constant_supply.base?.value, 50.048, 0.001);
  // Inventory: Σ m²·1² of the slices and (Σm)²/3 of what they share, m in kg/m².
  const mass = [...DENSITY, 0.6, 0.6].map((d) => d * 20);
  const own = mass.reduce((sum, m) => sum + m * m, 0);
  const shared = mass.reduce((sum, m) => sum + m, 0) ** 2 / 3;
  near(ages.supply!.inventory_bq_m2.sigma / Math.sqrt(own + shared), 1, 0.05);
});

test('caesium-137: peak and onset, and where the peak falls', () => {
  const caesium = [1, 2, 20, 8, 3, 0.2, 0.1, 0];
  const slices = worked.map((s, i) => ({ ...s, caesium: { bq_kg: caesium[i]!, sigma_bq_kg: 0.3 } }));
  const ages = leadAges(
    { slices, supported: NONE, collected_ce: 1990 },
    { ...EXACT, draws: 2000 },
    randomStream(1),
  );
  near(ages.peak?.depth_m.value, 0.05, 1e-12);
  // Anywhere in 2 cm: half the central 68.27 % is 0.6827 cm.
  near(ages.peak?.depth_m.sigma, 0.0068, 0.0004);
  near(ages.onset?.depth_m.value, 0.1, 1e-12);
  // Middle of the third slice by constant supply: ln(6183.4/(6183.4 − 1600 − 1350 − 550))/0.0311387 = 26.8 yr.
  near(ages.peak_in.constant_supply?.year_ce.value, 1990 - 26.81, 0.05);
});

test('a limit is anywhere below it', () => {
  const slices = worked.map((s, i) =>
    i === 7 ? { ...s, total: { bq_kg: 12, sigma_bq_kg: 0, is_limit: true } } : s,
  );
  const ages = leadAges(
    { slices, supported: NONE, collected_ce: 2020 },
    { ...EXACT, draws: 2000 },
    randomStream(1),
  );
  near(ages.cells[7]!.excess_bq_kg.value, 6, 1e-9);
  near(ages.cells[7]!.excess_bq_kg.upper95, 12 * 0.975, 0.15);
});

test('the likelihood is the integral over supply and supported activity, counted out', () => {
  const tail = [31, 29, 30].map((bq_kg, i) =>
    slice(3 + i, 0.02, { total: { bq_kg, sigma_bq_kg: 2 }, density_g_cm3: 0.6 }),
  );
  const slices = [
    ...[230, 150, 90].map((bq_kg, i) =>
      slice(i, 0.02, { total: { bq_kg, sigma_bq_kg: 8 }, density_g_cm3: 0.5 }),
    ),
    ...tail,
  ];
  const prior = { supply_bq_m2_yr: { mean: 70, sigma: 40 }, scatter: 0.1 };
  const { likelihood } = leadLikelihood(
    { slices, supported: { bq_kg: 25, sigma_bq_kg: 6 }, collected_ce: 2020 },
    prior,
  );
  const at = (years: number[]) => Float64Array.from(years, (t) => t - 70);
  const lambda = Math.LN2 / 22.2;
  const counted = (years: number[]): number => {
    const g = slices.map(
      ({ density_g_cm3 }, i) =>
        (Math.exp(-lambda * years[i]!) - Math.exp(-lambda * years[i + 1]!)) / (lambda * density_g_cm3! * 20),
    );
    const normal = (x: number, m: number, s: number) =>
      Math.exp(-0.5 * ((x - m) / s) ** 2) / (s * Math.sqrt(2 * Math.PI));
    let sum = 0;
    const [dp, ds] = [2, 0.2];
    for (let p = -250; p <= 390; p += dp)
      for (let s = -20; s <= 70; s += ds) {
        let product = normal(p, 70, 40) * normal(s, 25, 6);
        for (const [i, { total }] of slices.entries())
          product *= normal(total!.bq_kg, p * g[i]! + s, Math.hypot(total!.sigma_bq_kg, 0.1 * 70 * g[i]!));
        sum += product * dp * ds;
      }
    return Math.log(sum);
  };
  for (const years of [
    [0, 20, 45, 90, 160, 260, 400],
    [0, 5, 15, 40, 300, 320, 330],
    [0, 30, 30, 30, 90, 200, 300],
  ])
    near(likelihood!.logLikelihood(at(years)), counted(years), 1e-6);
  assert.deepEqual([...likelihood!.ends_m].length, 7);
  assert.equal(likelihood!.logLikelihood(at([-1, 5, 15, 40, 300, 320, 330])), -Infinity);
  assert.equal(likelihood!.logLikelihood(at([0, 50, 15, 40, 300, 320, 330])), -Infinity);
  assert.ok(leadPriorDefaults.supply_bq_m2_yr.sigma > 0);
});

test('ends within half a millimetre are one: n slices have n + 1', () => {
  const slices = worked.map((s) => ({ ...s, top_m: s.top_m + 0.0004, bottom_m: s.bottom_m + 1e-12 }));
  const { likelihood } = leadLikelihood({ slices, supported: NONE, collected_ce: 2020 });
  assert.equal(likelihood!.ends_m.length, 9);
  const at = Float64Array.from(likelihood!.ends_m, (_, i) => 15 * i - 70);
  assert.ok(Number.isFinite(likelihood!.logLikelihood(at)));
});

test('whatever comes in, nothing is thrown and no age is a number that is none', () => {
  const odd = fc.oneof(fc.double({ min: -5, max: 300 }), fc.constantFrom(NaN, Infinity, -Infinity, 0));
  const activity = fc.option(fc.record({ bq_kg: odd, sigma_bq_kg: odd, is_limit: fc.boolean() }));
  const slices = fc.array(
    fc.record({
      id: fc.string(),
      top_m: odd.map((x) => x / 100),
      bottom_m: odd.map((x) => x / 100),
      total: activity,
      supported: activity,
      density_g_cm3: fc.option(odd),
      caesium: activity,
    }),
    { maxLength: 12 },
  );
  const profiles = fc.record({
    slices,
    supported: fc.option(fc.record({ bq_kg: odd, sigma_bq_kg: odd })),
    collected_ce: fc.option(fc.constantFrom(1990, 2020)),
  });
  fc.assert(
    fc.property(profiles, (profile) => {
      const ages = leadAges(profile, { ...leadDefaults, draws: 40 }, randomStream(3));
      for (const cell of ages.cells)
        for (const model of LEAD_MODELS)
          for (const age of [cell[model].middle, cell[model].base])
            assert.ok(
              age === null || [age.value, age.sigma, age.lower95, age.upper95].every(Number.isFinite),
            );
      const { likelihood } = leadLikelihood(profile);
      if (likelihood !== null) {
        const at = likelihood.ends_m.map((_, i) => 10 * i);
        assert.ok(!Number.isNaN(likelihood.logLikelihood(at)));
      }
    }),
    { seed: 20261130, numRuns: 300 },
  );
});

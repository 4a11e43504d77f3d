/** Ages and dose rates against printed samples, sums by hand, and draws of the same errors. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import {
  mean,
  quantiles,
  type RandomStream,
  randomStream,
  standardDeviation,
} from '@stillstand/science/base';
import {
  contentOf,
  type DoseFactors,
  type DoseRate,
  doseRate,
  errorOf,
  exactly,
  isFinding,
  type LuminescenceAge,
  luminescenceAge,
  type Measured,
  measured,
  type Sediment,
} from './index.ts';

const own = (value: number, random: number): Measured => ({ value, random, systematic: 0 });

/** Round figures, so that a sum can be done by hand. */
const ROUND: DoseFactors = {
  conversion: {
    figures: {
      alpha: { uranium: 3, thorium: 0.7, potassium: 0 },
      beta: { uranium: 0.15, thorium: 0.03, potassium: 0.8 },
      gamma: { uranium: 0.11, thorium: 0.05, potassium: 0.25 },
    },
    source: 'made up for tests',
    from_memory: true,
  },
  conversion_sigma: { figures: 0.02, source: 'made up for tests', from_memory: false },
  water: { figures: { alpha: 1.5, beta: 1.25, gamma: 1.14 }, source: 'made up', from_memory: true },
  beta_attenuation: {
    figures: {
      rows: [
        { diameter_um: 100, part: 0.93 },
        { diameter_um: 300, part: 0.85 },
      ],
      sigma: 0.02,
    },
    source: 'made up',
    from_memory: true,
  },
  specific_activity: {
    figures: { uranium: 12.5, thorium: 4, potassium: 320 },
    source: 'made up',
    from_memory: false,
  },
};

const SAND: Sediment = {
  uranium: own(1, 0.05),
  thorium: own(4, 0.2),
  potassium: own(1, 0.05),
  water: { value: 0.2, random: 0, systematic: 0.04 },
  grains: { from_um: 180, to_um: 220, etched: true },
  cosmic: { value: 0.18, random: 0, systematic: 0.018 },
  depth_m: 2,
};

const rated = (sediment: Sediment): DoseRate => {
  const made = doseRate(sediment, ROUND);
  assert.equal(made.kind, 'rate');
  return made as DoseRate;
};
const aged = (dose: Measured, rate: Measured): LuminescenceAge => {
  const made = luminescenceAge(dose, rate);
  assert.equal(made.kind, 'age');
  return made as LuminescenceAge;
};
const close = (found: number, expected: number, within: number, what: string): void =>
  assert.ok(Math.abs(found - expected) <= within, `${what}: ${found}, expected ${expected} within ${within}`);

// Three fluvial samples as printed: dose Gy, rate Gy/ka, age ka. Journal of the Geological Society, table 1 of the page
// lyellcollection.org/highwire/markup/34392, whole kiloyears.
test('three printed samples come back', () => {
  for (const [dose, rate, printed] of [
    [75, 2.83, 27],
    [80, 2.4, 33],
    [144, 4.61, 31],
  ] as const) {
    const { age_yr } = aged(own(dose, 0.05 * dose), own(rate, 0.05 * rate));
    assert.equal(Math.round(age_yr / 1000), printed);
  }
});

test('each part of the error of an age is the sum in quadrature of its relative parts', () => {
  // 100 ± 4 ± 3 Gy over 2 ± 0.06 ± 0.08 Gy/ka: 50 ka, √(4² + 3²) = 5 % random, √(3² + 4²) = 5 % systematic.
  const found = aged({ value: 100, random: 4, systematic: 3 }, { value: 2, random: 0.06, systematic: 0.08 });
  close(found.age_yr, 50_000, 1e-9, 'age');
  close(found.random_yr, 2500, 1e-9, 'random');
  close(found.systematic_yr, 2500, 1e-9, 'systematic');
  close(found.error_yr, 2500 * Math.SQRT2, 1e-9, 'whole');
});

test('the ends of 95 % are those of drawn doses over drawn rates, where the rate is poorly known (seed 5)', () => {
  const stream = randomStream(5);
  const found = aged(own(100, 6), own(2, 0.3));
  const drawn = Float64Array.from(
    { length: 200_000 },
    () => (1000 * (100 + 6 * stream.normal())) / (2 + 0.3 * stream.normal()),
  );
  const [low, high] = quantiles(drawn, [0.025, 0.975]) as [number, number];
  // Four standard errors of a quantile of 200,000 draws are about 0.5 % of the age.
  close(found.younger95_yr, low, 300, 'younger');
  close(found.older95_yr!, high, 600, 'older');
});

test('a rate that cannot be told from 0 leaves the age without an older end', () => {
  const found = aged(own(100, 5), own(1, 0.6));
  assert.equal(found.older95_yr, null);
  assert.ok(found.younger95_yr > 0);
});

test('a dose rate is the sum by hand', () => {
  const { rate, parts_gy_ka, errors } = rated(SAND);
  // Beta (0.15 + 4·0.03 + 0.8)·0.89/1.25 = 0.76184; gamma (0.11 + 4·0.05 + 0.25)/1.228 = 0.45603; cosmic 0.18.
  close(parts_gy_ka.alpha, 0, 0, 'alpha');
  close(parts_gy_ka.beta, 0.76184, 1e-9, 'beta');
  close(parts_gy_ka.gamma, 0.456026, 1e-6, 'gamma');
  close(rate.value, 1.397866, 1e-6, 'rate');
  // Potassium: 0.05·(0.8·0.89/1.25 + 0.25/1.228) = 0.05·(0.5696 + 0.203583) = 0.038659.
  close(errors.find((e) => e.of === 'potassium')!.random, 0.038659, 1e-6, 'potassium');
  // Water: 0.04·(0.76184·1.25/1.25 + 0.456026·1.14/1.228) = 0.04·(0.76184 + 0.423347) = 0.047407.
  close(errors.find((e) => e.of === 'water')!.systematic, 0.047407, 1e-6, 'water');
  // Factors: 2 % of what is from the ground, 1.217866.
  close(errors.find((e) => e.of === 'dose factors')!.systematic, 0.024357, 1e-6, 'factors');
});

test('fine grains have their alpha dose, and all of the beta dose', () => {
  const fine: Sediment = {
    ...SAND,
    grains: { from_um: 4, to_um: 11, etched: false },
    alpha_efficiency: own(0.04, 0.004),
  };
  const { parts_gy_ka, doubts } = rated(fine);
  // 0.04·(3 + 4·0.7)/1.3 and 1.07/1.25.
  close(parts_gy_ka.alpha, 0.178462, 1e-6, 'alpha');
  close(parts_gy_ka.beta, 0.856, 1e-9, 'beta');
  assert.deepEqual(doubts, []);
  assert.match(rated({ ...fine, alpha_efficiency: null }).doubts[0]!.fix, /too low/);
});

test('first order agrees with draws of every input (seed 6)', (t) => {
  const stream = randomStream(6);
  const { rate } = rated(SAND);
  const drawn = Float64Array.from({ length: 20_000 }, () => drawnRate(SAND, stream));
  const ratio = standardDeviation(drawn) / errorOf(rate);
  t.diagnostic(
    `sd of drawn rates over first order ${ratio.toFixed(4)}, means ${mean(drawn)} and ${rate.value}`,
  );
  // An sd of 20,000 draws is known to 0.5 %; first order leaves out the bend in water, 0.04² of the rate.
  assert.ok(Math.abs(ratio - 1) < 0.025);
  close(mean(drawn), rate.value, 0.006, 'mean');
});

/** All inputs drawn, and the factors: as `doseRate` adds them up. */
function drawnRate(sediment: Sediment, stream: RandomStream): number {
  const draw = (m: Measured): Measured =>
    exactly(m.value + m.random * stream.normal() + m.systematic * stream.normal());
  const part = 0.89 + 0.02 * stream.normal();
  const made = rated({
    ...sediment,
    uranium: draw(sediment.uranium),
    thorium: draw(sediment.thorium),
    potassium: draw(sediment.potassium),
    water: draw(sediment.water),
    cosmic: exactly(0),
    beta_attenuation: exactly(part),
  });
  return made.rate.value * (1 + 0.02 * stream.normal()) + draw(sediment.cosmic).value;
}

test('activities become contents, errors with them', () => {
  assert.deepEqual(contentOf('potassium', { value: 320, random: 16, systematic: 8 }, ROUND), {
    value: 1,
    random: 0.05,
    systematic: 0.025,
  });
});

test('the whole error is parted; a shared part above it is named', () => {
  const made = measured('dose', 100, 5, 3);
  assert.ok(!isFinding(made) && Math.abs(made.random - 4) < 1e-12 && made.systematic === 3);
  const all = measured('dose', 105.4, 3.162, 0.03 * 105.4);
  assert.ok(!isFinding(all) && all.random === 0);
  const wrong = measured('dose', 100, 3, 5);
  assert.ok(isFinding(wrong) && /at most the whole error, 3/.test(wrong.expected));
  assert.ok(isFinding(measured('dose', NaN, 1, 0)));
});

test('what gives no age is named: no error, a dose or rate of 0 or below, no number', () => {
  for (const [dose, rate, of] of [
    [own(100, 0), own(2, 0.1), 'dose'],
    [own(0, 1), own(2, 0.1), 'dose'],
    [own(100, 5), own(-2, 0.1), 'rate'],
    [own(100, 5), own(NaN, 0.1), 'rate'],
    [own(100, 5), own(2, NaN), 'rate'],
  ] as const) {
    const made = luminescenceAge(dose, rate);
    assert.ok(made.kind === 'not_dated' && made.findings[0]!.of === of, `${dose.value} over ${rate.value}`);
  }
});

test('what gives no rate is named: grains in mm or out of the table, contents below 0', () => {
  const named = (sediment: Sediment): string => {
    const made = doseRate(sediment, ROUND);
    assert.equal(made.kind, 'no_rate');
    return made.kind === 'no_rate' ? made.findings.map((f) => `${f.of}: ${f.fix}`).join(' ') : '';
  };
  assert.match(named({ ...SAND, grains: { from_um: 0.18, to_um: 0.25, etched: true } }), /write them in µm/);
  assert.match(named({ ...SAND, grains: { from_um: 250, to_um: 180, etched: true } }), /grains/);
  assert.match(named({ ...SAND, grains: { from_um: 400, to_um: 500, etched: true } }), /attenuation/);
  assert.match(named({ ...SAND, uranium: own(-1, 0.1) }), /uranium/);
  assert.match(named({ ...SAND, water: own(NaN, 0.1) }), /water/);
});

test('a stated attenuation serves grains that the table does not reach', () => {
  const { parts_gy_ka } = rated({
    ...SAND,
    grains: { from_um: 400, to_um: 500, etched: true },
    beta_attenuation: own(0.8, 0.03),
  });
  close(parts_gy_ka.beta, (1.07 * 0.8) / 1.25, 1e-9, 'beta');
});

test('slips that still compute are doubted: 43 ppm of thorium, water as a fraction, a total as the cosmic rate', () => {
  const doubted = (of: Partial<Sediment>): string[] => rated({ ...SAND, ...of }).doubts.map((d) => d.of);
  assert.deepEqual(doubted({}), []);
  assert.deepEqual(doubted({ uranium: own(0.31, 0.07), thorium: own(43, 0.02) }), ['thorium']);
  assert.deepEqual(doubted({ water: own(0.0029, 0.001) }), ['water']);
  assert.deepEqual(doubted({ water: exactly(0.2) }), ['water']);
  assert.deepEqual(doubted({ cosmic: own(1.93, 0.1) }), ['cosmic']);
  assert.deepEqual(doubted({ depth_m: 0.1 }), ['depth']);
  assert.deepEqual(doubted({ grains: { from_um: 180, to_um: 220, etched: false } }), ['grains']);
  assert.deepEqual(doubted({ potassium: own(18, 1) }), ['potassium']);
});

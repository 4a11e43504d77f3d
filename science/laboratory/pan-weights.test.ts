/** Weights of a pan: what they give, their errors, and what cannot be so. Units: spellings and factors. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { randomStream } from '@stillstand/science/base';
import {
  convertedUnit,
  fromPanWeights,
  laboratoryUnit,
  type PanWeights,
  panWeight,
  quantityCalled,
} from './index.ts';

const near = (actual: number, expected: number, within: number) =>
  assert.ok(Math.abs(actual - expected) <= within, `${actual} is not ${expected} ± ${within}`);
const weights = (
  parts: Partial<Record<keyof PanWeights, number | null>>,
  sigma: number | null = null,
): PanWeights => {
  const of = (name: keyof PanWeights, usual: number | null) => {
    const value = parts[name] === undefined ? usual : parts[name];
    return value === null ? null : { value, sigma };
  };
  return {
    pan: of('pan', 10),
    wet: of('wet', 24),
    dry: of('dry', 18),
    burnt: of('burnt', 16),
    volume: of('volume', 10),
  };
};
const said = (parts: Parameters<typeof weights>[0]) =>
  fromPanWeights(weights(parts)).faults.map(({ severity, at }) => `${severity} ${at}`);

test('by hand: 8 g dry with 6 g of water in 10 cm³, of which 2 g burn', () => {
  const { weighed, faults } = fromPanWeights(weights({}));
  assert.deepEqual(faults, []);
  assert.deepEqual(weighed, {
    loss_on_ignition: { value: 25, sigma: null },
    water_content: { value: 75, sigma: null },
    dry_density: { value: 0.8, sigma: null },
    wet_density: { value: 1.4, sigma: null },
  });
  const tared = fromPanWeights(weights({ pan: null, wet: 14, dry: 8, burnt: 6 })).weighed;
  assert.deepEqual(tared, weighed);
});

test('errors of the weights reach the numbers as ten thousand draws have them', () => {
  const { weighed } = fromPanWeights(weights({}, 0.02));
  const stream = randomStream(3);
  const draws = Array.from({ length: 10_000 }, () => {
    const moved = (value: number) => value + 0.02 * stream.normal();
    return fromPanWeights(
      weights({ pan: moved(10), wet: moved(24), dry: moved(18), burnt: moved(16), volume: moved(10) }),
    ).weighed;
  });
  for (const name of ['loss_on_ignition', 'water_content', 'dry_density', 'wet_density'] as const) {
    const values = draws.map((each) => each[name]!.value);
    const mean = values.reduce((total, value) => total + value, 0) / values.length;
    const sd = Math.sqrt(values.reduce((total, value) => total + (value - mean) ** 2, 0) / values.length);
    near(weighed[name]!.sigma!, sd, 0.04 * sd);
  }
});

test('what cannot be so is named and nothing is computed from it; the rest is', () => {
  const dryTooHeavy = fromPanWeights(weights({ dry: 25 }));
  assert.deepEqual(
    dryTooHeavy.faults.map(({ at, found }) => [at, found]),
    [['dry', '25 g dry, 24 g wet']],
  );
  assert.deepEqual(
    [dryTooHeavy.weighed.loss_on_ignition, dryTooHeavy.weighed.wet_density?.value],
    [null, 1.4],
  );
  const ash = fromPanWeights(weights({ burnt: 19 }));
  assert.equal(ash.weighed.loss_on_ignition, null);
  assert.equal(ash.weighed.dry_density!.value, 0.8);
  assert.deepEqual(said({ burnt: 19 }), ['error burnt']);
  assert.deepEqual(said({ pan: 30 }), ['error wet', 'error dry', 'error burnt']);
  assert.deepEqual(said({ dry: 10, wet: null, burnt: 10 }), ['error dry']);
  assert.deepEqual(said({ volume: 0 }), ['error volume']);
  assert.deepEqual(said({ wet: -1 }), ['error wet']);
  assert.deepEqual(said({ volume: 2 }), ['error volume']);
  assert.equal(fromPanWeights(weights({ volume: 2 })).weighed.dry_density, null);
  assert.deepEqual(said({ volume: 60 }), ['warning volume']);
  // 11 times as much water as sediment, that fills its volume.
  assert.deepEqual(said({ wet: 106, burnt: 12, volume: 94 }), ['warning wet']);
  assert.deepEqual(said({ wet: null, dry: null, burnt: null, volume: null }), []);
});

test('units: one printed name for many spellings, and what each is of the first', () => {
  const name = (unit: string) => laboratoryUnit(unit)?.name ?? null;
  assert.deepEqual(
    [
      '%',
      'wt. %',
      'g g⁻¹',
      'mg/kg',
      'ppm',
      'ug/g',
      'g/cm³',
      'g cm-3',
      'kg m⁻³',
      '×10⁻⁵ SI',
      'x 10^-6 SI',
      'kN/m2',
      'dpm g-1',
      'cc',
      'SI',
    ].map(name),
    [
      '%',
      '%',
      'g/g',
      'mg/kg',
      'mg/kg',
      'mg/kg',
      'g/cm³',
      'g/cm³',
      'kg/m³',
      '10⁻⁵ SI',
      '10⁻⁶ SI',
      'kPa',
      'dpm/g',
      'cm³',
      'SI',
    ],
  );
  assert.deepEqual(['counts', '‰ VPDB', '', 'cps'].map(name), [null, null, null, null]);
  const to = (value: number, from: string, into: string) =>
    convertedUnit(value, laboratoryUnit(from)!, laboratoryUnit(into)!);
  assert.equal(to(0.3, 'g/g', '%'), 30);
  assert.equal(to(1450, 'kg/m³', 'g/cm³'), 1.45);
  assert.equal(to(30, 'mg/kg', '%'), 0.003);
  assert.equal(to(63, 'µm', 'mm'), 0.063);
  assert.equal(to(2.5e-4, 'SI', '10-5 SI'), 25);
  // 1 cgs is 4π SI.
  near(to(1, '10-6 cgs', '10-6 SI'), 4 * Math.PI, 1e-9);
  // There and back is the value to 12 digits.
  for (const value of [0.123456789, 17, 1e-7])
    near(to(to(value, 'mg/g', '%'), '%', 'mg/g'), value, value * 1e-11);
  assert.throws(() => to(1, '%', 'g/cm³'), RangeError);
});

test('names of weights, and names of one quantity', () => {
  const called = (...names: string[]) => names.map(panWeight);
  assert.deepEqual(called('pan', 'Crucible weight', 'mass of pan', 'tare'), ['pan', 'pan', 'pan', 'pan']);
  assert.deepEqual(called('pan + wet', 'wet mass with pan', 'wet weight', 'pan_wet'), [
    'wet',
    'wet',
    'wet',
    'wet',
  ]);
  assert.deepEqual(called('dry mass', 'pan + dry', 'dry sample + pan'), ['dry', 'dry', 'dry']);
  assert.deepEqual(called('pan + burnt', 'ash mass', 'ashed weight with crucible'), [
    'burnt',
    'burnt',
    'burnt',
  ]);
  assert.deepEqual(called('volume', 'sample volume'), ['volume', 'volume']);
  assert.deepEqual(
    called('dry density', 'dry mass accumulation', 'wet', 'ash', 'panda', 'loss on ignition', ''),
    Array(7).fill(null),
  );
  assert.equal(quantityCalled('LOI'), quantityCalled('Loss on ignition'));
  assert.equal(quantityCalled('LOI 550 °C'), quantityCalled('loss-on-ignition'));
  assert.equal(quantityCalled('DBD'), quantityCalled('dry bulk density'));
  assert.notEqual(quantityCalled('LOI 950'), quantityCalled('LOI'));
  assert.equal(quantityCalled('Fe '), quantityCalled('fe'));
  assert.notEqual(quantityCalled('Ω'), quantityCalled('δ'));
});

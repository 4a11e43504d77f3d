/** A grain-size analysis from its classes: totals, sums, open ends, limits, parts and errors. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { normalCdf, randomStream } from '@stillstand/science/base';
import {
  type GrainClass,
  grainClasses,
  grainStatistics,
  SIZE_SCALES,
  sizeRange,
  textureName,
} from './index.ts';

const near = (actual: number, expected: number, within: number) =>
  assert.ok(Math.abs(actual - expected) <= within, `${actual} is not ${expected} ± ${within}`);
const classOf = (name: string, amount: number, parts: Partial<GrainClass> = {}): GrainClass => ({
  id: name,
  name,
  ...sizeRange(name, 'wentworth')!,
  amount,
  sigma: null,
  is_limit: false,
  ...parts,
});
const analysis = (...classes: [string, number, Partial<GrainClass>?][]) =>
  grainClasses(
    classes.map(([name, amount, parts]) => classOf(name, amount, parts)),
    false,
  );
const codes = (made: ReturnType<typeof grainClasses>) =>
  made.faults.map(({ code, severity }) => `${severity} ${code}`);

test('names of classes: limits in any unit, words of either scale, φ the other way round', () => {
  const phi = (name: string, scale: 'wentworth' | 'iso_14688' = 'wentworth') => {
    const range = sizeRange(name, scale);
    return range === null
      ? null
      : [range.coarser_phi, range.finer_phi].map((x) => (x === null ? null : Number(x.toFixed(2))));
  };
  assert.deepEqual(phi('63–125 µm'), [3, 3.99]);
  assert.deepEqual(phi('grain size 125-250um'), [2, 3]);
  assert.deepEqual(phi('0.5 to 1 mm'), [0, 1]);
  assert.deepEqual(phi('0,5–1 mm'), [0, 1]);
  assert.deepEqual(phi('> 2 mm'), [null, -1]);
  assert.deepEqual(phi('< 63 μm'), [3.99, null]);
  assert.deepEqual(phi('0–63 µm'), [3.99, null]);
  assert.deepEqual(phi('3–4 phi'), [3, 4]);
  assert.deepEqual(phi('-1 to 0 φ'), [-1, 0]);
  assert.deepEqual(phi('> 8 φ'), [8, null]);
  assert.deepEqual(phi('< -1 phi'), [null, -1]);
  assert.deepEqual(phi('Sand content'), [-1, 4]);
  assert.deepEqual(phi('sand', 'iso_14688'), [-1, 3.99]);
  assert.deepEqual(phi('clay', 'iso_14688'), [8.97, null]);
  assert.deepEqual(phi('coarse sand', 'iso_14688'), [-1, 0.67]);
  assert.deepEqual(
    ['loss on ignition', 'total lead-210', '5', '63–63 µm', 'fraction'].map((name) => phi(name)),
    [null, null, null, null, null],
  );
});

test('a normal in φ, cut into classes, gives its own mean and sd back, graphic and by moments', () => {
  const [mean, sd] = [2.2, 0.9];
  const classes = Array.from({ length: 100 }, (_, i): GrainClass => {
    const coarser_phi = -3 + i * 0.1;
    const share = normalCdf((coarser_phi + 0.1 - mean) / sd) - normalCdf((coarser_phi - mean) / sd);
    return {
      ...classOf('sand', 100 * share),
      id: `${i}`,
      name: `${coarser_phi}`,
      coarser_phi,
      finer_phi: coarser_phi + 0.1,
    };
  });
  const found = grainStatistics(grainClasses(classes, false), SIZE_SCALES.wentworth)!;
  near(found.folk_ward!.mean_phi, mean, 0.003);
  // The formula's own factor of a normal, 0.99567.
  near(found.folk_ward!.sorting_phi, 0.99567 * sd, 0.005);
  near(found.moments!.mean_phi, mean, 0.001);
  // A class's width adds w²/12 to the variance.
  near(found.moments!.sd_phi ** 2, sd ** 2 + 0.1 ** 2 / 12, 0.001);
  near(found.moments!.kurtosis, 3, 0.05);
  // Coarser than 2 mm and finer than 1/16 mm, of the normal itself.
  near(found.parts.gravel!, 100 * normalCdf((-1 - mean) / sd), 1e-5);
  near(found.parts.mud!, 100 * (1 - normalCdf((4 - mean) / sd)), 1e-5);
});

test('what lies in a class without an end is not made up', () => {
  const some = grainStatistics(analysis(['> 2 mm', 3], ['sand', 90], ['mud', 7]), SIZE_SCALES.wentworth)!;
  assert.deepEqual(some.parts, { gravel: 3, sand: 90, silt: null, clay: null, mud: 7 });
  assert.equal(some.percentiles_phi[6], null);
  assert.equal(some.folk_ward, null);
  assert.equal(some.moments, null);
  assert.equal(textureName(some.parts), 'slightly gravelly sand');
  const little = grainStatistics(
    analysis(['0–1 phi', 20], ['1–2 phi', 60], ['2–3 phi', 18], ['> 3 phi', 2]),
    SIZE_SCALES.wentworth,
  )!;
  assert.ok(little.folk_ward !== null);
  // By hand: 0.2 × 0.5 + 0.6 × 1.5 + 0.18 × 2.5 + 0.02 × 3.5.
  near(little.moments!.mean_phi, 1.52, 1e-12);
  assert.equal(little.moments!.is_closed, true);
  assert.deepEqual(little.parts.mud, null);
});

test('a limit of a part inside a class is read off the curve and named', () => {
  const found = grainStatistics(analysis(['1–3 mm', 40], ['0.5–1 mm', 60]), SIZE_SCALES.wentworth)!;
  assert.deepEqual(found.interpolated_mm, [2]);
  // 1 to 3 mm is 0 to −1.585 φ, of which −1.585 to −1 is gravel.
  near(found.parts.gravel!, (40 * Math.log2(1.5)) / Math.log2(3), 1e-9);
});

test('a total next to its parts counts once; sums, gaps, doubles and overlaps are named', () => {
  const parts: [string, number][] = [
    ['fine sand', 30],
    ['very fine sand', 30],
    ['mud', 40],
  ];
  assert.deepEqual(codes(analysis(...parts, ['0.0625–0.25 mm', 60])), []);
  assert.deepEqual(codes(analysis(...parts, ['0.0625–0.25 mm', 70])), ['warning parts']);
  assert.deepEqual(codes(analysis(['sand', 61], ['mud', 39.5])), []);
  const off = analysis(['sand', 60], ['mud', 37]);
  assert.deepEqual(codes(off), ['warning sum']);
  near(grainStatistics(off, SIZE_SCALES.wentworth)!.parts.sand!, (100 * 60) / 97, 1e-9);
  const bad = analysis(['sand', 60], ['mud', 20]);
  assert.deepEqual(codes(bad), ['error sum']);
  assert.equal(bad.faults[0]!.found, 'classes that sum to 80 %');
  assert.equal(grainStatistics(bad, SIZE_SCALES.wentworth), null);
  assert.equal(bad.classes.length, 2);
  assert.deepEqual(codes(analysis(['sand', 60], ['clay', 40])), ['warning gap']);
  assert.deepEqual(codes(analysis(['sand', 60], ['sand', 60], ['mud', 40])), ['error overlap']);
  assert.deepEqual(codes(analysis(['medium sand', 60], ['mud', 40], ['0.05–0.2 mm', 10])), [
    'error overlap',
    'warning gap',
    'error sum',
  ]);
  assert.deepEqual(codes(analysis(['sand', -1], ['mud', 100])), ['error negative']);
  assert.deepEqual(codes(analysis(['sand', 0], ['mud', 0])), ['error empty']);
  assert.deepEqual(grainClasses([], false).faults, []);
});

test('a class below its limit counts as its half, within a uniform error, and excuses a sum by as much', () => {
  const made = analysis(['> 2 mm', 2, { is_limit: true }], ['sand', 60], ['mud', 39]);
  assert.deepEqual(made.faults, []);
  assert.equal(made.classes[0]!.percent, 1);
  near(made.classes[0]!.sigma!, 2 / Math.sqrt(12), 1e-12);
});

test('masses need not sum to anything', () => {
  const made = grainClasses([classOf('sand', 12), classOf('mud', 4)], true);
  assert.deepEqual([made.sum_percent, made.classes.map(({ percent }) => percent)], [null, [75, 25]]);
});

test('errors of classes reach the statistics as ten thousand draws have them', () => {
  const given: [string, number, number][] = [
    ['0–1 phi', 15, 1],
    ['1–2 phi', 45, 2],
    ['2–3 phi', 30, 1.5],
    ['3–4 phi', 10, 1],
  ];
  const draw = (shift: (sigma: number) => number) =>
    grainStatistics(
      analysis(
        ...given.map(([name, amount, sigma]): [string, number, Partial<GrainClass>] => [
          name,
          amount + shift(sigma),
          { sigma },
        ]),
      ),
      SIZE_SCALES.wentworth,
    )!;
  const stream = randomStream(17);
  const all = Array.from({ length: 10_000 }, () => {
    // Sums of the draws stray from 100 % by a few per cent, within what is taken as rounding and loss.
    const classes = given.map(([name, amount, sigma]) => classOf(name, amount + sigma * stream.normal()));
    const sum = classes.reduce((total, { amount }) => total + amount, 0);
    const whole = classes.map((each) => ({ ...each, amount: (100 * each.amount) / sum }));
    return grainStatistics(grainClasses(whole, false), SIZE_SCALES.wentworth)!;
  });
  const sd = (of: (each: (typeof all)[number]) => number) => {
    const mean = all.reduce((total, each) => total + of(each), 0) / all.length;
    return Math.sqrt(all.reduce((total, each) => total + (of(each) - mean) ** 2, 0) / all.length);
  };
  const { sigma } = draw(() => 0);
  near(
    sigma.median_phi!,
    sd((each) => each.percentiles_phi[3]!),
    0.05 * sigma.median_phi!,
  );
  near(
    sigma.mean_phi!,
    sd((each) => each.folk_ward!.mean_phi),
    0.05 * sigma.mean_phi!,
  );
  near(
    sigma.sorting_phi!,
    sd((each) => each.folk_ward!.sorting_phi),
    0.05 * sigma.sorting_phi!,
  );
});

test('names after Folk 1954, from memory: the limits of sand, of mud and of gravel', () => {
  const name = (gravel: number, sand: number, silt: number, clay: number) =>
    textureName({ gravel, sand, silt, clay, mud: silt + clay });
  assert.deepEqual(
    [
      name(0, 95, 4, 1),
      name(0, 70, 25, 5),
      name(0, 70, 15, 15),
      name(0, 30, 10, 60),
      name(0, 5, 45, 50),
      name(0, 5, 80, 15),
      name(10, 85, 5, 0),
      name(40, 30, 20, 10),
      name(60, 5, 20, 15),
      name(85, 10, 5, 0),
      name(2, 60, 30, 8),
    ],
    [
      'sand',
      'silty sand',
      'muddy sand',
      'sandy clay',
      'mud',
      'silt',
      'gravelly sand',
      'muddy sandy gravel',
      'muddy gravel',
      'gravel',
      'slightly gravelly silty sand',
    ],
  );
});

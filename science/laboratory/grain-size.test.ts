import assert from 'node:assert/strict';
import { test } from 'node:test';
import { normalQuantile } from '@stillstand/science/base';
import { type FolkWardPercentiles, folkWard, phiAt, phiFromMillimetres, sizeClass } from './index.ts';

/** Printed to four decimals in the reference. */
const PRINTED_PHI = 5e-5;
const near = (actual: number, expected: number, within: number) =>
  assert.ok(Math.abs(actual - expected) <= within, `${actual} is not ${expected} ± ${within}`);

test('Folk & Ward of a published-percentile example', () => {
  // Computed outside the product (numpy) from the formulae: Mz 2.2567, σI 0.7916, SkI +0.1481, KG 1.0956.
  const result = folkWard([1.1, 1.52, 1.74, 2.2, 2.75, 3.05, 3.8]);
  assert.ok(result !== null);
  near(result.mean_phi, 2.2567, PRINTED_PHI);
  near(result.sorting_phi, 0.7916, PRINTED_PHI);
  near(result.skewness, 0.1481, PRINTED_PHI);
  near(result.kurtosis, 1.0956, PRINTED_PHI);
  assert.deepEqual(
    [result.sorting_class, result.skewness_class, result.kurtosis_class],
    ['moderately sorted', 'fine skewed', 'mesokurtic'],
  );
});

test('Folk & Ward of a normal in φ, mean 2, sd 1.5', () => {
  // Computed outside the product: Mz 2.0000, σI 1.4935 (the formula gives 0.99567 sd), Sk 0, KG 0.99945.
  const at = (percent: number) => 2 + 1.5 * normalQuantile(percent / 100);
  const result = folkWard([at(5), at(16), at(25), at(50), at(75), at(84), at(95)]);
  assert.ok(result !== null);
  near(result.mean_phi, 2, 1e-9);
  near(result.sorting_phi, 1.4935, PRINTED_PHI);
  near(result.skewness, 0, 1e-9);
  near(result.kurtosis, 0.99945, 5e-6);
});

test('shifting φ moves the mean alone; stretching it stretches mean and sorting; turning it over turns skewness', () => {
  const base: FolkWardPercentiles = [1.1, 1.52, 1.74, 2.2, 2.75, 3.05, 3.8];
  const map = (f: (phi: number) => number, p = base) => {
    const result = folkWard(p.map(f) as unknown as FolkWardPercentiles);
    assert.ok(result !== null);
    return result;
  };
  const plain = map((phi) => phi);
  const moved = map((phi) => phi + 3);
  near(moved.mean_phi, plain.mean_phi + 3, 1e-12);
  near(moved.sorting_phi, plain.sorting_phi, 1e-12);
  const stretched = map((phi) => 2 * phi);
  near(stretched.sorting_phi, 2 * plain.sorting_phi, 1e-12);
  near(stretched.kurtosis, plain.kurtosis, 1e-12);
  const turned = map((phi) => -phi, [...base].reverse() as unknown as FolkWardPercentiles);
  near(turned.skewness, -plain.skewness, 1e-12);
});

test('percentiles that coincide have no statistics', () => {
  assert.equal(folkWard([2, 2, 2, 2, 2, 2, 2]), null);
});

test('a percentile lies between its sieves, and beyond the sieves it is not known', () => {
  const curve = { phi: [-1, 0, 1, 2], percent_coarser: [10, 30, 30, 90] };
  assert.equal(phiAt(curve, 10), -1);
  assert.equal(phiAt(curve, 20), -0.5);
  assert.equal(phiAt(curve, 30), 0);
  near(phiAt(curve, 60) ?? Number.NaN, 1.5, 1e-12);
  assert.equal(phiAt(curve, 5), null);
  assert.equal(phiAt(curve, 95), null);
});

test('φ of powers of two, and a diameter that is none', () => {
  for (let k = -8; k <= 8; k++) near(phiFromMillimetres(2 ** -k), k, 1e-12);
  assert.throws(() => phiFromMillimetres(0), RangeError);
});

test('a grain on a limit belongs to the coarser class', () => {
  const classes = [
    { name: 'gravel', mm_min: 2, mm_max: null },
    { name: 'sand', mm_min: 0.0625, mm_max: 2 },
  ];
  assert.equal(sizeClass(2, classes)?.name, 'gravel');
  assert.equal(sizeClass(1.999, classes)?.name, 'sand');
  assert.equal(sizeClass(0.0625, classes)?.name, 'sand');
  assert.equal(sizeClass(0.06, classes), null);
});

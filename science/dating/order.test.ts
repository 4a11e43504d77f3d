/** Ages from order and from one event: sums by hand and plain twins. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { square } from '@stillstand/science/base';
import {
  ageBetween,
  type Calibration,
  calibrate,
  normalAge,
  pooledAge,
  sameEvent,
  type YearlyCurve,
} from './index.ts';

const normal = (mean: number, sd: number): Calibration => {
  const age = normalAge(mean, sd);
  assert.ok(age.kind === 'calibrated');
  return age;
};

test('between two exact years every year is as likely', () => {
  const exactly = (year: number) => ({ from_cal_bp: year, density: Float64Array.of(1) });
  const age = ageBetween(exactly(109), exactly(100));
  assert.ok(age.kind === 'calibrated');
  assert.equal(age.from_cal_bp, 100);
  assert.equal(age.density.length, 10);
  for (const p of age.density) assert.ok(Math.abs(p - 0.1) < 1e-12);
});

test('a plain twin, each pair of years spread over what lies between', () => {
  const [older, younger] = [normal(3050, 40), normal(3000, 30)];
  const twin = new Map<number, number>();
  for (const [i, p] of older.density.entries())
    for (const [k, q] of younger.density.entries()) {
      const [a, b] = [older.from_cal_bp + i, younger.from_cal_bp + k];
      for (let t = b; t <= a; t++) twin.set(t, (twin.get(t) ?? 0) + (p * q) / (a - b + 1));
    }
  const total = [...twin.values()].reduce((sum, p) => sum + p, 0);
  const age = ageBetween(older, younger);
  assert.ok(age.kind === 'calibrated');
  for (const [i, p] of age.density.entries())
    assert.ok(Math.abs(p - (twin.get(age.from_cal_bp + i) ?? 0) / total) < 1e-8);
});

test('dates that contradict the order leave nothing, and say how surely', () => {
  const age = ageBetween(normal(3000, 30), normal(3200, 30));
  assert.ok(age.kind === 'nothing_remains');
  assert.match(age.reason, /probability 1\.\de-6|probability 0\.00000/);
});

const line = (name: string, shift: number, sigma: number): YearlyCurve => ({
  name,
  from_cal_bp: 0,
  c14_age: Float64Array.from({ length: 8000 }, (_, i) => i + shift),
  sigma_yr: new Float64Array(8000).fill(sigma),
});
const age = (c14_age: number, error_yr: number, curve: YearlyCurve, offset_yr = 0, offset_sd_yr = 0) => ({
  c14_age,
  error_yr,
  offset_yr,
  offset_sd_yr,
  curve,
});

test('two on one curve are the calibrated mean, the curve’s error once; the test has it in each', () => {
  const curve = line('air', 0, 20);
  const event = sameEvent([age(3000, 30, curve), age(3100, 40, curve)]);
  assert.ok(event.kind === 'dated');
  // Mean (3000/900 + 3100/1600)/(1/900 + 1/1600) = 3036, 1 sigma 24.
  const pooled = pooledAge([age(3000, 30, curve), age(3100, 40, curve)]);
  assert.ok(Math.abs(pooled.c14_age - 3036) < 1e-9 && Math.abs(pooled.error_yr - 24) < 1e-9);
  const alone = calibrate({ ...pooled, offset_yr: 0, offset_sd_yr: 0 }, curve);
  assert.ok(alone.kind === 'calibrated');
  assert.deepEqual(event.age.density, alone.density);
  // By hand: 100²/((30² + 20²) + (40² + 20²)) = 10000/3300.
  assert.ok(Math.abs(event.chi_square - 10000 / 3300) < 1e-9);
  assert.equal(event.degrees, 1);
});

test('a shell and a twig of one event: the product of their densities', () => {
  const air = line('air', 0, 10);
  const sea = line('sea', 400, 40);
  const event = sameEvent([age(3000, 30, air), age(3520, 30, sea, 50, 40)]);
  assert.ok(event.kind === 'dated');
  // On straight curves both are normal: 3000 with 30² + 10² = 1000, 3070 with 30² + 40² + 40² = 4100.
  const [v, w] = [1000, 4100];
  assert.ok(Math.abs(event.age.mean_cal_bp - (3000 / v + 3070 / w) / (1 / v + 1 / w)) < 0.01);
  assert.ok(Math.abs(event.age.sd_yr - Math.sqrt(1 / (1 / v + 1 / w))) < 0.01);
  assert.ok(Math.abs(event.chi_square - square(70) / (v + w)) < 0.01);
});

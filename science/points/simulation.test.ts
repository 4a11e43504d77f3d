/** Known truth: heights drawn with every kind of error, and what the sums and groups say of them. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { randomStream } from '@stillstand/science/base';
import { declaredError, forCurve, type HeightError, indexPoint } from './index.ts';

const SIMULATED = 40_000;
/** Four Monte-Carlo standard errors of an rms (1/√2n) or a correlation (1/√n). */
const RMS_PART = 4 / Math.sqrt(2 * SIMULATED);
const CORRELATION = 4 / Math.sqrt(SIMULATED);

const declare = (
  component: string,
  value_m: number,
  shape: HeightError['shape'],
  shared_group: string | null = null,
) => declaredError({ component, value_m, sigma_level: 1, shape, shared_group, source: 'simulation' });

const tide_levels = [
  { level: 'MHW', elevation_m: 0.8, sigma_m: 0.04 },
  { level: 'HAT', elevation_m: 1.4, sigma_m: 0.06 },
];
const at = (elevation_m: number, errors: HeightError[]) => {
  const point = indexPoint({
    elevation_m,
    lower: { level: 'MHW', offset_m: 0 },
    upper: { level: 'HAT', offset_m: 0 },
    tide_levels,
    tide_group: 'marsh',
    errors,
  });
  assert.ok(point.ok);
  return point;
};

/** RSL 0 seen at `SIMULATED` pairs of points that share a bench mark and a tide model; the error of each as drawn. */
function simulate(pair: readonly (readonly HeightError[])[], seed: number): Float64Array[] {
  const stream = randomStream(seed);
  const seen = pair.map(() => new Float64Array(SIMULATED));
  for (let i = 0; i < SIMULATED; i++) {
    const shared = new Map<string, number>();
    pair.forEach((errors, p) => {
      let error = 0;
      for (const { sigma_m, shape, shared_group } of errors) {
        if (shape === 'uniform') error += sigma_m * Math.sqrt(3) * (2 * stream.uniform() - 1);
        else if (shape === 'one_sided') error -= sigma_m * Math.abs(stream.normal());
        else if (shared_group === null) error += sigma_m * stream.normal();
        else {
          const z = shared.get(shared_group) ?? stream.normal();
          shared.set(shared_group, z);
          error += sigma_m * z;
        }
      }
      seen[p]![i] = error;
    });
  }
  return seen;
}

const rms = (x: Float64Array) => Math.sqrt(x.reduce((sum, v) => sum + v * v, 0) / x.length);

test('the curve sum is the root mean square error of drawn heights, shapes and all (seed 61)', (t) => {
  const point = at(-3, [
    declare('levelling', 0.05, 'normal', 'BM1'),
    declare('sampling', 0.08, 'normal'),
    declare('compaction', 0.2, 'one_sided'),
  ]);
  const [errors] = simulate([point.components], 61);
  const ratio = rms(errors!) / point.sigma_m;
  t.diagnostic(`rms of ${SIMULATED} errors over the curve sum: ${ratio}`);
  assert.ok(Math.abs(ratio - 1) < RMS_PART, `${ratio}`);
});

test('the groups for the curve hold the whole correlation of two points, and no more (seed 62)', (t) => {
  const one = at(-3, [declare('levelling', 0.1, 'normal', 'BM1'), declare('sampling', 0.08, 'normal')]);
  const two = at(-5, [declare('levelling', 0.1, 'normal', 'BM1'), declare('sampling', 0.2, 'normal')]);
  const [a, b] = simulate([one.components, two.components], 62);
  let product = 0;
  for (let i = 0; i < SIMULATED; i++) product += a![i]! * b![i]!;
  const seen = product / SIMULATED / (rms(a!) * rms(b!));
  const inOne = new Map(forCurve(one.components, 'index').shared.map((s) => [s.group, s.sigma_m]));
  let covariance = 0;
  for (const { group, sigma_m } of forCurve(two.components, 'index').shared) {
    covariance += sigma_m * (inOne.get(group) ?? 0);
  }
  const expected = covariance / (one.sigma_m * two.sigma_m);
  t.diagnostic(`correlation ${seen}, expected ${expected}`);
  assert.ok(expected > 0.1);
  assert.ok(Math.abs(seen - expected) < CORRELATION, `seen ${seen}, expected ${expected}`);
});

test('the protocol’s 2 sigma holds 95 % where normal parts decide, and more where the range does (seed 63)', (t) => {
  const inside = (errors: HeightError[], seed: number) => {
    const point = at(-3, errors);
    const [drawn] = simulate([point.components], seed);
    return drawn!.filter((e) => Math.abs(e) <= point.protocol_2sigma_m).length / SIMULATED;
  };
  const normal = inside([declare('levelling', 1, 'normal')], 63);
  // A normal is within 2 sigma 0.954 of the time; 0.01 is ten binomial sds of 40,000.
  assert.ok(normal > 0.94 && normal < 0.965, `${normal}`);
  // Half the range counted as 2 sigma: a uniform never leaves it, so the sum is not too narrow.
  const range = inside([], 63);
  t.diagnostic(`within 2 sigma: ${normal} where a normal decides, ${range} where the range does`);
  assert.ok(range > 0.95, `${range}`);
});

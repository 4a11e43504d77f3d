/** The elementary functions against 60-digit values (data/README.md) and printed tables. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import {
  atan2,
  cos,
  erf,
  exp,
  expm1,
  log,
  log1p,
  logGamma,
  normalCdf,
  normalLogCdf,
  normalQuantile,
  randomStream,
  sin,
} from '@stillstand/science/base';

const reference = JSON.parse(
  readFileSync(new URL('./data/reference.json', import.meta.url), 'utf8'),
) as Record<string, [number, number][]> & { atan2: [number, number, number][] };

/** Units in the last place of `expected` by which `got` is off. */
function ulps(got: number, expected: number): number {
  if (got === expected) return 0;
  const scale = 2 ** (Math.floor(Math.log2(Math.abs(expected))) - 52);
  return Math.abs(got - expected) / Math.max(scale, 5e-324);
}

const LARGEST_ULPS: [string, (x: number) => number, number][] = [
  ['exp', exp, 1],
  ['log', log, 1],
  ['log1p', log1p, 2],
  ['expm1', expm1, 3],
  ['sin', sin, 1],
  ['cos', cos, 1],
];
for (const [name, f, bound] of LARGEST_ULPS) {
  test(`${name} is within ${bound} units in the last place`, () => {
    for (const [x, y] of reference[name]!) {
      assert.ok(ulps(f(x), y) <= bound, `${name}(${x}) = ${f(x)}, expected ${y}: ${ulps(f(x), y)} ulps`);
    }
  });
}

test('atan2 is within 2 units in the last place', () => {
  for (const [y, x, angle] of reference.atan2) {
    const off = ulps(atan2(y, x), angle);
    assert.ok(off <= 2, `atan2(${y}, ${x}) = ${atan2(y, x)}, expected ${angle}: ${off} ulps`);
  }
});

const LARGEST_RELATIVE: [string, (x: number) => number, number][] = [
  ['erf', erf, 5e-16],
  ['normal_cdf', normalCdf, 2e-15],
  ['normal_log_cdf', normalLogCdf, 2e-15],
  ['normal_quantile', normalQuantile, 2e-15],
];
for (const [name, f, bound] of LARGEST_RELATIVE) {
  test(`${name} is within ${bound}, relative`, () => {
    for (const [x, y] of reference[name]!) {
      const off = Math.abs(f(x) / y - 1);
      assert.ok(off <= bound, `${name}(${x}) = ${f(x)}, expected ${y}: ${off}`);
    }
  });
}

test('log_gamma is within 1e-14, or 1e-15 of its size', () => {
  const name = 'log_gamma';
  for (const [x, y] of reference[name]!) {
    assert.ok(
      Math.abs(logGamma(x) - y) <= Math.max(1e-14, 1e-15 * Math.abs(y)),
      `${x}: ${logGamma(x)}, ${y}`,
    );
  }
});

// Abramowitz & Stegun 1964, Handbook of Mathematical Functions, NBS AMS 55: table 26.1 (P(x), 15 decimals), table 7.1
// (erf, 10 decimals), table 6.1 (Γ at ½: √π); from memory, and the same to every printed digit in the 60-digit values.
test('the handbook tables come back to their last printed digit', () => {
  const table: [number, number, number][] = [
    [normalCdf(1), 0.841344746068543, 15],
    [normalCdf(2), 0.97724986805182, 14],
    [normalCdf(3), 0.99865010196837, 15],
    [erf(0.5), 0.5204998778, 10],
    [erf(1), 0.8427007929, 10],
    [erf(2), 0.995322265, 10],
    [logGamma(0.5), 0.5723649429247001, 14],
    [normalQuantile(0.975), 1.959963984540054, 14],
  ];
  for (const [got, printed, digits] of table)
    assert.ok(Math.abs(got - printed) <= 0.5 * 10 ** -digits * 1.01 + 1e-16, `${got} ${printed}`);
});

test('the edges of the number range are what IEEE 754 would have', () => {
  assert.equal(exp(0), 1);
  assert.equal(exp(-Infinity), 0);
  assert.equal(exp(Infinity), Infinity);
  assert.equal(exp(-746), 0);
  assert.equal(exp(-745.1), 5e-324);
  assert.equal(exp(710), Infinity);
  assert.ok(
    Number.isNaN(exp(NaN)) && Number.isNaN(log(NaN)) && Number.isNaN(log(-1)) && Number.isNaN(log1p(-2)),
  );
  assert.equal(log(0), -Infinity);
  assert.equal(log(1), 0);
  assert.equal(log1p(-1), -Infinity);
  assert.equal(log(Infinity), Infinity);
  assert.ok(Math.abs(log(5e-324) + 744.4400719213812) < 1e-12);
  assert.equal(normalCdf(Infinity), 1);
  assert.equal(normalCdf(-Infinity), 0);
  assert.equal(normalQuantile(0), -Infinity);
  assert.equal(normalQuantile(1), Infinity);
  assert.ok(Number.isNaN(normalQuantile(1.1)) && Number.isNaN(logGamma(-1)));
});

// IEEE 754-2019, 9.2.1: special values of atan2; those of sine and cosine.
test('angles at the edges are what IEEE 754 has', () => {
  const quarter = Math.PI / 4;
  const edges: [number, number, number][] = [
    [0, 1, 0],
    [-0, 1, -0],
    [0, 0, 0],
    [-0, 0, -0],
    [0, -0, Math.PI],
    [-0, -0, -Math.PI],
    [0, -1, Math.PI],
    [-0, -1, -Math.PI],
    [1, 0, 2 * quarter],
    [1, -0, 2 * quarter],
    [-1, -0, -2 * quarter],
    [5e-324, -1, Math.PI],
    [-1e308, -1, -2 * quarter],
    [1e308, 1e308, quarter],
    [Infinity, Infinity, quarter],
    [Infinity, -Infinity, 3 * quarter],
    [-Infinity, 1, -2 * quarter],
    [1, -Infinity, Math.PI],
    [1, Infinity, 0],
  ];
  for (const [y, x, angle] of edges) assert.ok(Object.is(atan2(y, x), angle), `${y} ${x} ${atan2(y, x)}`);
  assert.ok(Object.is(sin(-0), -0) && Object.is(sin(0), 0));
  assert.equal(cos(-0), 1);
  for (const none of [NaN, Infinity, -Infinity]) {
    assert.ok(Number.isNaN(sin(none)) && Number.isNaN(cos(none)));
  }
  assert.ok(Number.isNaN(atan2(NaN, 1)) && Number.isNaN(atan2(1, NaN)));
});

test('sine is odd, cosine even, their squares add to 1 and their angle comes back', () => {
  const random = randomStream('angles');
  for (let i = 0; i < 20_000; i++) {
    const x = (random.uniform() - 0.5) * 20;
    assert.equal(sin(-x), -sin(x));
    assert.equal(cos(-x), cos(x));
    assert.ok(Math.abs(sin(x) * sin(x) + cos(x) * cos(x) - 1) < 4e-16);
    const back = atan2(sin(x), cos(x));
    const turns = Math.round((x - back) / (2 * Math.PI));
    assert.ok(Math.abs(x - back - turns * 2 * Math.PI) < 3e-15, `${x} ${back}`);
  }
});

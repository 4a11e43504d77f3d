import assert from 'node:assert/strict';
import { test } from 'node:test';
import { exp, expm1 } from '../functions/elementary.ts';
import { normalCdf, normalLogCdf } from '../functions/normal.ts';
import { truncatedNormal } from '../functions/truncated-normal.ts';
import { type RandomStream, randomStream, streamOf } from './random.ts';

test('xoshiro128** from the state 1, 2, 3, 4 gives the published sequence', () => {
  // Test vector of the reference implementation (Blackman & Vigna), as carried by the rand_xoshiro crate's tests.
  const s = streamOf([1, 2, 3, 4]);
  assert.deepEqual(
    Array.from({ length: 10 }, () => s.bits()),
    [11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804],
  );
});

test('a stream depends on its name alone, not on what parent or siblings drew', () => {
  const parent = randomStream(7);
  const before = parent.split('chain').split(2).uniform();
  for (let i = 0; i < 100; i++) parent.normal();
  parent.split('other').normal();
  assert.equal(parent.split('chain').split(2).uniform(), before);
  assert.equal(randomStream(7).split('chain').split(2).uniform(), before);
  const others = [
    randomStream(7),
    randomStream(8),
    randomStream('7'),
    randomStream(7.5),
    parent.split('chain'),
    parent.split('chain').split('2'),
    parent.split('chain').split(3),
    parent.split('chai').split('n2'),
    parent.split('').split(''),
    parent.split(''),
  ].map((s) => s.uniform());
  assert.equal(new Set([before, ...others]).size, others.length + 1);
  assert.equal(randomStream(0).uniform(), randomStream(-0).uniform());
  assert.throws(() => randomStream(NaN), RangeError);
});

/** Kolmogorov's distance times √n; above 1.95 in 1 of 1000 true samples (Kolmogorov 1933; Smirnov 1948 table). */
function kolmogorov(draw: () => number, cdf: (x: number) => number, n = 100_000): number {
  const x = Float64Array.from({ length: n }, draw).sort();
  let worst = 0;
  for (let i = 0; i < n; i++) {
    const p = cdf(x[i]!);
    worst = Math.max(worst, Math.abs(p - i / n), Math.abs(p - (i + 1) / n));
  }
  return worst * Math.sqrt(n);
}
const ONE_IN_A_THOUSAND = 1.95;

/** Gamma cdf for whole and half shapes by its recurrence: P(a + 1, x) = P(a, x) − x^a·e^−x/Γ(a + 1). */
function gammaCdf(shape: number, x: number): number {
  let a = shape % 1 === 0 ? 1 : 0.5;
  let p = a === 1 ? -expm1(-x) : 2 * normalCdf(Math.sqrt(2 * x)) - 1;
  let term = a === 1 ? x * exp(-x) : (Math.sqrt(x) * exp(-x)) / (Math.sqrt(Math.PI) / 2);
  for (; a < shape; a++) {
    p -= term;
    term *= x / (a + 1);
  }
  return p;
}

const LAWS: [string, (s: RandomStream) => number, (x: number) => number][] = [
  ['uniform', (s) => s.uniform(), (x) => x],
  ['normal', (s) => s.normal(), normalCdf],
  ['exponential', (s) => s.exponential(), (x) => -expm1(-x)],
  ['gamma, shape 0.5', (s) => s.gamma(0.5), (x) => gammaCdf(0.5, x)],
  ['gamma, shape 1', (s) => s.gamma(1), (x) => gammaCdf(1, x)],
  ['gamma, shape 7.5', (s) => s.gamma(7.5), (x) => gammaCdf(7.5, x)],
];
for (const [name, draw, cdf] of LAWS) {
  test(`${name}: 100,000 draws follow the law (seed 11)`, (t) => {
    const s = randomStream(11).split(name);
    const distance = kolmogorov(() => draw(s), cdf);
    t.diagnostic(`Kolmogorov's distance × √n: ${distance.toFixed(2)}`);
    assert.ok(distance < ONE_IN_A_THOUSAND, `${distance}`);
  });
}

const BOUNDS: [number, number][] = [
  [-Infinity, 0.3],
  [-2, 1],
  [-0.5, 0.4],
  [0.2, Infinity],
  [0.2, 0.9],
  [3, 3.2],
  [4, Infinity],
  [12, 12.4],
  [-Infinity, -20],
  [-31, -30],
];
for (const [a, b] of BOUNDS) {
  test(`normal between ${a} and ${b} sd: 50,000 draws follow the law (seed 12)`, (t) => {
    const s = randomStream(12).split(`${a} ${b}`);
    // In the log domain, so that the far tails keep their digits; the upper tail by symmetry.
    const mirrored = a > 0;
    const [low, high] = mirrored ? [-b, -a] : [a, b];
    const base = normalLogCdf(high);
    const gone = low === -Infinity ? 0 : exp(normalLogCdf(low) - base);
    const cdf = (z: number): number => (exp(normalLogCdf(z) - base) - gone) / (1 - gone);
    const distance = kolmogorov(
      () => {
        const x = truncatedNormal(s, 100, 2, 100 + 2 * a, 100 + 2 * b);
        assert.ok(x >= 100 + 2 * a && x <= 100 + 2 * b);
        return mirrored ? -(x - 100) / 2 : (x - 100) / 2;
      },
      cdf,
      50_000,
    );
    t.diagnostic(`Kolmogorov's distance × √n: ${distance.toFixed(2)}`);
    assert.ok(distance < ONE_IN_A_THOUSAND, `${distance}`);
  });
}

test('the normal tail beyond 3, where the ziggurat changes method, holds its share (seed 13)', (t) => {
  const s = randomStream(13);
  const n = 2_000_000;
  const beyond = new Float64Array(3);
  for (let i = 0; i < n; i++) {
    const z = Math.abs(s.normal());
    if (z > 2) beyond[0]! += 1;
    if (z > 3) beyond[1]! += 1;
    if (z > 4) beyond[2]! += 1;
  }
  for (const [k, z] of [2, 3, 4].entries()) {
    const expected = 2 * n * normalCdf(-z);
    t.diagnostic(`beyond ${z}: ${beyond[k]}, expected ${expected.toFixed(0)}`);
    // 3.3 sds of a Poisson count: once in a thousand.
    assert.ok(Math.abs(beyond[k]! - expected) < 3.3 * Math.sqrt(expected), `${z}: ${beyond[k]}, ${expected}`);
  }
});

test('integers are even and stay below (seed 14)', (t) => {
  const s = randomStream(14);
  const counts = new Float64Array(7);
  for (let i = 0; i < 70_000; i++) counts[s.integer(7)]! += 1;
  const chi2 = counts.reduce((sum, c) => sum + (c - 10_000) ** 2 / 10_000, 0);
  t.diagnostic(`chi-square ${chi2.toFixed(1)} at 6`);
  assert.ok(chi2 < 22.46, `${chi2}: the 99.9 % point of chi-square with 6 degrees of freedom is 22.46`);
  assert.equal(s.integer(1), 0);
  assert.ok(s.integer(2 ** 32) < 2 ** 32);
  assert.throws(() => s.integer(0), RangeError);
});

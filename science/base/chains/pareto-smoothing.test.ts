import assert from 'node:assert/strict';
import { test } from 'node:test';
import { fitGeneralisedPareto, paretoSmoothed } from './pareto-smoothing.ts';
import { randomStream } from './random.ts';

/** Quantiles of a generalised Pareto distribution of scale 2, by its definition (Pickands 1975, Ann. Stat. 3:119–131). */
const sample = (k: number, n: number): Float64Array =>
  Float64Array.from({ length: n }, (_, i) => (2 * ((1 - (i + 0.5) / n) ** -k - 1)) / k);

test('the shape of a tail is found again', () => {
  for (const k of [-0.4, 0.2, 0.5, 0.9, 1.5]) {
    const fit = fitGeneralisedPareto(sample(k, 2000));
    // Drawn towards 0.5 by ten values in 2,010; quantiles have less of a tail than draws.
    assert.ok(Math.abs(fit.k - k) < 0.05, `${k}: ${fit.k}`);
    assert.ok(Math.abs(fit.scale / 2 - 1) < 0.05, `${k}: scale ${fit.scale}`);
  }
});

test('ratios of a known tail show its shape, and a mean by weight is the one of the wider normal', () => {
  const stream = randomStream(7);
  for (const shape of [0.2, 0.5, 0.9]) {
    // u^−k of even u: a Pareto tail of shape k throughout.
    const { k } = paretoSmoothed(
      Float64Array.from({ length: 4000 }, () => -shape * Math.log(stream.uniform())),
    );
    assert.ok(Math.abs(k - shape) < 0.2, `${shape}: ${k}`);
  }
  const s = 0.8;
  const x = Float64Array.from({ length: 4000 }, () => s * stream.normal());
  const { weight } = paretoSmoothed(x.map((z) => (0.5 * z * z) / (s * s) - 0.5 * z * z));
  assert.ok(Math.abs(weight.reduce((sum, w) => sum + w, 0) - 1) < 1e-12);
  const square = x.reduce((sum, z, i) => sum + weight[i]! * z * z, 0);
  assert.ok(Math.abs(square - 1) < 0.1, `${square}`);
});

test('even ratios have no tail, and few draws no shape', () => {
  const even = paretoSmoothed(new Float64Array(100).fill(-3));
  assert.equal(even.k, -Infinity);
  assert.ok(even.weight.every((w) => Math.abs(w - 0.01) < 1e-15));
  assert.equal(paretoSmoothed(Float64Array.from({ length: 20 }, (_, i) => i)).k, Infinity);
  // One draw that carries all: nothing is lost, and nothing is claimed.
  const one = paretoSmoothed(Float64Array.from({ length: 50 }, (_, i) => (i === 7 ? 700 : 0)));
  assert.ok(one.k === Infinity && one.weight[7]! > 0.9);
});

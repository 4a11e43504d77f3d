import assert from 'node:assert/strict';
import { test } from 'node:test';
import { essBulk, essTail, mcseMean, rHat, summarize } from './diagnostics.ts';
import { randomStream } from './random.ts';

/** Stationary AR(1) chains with lag-one correlation phi and unit variance. */
function chains(seed: string, phi: number, m: number, n: number): Float64Array[] {
  const s = randomStream(seed);
  return Array.from({ length: m }, () => {
    let x = s.normal();
    return Float64Array.from({ length: n }, () => (x = phi * x + Math.sqrt(1 - phi * phi) * s.normal()));
  });
}

for (const phi of [-0.3, 0, 0.5, 0.9]) {
  test(`AR(1), correlation ${phi}: effective size is n(1 − φ)/(1 + φ), the mean's error is honest (seed ar)`, () => {
    // Closed form: autocorrelation time (1 + φ)/(1 − φ).
    const sets = 40;
    const expected = (4000 * (1 - phi)) / (1 + phi);
    let ess = 0;
    let z2 = 0;
    for (let k = 0; k < sets; k++) {
      const c = chains(`ar ${phi} ${k}`, phi, 4, 1000);
      ess += essBulk(c) / sets;
      const s = summarize(c);
      z2 += (s.mean / s.mcse) ** 2 / sets;
      // R̂² − 1 of 8 good halves is about chi-square(7)/7 over a half's effective size, expected/8; 80 looks at it.
      assert.ok(s.rhat < 1 + 21 / expected, `${s.rhat}`);
    }
    assert.ok(Math.abs(ess / expected - 1) < 0.1, `${ess}, expected ${expected}`);
    // Mean square of 40 standardised errors: 1 ± 3.3·√(2/40).
    assert.ok(Math.abs(z2 - 1) < 0.74, `${z2}`);
  });
}

test('R-hat sees chains apart, chains of unequal width, and drift (seed apart)', () => {
  const good = chains('apart', 0, 4, 500);
  assert.ok(rHat(good) < 1.01);
  assert.ok(rHat(good.map((c, k) => c.map((x) => x + 0.5 * k))) > 1.05);
  assert.ok(rHat(good.map((c, k) => c.map((x) => (k === 0 ? 3 * x : x)))) > 1.05, 'folding sees the spread');
  assert.ok(rHat(good.map((c) => c.map((x, i) => x + i / 200))) > 1.05, 'halving sees the drift');
});

test('a heavy tail does not blind it: Cauchy chains shifted apart (seed cauchy)', () => {
  const s = randomStream('cauchy');
  const cauchy = Array.from({ length: 4 }, () =>
    Float64Array.from({ length: 1000 }, () => s.normal() / s.normal()),
  );
  assert.ok(rHat(cauchy) < 1.02);
  assert.ok(rHat(cauchy.map((c, k) => (k === 0 ? c.map((x) => x + 2) : c))) > 1.05);
  assert.ok(essTail(cauchy) > 2000);
});

test('what cannot be judged says so: too short, not finite; what never moves is done', () => {
  assert.ok(Number.isNaN(rHat([])));
  assert.ok(Number.isNaN(rHat([new Float64Array(3)])));
  assert.ok(Number.isNaN(essBulk([Float64Array.from([1, 2, NaN, 4])])));
  const still = [new Float64Array(100).fill(5), new Float64Array(100).fill(5)];
  assert.equal(rHat(still), 1);
  assert.equal(essBulk(still), 200);
  assert.equal(mcseMean(still), 0);
  assert.equal(rHat([new Float64Array(100).fill(5), new Float64Array(100).fill(6)]), Infinity);
});

test('monotone transformation changes neither R-hat nor bulk size (seed rank)', () => {
  const c = chains('rank', 0.5, 4, 400);
  const cubed = c.map((x) => x.map((v) => v ** 3 + 2 * v));
  assert.equal(essBulk(cubed), essBulk(c));
  assert.ok(Math.abs(rHat(cubed) - rHat(c)) < 0.02);
});

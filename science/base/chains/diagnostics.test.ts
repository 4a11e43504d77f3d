import assert from 'node:assert/strict';
import { test } from 'node:test';
import { normalQuantile } from '../functions/normal.ts';
import { quantileSorted } from '../summaries/quantiles.ts';
import { mean, standardDeviation } from '../summaries/summaries.ts';
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
  test(`AR(1), correlation ${phi}: effective size is n(1 − φ)/(1 + φ), the mean's error is honest (seed ar)`, (t) => {
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
    t.diagnostic(
      `effective size ${ess.toFixed(0)}, expected ${expected.toFixed(0)}; mean square ${z2.toFixed(2)}`,
    );
    // A tenth, as first written, for the estimate's own bias and the noise of 40 sets.
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

test('one sorted copy gives what the plain definitions give, 300 sets with ties, odd lengths and heavy tails (seed plain)', () => {
  const s = randomStream('plain');
  for (let set = 0; set < 300; set++) {
    const count = 1 + s.integer(4);
    const length = 4 + s.integer(300);
    const phi = s.uniform();
    const grain = [0, 0, 0.01, 0.5, 2][s.integer(5)]!;
    const heavy = s.uniform() < 0.2;
    const made = Array.from({ length: count }, () => {
      let x = s.normal();
      return Float64Array.from({ length }, () => {
        x = phi * x + Math.sqrt(1 - phi * phi) * s.normal();
        const y = heavy ? x / Math.abs(s.normal()) : x;
        return grain > 0 ? grain * Math.round(y / grain) : y;
      });
    });
    const fast = summarize(made);
    const expected = plain(made);
    for (const name of Object.keys(expected) as (keyof typeof expected)[]) {
      const apart = Math.abs(fast[name] - expected[name]);
      const same = Object.is(fast[name], expected[name]) || apart <= 1e-10 * Math.abs(expected[name]);
      assert.ok(same, `${name} of set ${set}: ${fast[name]}, plainly ${expected[name]}`);
    }
    assert.equal(rHat(made), fast.rhat);
    assert.equal(essBulk(made), fast.ess_bulk);
    assert.equal(essTail(made), fast.ess_tail);
    assert.equal(mcseMean(made), fast.mcse);
  }
});

/** The definitions of Vehtari et al. 2021 one after another, each from the draws. */
function plain(made: Float64Array[]): Record<'mcse' | 'rhat' | 'ess_bulk' | 'ess_tail', number> {
  const halves = made.flatMap((c) => {
    const half = Math.floor(c.length / 2);
    return [c.slice(0, half), c.slice(c.length - half)];
  });
  const sorted = Float64Array.from(halves.flatMap((c) => [...c])).sort();
  const centre = quantileSorted(sorted, 0.5);
  const folded = halves.map((c) => c.map((x) => Math.abs(x - centre)));
  const ranked = (chains: Float64Array[]): Float64Array[] => {
    const all = chains.flatMap((c) => [...c]);
    const rank = (x: number): number =>
      all.filter((y) => y < x).length + (all.filter((y) => y === x).length + 1) / 2;
    const known = new Map([...new Set(all)].map((x) => [x, rank(x)]));
    return chains.map((c) => c.map((x) => normalQuantile((known.get(x)! - 0.375) / (all.length + 0.25))));
  };
  const still = (chains: Float64Array[]): boolean => new Set(chains.flatMap((c) => [...c])).size === 1;
  const ratio = (chains: Float64Array[]): number => {
    const n = chains[0]!.length;
    const within = mean(chains.map((c) => standardDeviation(c) ** 2));
    return Math.sqrt((n - 1) / n + standardDeviation(chains.map(mean)) ** 2 / within);
  };
  const size = (chains: Float64Array[]): number => {
    const n = chains[0]!.length;
    const all = chains.length * n;
    if (still(chains)) return all;
    const covariance = (lag: number): number =>
      mean(
        chains.map((c) => {
          const m = mean(c);
          let sum = 0;
          for (let i = lag; i < n; i++) sum += (c[i]! - m) * (c[i - lag]! - m);
          return sum / n;
        }),
      );
    const within = (covariance(0) * n) / (n - 1);
    const total = covariance(0) + standardDeviation(chains.map(mean)) ** 2;
    const rho = (lag: number): number => 1 - (within - covariance(lag)) / total;
    let least = 1 + rho(1);
    if (!(least > 0)) return all * Math.min(1, Math.log10(all));
    let sum = least;
    for (let lag = 2; lag + 1 < n - 3; lag += 2) {
      const both = rho(lag) + rho(lag + 1);
      if (!(both > 0)) {
        sum += Math.max(0, rho(lag)) / 2;
        break;
      }
      least = Math.min(least, both);
      sum += least;
    }
    return all / Math.max(2 * sum - 1, 1 / Math.log10(all));
  };
  const below = (p: number): Float64Array[] => {
    const q = quantileSorted(sorted, p);
    return halves.map((c) => c.map((x) => (x <= q ? 1 : 0)));
  };
  const rhat = (): number => {
    if (still(halves)) return 1;
    if (halves.every((c) => still([c]))) return Infinity;
    const bulk = ratio(ranked(halves));
    return still(folded) ? bulk : Math.max(bulk, ratio(ranked(folded)));
  };
  return {
    mcse: standardDeviation(made.flatMap((c) => [...c])) / Math.sqrt(size(halves)),
    rhat: rhat(),
    ess_bulk: size(ranked(halves)),
    ess_tail: Math.min(size(below(0.05)), size(below(0.95))),
  };
}

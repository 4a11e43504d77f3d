import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import { ageBound } from './age-bound.ts';
import { type Calibration, calibrate, calibrationSets } from './calibration.ts';
import { evenAge } from './even-age.ts';
import { ageFromF14C, f14cFromAge } from './f14c.ts';
import { mixedCurve } from './mixed-curve.ts';
import { normalAge } from './normal-age.ts';
import { pooledAge } from './pooled-age.ts';
import { probabilityOlder } from './succession.ts';
import type { YearlyCurve } from './yearly-curve.ts';

/** A straight curve, one 14C year per year: calibration must give the laboratory's normal law back. */
const straight: YearlyCurve = {
  name: 'straight',
  from_cal_bp: 0,
  c14_age: Float64Array.from({ length: 10_001 }, (_, i) => i),
  sigma_yr: new Float64Array(10_001).fill(12),
};

function certain(answer: ReturnType<typeof calibrate>): Calibration {
  assert.equal(answer.kind, 'calibrated');
  return answer as Calibration;
}

test('on a straight curve a date is normal, with errors added in squares', () => {
  const c = certain(calibrate({ c14_age: 4100, error_yr: 30, offset_yr: 100, offset_sd_yr: 20 }, straight));
  const sd = Math.hypot(30, 20, 12);
  assert.ok(Math.abs(c.mean_cal_bp - 4000) < 1e-6 && Math.abs(c.median_cal_bp - 4000) < 1e-6);
  assert.ok(Math.abs(c.sd_yr - sd) < 1e-4, `${c.sd_yr} ${sd}`);
  const [set] = calibrationSets(c, 0.9545);
  assert.ok(
    Math.abs(set!.older_cal_bp - (4000 + 2 * sd)) <= 1 &&
      Math.abs(set!.younger_cal_bp - (4000 - 2 * sd)) <= 1,
  );
  assert.equal(c.truncated, 0);
  assert.ok(Math.abs(c.density.reduce((a, b) => a + b, 0) - 1) < 1e-12);
});

test('what lies beyond the curve is said, not guessed', () => {
  const at = (c14_age: number): ReturnType<typeof calibrate> =>
    calibrate({ c14_age, error_yr: 30, offset_yr: 0, offset_sd_yr: 0 }, straight);
  assert.equal(at(12_000).kind, 'beyond_curve');
  assert.equal(at(-300).kind, 'beyond_curve');
  assert.equal(at(NaN).kind, 'not_a_number');
  const edge = certain(at(10_000 - 20));
  // On a curve that goes on with slope 1: Φ(−20/√(30² + 12²)) = 0.268.
  assert.ok(Math.abs(edge.truncated - 0.268) < 0.005, `${edge.truncated}`);
  const over = at(10_020);
  assert.ok(over.kind === 'beyond_curve' && /older than straight/.test(over.reason));
});

test('no number whatever makes it throw or give a density that is not one (seed 21)', () => {
  const any = fc.oneof(fc.double(), fc.double({ min: -1e3, max: 12e3, noNaN: true }));
  fc.assert(
    fc.property(any, any, any, any, (c14_age, error_yr, offset_yr, offset_sd_yr) => {
      const c = calibrate({ c14_age, error_yr, offset_yr, offset_sd_yr }, straight);
      if (c.kind !== 'calibrated') return c.reason.length > 10;
      const sum = c.density.reduce((a, b) => a + b, 0);
      return (
        Math.abs(sum - 1) < 1e-9 && Number.isFinite(c.median_cal_bp) && c.sd_yr >= 0 && c.truncated <= 0.5
      );
    }),
    { seed: 21, numRuns: 2000 },
  );
});

test('F14C and age: the worked values (Stuiver & Polach 1977; recomputed for this project)', () => {
  const half = ageFromF14C(0.5711, 0.002);
  assert.ok(half.kind === 'age');
  assert.ok(Math.abs(half.c14_age - 4500.01) < 0.006 && Math.abs(half.error_yr - 28.13) < 0.006);
  assert.ok(half.older_limit - half.c14_age > half.c14_age - half.younger_limit);
  const check = (f: number, s: number, age: number, error: number): void => {
    const a = ageFromF14C(f, s);
    assert.ok(a.kind === 'age' && Math.abs(a.c14_age - age) < 0.06 && Math.abs(a.error_yr - error) < 0.06);
  };
  check(0.5, 0.002, 5568.05, 32.1);
  check(0.75, 0.003, 2311.0, 32.1);
  check(0.02, 0.001, 31_425.3, 401.6);
  check(1.05, 0.003, -391.9, 23.0);
  const f = f14cFromAge(4500, 30);
  assert.ok(Math.abs(f.f14c - 0.5711) < 5e-6 && Math.abs(f.f14c_sigma - 0.00213) < 5e-6);
  assert.deepEqual(ageFromF14C(0.001, 0.001), { kind: 'older_than', c14_age: ageOf(0.003) });
  assert.deepEqual(ageFromF14C(-0.001, 0.001), { kind: 'older_than', c14_age: ageOf(0.002) });
  assert.equal(ageFromF14C(NaN, 0.1).kind, 'not_a_number');
});

function ageOf(f14c: number): number {
  const a = ageFromF14C(f14c, 1e-9);
  return a.kind === 'age' ? a.c14_age : NaN;
}

test('pooled means and chi-square as published (Damon et al. 1989, Nature 337:611–615, table 2)', () => {
  const published: [number[][], number, number, number, number][] = [
    [
      [
        [646, 31],
        [750, 30],
        [676, 24],
      ],
      689,
      16,
      6.4,
      0.0418,
    ],
    [
      [
        [927, 32],
        [940, 30],
        [941, 23],
      ],
      937,
      16,
      0.1,
      0.9335,
    ],
    [
      [
        [1995, 46],
        [1980, 35],
        [1940, 30],
      ],
      1964,
      20,
      1.3,
      0.5213,
    ],
    [
      [
        [722, 43],
        [755, 30],
        [685, 34],
      ],
      724,
      20,
      2.4,
      0.3034,
    ],
  ];
  for (const [results, mean, error, chi2, p] of published) {
    const pooled = pooledAge(
      results.map(([c14_age, error_yr]) => ({ c14_age: c14_age!, error_yr: error_yr! })),
    );
    assert.equal(Math.round(pooled.c14_age), mean);
    assert.equal(Math.round(pooled.error_yr), error);
    assert.ok(Math.abs(pooled.chi_square - chi2) <= 0.05 + 1e-9);
    assert.ok(Math.abs(pooled.p - p) < 5e-5, `${pooled.p}`);
    assert.equal(pooled.degrees, 2);
  }
  assert.equal(pooledAge([{ c14_age: 100, error_yr: 5 }]).p, 1);
  assert.throws(() => pooledAge([]), RangeError);
});

test('a calendar age of another method is its normal law, also with an error under a year', () => {
  const wide = certain(normalAge(3000.25, 40));
  let mean = 0;
  for (let i = 0; i < wide.density.length; i++) mean += wide.density[i]! * (wide.from_cal_bp + i);
  assert.ok(Math.abs(mean - 3000.25) < 1e-6);
  const [set] = calibrationSets(wide, 0.954);
  assert.ok(Math.abs(set!.older_cal_bp - 3080) <= 1 && Math.abs(set!.younger_cal_bp - 2920) <= 1);
  const sharp = certain(normalAge(-13.5, 0.1)); // 1963.5 CE, a caesium peak
  assert.deepEqual(
    [...sharp.density].map((p) => Math.round(1e6 * p)),
    [500_000, 500_000],
  );
  assert.equal(sharp.from_cal_bp, -14);
  assert.deepEqual([...certain(normalAge(12, 0)).density], [1]);
  assert.equal(normalAge(10, -1).kind, 'not_a_number');
});

test('a maximum age leaves the younger years, a minimum age the older, their shares adding to all (seed 22)', () => {
  const date = certain(normalAge(5000, 50));
  const maximum = certain(ageBound(date, 'maximum', 0, 9000));
  const minimum = certain(ageBound(date, 'minimum', 0, 9000));
  // Uniform from 0 to about 5000: mean 2500, sd 5000/√12.
  assert.ok(Math.abs(maximum.mean_cal_bp - 2500) < 1 && Math.abs(maximum.sd_yr - 5000 / Math.sqrt(12)) < 1);
  assert.ok(Math.abs(minimum.mean_cal_bp - 7000) < 1);
  const at = (c: Calibration, year: number): number => c.density[year - c.from_cal_bp] ?? 0;
  assert.ok(Math.abs(at(maximum, 5000) / at(maximum, 1000) - 0.5) < 1e-9);
  assert.equal(ageBound(date, 'maximum', 6000, 9000).kind, 'nothing_remains');
  assert.equal(ageBound(date, 'minimum', 0, 4000).kind, 'nothing_remains');
  assert.throws(() => ageBound(date, 'maximum', 10, 0), RangeError);
  // Twin: sum over the date's years of a uniform law on what it leaves, unnormalised.
  fc.assert(
    fc.property(fc.integer({ min: 100, max: 300 }), fc.integer({ min: 1, max: 40 }), (middle, error) => {
      const d = certain(normalAge(middle, error));
      const got = certain(ageBound(d, 'maximum', 0, 400));
      const slow = new Float64Array(401);
      for (let i = 0; i < d.density.length; i++)
        for (let a = 0; a <= Math.min(400, d.from_cal_bp + i); a++) {
          slow[a]! += d.density[i]! * (a === d.from_cal_bp + i ? 0.5 : 1);
        }
      const total = slow.reduce((x, y) => x + y, 0);
      return slow.every((v, a) => Math.abs(v / total - at(got, a)) < 1e-8);
    }),
    { seed: 22, numRuns: 50 },
  );
});

test('a mixed curve lies between its parents and carries the doubt about the share', () => {
  const marine: YearlyCurve = {
    ...straight,
    name: 'sea',
    from_cal_bp: 10,
    c14_age: straight.c14_age.map((a) => a + 410),
  };
  const none = mixedCurve(straight, marine, 0, 0, 50, 30);
  assert.equal(none.from_cal_bp, 10);
  assert.deepEqual([none.c14_age[5], none.sigma_yr[5]], [15, 12]);
  const all = mixedCurve(straight, marine, 1, 0, 50, 30);
  assert.deepEqual([all.c14_age[5], all.sigma_yr[5]], [465, Math.sqrt(144 + 900)]);
  const half = mixedCurve(straight, marine, 0.5, 0.1, 50, 0);
  assert.equal(half.c14_age[5], 240);
  assert.ok(Math.abs(half.sigma_yr[5]! - Math.sqrt(36 + 36 + 45 ** 2)) < 1e-12);
  assert.throws(() => mixedCurve(straight, marine, 1.2, 0, 0, 0), RangeError);
});

test('which of two is older: normal laws as Φ says, and any two as counted out (seed 41)', () => {
  const normal = (mean: number, sd: number): Calibration => certain(normalAge(mean, sd));
  // Φ(100/√(60² + 80²)) = Φ(1) = 0.841345 (Abramowitz & Stegun 1964, table 26.1)
  assert.ok(Math.abs(probabilityOlder(normal(5100, 60), normal(5000, 80)) - 0.841345) < 1e-4);
  assert.ok(probabilityOlder(normal(9000, 30), normal(100, 30)) > 1 - 1e-12);
  assert.equal(probabilityOlder(normal(100, 30), normal(9000, 30)), 0);
  const any = fc
    .tuple(
      fc.integer({ min: -5, max: 12 }),
      fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 9 }),
    )
    .map(([from_cal_bp, weights]) => {
      const total = weights.reduce((a, b) => a + b, 0);
      return { from_cal_bp, density: Float64Array.from(weights, (w) => w / total) };
    });
  fc.assert(
    fc.property(any, any, (a, b) => {
      let twin = 0;
      a.density.forEach((p, i) => {
        b.density.forEach((q, k) => {
          const [ya, yb] = [a.from_cal_bp + i, b.from_cal_bp + k];
          twin += p * q * (ya > yb ? 1 : ya === yb ? 0.5 : 0);
        });
      });
      return Math.abs(probabilityOlder(a, b) - twin) < 1e-12;
    }),
    { seed: 41, numRuns: 500 },
  );
});

test('an even age sums to 1 within its ends, parts of years at them, and nothing beyond', () => {
  // 10.3 ± 2: from 8.3 to 12.3, so 0.2 of year 8, years 9 to 11, 0.8 of year 12, each a quarter of that.
  const made = certain(evenAge(10.3, 2));
  assert.deepEqual([made.from_cal_bp, made.density.length], [8, 5]);
  for (const [i, share] of [0.05, 0.25, 0.25, 0.25, 0.2].entries())
    assert.ok(Math.abs(made.density[i]! - share) < 1e-12);
  assert.equal(made.median_cal_bp, 10.3);
  assert.equal(
    certain(evenAge(-13, 0)).density.reduce((sum, p) => sum + p, 0),
    1,
  );
  assert.equal(evenAge(10, -1).kind, 'not_a_number');
  assert.equal(evenAge(NaN, 1).kind, 'not_a_number');
});

/** The models of the rate against closed forms and sums over a grid of the dense twin. Seeds 1 and 61. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { randomStream, type Summary } from '@stillstand/science/base';
import { computeCurve } from '../compute-curve.ts';
import type { CurvePoint } from '../problem/model.ts';
import { DEFAULT_CURVE_SETTINGS, SMOOTH_RATE } from '../problem/settings.ts';
import { type DenseModel, dense } from '../process/dense-process.ts';
import type { CurveSettings, RateModel } from '../result/result.ts';

const plain: CurveSettings = {
  ...DEFAULT_CURVE_SETTINGS,
  outliers: null,
  depth_order: false,
  burial_percent: null,
  age_range_cal_bp: { youngest: -10_000, oldest: 2_000_000 },
  draws: 4000,
};
const constant: RateModel = { ...SMOOTH_RATE, kind: 'constant' };

const index = (id: string, age: number, sd_yr: number, height_m: number, sigma_m: number): CurvePoint => ({
  id,
  kind: 'index',
  height_m,
  sigma_m,
  half_range_m: 0,
  lowering_m: 0,
  shared: [],
  age: { kind: 'normal', mean_cal_bp: age, sd_yr },
});

/** Within 5 Monte-Carlo errors. */
function agrees(what: string, found: Summary, expected: number, more = 0): void {
  const error = 5 * found.mcse + more;
  assert.ok(
    Math.abs(found.mean - expected) < error,
    `${what}: ${found.mean}, expected ${expected} ± ${error}`,
  );
}

test('a constant rate with known ages is the straight line of least squares: NIST StRD, Norris', () => {
  // https://www.itl.nist.gov/div898/strd/lls/data/LINKS/DATA/Norris.dat: y, x; certified values below.
  const data = `0.1 0.2; 338.8 337.4; 118.1 118.2; 888.0 884.6; 9.2 10.1; 228.1 226.5; 668.5 666.3; 998.5 996.3;
    449.1 448.6; 778.9 777.0; 559.2 558.2; 0.3 0.4; 0.1 0.6; 778.1 775.5; 668.8 666.9; 339.3 338.0; 448.9 447.5;
    10.8 11.6; 557.7 556.0; 228.3 228.1; 998.0 995.8; 888.8 887.6; 119.6 120.2; 0.3 0.3; 0.6 0.3; 557.6 556.8;
    339.3 339.1; 888.0 887.2; 998.5 999.0; 778.9 779.0; 10.2 11.1; 117.6 118.3; 228.9 229.2; 668.4 669.1;
    449.2 448.9; 0.2 0.5`;
  const points = data.split(';').map((pair, i) => {
    const [y, x] = pair.trim().split(/\s+/).map(Number);
    return index(`N${i}`, 1000 * x!, 0, y!, 0.884796396144373);
  });
  const curve = computeCurve(points, {
    ...plain,
    priors: { ...plain.priors, level_sd_m: 1e4, rate_sd_scale_mm_yr: 100 },
    rate_model: constant,
    ages_cal_bp: [0, 500_000],
    intervals: [{ older_cal_bp: 500_000, younger_cal_bp: 0 }],
  });
  assert.ok(curve.diagnostics.converged, curve.diagnostics.remarks.join(' '));
  const slope = curve.intervals[0]!.rate_mm_yr;
  // Heights that grow with age are a falling sea.
  agrees('slope', slope, -1.00211681802045);
  assert.ok(Math.abs(slope.sd / 0.000429796848199937 - 1) < 0.05, `sd of the slope ${slope.sd}`);
  assert.ok(Math.abs(curve.level_m.mean[0]! + 0.262323073774029) < 5 * curve.diagnostics.mcse_level_max_m);
  assert.ok(Math.abs(curve.level_m.sd[0]! / 0.232818234301152 - 1) < 0.05);
  assert.equal(curve.length_ka, null);
});

test('a constant rate with errors in both: Pearson’s data with York’s weights', () => {
  // York 1966, Can. J. Phys. 44:1079–1086: slope −0.4805334, sd 0.0579850; the likeliest line, ages summed out, has one
  // factor more, so that the posterior is summed over a grid and lies near.
  const x = [0, 0.9, 1.8, 2.6, 3.3, 4.4, 5.2, 6.1, 6.5, 7.4];
  const y = [5.9, 5.4, 4.4, 4.6, 3.5, 3.7, 2.8, 2.8, 2.4, 1.5];
  const wx = [1000, 1000, 500, 800, 200, 80, 60, 20, 1.8, 1];
  const wy = [1, 1.8, 4, 8, 20, 20, 70, 70, 100, 500];
  const points = x.map((t, i) =>
    index(`Y${i}`, 1000 * t, 1000 / Math.sqrt(wx[i]!), y[i]!, 1 / Math.sqrt(wy[i]!)),
  );
  const priors = { ...plain.priors, level_sd_m: 100, rate_sd_scale_mm_yr: 20 };
  const curve = computeCurve(points, {
    ...plain,
    priors,
    rate_model: constant,
    ages_cal_bp: [0],
    intervals: [{ older_cal_bp: 5000, younger_cal_bp: 0 }],
  });
  assert.ok(curve.diagnostics.converged, curve.diagnostics.remarks.join(' '));
  let total = 0;
  let mean = 0;
  let squares = 0;
  for (let b = 0.1; b < 1; b += 0.004)
    for (let a = 3; a < 8; a += 0.02) {
      let l = -0.5 * (a / 100) ** 2 + logRatePrior(b, 20);
      x.forEach((t, i) => {
        const variance = 1 / wy[i]! + (b * b) / wx[i]!;
        l -= 0.5 * ((y[i]! - a + b * t) ** 2 / variance + Math.log(variance));
      });
      const w = Math.exp(l);
      total += w;
      mean += w * b;
      squares += w * b * b;
    }
  const rate = curve.intervals[0]!.rate_mm_yr;
  agrees('slope', rate, mean / total, 1e-4);
  assert.ok(Math.abs(rate.sd / Math.sqrt(squares / total - (mean / total) ** 2) - 1) < 0.05);
  assert.ok(Math.abs(rate.mean - 0.4805334) < 0.5 * 0.057985, `slope ${rate.mean}, York’s 0.4805`);
});

/** Log density of N(0, σ²) with σ half-normal, summed over σ. */
function logRatePrior(rate: number, scale: number): number {
  let sum = 0;
  for (let k = 0; k < 400; k++) {
    const sd = (scale * (k + 0.5)) / 100;
    sum += Math.exp(-0.5 * (sd / scale) ** 2 - 0.5 * (rate / sd) ** 2) / sd;
  }
  return Math.log(sum);
}

const TWELVE = randomStream(61).split('twelve');
/** Known ages; a rate of 1 that stops at 3 ka. */
const known = Array.from({ length: 12 }, (_, i) => {
  const t = 0.3 + 0.5 * i;
  return { t, y: -1 * Math.max(0, t - 3) + 0.25 * TWELVE.normal() };
});
const twelve = known.map(({ t, y }, i) => index(`K${i}`, 1000 * t, 0, y, 0.25));
const heights = (sigma_m: number) =>
  known.map(({ t, y }) => ({ age_ka: t, height_m: y, sigma_m, loading_m: [] }));
const range = { changes_from_cal_bp: 6000, changes_to_cal_bp: 0 };
const asked: CurveSettings = {
  ...plain,
  ages_cal_bp: [0, 3000, 6000],
  intervals: [{ older_cal_bp: 6000, younger_cal_bp: 0 }],
};
const twin = (more: Partial<DenseModel>): DenseModel => ({
  rate_sd: 1,
  lambda: 0,
  rate_mean: 0,
  slowing: 0,
  break_ka: [],
  jump_sd_m: 0,
  level_sd_m: 5,
  ...more,
});

/** Mean over a grid by weights whose logarithms are given. */
function gridMean(rows: readonly { l: number; x: number }[]): number {
  const most = rows.reduce((high, { l }) => Math.max(high, l), -Infinity);
  let sum = 0;
  let total = 0;
  for (const { l, x } of rows) {
    sum += x * Math.exp(l - most);
    total += Math.exp(l - most);
  }
  return sum / total;
}
/** σ half-normal of scale 5, and the log of its prior. */
const SIGMAS = Array.from({ length: 40 }, (_, k) => 0.05 * 1.17 ** k).map((sd) => ({
  sd,
  l: Math.log(sd) - 0.5 * (sd / 5) ** 2,
}));

test('when a stepwise rate changed, and how the level then jumped: against sums over a grid', () => {
  for (const jump_sd_m of [0, 1]) {
    const curve = computeCurve(twelve, {
      ...asked,
      rate_model: { ...SMOOTH_RATE, ...range, kind: 'stepwise', changes: 1, jump_sd_m },
    });
    assert.ok(curve.diagnostics.converged, curve.diagnostics.remarks.join(' '));
    const rows: { l: number; x: number }[] = [];
    for (let at = 0.01; at < 6; at += 0.02)
      for (const { sd, l } of SIGMAS) {
        const model = twin({ rate_sd: sd, break_ka: [at], jump_sd_m });
        rows.push({ l: l + dense(model, heights(0.25), []).logLikelihood, x: 1000 * at });
      }
    const [change] = curve.changes;
    agrees(`age of the change, jump ${jump_sd_m}`, change!.age_cal_bp, gridMean(rows), 5);
    assert.equal(change!.jump_m === null, jump_sd_m === 0);
    assert.ok(change!.older_mm_yr.mean > 0.5 && Math.abs(change!.younger_mm_yr.mean) < 0.5);
  }
});

test('how probable it is that a smooth rate has a break: against sums over a grid', () => {
  const curve = computeCurve(twelve, {
    ...asked,
    rate_model: { ...SMOOTH_RATE, ...range, changes: 1, jump_sd_m: 1 },
  });
  assert.ok(curve.diagnostics.converged, curve.diagnostics.remarks.join(' '));
  const none: number[] = [];
  const one: number[] = [];
  for (const { sd, l } of SIGMAS.filter((_, k) => k % 2 === 0))
    for (let z = -3; z <= 3; z += 0.5) {
      const lambda = Math.sqrt(3) / (2 * Math.exp(0.5 * z));
      const prior = l - 0.5 * z * z;
      const of = (break_ka: number[]): number =>
        prior + dense(twin({ rate_sd: sd, lambda, break_ka, jump_sd_m: 1 }), heights(0.25), []).logLikelihood;
      none.push(of([]));
      for (let at = 0.075; at < 6; at += 0.15) one.push(of([at]) - Math.log(40));
    }
  const most = Math.max(...none, ...one);
  const sum = (of: number[]): number => of.reduce((total, l) => total + Math.exp(l - most), 0);
  const expected = sum(one) / (sum(one) + sum(none));
  assert.ok(
    Math.abs(curve.breaks_p[1]! - expected) < 0.03,
    `probability of a break ${curve.breaks_p[1]}, expected ${expected}`,
  );
  // The same ratio from a smooth curve alone, where it is not far from 1; its own ages and a jump of 2 m.
  const smooth = computeCurve(twelve, { ...asked, rate_model: { ...SMOOTH_RATE, ...range } });
  const two: number[] = [];
  for (const { sd, l } of SIGMAS.filter((_, k) => k % 2 === 0))
    for (let z = -3; z <= 3; z += 0.5) {
      const lambda = Math.sqrt(3) / (2 * Math.exp(0.5 * z));
      for (let at = 0.075; at < 6; at += 0.15) {
        const model = twin({ rate_sd: sd, lambda, break_ka: [at], jump_sd_m: 2 });
        two.push(l - 0.5 * z * z + dense(model, heights(0.25), []).logLikelihood - Math.log(40));
      }
    }
  const ratio = Math.log(sum(two) / sum(none));
  const found = smooth.one_break!.log_evidence_ratio;
  assert.ok(Math.abs(found - ratio) < 0.3, `log evidence ratio ${found}, expected ${ratio}`);
});

test('how much the mean rate slowed, and how far heights scatter: against sums over a grid', () => {
  const slowed = computeCurve(twelve, { ...asked, rate_model: { ...constant, slowing_mm_yr_ka: 0.5 } });
  assert.ok(slowed.diagnostics.converged, slowed.diagnostics.remarks.join(' '));
  const rows = SIGMAS.flatMap(({ sd, l }) =>
    Array.from({ length: 200 }, (_, k) => 0.01 * (k + 0.5)).map((slowing) => ({
      l:
        l -
        0.5 * (slowing / 0.5) ** 2 +
        dense(twin({ rate_sd: sd, slowing }), heights(0.25), []).logLikelihood,
      x: slowing,
    })),
  );
  agrees('slowing', slowed.slowing_mm_yr_ka!, gridMean(rows), 0.002);

  const scattered = computeCurve(twelve, { ...asked, rate_model: constant, extra_scatter_m: 0.3 });
  assert.ok(scattered.diagnostics.converged, scattered.diagnostics.remarks.join(' '));
  const sds = SIGMAS.flatMap(({ sd, l }) =>
    Array.from({ length: 150 }, (_, k) => 0.01 * (k + 0.5)).map((scatter) => ({
      l:
        l -
        0.5 * (scatter / 0.3) ** 2 +
        dense(twin({ rate_sd: sd }), heights(Math.hypot(0.25, scatter)), []).logLikelihood,
      x: scatter,
    })),
  );
  agrees('extra scatter', scattered.scatter_m!, gridMean(sds), 0.002);
});

test('where heights say nothing, ages are as dated and two changes as two even draws in order', () => {
  const dated = [800, 2100, 2900, 3600, 4400, 5500].map((age, i) => index(`D${i}`, age, 150, 0, 200));
  const curve = computeCurve(dated, {
    ...asked,
    rate_model: { ...SMOOTH_RATE, ...range, kind: 'stepwise', changes: 2, jump_sd_m: 1 },
  });
  assert.ok(curve.diagnostics.converged, curve.diagnostics.remarks.join(' '));
  for (const { id, age_cal_bp: age, prior_age_cal_bp: date } of curve.points) {
    agrees(`age of ${id}`, age, date.mean);
    assert.ok(Math.abs(age.sd / 150 - 1) < 0.05, `sd of the age of ${id}: ${age.sd}`);
  }
  // Order statistics of two even draws over 6,000 years, the older first.
  agrees('older change', curve.changes[0]!.age_cal_bp, 4000);
  agrees('younger change', curve.changes[1]!.age_cal_bp, 2000);
});

test('two changes of one rate: against sums over a grid of both', () => {
  const curve = computeCurve(twelve, {
    ...asked,
    // So many that a proposal without its way back shows.
    draws: 20_000,
    rate_model: { ...SMOOTH_RATE, ...range, kind: 'stepwise', changes: 2 },
  });
  assert.ok(curve.diagnostics.converged, curve.diagnostics.remarks.join(' '));
  const rows: { l: number; older: number; younger: number }[] = [];
  for (const { sd, l } of SIGMAS.filter((_, k) => k % 3 === 0))
    for (let younger = 0.06; younger < 6; younger += 0.12)
      for (let older = younger; older < 6; older += 0.12) {
        const model = twin({ rate_sd: sd, break_ka: [younger, older + 1e-6] });
        // On the diagonal half of a cell.
        const share = older === younger ? Math.log(0.5) : 0;
        rows.push({ l: l + share + dense(model, heights(0.25), []).logLikelihood, older, younger });
      }
  const mean = (of: 'older' | 'younger'): number =>
    1000 * gridMean(rows.map((row) => ({ l: row.l, x: row[of] })));
  agrees('older change', curve.changes[0]!.age_cal_bp, mean('older'), 2);
  agrees('younger change', curve.changes[1]!.age_cal_bp, mean('younger'), 2);
});

test('a change and the dates older than it, which move together: against sums over a grid', () => {
  // Two known ages hold the sea still; two dates with precise heights lie on the steep side.
  const sea = [
    { t: 0.5, sd: 0, y: 0 },
    { t: 2, sd: 0, y: 0 },
    { t: 4.2, sd: 0.2, y: -3 },
    { t: 5, sd: 0.2, y: -6.2 },
  ];
  const points = sea.map(({ t, sd, y }, i) => index(`M${i}`, 1000 * t, 1000 * sd, y, 0.05));
  const curve = computeCurve(points, {
    ...asked,
    rate_model: { ...SMOOTH_RATE, ...range, kind: 'stepwise', changes: 1 },
  });
  assert.ok(curve.diagnostics.converged, curve.diagnostics.remarks.join(' '));
  const rows: { l: number; at: number; a: number; b: number }[] = [];
  const steps = Array.from({ length: 17 }, (_, k) => 0.45 * (k - 8));
  for (const { sd, l } of SIGMAS.filter((_, k) => k % 3 === 0))
    for (let at = 0.05; at < 6; at += 0.1)
      for (const za of steps)
        for (const zb of steps) {
          const [a, b] = [4.2 + 0.2 * za, 5 + 0.2 * zb];
          const found = sea.map(({ y }, i) => ({
            age_ka: [0.5, 2, a, b][i]!,
            height_m: y,
            sigma_m: 0.05,
            loading_m: [],
          }));
          const { logLikelihood } = dense(twin({ rate_sd: sd, break_ka: [at] }), found, []);
          rows.push({ l: l - 0.5 * (za * za + zb * zb) + logLikelihood, at, a, b });
        }
  const mean = (of: 'at' | 'a' | 'b'): number =>
    1000 * gridMean(rows.map((row) => ({ l: row.l, x: row[of] })));
  agrees('change', curve.changes[0]!.age_cal_bp, mean('at'), 15);
  agrees('younger date', curve.points[2]!.age_cal_bp, mean('a'), 5);
  agrees('older date', curve.points[3]!.age_cal_bp, mean('b'), 5);
});

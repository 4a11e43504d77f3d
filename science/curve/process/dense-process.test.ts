/** The linear-time filters against dense algebra on the covariance function, for fixed ages, σ and ℓ. Seed 11. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { type RandomStream, randomStream } from '@stillstand/science/base';
import { breakLikelihoods } from './break-likelihood.ts';
import { type DenseHeight, type DenseModel, dense } from './dense-process.ts';
import { drawSharedErrors, likelihoodWork, logLikelihood } from './likelihood.ts';
import { messages, predictLevel, putBack, restart, takeOut } from './messages.ts';
import { type Observations, sortByAge } from './observations.ts';
import { drawPath, path } from './path.ts';
import { rateStep, STEP } from './rate-process.ts';
import { meanRate, type Rates, trend_m, withBreak } from './rates.ts';

/** Of a height or level, m; of a rate, mm/yr; of a log likelihood; of a variance. */
const NEAR = 1e-8;

const near = (found: number, expected: number, what: string): void => {
  const scale = Math.max(1, Math.abs(expected));
  assert.ok(Math.abs(found - expected) <= NEAR * scale, `${what}: ${found}, expected ${expected}`);
};

interface Setting {
  name: string;
  model: DenseModel;
  heights: DenseHeight[];
  tie: { age_ka: number; sd_m: number } | null;
}

const plain = (rate_sd: number, lambda: number, rate_mean: number = 0): DenseModel => ({
  rate_sd,
  lambda,
  rate_mean,
  slowing: 0,
  break_ka: [],
  jump_sd_m: 0,
  level_sd_m: 5,
});

const settings: Setting[] = [
  make('20 ages, no shared error', 20, 0, plain(3, 0.9), null),
  make('30 ages, three shared errors, a mean rate, a tie', 30, 3, plain(1.2, 0.5, 1.5), {
    age_ka: -0.042,
    sd_m: 0.05,
  }),
  make('stiff and slow: long gaps and short', 25, 1, plain(0.05, 0.05), null),
  make('rough: gaps of many lengths', 25, 2, plain(8, 20), null),
  make('a rate that keeps its value, a tie', 20, 1, plain(2, 0, 1), { age_ka: -0.042, sd_m: 0.05 }),
  make(
    'a stepwise rate of four changes, two beyond the ends and two in one gap, with jumps',
    20,
    1,
    { ...plain(2, 0), break_ka: [-0.2, 3.1, 3.11, 8.9], jump_sd_m: 1.5 },
    null,
  ),
  make(
    'a smooth rate with two breaks and a mean that slowed',
    25,
    2,
    { ...plain(2, 0.9, 0.5), slowing: 0.3, break_ka: [2.2, 5.4] },
    { age_ka: -0.042, sd_m: 0.05 },
  ),
];

/** The rates of a chain as the dense twin has them. */
const ratesOf = ({ rate_sd, lambda, rate_mean, slowing, break_ka, jump_sd_m }: DenseModel): Rates => ({
  sd_mm_yr: rate_sd,
  lambda,
  kappa_m: lambda === 0 ? 0 : rate_sd / lambda,
  mean_mm_yr: rate_mean,
  slowing_mm_yr_ka: slowing,
  break_ka: Float64Array.from([...break_ka, 0]),
  breaks: break_ka.length,
  jump_sd_m,
});

/** Random heights; two pairs of equal ages, and ages younger than 1950. */
function make(name: string, n: number, groups: number, model: DenseModel, tie: Setting['tie']): Setting {
  const stream = randomStream(11).split(name);
  const heights = Array.from({ length: n }, (): DenseHeight => {
    const age_ka = 8.2 * stream.uniform() - 0.15;
    return {
      age_ka,
      height_m: -1.5 * age_ka + 0.5 * stream.normal(),
      sigma_m: 0.05 + 0.4 * stream.uniform(),
      loading_m: Array.from({ length: groups }, () => (stream.uniform() < 0.5 ? 0 : 0.3 * stream.uniform())),
    };
  });
  heights[3]!.age_ka = heights[7]!.age_ka;
  heights[4]!.age_ka = -0.08;
  heights[5]!.age_ka = -0.08;
  return { name, model, heights, tie };
}

/** The chain with its node for the level at 1950 and that for the tie; only a tie is a height to the dense twin. */
function chainOf(s: Setting): Observations {
  const { heights, tie, model } = s;
  const extra = [
    { age_ka: 0, sigma_m: model.level_sd_m },
    ...(tie === null ? [] : [{ age_ka: tie.age_ka, sigma_m: tie.sd_m }]),
  ];
  const count = heights.length + extra.length;
  const groups = heights[0]!.loading_m.length;
  const all = [...heights, ...extra];
  const o: Observations = {
    count,
    age_ka: Float64Array.from(all, (x) => x.age_ka),
    raw_m: Float64Array.from(all, (x, i) => (heights[i]?.height_m ?? 0) + trend_m(ratesOf(model), x.age_ka)),
    height_m: new Float64Array(count),
    variance_m2: Float64Array.from(all, (x) => x.sigma_m ** 2),
    order: Int32Array.from({ length: count }, (_, i) => i),
    place: new Int32Array(count),
    groups,
    loading_m: Float64Array.from(
      { length: groups * count },
      (_, at) => heights[at % count]?.loading_m[Math.floor(at / count)] ?? 0,
    ),
  };
  sortByAge(o);
  return o;
}

function tied(s: Setting): DenseHeight[] {
  const { tie, heights } = s;
  if (tie === null) return heights;
  const none = heights[0]!.loading_m.map(() => 0);
  return [...heights, { age_ka: tie.age_ka, height_m: 0, sigma_m: tie.sd_m, loading_m: none }];
}

for (const s of settings) {
  const { model } = s;
  const rates = ratesOf(model);

  test(`log likelihood: ${s.name}`, () => {
    const o = chainOf(s);
    const found = logLikelihood(o, o.raw_m, o.groups, rates, likelihoodWork(o.groups));
    near(found, dense(model, tied(s), []).logLikelihood, 'log likelihood');
  });

  test(`posterior mean and covariance of level, rate and shared errors: ${s.name}`, () => {
    // A draw is linear in its standard normals: none of them gives the mean, each alone one column of a root of the
    // covariance.
    const reports = Float64Array.of(-0.3, -0.08, 0, 0.77, 2.5, 2.5000001, 6, 9.5);
    const draw = (impulse: number): Float64Array => {
      let asked = 0;
      const normal = (): number => (asked++ === impulse ? 1 : 0);
      const stream = { ...randomStream(0), normal } as RandomStream;
      const o = chainOf(s);
      const work = likelihoodWork(o.groups);
      logLikelihood(o, o.raw_m, o.groups, rates, work);
      const b = new Float64Array(o.groups);
      drawSharedErrors(o.groups, 0, work, stream, b);
      for (let i = 0; i < o.count; i++) {
        o.height_m[i] = o.raw_m[i]!;
        for (let g = 0; g < o.groups; g++) o.height_m[i]! -= b[g]! * o.loading_m[g * o.count + i]!;
      }
      const p = path(o.count, reports);
      drawPath(p, o, rates, stream);
      impulses = asked;
      const atNodes = p.levelAtNode_m.subarray(0, s.heights.length);
      return Float64Array.of(...p.level_m, ...p.rate_mm_yr, ...atNodes, ...b);
    };
    let impulses = 0;
    const mean = draw(-1);
    const n = 2 * reports.length + s.heights.length;
    const found = new Float64Array(n * n);
    for (let k = 0, of = impulses; k < of; k++) {
      const column = draw(k).map((x, i) => x - mean[i]!);
      for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) found[i * n + j]! += column[i]! * column[j]!;
    }
    const wanted = [
      ...Array.from(reports, (age_ka) => ({ kind: 'level' as const, age_ka })),
      ...Array.from(reports, (age_ka) => ({ kind: 'rate' as const, age_ka })),
      ...s.heights.map(({ age_ka }) => ({ kind: 'level' as const, age_ka })),
    ];
    const expected = dense(model, tied(s), wanted);
    for (let i = 0; i < n; i++) {
      near(mean[i]!, expected.mean[i]!, `mean of ${wanted[i]!.kind} at ${wanted[i]!.age_ka} ka`);
      for (let j = 0; j < n; j++)
        near(found[i * n + j]!, expected.covariance[i * n + j]!, `covariance of ${i} and ${j}`);
    }
    expected.shared.forEach((b, g) => {
      near(mean[n + g]!, b, `shared error ${g}`);
    });
  });

  test(`what one break more does for the heights: ${s.name}`, () => {
    const o = chainOf(s);
    o.height_m.set(o.raw_m);
    const work = likelihoodWork(0);
    const more = { ...rates, break_ka: new Float64Array(rates.breaks + 1) };
    const at = Float64Array.of(-1, -0.05, 0.3, 2.7, 5, 7.9, 12);
    const found = new Float64Array(at.length);
    breakLikelihoods(messages(o, rates), rates, more, at, found);
    const without = logLikelihood(o, o.height_m, 0, rates, work);
    at.forEach((age, k) => {
      withBreak(rates, age, more);
      near(found[k]!, logLikelihood(o, o.height_m, 0, more, work) - without, `a break at ${age} ka`);
    });
  });

  test(`messages predict the level from all other heights, wherever the point goes: ${s.name}`, () => {
    const o = chainOf(s);
    // Shared errors are held while ages move: heights here are without them.
    o.height_m.set(o.raw_m);
    const stream = randomStream(11).split('messages');
    const m = messages(o, rates);
    for (let sweep = 0; sweep < 2; sweep++) {
      restart(m, rates, sweep === 1);
      for (let visit = 0; visit < 40; visit++) {
        const node = stream.integer(s.heights.length);
        takeOut(m, node);
        const others = tied(s)
          .map((x, i) => ({ ...x, age_ka: o.age_ka[i < s.heights.length ? i : i + 1]!, loading_m: [] }))
          .filter((_, i) => i !== node);
        let age = o.age_ka[node]!;
        for (let attempt = 0; attempt < 3; attempt++) {
          age = attempt === 1 ? o.age_ka[stream.integer(o.count)]! : 9 * stream.uniform() - 0.4;
          predictLevel(m, age);
          const expected = dense(model, others, [
            { kind: 'level', age_ka: age },
            { kind: 'rate', age_ka: age },
          ]);
          near(m.level_m - trend_m(rates, age), expected.mean[0]!, 'level');
          near(m.variance_m2, expected.covariance[0]!, 'variance');
          near(meanRate(rates, age) + rates.sd_mm_yr * m.rate, expected.mean[1]!, 'rate');
        }
        putBack(m, age, m.younger, m.older);
        o.height_m[node] = s.heights[node]!.height_m + trend_m(rates, age);
        const sorted = Array.from(o.order, (i) => o.age_ka[i]!);
        assert.deepEqual(
          sorted,
          sorted.toSorted((a, b) => a - b),
        );
        for (let k = 0; k < o.count; k++) assert.equal(o.place[o.order[k]!], k);
      }
    }
  });
}

test('a step of two halves is the whole step, from no gap to long ones', () => {
  // Chapman–Kolmogorov: Φ(2Δ) = Φ(Δ)Φ(Δ), Q(2Δ) = ΦQΦᵀ + Q. Holds across the change from series to closed form.
  const matrix = (s: Float64Array): number[][] => [
    [1, -s[0]!, -s[1]!],
    [0, s[2]!, s[3]!],
    [0, -s[3]!, s[4]!],
  ];
  const noise = (s: Float64Array): number[][] => [
    [s[5]!, s[6]!, s[7]!],
    [s[6]!, s[8]!, s[9]!],
    [s[7]!, s[9]!, s[10]!],
  ];
  const times = (a: number[][], b: number[][]): number[][] =>
    a.map((row) => [0, 1, 2].map((j) => row.reduce((sum, x, k) => sum + x * b[k]![j]!, 0)));
  const transposed = (a: number[][]): number[][] => [0, 1, 2].map((j) => a.map((row) => row[j]!));
  for (let z = 1e-4; z < 30; z *= 1.07) {
    const half = new Float64Array(STEP);
    const whole = new Float64Array(STEP);
    rateStep(z, 1, 1, half);
    rateStep(2 * z, 1, 1, whole);
    const f = matrix(half);
    const q = times(times(f, noise(half)), transposed(f));
    const expectedNoise = q.map((row, i) => row.map((x, j) => x + noise(half)[i]![j]!));
    const expected = times(f, f);
    for (let i = 0; i < 3; i++)
      for (let j = 0; j < 3; j++) {
        const size = Math.sqrt(noise(whole)[i]![i]! * noise(whole)[j]![j]!);
        assert.ok(
          Math.abs(noise(whole)[i]![j]! - expectedNoise[i]![j]!) < 2e-10 * size,
          `noise ${i}${j} at ${z}`,
        );
        assert.ok(
          Math.abs(matrix(whole)[i]![j]! - expected[i]![j]!) < 1e-13 * Math.max(1, z),
          `step at ${z}`,
        );
      }
  }
  const none = new Float64Array(STEP);
  rateStep(0, 1, 1, none);
  assert.deepEqual(
    Array.from(none, (x) => x + 0),
    [0, 0, 1, 0, 1, 0, 0, 0, 0, 0, 0],
  );
});

test('a published step: ℓ 100, σ 1.3, Δ 37', () => {
  // Reference values of the two-state Matérn-3/2 step (verified against the matrix exponential).
  const s = new Float64Array(STEP);
  const lambda = Math.sqrt(3) / 100;
  rateStep(37, lambda, 1.3 / lambda, s);
  const close = (found: number, expected: number): void => {
    assert.ok(Math.abs(found - expected) < 5e-9, `${found}, expected ${expected}`);
  };
  close(s[2]!, 0.86446969);
  close(s[3]! / lambda, 19.49307187);
  close(-s[3]! * lambda, -0.00584792);
  close(s[4]!, 0.18920987);
  close(s[8]! * 1.3 ** 2, 0.23439996);
  close(s[9]! * 1.3 ** 2 * lambda, 0.00667358);
  close(s[10]! * (1.3 * lambda) ** 2, 0.00043105);
});

/**
 * Answers against closed forms, on draws made here: straight lines with a normal law of height and rate, parabolas, and
 * paths of the smooth model itself. Bounds before any run: of a share of n independent draws 4 standard errors, of what is
 * exact draw by draw 1e-6.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import {
  normalCdf,
  quantiles,
  type RandomStream,
  randomStream,
  standardDeviation,
} from '@stillstand/science/base';
import { computeCurve } from '../compute-curve.ts';
import { DEFAULT_CURVE_SETTINGS } from '../problem/settings.ts';
import type { CurveResult } from '../result/result.ts';
import { acceleration } from './acceleration.ts';
import { amountOf, amountWhere, chanceOf } from './amount.ts';
import { besideCurve, besidePrediction } from './beside.ts';
import { differenceFrom } from './difference.ts';
import { fastestSlowest } from './fastest-slowest.ts';
import { highestStand } from './highest-stand.ts';
import { lessPrediction } from './less-prediction.ts';
import { betweenAges, isAnswer, levelsAt, meanRates, type NoAnswer, pathsOf } from './paths.ts';
import {
  answerTo,
  type Question,
  questionOf,
  questionText,
  usualAnswers,
  usualQuestions,
} from './question.ts';
import { meanRateAbove, rateAboveAt } from './rate-above.ts';
import { whenPassed } from './when-passed.ts';
import { whenSlowed } from './when-slowed.ts';

const CHAINS = 4;
const DRAWS = 4000;

/** A curve of one point, for all that the draws do not say. */
const bare = computeCurve(
  [
    {
      id: 'P1',
      kind: 'index',
      height_m: 0,
      sigma_m: 1,
      half_range_m: 0,
      lowering_m: 0,
      shared: [],
      age: { kind: 'normal', mean_cal_bp: 3000, sd_yr: 10 },
    },
  ],
  { ...DEFAULT_CURVE_SETTINGS, ages_cal_bp: [0], intervals: [], chains: 1, draws: 8 },
);

interface Path {
  /** By years after the first of the ages. */
  level_m: (x: number) => number;
  rate_mm_yr: (x: number) => number;
}

const everyCentury = Array.from({ length: 61 }, (_, i) => 6000 - 100 * i);

/** A curve with these paths as its draws; ages oldest first. */
function curveOf(
  paths: readonly Path[],
  ages: readonly number[] = everyCentury,
  chains = CHAINS,
): CurveResult {
  const oldest = Math.max(...ages);
  const rows = (of: (path: Path, x: number) => number): Float64Array =>
    Float64Array.from(paths.flatMap((path) => ages.map((age) => of(path, oldest - age))));
  const level_m = rows((path, x) => path.level_m(x));
  const rate_mm_yr = rows((path, x) => path.rate_mm_yr(x));
  const sds = (of: Float64Array): CurveResult['level_m'] => ({
    ...bare.level_m,
    sd: Float64Array.from(ages, (_, i) =>
      standardDeviation(Float64Array.from(paths, (_, d) => of[d * ages.length + i]!)),
    ),
  });
  return {
    ...bare,
    ages_cal_bp: Float64Array.from(ages),
    level_m: sds(level_m),
    rate_mm_yr: sds(rate_mm_yr),
    diagnostics: { ...bare.diagnostics, chains, draws: paths.length / chains },
    draws: {
      ...bare.draws,
      level_m,
      rate_mm_yr,
      rate_sd_mm_yr: new Float64Array(paths.length).fill(1),
      length_ka: new Float64Array(paths.length).fill(2),
    },
  };
}

const many = (seed: string, make: (stream: RandomStream) => Path, draws = DRAWS): Path[] => {
  const stream = randomStream(seed);
  return Array.from({ length: draws }, () => make(stream));
};

function said<T extends object>(answer: T | NoAnswer): T {
  assert.ok(isAnswer(answer), JSON.stringify(answer));
  return answer;
}

/** Four standard errors of a share. */
const near = (found: number, truth: number, what: string, n = DRAWS): void => {
  const slack = 4 * Math.sqrt(Math.max(truth * (1 - truth), 1 / n) / n);
  assert.ok(Math.abs(found - truth) <= slack, `${what}: ${found}, expected ${truth} ± ${slack}`);
};
const exactly = (found: ArrayLike<number>, truth: ArrayLike<number>, what: string, slack = 1e-6): void => {
  for (let i = 0; i < truth.length; i++)
    assert.ok(Math.abs(found[i]! - truth[i]!) <= slack, `${what}: ${found[i]}, expected ${truth[i]}`);
};
const middleOf = ({ median: m, lower95, upper95 }: { median: number; lower95: number; upper95: number }) => [
  lower95,
  m,
  upper95,
];

/** Level −10 ± 0.5 m 6,000 yr ago, rising 2 ± 0.3 mm/yr, the two with a correlation of −0.6. */
const LINE = { level: -10, level_sd: 0.5, rate: 2, rate_sd: 0.3, correlation: -0.6 };
const lines = (seed: string): CurveResult =>
  curveOf(
    many(seed, (stream) => {
      const z = stream.normal();
      const level = LINE.level + LINE.level_sd * z;
      const rate =
        LINE.rate +
        LINE.rate_sd * (LINE.correlation * z + Math.sqrt(1 - LINE.correlation ** 2) * stream.normal());
      return { level_m: (x) => level + (rate * x) / 1000, rate_mm_yr: () => rate };
    }),
  );

test('straight lines: the rate is above x with the probability of its normal law (seed line 1)', () => {
  const curve = lines('line 1');
  for (const x of [1.4, 2, 2.5]) {
    const truth = 1 - normalCdf((x - LINE.rate) / LINE.rate_sd);
    for (const window of [
      null,
      { older_cal_bp: 5000, younger_cal_bp: 4000 },
      { older_cal_bp: 4990, younger_cal_bp: 17 },
    ])
      near(said(meanRateAbove(curve, x, window)).above.p, truth, `mean rate above ${x}`);
    for (const age of [6000, 3000, 1234.5])
      near(said(rateAboveAt(curve, x, age)).above.p, truth, `rate at ${age}`);
  }
  const { rate_mm_yr, above } = said(meanRateAbove(curve, 2.5, null));
  near(normalCdf((rate_mm_yr.lower95 - LINE.rate) / LINE.rate_sd), 0.025, 'lower end');
  near(normalCdf((rate_mm_yr.upper95 - LINE.rate) / LINE.rate_sd), 0.975, 'upper end');
  assert.ok(Math.abs(above.mcse / Math.sqrt((above.p * (1 - above.p)) / DRAWS) - 1) < 0.2, `${above.mcse}`);
});

test('straight lines: a level is passed when the ratio of two normals says (Fieller 1954; Hinkley 1969) (seed line 2)', () => {
  const curve = lines('line 2');
  const level = -4;
  // x = (level − a)/b with b > 0 in effect: P(passed by x) = P(a + b x ≥ level).
  const passedBy = (x: number): number => {
    const centre = LINE.level + (LINE.rate * x) / 1000;
    const sd = Math.sqrt(
      LINE.level_sd ** 2 +
        ((LINE.rate_sd * x) / 1000) ** 2 +
        (2 * LINE.correlation * LINE.level_sd * LINE.rate_sd * x) / 1000,
    );
    return 1 - normalCdf((level - centre) / sd);
  };
  const { passed, age_cal_bp, more_than_once, above_at_start } = said(whenPassed(curve, level, null));
  near(passed.p, passedBy(6000), 'passed');
  assert.equal(more_than_once.p, 0);
  assert.equal(above_at_start.p, 0);
  const [older, middle, younger] = [age_cal_bp!.upper95, age_cal_bp!.median, age_cal_bp!.lower95];
  // Conditional on passing at all.
  for (const [age, p] of [
    [older, 0.025],
    [middle, 0.5],
    [younger, 0.975],
  ] as const)
    near(passedBy(6000 - age) / passedBy(6000), p, `passed by ${age}`);
  // A window that cuts it: half of the draws pass outside it.
  const early = said(whenPassed(curve, level, { older_cal_bp: 6000, younger_cal_bp: 3000 }));
  near(early.passed.p, passedBy(3000), 'passed by 3000 cal BP');
  const late = said(whenPassed(curve, level, { older_cal_bp: 3000, younger_cal_bp: 0 }));
  near(late.above_at_start.p, passedBy(3000), 'above at the start');
  near(late.passed.p, passedBy(6000) - passedBy(3000), 'passed later');
});

test('a level passed more than once: the first time is meant, and how often there is a second is said', () => {
  const wave = (level: number): Path => ({
    level_m: (x) => level + Math.sin(x / 500),
    rate_mm_yr: (x) => 2 * Math.cos(x / 500),
  });
  // One draw in four never gets there.
  const curve = curveOf(Array.from({ length: DRAWS }, (_, d) => wave(d % 4 === 0 ? -3 : -0.5)));
  const { passed, more_than_once, age_cal_bp } = said(whenPassed(curve, 0, null));
  assert.equal(passed.p, 0.75);
  assert.equal(more_than_once.p, 0.75);
  // sin(x/500) = 0.5 first at π/6; a cubic of 100 yr misses a sine of this length by under 1e-5 m, 0.01 yr.
  exactly([age_cal_bp!.median], [6000 - (500 * Math.PI) / 6], 'first passing', 0.02);
  // Up through 0 once and down again; and down alone.
  const hill = curveOf(Array(DRAWS).fill(parabola(1.5, 3e-7, 3000)));
  const once = said(whenPassed(hill, 0, null));
  assert.deepEqual([once.passed.p, once.more_than_once.p], [1, 0]);
  exactly([once.age_cal_bp!.median], [3000 + Math.sqrt(1.5 / 3e-7)], 'up the hill', 1e-4);
  const down = said(whenPassed(hill, 0, { older_cal_bp: 3000, younger_cal_bp: 0 }));
  assert.deepEqual([down.passed.p, down.above_at_start.p, down.age_cal_bp], [0, 1, null]);
  const never = said(whenPassed(curve, 20, null));
  assert.equal(never.passed.p, 0);
  assert.equal(never.age_cal_bp, null);
});

/** h − c(x − x₀)², m: a highstand. */
const parabola = (h: number, c: number, x0: number): Path => ({
  level_m: (x) => h - c * (x - x0) ** 2,
  rate_mm_yr: (x) => -2000 * c * (x - x0),
});

test('parabolas: the highest stand is their summit, draw by draw (seed summit)', () => {
  const summits: [number, number, number][] = [];
  const curve = curveOf(
    many('summit', (stream) => {
      const summit = [
        1.5 + 0.4 * stream.normal(),
        3e-7 * (1 + stream.uniform()),
        3000 + 400 * stream.normal(),
      ] as const;
      summits.push([...summit]);
      return parabola(...summit);
    }),
  );
  const found = said(highestStand(curve, null));
  const p = [0.025, 0.5, 0.975];
  exactly(
    middleOf(found.level_m),
    quantiles(
      summits.map(([h]) => h),
      p,
    ),
    'height',
  );
  exactly(
    middleOf(found.age_cal_bp),
    quantiles(
      summits.map(([, , x0]) => 6000 - x0),
      p,
    ),
    'age',
    1e-4,
  );
  exactly(
    middleOf(found.above_youngest_m),
    quantiles(
      summits.map(([, c, x0]) => c * (6000 - x0) ** 2),
      p,
    ),
    'above the youngest',
  );
  near(found.above_zero.p, 1 - normalCdf(-1.5 / 0.4), 'above zero');
  assert.equal(found.at_older_end.p + found.at_younger_end.p, 0);
  // Cut at the summit: half of the draws have their highest at the end.
  const cut = said(highestStand(curve, { older_cal_bp: 6000, younger_cal_bp: 3050 }));
  near(cut.at_younger_end.p, 1 - normalCdf((2950 - 3000) / 400), 'at the younger end');
  assert.ok(cut.age_cal_bp.lower95 >= 3050);
});

test('the fastest stretch of 500 yr lies about the maximum of a parabola of rates, the slowest at an end (seed fast)', () => {
  const years = 500;
  const truths: number[][] = [];
  // r = r₀ − k(x − x₀)², mm/yr.
  const curve = curveOf(
    many('fast', (stream) => {
      const r0 = 6 + stream.normal();
      const k = 1e-6 * (0.5 + stream.uniform());
      const x0 = 2500 + 300 * stream.normal();
      const beginning = (x: number): number => r0 - (k * ((x + years - x0) ** 3 - (x - x0) ** 3)) / 3 / years;
      const [first, last] = [beginning(0), beginning(5500)];
      truths.push([r0 - (k * years ** 2) / 12, 6000 - x0, Math.min(first, last), first < last ? 5750 : 250]);
      return {
        level_m: (x) => (r0 * x - (k * (x - x0) ** 3) / 3) / 1000,
        rate_mm_yr: (x) => r0 - k * (x - x0) ** 2,
      };
    }),
  );
  const { fastest, slowest } = said(fastestSlowest(curve, years, null));
  const p = [0.025, 0.5, 0.975];
  const of = (i: number): number[] =>
    quantiles(
      truths.map((truth) => truth[i]!),
      p,
    );
  exactly(middleOf(fastest.rate_mm_yr), of(0), 'fastest');
  exactly(middleOf(fastest.middle_cal_bp), of(1), 'when', 0.01);
  exactly(middleOf(slowest.rate_mm_yr), of(2), 'slowest');
  exactly(middleOf(slowest.middle_cal_bp), of(3), 'slowest when');
  // The plain twin: a beginning at every year.
  const waves = many(
    'twin',
    (stream) => {
      const [phase, size] = [7 * stream.uniform(), 1 + stream.uniform()];
      return {
        level_m: (x) => size * Math.sin(x / 700 + phase),
        rate_mm_yr: (x) => (size / 0.7) * Math.cos(x / 700 + phase),
      };
    },
    8,
  );
  for (const [each, length] of waves.flatMap((wave) =>
    [40, 330, 2000].map((length) => [wave, length] as const),
  )) {
    const one = curveOf(Array(8).fill(each), everyCentury, 1);
    const paths = pathsOf(one);
    const window = { older_cal_bp: 5950, younger_cal_bp: 230 };
    const twin = Array.from({ length: 5950 - 230 - length + 1 }, (_, i) => {
      const [older, younger] = [5950 - i, 5950 - i - length].map((age) => levelsAt(paths, age)[0]!);
      return (1000 * (younger! - older!)) / length;
    });
    const found = said(fastestSlowest(one, length, window));
    // A year off the extreme: r″·0.5²/2, some 1e-6 mm/yr.
    exactly(
      [found.fastest.rate_mm_yr.mean, found.slowest.rate_mm_yr.mean],
      [Math.max(...twin), Math.min(...twin)],
      `${length} yr`,
      1e-5,
    );
    // A sine may be as fast again a period later.
    const begin = 5950 - (found.fastest.middle_cal_bp.mean + length / 2);
    exactly([twin[Math.round(begin)]!], [found.fastest.rate_mm_yr.mean], 'when', 1e-5);
  }
});

test('a rate that falls steadily falls below x when it must, and for good (seed slow)', () => {
  const whens: number[] = [];
  const curve = curveOf(
    many('slow', (stream) => {
      const r0 = 8 + stream.normal();
      const k = 2 + 0.2 * stream.uniform();
      whens.push(6000 - (1000 * (r0 - 2)) / k);
      return { level_m: (x) => (r0 * x) / 1000 - (k * x * x) / 2e6, rate_mm_yr: (x) => r0 - (k * x) / 1000 };
    }),
  );
  const { first, for_good, below_at_start, below_throughout } = said(whenSlowed(curve, 2, null));
  assert.equal(first.happened.p, 1);
  const p = [0.025, 0.5, 0.975];
  exactly(middleOf(first.age_cal_bp!), quantiles(whens, p), 'first', 1e-4);
  exactly(middleOf(for_good.age_cal_bp!), quantiles(whens, p), 'for good', 1e-4);
  assert.equal(below_at_start.p + below_throughout.p, 0);
});

test('first and for good are two answers where the rate rises again', () => {
  // 4 cos(x/500) mm/yr falls below 2 at π/3, rises above it at 5π/3, falls again at 7π/3; x ends at 12 = 3.82π.
  const wave: Path = { level_m: (x) => 2 * Math.sin(x / 500), rate_mm_yr: (x) => 4 * Math.cos(x / 500) };
  // Reported every 100 yr the slope of the cubic misses the rate by under 0.003 mm/yr, 1 yr.
  const ages = Array.from({ length: 54 }, (_, i) => 6000 - 100 * i);
  const curve = curveOf(Array(400).fill(wave), ages);
  const { first, for_good } = said(whenSlowed(curve, 2, null));
  exactly([first.age_cal_bp!.median], [6000 - (500 * Math.PI) / 3], 'first', 1);
  exactly([for_good.age_cal_bp!.median], [6000 - (500 * 7 * Math.PI) / 3], 'for good', 1);
  // Up to where it has risen again: below for a while, not for good.
  const cut = said(whenSlowed(curve, 2, { older_cal_bp: 6000, younger_cal_bp: 3000 }));
  assert.equal(cut.first.happened.p, 1);
  assert.equal(cut.for_good.happened.p, 0);
  const below = said(whenSlowed(curve, 5, null));
  assert.equal(below.below_throughout.p, 1);
  assert.equal(below.first.happened.p, 0);
});

test('the acceleration of a parabola is its curvature (seed quick)', () => {
  const truths: number[] = [];
  const curve = curveOf(
    many('quick', (stream) => {
      const c = 1e-7 * stream.normal();
      truths.push(2e6 * c);
      return { level_m: (x) => c * x * x, rate_mm_yr: (x) => 2000 * c * x };
    }),
  );
  for (const window of [null, { older_cal_bp: 3950, younger_cal_bp: 1010 }]) {
    const found = said(acceleration(curve, window));
    exactly(middleOf(found.mm_yr_per_ka), quantiles(truths, [0.025, 0.5, 0.975]), 'acceleration');
    near(found.quickened.p, 0.5, 'quickened');
  }
});

test('the difference of two normal sites is normal, and so is that from a table (seeds here, there)', () => {
  const ages = [6000, 5000, 4000, 3000, 2000, 1000, 0];
  const flat = (seed: string, centre: number, sd: number, rate: number): CurveResult =>
    curveOf(
      many(seed, (stream) => {
        const level = centre + sd * stream.normal();
        const slope = rate + 0.5 * stream.normal();
        return { level_m: (x) => level + (slope * (x - 3000)) / 1000, rate_mm_yr: () => slope };
      }),
      ages,
    );
  const [here, there] = [flat('here', 1, 0.3, 2), flat('there', 0.4, 0.4, 1)];
  const found = said(differenceFrom(here, there, true));
  const at = found.at.find(({ age_cal_bp }) => age_cal_bp === 3000)!;
  for (const [end, p] of [
    [at.level_m!.lower95, 0.025],
    [at.level_m!.median, 0.5],
    [at.level_m!.upper95, 0.975],
  ] as const)
    near(normalCdf((end - 0.6) / 0.5), p, `level ${p}`);
  near(at.level_m!.p_larger, normalCdf(1.2), 'level larger');
  near(found.mean_rate_mm_yr!.p_larger, normalCdf(1 / Math.SQRT1_2), 'rate larger');
  near(at.rate_mm_yr!.p_larger, normalCdf(1 / Math.SQRT1_2), 'rate at an age larger');
  assert.equal(found.at.length, 7);
  assert.equal(found.at.at(-1)!.rate_mm_yr, null);
  const table = { ages_cal_bp: [3000, 9000, 1000], level_m: [0.4, -3, 2.4], sd_m: [0.4, 1, 0.3] };
  const from = said(differenceFrom(here, table, true));
  assert.deepEqual(
    from.at.map(({ age_cal_bp }) => age_cal_bp),
    [3000, 1000],
  );
  near(from.at[0]!.level_m!.p_larger, normalCdf(1.2), 'from a table');
  exactly([from.at[0]!.level_m!.sd], [at.level_m!.sd], 'sd', 0.02);
  // 2.0 in 2,000 yr with sds of 0.4 and 0.3: 1 ± 0.25 mm/yr, against 2 ± 0.5.
  near(from.at[0]!.rate_mm_yr!.p_larger, normalCdf(1 / Math.sqrt(0.25 ** 2 + 0.5 ** 2)), 'rate from a table');
  const off = said(differenceFrom(here, there, false));
  assert.ok(off.at.every(({ level_m }) => level_m === null));
  assert.deepEqual(off.mean_rate_mm_yr, found.mean_rate_mm_yr);
});

test('the difference over all pairs of draws is what listing them gives (seed pairs)', () => {
  const stream = randomStream('pairs');
  const path = (): Path => {
    const level = stream.normal();
    return { level_m: () => level, rate_mm_yr: () => 0 };
  };
  const [here, there] = [24, 36].map((n) => curveOf(Array.from({ length: n }, path), [1000, 0]));
  const found = said(differenceFrom(here!, there!, true)).at[0]!.level_m!;
  const pairs: number[] = [];
  for (let i = 0; i < 24; i++)
    for (let j = 0; j < 36; j++) pairs.push(here!.draws.level_m[2 * i]! - there!.draws.level_m[2 * j]!);
  pairs.sort((a, b) => a - b);
  exactly([found.p_larger], [pairs.filter((d) => d > 0).length / pairs.length], 'share', 1e-12);
  for (const [value, p] of [
    [found.lower95, 0.025],
    [found.median, 0.5],
    [found.upper95, 0.975],
  ] as const) {
    const at = p * pairs.length;
    assert.ok(value >= pairs[Math.floor(at) - 1]! - 1e-9 && value <= pairs[Math.ceil(at)]! + 1e-9, `${p}`);
  }
});

test('between reported ages a path of the smooth model lies off the cubic by the stated sd (seeds path 0 to 399)', (t) => {
  // σ 3 mm/yr, ℓ 1.5 ka: its exact steps of 10 yr, levels summed by Simpson's rule on the half steps between.
  const [sigma, length, gap] = [3, 1.5, 400];
  const lambda = Math.sqrt(3) / length;
  const h = 0.005;
  const off: number[] = [];
  const rateOff: number[] = [];
  for (let seed = 0; seed < 400; seed++) {
    const stream = randomStream(`path ${seed}`);
    // State: rate and its slope; stationary variances σ², λ²σ²; e^(Fh) and its noise in closed form.
    const e = Math.exp(-lambda * h);
    const f = [
      [(1 + lambda * h) * e, h * e],
      [-lambda * lambda * h * e, (1 - lambda * h) * e],
    ] as const;
    const p = [sigma ** 2, (lambda * sigma) ** 2] as const;
    const q00 = p[0] - (f[0][0] ** 2 * p[0] + f[0][1] ** 2 * p[1]);
    const q01 = -(f[0][0] * f[1][0] * p[0] + f[0][1] * f[1][1] * p[1]);
    const q11 = p[1] - (f[1][0] ** 2 * p[0] + f[1][1] ** 2 * p[1]);
    const l00 = Math.sqrt(q00);
    const l11 = Math.sqrt(q11 - (q01 / l00) ** 2);
    let [rate, slope] = [sigma * stream.normal(), lambda * sigma * stream.normal()];
    const rates = [rate];
    for (let i = 0; i < gap / 5; i++) {
      const [z0, z1] = [stream.normal(), stream.normal()];
      [rate, slope] = [
        f[0][0] * rate + f[0][1] * slope + l00 * z0,
        f[1][0] * rate + f[1][1] * slope + (q01 / l00) * z0 + l11 * z1,
      ];
      rates.push(rate);
    }
    const level = [0];
    for (let i = 0; i + 2 < rates.length; i += 2)
      level.push(level.at(-1)! + ((rates[i]! + 4 * rates[i + 1]! + rates[i + 2]!) * h) / 3);
    const years = (i: number): number => 10 * i;
    const last = level.length - 1;
    const path: Path = {
      level_m: (x) => level[Math.round(x / 10)]!,
      rate_mm_yr: (x) => rates[2 * Math.round(x / 10)]!,
    };
    const curve = curveOf(Array(8).fill(path), [gap, 0], 1);
    const middle = gap - years(last / 2);
    off.push(
      said(differenceFrom(curve, { ages_cal_bp: [middle], level_m: [level[last / 2]!], sd_m: null }, true))
        .at[0]!.level_m!.mean,
    );
    rateOff.push(said(rateAboveAt(curve, 0, middle)).rate_mm_yr.mean - rates[last]!);
  }
  const paths = curveOf(
    many('any', () => ({ level_m: () => 0, rate_mm_yr: () => 0 }), 8),
    [gap, 0],
  );
  const stated = betweenAges(
    {
      ...paths,
      draws: {
        ...paths.draws,
        rate_sd_mm_yr: new Float64Array(8).fill(sigma),
        length_ka: new Float64Array(8).fill(length),
      },
    },
    pathsOf(paths),
    { older_cal_bp: gap, younger_cal_bp: 0 },
  );
  const rms = (x: number[]): number => Math.sqrt(x.reduce((sum, each) => sum + each * each, 0) / x.length);
  // An sd of 400 paths is known to 1/√800 of itself, 4 of them 0.14; the form is for a gap short against ℓ (here 0.27 of it).
  const levelRatio = rms(off) / stated.level_m;
  const rateRatio = rms(rateOff) / stated.rate_mm_yr;
  t.diagnostic(`measured over stated: level ${levelRatio.toFixed(3)}, rate ${rateRatio.toFixed(3)}`);
  assert.ok(levelRatio > 0.8 && levelRatio < 1.15, `level ${levelRatio}`);
  assert.ok(rateRatio > 0.8 && rateRatio < 1.15, `rate ${rateRatio}`);
});

test('the error of a mean over some of the draws is honest for chains that wander (seeds some 0 to 199)', (t) => {
  // x ← 0.8x + 0.6ε, y = x + 2·(another such); asked: the mean of y where x > 0, √(2/π).
  const z2: number[] = [];
  const chanceZ2: number[] = [];
  for (let seed = 0; seed < 200; seed++) {
    const stream = randomStream(`some ${seed}`);
    const values = new Float64Array(2000);
    const happened = new Uint8Array(2000);
    for (let c = 0; c < 4; c++) {
      let [x, w] = [stream.normal(), stream.normal()];
      for (let k = 0; k < 500; k++) {
        [x, w] = [0.8 * x + 0.6 * stream.normal(), 0.8 * w + 0.6 * stream.normal()];
        happened[500 * c + k] = x > 0 ? 1 : 0;
        values[500 * c + k] = x > 0 ? x + 2 * w : Number.NaN;
      }
    }
    const found = amountWhere(values, 4)!;
    z2.push(((found.mean - Math.sqrt(2 / Math.PI)) / found.mcse) ** 2);
    const chance = chanceOf(happened.length, 4, (d) => happened[d] === 1);
    chanceZ2.push(((chance.p - 0.5) / chance.mcse) ** 2);
  }
  // Mean square of 200 standardised errors: 1 ± 4·√(2/200), and 0.15 for the errors of the errors.
  for (const each of [z2, chanceZ2]) {
    const found = each.reduce((sum, x) => sum + x, 0) / each.length;
    t.diagnostic(`mean square of the standardised errors ${found.toFixed(2)}`);
    assert.ok(Math.abs(found - 1) < 0.55, `${found}`);
  }
});

test('a number that too few draws show is not given; one that never varies is', () => {
  const few = new Float64Array(400).fill(Number.NaN);
  for (let i = 0; i < 39; i++) few[i] = i;
  assert.equal(amountWhere(few, 4), null);
  const still = amountOf(new Float64Array(400).fill(3), 4);
  assert.deepEqual([still.median, still.mcse, still.effective_draws], [3, 0, 400]);
  assert.deepEqual(
    chanceOf(400, 4, () => false),
    { p: 0, mcse: 0, effective_draws: 400 },
  );
});

test('reported ages too wide apart are named, close ones are not', () => {
  const wavy = (seed: string, ages: readonly number[]): CurveResult => {
    const curve = curveOf(
      many(
        seed,
        (stream) => {
          const level = 0.1 * stream.normal();
          const rate = 0.3 * stream.normal();
          const bend = 0.2 * stream.normal();
          return {
            level_m: (x) => level + ((2 + rate) * x + (bend * x * x) / 2000) / 1000,
            rate_mm_yr: (x) => 2 + rate + (bend * x) / 1000,
          };
        },
        400,
      ),
      ages,
    );
    return {
      ...curve,
      draws: {
        ...curve.draws,
        rate_sd_mm_yr: new Float64Array(400).fill(3),
        length_ka: new Float64Array(400).fill(1),
      },
    };
  };
  const asked: Question[] = [
    { kind: 'passed', level_m: 3, window: null },
    { kind: 'highest', window: null },
    { kind: 'slowed', mm_yr: 2, window: null },
    { kind: 'fastest', years: 500, window: null },
    { kind: 'mean rate above', mm_yr: 2, window: { older_cal_bp: 2990, younger_cal_bp: 2510 } },
    { kind: 'rate above', mm_yr: 2, age_cal_bp: 2500.5 },
    { kind: 'acceleration', window: { older_cal_bp: 4990, younger_cal_bp: 10 } },
  ];
  const wide = wavy('wide', [6000, 5000, 4000, 3000, 2000, 1000, 0]);
  const close = wavy(
    'close',
    Array.from({ length: 121 }, (_, i) => 6000 - 50 * i),
  );
  for (const question of asked) {
    const { answer } = said(answerTo(wide, question));
    assert.equal(answer.too_wide?.gap_yr, 1000, question.kind);
    assert.equal(said(answerTo(close, question)).answer.too_wide, null, question.kind);
  }
  // On reported ages nothing lies between.
  assert.equal(said(meanRateAbove(wide, 2, { older_cal_bp: 3000, younger_cal_bp: 1000 })).too_wide, null);
  assert.equal(said(rateAboveAt(wide, 2, 3000)).too_wide, null);
});

test('ages in any order, and twice, give the same answers', () => {
  const make = (stream: RandomStream): Path =>
    parabola(1 + stream.normal(), 2e-7 * (1 + stream.uniform()), 3000 + 500 * stream.normal());
  const tidy = curveOf(many('order', make, 400));
  const shuffled = [...everyCentury.slice(30), 3000, ...everyCentury.slice(0, 30)];
  const messy = curveOf(
    many('order', make, 400).map((path) => path),
    shuffled,
  );
  for (const question of [
    ...usualQuestions(tidy),
    { kind: 'passed', level_m: 0, window: null },
    { kind: 'slowed', mm_yr: 1, window: null },
  ] as const)
    assert.deepEqual(
      said(answerTo(messy, question)).answer,
      said(answerTo(tidy, question)).answer,
      question.kind,
    );
});

test('what the curve does not report is refused by name, and nothing is thrown', () => {
  const curve = lines('refused');
  const refusals: [Question, RegExp][] = [
    [{ kind: 'highest', window: { older_cal_bp: 7000, younger_cal_bp: 0 } }, /7000 to 0 cal BP.*6000 to 0/],
    [{ kind: 'acceleration', window: { older_cal_bp: 1000, younger_cal_bp: 2000 } }, /1000 to 2000/],
    [{ kind: 'fastest', years: 6001, window: null }, /6001 yr.*at most the 6000 yr/],
    [{ kind: 'fastest', years: 0, window: null }, /0 yr.*above 0/],
    [{ kind: 'rate above', mm_yr: 1, age_cal_bp: -1 }, /-1 cal BP.*6000 to 0/],
    [{ kind: 'passed', level_m: Number.NaN, window: null }, /level_m NaN.*a number/],
  ];
  for (const [question, message] of refusals) {
    const answer = answerTo(curve, question);
    assert.ok(!isAnswer(answer), question.kind);
    assert.match(`${answer.found} · ${answer.expected}`, message);
  }
  const one = curveOf(
    many('one', () => ({ level_m: () => 0, rate_mm_yr: () => 1 }), 8),
    [500],
  );
  for (const question of [
    { kind: 'highest', window: null },
    { kind: 'acceleration', window: null },
  ] as const)
    assert.ok(!isAnswer(answerTo(one, question)));
  assert.deepEqual(usualQuestions(one), []);
  assert.equal(said(answerTo(one, { kind: 'rate above', mm_yr: 0, age_cal_bp: 500 })).kind, 'rate above');
  const undrawn = {
    ...curve,
    draws: { ...curve.draws, level_m: new Float64Array(0), rate_mm_yr: new Float64Array(0) },
  };
  assert.deepEqual(usualAnswers(undrawn), []);
  assert.ok(!isAnswer(answerTo(undrawn, { kind: 'rate above', mm_yr: 0, age_cal_bp: 500 })));
  assert.ok(!isAnswer(differenceFrom(curve, undrawn, true)));
  const apart = differenceFrom(curve, { ages_cal_bp: [9000, 8000], level_m: [0, 0], sd_m: null }, true);
  assert.ok(!isAnswer(apart));
  assert.match(`${apart.found} · ${apart.expected}`, /9000 to 8000 cal BP.*overlap 6000 to 0/);
  assert.ok(!isAnswer(differenceFrom(curve, { ages_cal_bp: [], level_m: [], sd_m: null }, true)));
});

test('a question written as text is the same question; other text is none', () => {
  const window = { older_cal_bp: 8500, younger_cal_bp: -70.5 };
  const questions: Question[] = [
    { kind: 'mean rate above', mm_yr: 1.5, window },
    { kind: 'mean rate above', mm_yr: -1.5, window: null },
    { kind: 'rate above', mm_yr: 0, age_cal_bp: -50 },
    { kind: 'passed', level_m: -5.25, window: null },
    { kind: 'passed', level_m: 0, window },
    { kind: 'highest', window },
    { kind: 'highest', window: null },
    { kind: 'fastest', years: 1000, window },
    { kind: 'slowed', mm_yr: 1e-7, window },
    { kind: 'acceleration', window },
  ];
  for (const question of questions) assert.deepEqual(questionOf(questionText(question)), question);
  for (const text of [
    '',
    'highest 1',
    'highest 1..2',
    'passed',
    'passed x',
    'lowest',
    'rate above 2',
    'passed 1 2..1 3',
  ])
    assert.equal(questionOf(text), null, text);
});

test('less a prediction: a parabola leaves exactly what it should, its error shared by all ages (seed less)', () => {
  const curve = lines('line 1');
  // 4 − x²/9e6 m, x years after 6,000 cal BP, in rows 500 yr apart and in any order: the cubic through parabolas is exact.
  const rows = [0, 2000, 500, 6000, 4500, 5500, 1000, 3000, 1500, 2500, 3500, 4000, 5000];
  const at = (age: number): number => 4 - (6000 - age) ** 2 / 9e6;
  const table = (sd: number) => ({ ages_cal_bp: rows, level_m: rows.map(at), sd_m: rows.map(() => sd) });
  const exact = said(lessPrediction(curve, table(0)));
  const before = pathsOf(curve);
  const after = pathsOf(exact);
  exactly(
    after.level_m,
    before.level_m.map((m, j) => m - at(before.ages_cal_bp[j % 61]!)),
    'level',
  );
  // d/dt of the prediction is −2x/9e6 m/yr.
  exactly(
    after.rate_m_yr,
    before.rate_m_yr.map((r, j) => r + (2 * (6000 - before.ages_cal_bp[j % 61]!)) / 9e6),
    'rate',
    1e-9,
  );
  exactly(
    [said(acceleration(exact, null)).mm_yr_per_ka.mean],
    [said(acceleration(curve, null)).mm_yr_per_ka.mean + 2e6 * (1 / 9e3) * 1e-3],
    'acceleration',
  );
  // An error of 1.2 m for all ages: heights are that much less sure, no rate is.
  const off = said(lessPrediction(curve, table(1.2)));
  const sds = { ...off.level_m }.sd;
  const expected = Math.sqrt(LINE.level_sd ** 2 + 1.2 ** 2);
  assert.ok(Math.abs(sds[0]! / expected - 1) < 4 / Math.sqrt(2 * DRAWS), `${sds[0]}, expected ${expected}`);
  exactly(pathsOf(off).rate_m_yr, after.rate_m_yr, 'rates');
  const window = { older_cal_bp: 6000, younger_cal_bp: 0 };
  exactly(meanRates(pathsOf(off), window), meanRates(after, window), 'mean rates');
  // One that grows with age is an error of the rate: 1.2 m over 6,000 yr, 0.2 mm/yr.
  const tilted = said(lessPrediction(curve, { ...table(0), sd_m: rows.map((age) => 0.0002 * age) }));
  const rateSd = tilted.rate_mm_yr.sd[10]!;
  assert.ok(
    Math.abs(rateSd / Math.sqrt(LINE.rate_sd ** 2 + 0.2 ** 2) - 1) < 4 / Math.sqrt(2 * DRAWS),
    `${rateSd}`,
  );
  // Only within the prediction; none where it says nothing.
  const part = said(lessPrediction(curve, { ages_cal_bp: [2050, 950], level_m: [1, 2], sd_m: null }));
  assert.deepEqual([part.ages_cal_bp[0], part.ages_cal_bp.at(-1)], [2000, 1000]);
  for (const ages of [[], [3000], [9000, 8000]])
    assert.ok(!isAnswer(lessPrediction(curve, { ages_cal_bp: ages, level_m: ages, sd_m: null })));
});

test('beside another curve: a datum shift widens the levels and no rate; a prediction leaves what remains (seed line 1)', () => {
  const curve = lines('line 1');
  const interval = { older_cal_bp: 5000, younger_cal_bp: 1000 };
  const asked = { ...curve, intervals: [{ ...interval }] } as unknown as CurveResult;
  const other = { ages_cal_bp: [6000, 5000, 1000], level_m: [-11, -9, -1], sd_m: [0.2, 0.2, 0.2] };
  const exact = said(besideCurve(asked, other, true));
  const shifted = said(besideCurve(asked, { ...other, zero_sd_m: 1.5 }, true));
  const sdAt = (of: typeof exact): number => of.at[0]!.level_m!.sd;
  // Two normals of sd 0.5 and 0.2, and a shift of 1.5.
  for (const [found, truth] of [
    [sdAt(exact), Math.sqrt(0.5 ** 2 + 0.2 ** 2)],
    [sdAt(shifted), Math.sqrt(0.5 ** 2 + 0.2 ** 2 + 1.5 ** 2)],
  ] as const)
    assert.ok(Math.abs(found / truth - 1) < 4 / Math.sqrt(2 * DRAWS), `${found}, expected ${truth}`);
  assert.deepEqual(shifted.mean_rate_mm_yr, exact.mean_rate_mm_yr);
  assert.deepEqual(shifted.intervals, exact.intervals);
  assert.deepEqual(
    said(besideCurve(asked, other, false)).at.map(({ level_m }) => level_m),
    [null, null, null],
  );
  // −9 to −1 m in 4,000 yr, ± √2·0.2 m: 2 ± 0.07 mm/yr; the line rises 2 ± 0.3.
  const { rate_mm_yr } = exact.intervals[0]!;
  near(rate_mm_yr.p_larger, 0.5, 'as fast');
  exactly([rate_mm_yr.sd], [Math.sqrt(0.3 ** 2 + (Math.SQRT2 * 0.05) ** 2)], 'sd', 0.03);
  // A prediction that rises by 1.4 mm/yr leaves 0.6 ± 0.3, more than 0 with Φ(2).
  const prediction = { ages_cal_bp: [7000, -100], level_m: [-9.8, 0.14], sd_m: null };
  const left = said(besidePrediction(asked, prediction));
  near(left.mean_rate_mm_yr!.p_larger, normalCdf(2), 'something remains');
  exactly([left.mean_rate_mm_yr!.mean], [0.6], 'what remains', 0.03);
  exactly([left.intervals[0]!.rate_mm_yr.mean], [left.mean_rate_mm_yr!.mean], 'of the interval');
  // Level −10 at 6,000 cal BP less −8.4.
  exactly([left.at[0]!.level_m!.mean], [-1.6], 'level that remains', 0.06);
  for (const none of [
    besideCurve(asked, { ages_cal_bp: [9000], level_m: [0], sd_m: null }, true),
    besidePrediction(asked, { ages_cal_bp: [3000], level_m: [0], sd_m: null }),
  ])
    assert.ok(!isAnswer(none));
});

test('a prediction with a step stays between its rows, and its error above 0 (seed line 1)', () => {
  const curve = lines('line 1');
  const before = pathsOf(curve);
  // Land that fell 3 m at once, 2,999.5 years ago: what remains is the level less 3 m before, and the level after.
  const quake = { ages_cal_bp: [6000, 3000, 2999, 0], level_m: [3, 3, 0, 0], sd_m: [0.5, 0.5, 0, 0] };
  const left = said(lessPrediction(curve, { ...quake, sd_m: null }));
  exactly(
    pathsOf(left).level_m,
    before.level_m.map((m, j) => m - (before.ages_cal_bp[j % 61]! >= 3000 ? 3 : 0)),
    'level',
  );
  const off = said(lessPrediction(curve, quake));
  assert.ok(
    off.level_m.sd.every(
      (sd, i) => sd >= curve.level_m.sd[curve.ages_cal_bp.indexOf(off.ages_cal_bp[i]!)]! - 1e-3,
    ),
  );
});

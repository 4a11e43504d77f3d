/**
 * A straight line f = a + b·t with a normal law of (a, b): what is left of Var b after any dates is the inverse of a 2 × 2
 * information matrix (Rasmussen & Williams 2006, eq. 2.8), another way than that of the code. The draws have exactly the law's
 * mean and covariance, so that both agree to rounding.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { type RandomStream, randomStream, square, summarize } from '@stillstand/science/base';
import type { IntervalRate } from '../result/interval-rate.ts';
import type { CurveResult } from '../result/result.ts';
import { type DatePlan, DEFAULT_DATE_PLAN } from './candidates.ts';
import { readingsOf } from './readings.ts';
import { datedTogether, usualReadings, whatToDate } from './what-to-date.ts';

const AGES = [0, 1000, 2000, 3000, 4000];
const HEIGHT = 0.3;

interface Of {
  scatter_m?: { mean: number; sd: number };
  outliers?: { age_probability: number; height_probability: number };
  ages?: number[];
  age_sd_yr?: number;
}

/** A curve of draws of (a, b), m and m/ka; its rate is b. One usual index point. */
function lineOf(draws: readonly (readonly [number, number])[], of: Of = {}) {
  const ages = of.ages ?? AGES;
  const curve = {
    ages_cal_bp: Float64Array.from(ages),
    draws: { level_m: Float64Array.from(draws.flatMap(([a, b]) => ages.map((age) => a + (b * age) / 1000))) },
    diagnostics: { chains: 4 },
    points: [{ kind: 'index', own_sigma_m: HEIGHT, prior_age_cal_bp: { mean: 1000, sd: of.age_sd_yr ?? 0 } }],
    scatter_m: of.scatter_m ?? null,
    settings: { outliers: of.outliers ?? null },
  } as unknown as CurveResult;
  const each = Float64Array.from(draws, ([, b]) => b);
  const rate = { draws: each, rate_mm_yr: summarize([each]) } as unknown as IntervalRate;
  return { curve, rate };
}

const [SD_A, SD_B, RHO] = [1.5, 0.8, -0.6];

/** Four draws, many times over, with exactly the mean 0 and covariance of (a, b). */
function exactLine(): [number, number][] {
  const root = Math.SQRT2;
  const one: [number, number][] = [];
  for (const side of [1, -1]) {
    one.push([side * root * SD_A, side * root * RHO * SD_B]);
    one.push([0, side * root * Math.sqrt(1 - RHO * RHO) * SD_B]);
  }
  return Array.from({ length: 60 }, () => one).flat();
}

/** Var b over that without, all of the dates sound: ages in ka and variances of the readings, m². */
function leftByInformation(dates: readonly { ka: number; variance: number }[]): number {
  const det = square(SD_A * SD_B) * (1 - square(RHO));
  let aa = square(SD_B) / det;
  let ab = (-RHO * SD_A * SD_B) / det;
  let bb = square(SD_A) / det;
  for (const { ka, variance } of dates) {
    aa += 1 / variance;
    ab += ka / variance;
    bb += (ka * ka) / variance;
  }
  return aa / (aa * bb - ab * ab) / square(SD_B);
}

const sure: DatePlan = { ...DEFAULT_DATE_PLAN, fails: 0 };

for (const [name, ages] of [
  ['one', [3000]],
  ['two', [0, 4000]],
  ['two of one age', [1000, 1000]],
  ['three', [0, 2000, 4000]],
] as const)
  test(`${name} on a straight line: what is left is what the information matrix leaves, errors of age in it`, () => {
    const { curve, rate } = lineOf(exactLine());
    // Where a date is uncertain by sd, the line reads b·sd more; E b² over the draws. At both ends the reported ages stop.
    for (const age_sd_yr of ages.some((age) => age === 0 || age === 4000) ? [0] : [0, 200]) {
      const readings = readingsOf(curve, age_sd_yr);
      const dates = ages.map((age_cal_bp) => ({ age_cal_bp, height_sigma_m: HEIGHT }));
      const { left } = datedTogether(curve, readings, rate, dates, sure)!;
      const variance = square(HEIGHT) + square(SD_B * (age_sd_yr / 1000));
      const expected = leftByInformation(ages.map((age) => ({ ka: age / 1000, variance })));
      assert.ok(Math.abs(square(left) - expected) < 1e-9, `${square(left)}, ${expected}`);
    }
  });

test('dates that may fail: the mean over all ways in which they succeed and fail', () => {
  const outliers = { age_probability: 0.1, height_probability: 0.05 };
  const { curve, rate } = lineOf(exactLine(), { outliers });
  const ages = [0, 2000, 4000];
  const sound = (1 - 0.2) * (1 - 0.1) * (1 - 0.05);
  let expected = 0;
  for (let outcome = 0; outcome < 8; outcome++) {
    const good = ages.filter((_, k) => (outcome & (1 << k)) !== 0);
    const p = sound ** good.length * (1 - sound) ** (3 - good.length);
    expected += p * leftByInformation(good.map((age) => ({ ka: age / 1000, variance: square(HEIGHT) })));
  }
  const dates = ages.map((age_cal_bp) => ({ age_cal_bp, height_sigma_m: HEIGHT }));
  const plan = { ...DEFAULT_DATE_PLAN, fails: 0.2 };
  const { left } = datedTogether(curve, readingsOf(curve, 0), rate, dates, plan)!;
  assert.ok(Math.abs(square(left) - expected) < 1e-9, `${square(left)}, ${expected}`);
  const one = datedTogether(curve, readingsOf(curve, 0), rate, dates.slice(0, 1), plan)!;
  const alone = leftByInformation([{ ka: 0, variance: square(HEIGHT) }]);
  assert.ok(Math.abs(square(one.left) - (1 - sound + sound * alone)) < 1e-9);
});

test('extra scatter adds its mean square to a new reading', () => {
  const dates = [{ age_cal_bp: 3000, height_sigma_m: HEIGHT }];
  const { curve, rate } = lineOf(exactLine(), { scatter_m: { mean: 0.3, sd: 0.1 } });
  const { left } = datedTogether(curve, readingsOf(curve, 0), rate, dates, sure)!;
  const expected = leftByInformation([{ ka: 3, variance: square(HEIGHT) + 0.1 }]);
  assert.ok(Math.abs(square(left) - expected) < 1e-9, `${square(left)}, ${expected}`);
});

test('what two dates do beyond the sum of both: they repeat one another where the level is known, complete one another where not', () => {
  const known = lineOf(exactLine());
  const { pair, layers } = whatToDate(known.curve, usualReadings(known.curve)!, known.rate, [], sure);
  assert.deepEqual(
    pair!.dates.map(({ age_cal_bp }) => age_cal_bp.mean),
    [4000, 0],
  );
  const leftBy = (...kas: number[]): number =>
    leftByInformation(kas.map((ka) => ({ ka, variance: square(HEIGHT) })));
  assert.ok(Math.abs(1 - pair!.together - leftBy(0, 4)) < 1e-9);
  const beyond = 1 - leftBy(0, 4) - (1 - leftBy(0)) - (1 - leftBy(4));
  assert.ok(
    Math.abs(pair!.beyond.value - beyond) < 1e-9 && beyond < -0.1,
    `${pair!.beyond.value}, ${beyond}`,
  );
  assert.equal(layers, null);
  // The level anywhere within 20 m: one date says where the line is, two say how steep.
  const vague = lineOf(exactLine().map(([a, b]) => [a * 10, b] as [number, number]));
  const two = whatToDate(vague.curve, usualReadings(vague.curve)!, vague.rate, [], sure).pair!;
  assert.ok(two.beyond.value > 0.05, `${two.beyond.value}`);
});

test('a layer the curve comes nowhere near is named, and not ranked', () => {
  const { curve, rate } = lineOf(exactLine());
  const layer = { point: 'A', rsl_m: 40, rsl_sigma_m: 0.1, price: null };
  const { far, singles } = whatToDate(curve, usualReadings(curve)!, rate, [layer], sure);
  assert.deepEqual(far, ['A']);
  assert.equal(singles.length, 1);
});

/** A random normal line. */
const drawn = (stream: RandomStream, count: number): [number, number][] =>
  Array.from({ length: count }, () => {
    const [u, v] = [stream.normal(), stream.normal()];
    return [SD_A * u, SD_B * (RHO * u + Math.sqrt(1 - RHO * RHO) * v)];
  });

test('the Monte-Carlo error is the scatter of what is said from one set of draws to another (seed 61)', () => {
  const stream = randomStream(61);
  const dates = [0, 4000].map((age_cal_bp) => ({ age_cal_bp, height_sigma_m: HEIGHT }));
  const said = Array.from({ length: 200 }, () => {
    const { curve, rate } = lineOf(drawn(stream, 800));
    return datedTogether(curve, readingsOf(curve, 0), rate, dates, DEFAULT_DATE_PLAN)!;
  });
  const middle = said.reduce((sum, { left }) => sum + left, 0) / said.length;
  const scatter = Math.sqrt(said.reduce((sum, { left }) => sum + square(left - middle), 0) / said.length);
  const error = said.reduce((sum, { mcse }) => sum + mcse, 0) / said.length;
  assert.ok(error / scatter > 0.8 && error / scatter < 1.25, `${error}, ${scatter}`);
});

test('a date that tells nothing of the rate is not called worth it, however the draws fall (seed 62)', () => {
  const stream = randomStream(62);
  let worth = 0;
  for (let k = 0; k < 200; k++) {
    const { curve, rate } = lineOf(Array.from({ length: 200 }, () => [stream.normal(), 0]));
    rate.draws.forEach((_, d) => {
      rate.draws[d] = stream.normal();
    });
    if (whatToDate(curve, usualReadings(curve)!, rate, [], sure).singles.some(({ isWorth }) => isWorth))
      worth++;
  }
  assert.ok(worth <= 4, `${worth} of 200`);
});

test('prices: what narrows most for its price comes first, and a budget buys what leaves least (seed 63)', () => {
  const { curve, rate } = lineOf(drawn(randomStream(63), 2000), { ages: [0, 1000, 2000, 3000, 4000, 5000] });
  const readings = usualReadings(curve)!;
  const layer = (point: string, price: number | null) => ({ point, rsl_m: 1.2, rsl_sigma_m: 0.4, price });
  const plan = { ...DEFAULT_DATE_PLAN, date_price: 400, core_price: 2000, budget: 800 };
  const found = whatToDate(curve, readings, rate, [layer('dear', 5000), layer('cheap', null)], plan);
  const order = found.singles.map(({ dates: [one] }) => one!.point);
  assert.equal(order[0], 'cheap');
  assert.ok(order.indexOf('cheap') < order.indexOf('dear'));
  assert.equal(found.singles.find(({ dates }) => dates[0]!.point === null)!.price, 2400);
  // 800 does not buy a core; each layer has one date.
  assert.deepEqual(
    found.bought!.dates.map(({ point }) => point),
    ['cheap'],
  );
  assert.equal(whatToDate(curve, readings, rate, [], { ...plan, budget: 2000 }).bought, null);
  // Three dates of any ages: as good as the best of all sets of three.
  const three = whatToDate(curve, readings, rate, [], { ...DEFAULT_DATE_PLAN, budget: 3 }).bought!;
  let least = 1;
  for (const a of curve.ages_cal_bp)
    for (const b of curve.ages_cal_bp)
      for (const c of curve.ages_cal_bp) {
        const dates = [a, b, c].map((age_cal_bp) => ({ age_cal_bp, height_sigma_m: HEIGHT }));
        least = Math.min(least, datedTogether(curve, readings, rate, dates, DEFAULT_DATE_PLAN)!.left);
      }
  assert.ok(three.price <= 3 && three.left < least + 0.01, `${three.left}, ${least}`);
});

test('a pair is worth it only beyond the better one of its two (seed 65)', () => {
  const { curve, rate } = lineOf(drawn(randomStream(65), 2000));
  const layer = (point: string, rsl_sigma_m: number) => ({ point, rsl_m: 0.5, rsl_sigma_m, price: null });
  const readings = usualReadings(curve)!;
  const of = (sigma: number) =>
    whatToDate(curve, readings, rate, [layer('good', 0.2), layer('other', sigma)], sure);
  const idle = of(20);
  assert.equal(idle.singles.find(({ dates }) => dates[0]!.point === 'good')!.isWorth, true);
  assert.equal(idle.layers!.isWorth, false);
  assert.equal(of(0.2).layers!.isWorth, true);
});

test('a layer: the mean over the ages at which the curve passes its height (seed 64)', () => {
  const draws = drawn(randomStream(64), 2000);
  const ages = Array.from({ length: 41 }, (_, i) => 100 * i);
  const { curve, rate } = lineOf(draws, { ages });
  const readings = usualReadings(curve)!;
  const layer = { point: 'L', rsl_m: 0.8, rsl_sigma_m: HEIGHT, price: null };
  const { left } = datedTogether(curve, readings, rate, [layer], sure)!;
  let weights = 0;
  let expected = 0;
  for (const age of ages) {
    const weight = draws.reduce(
      (sum, [a, b]) => sum + Math.exp(-0.5 * square((0.8 - a - (b * age) / 1000) / HEIGHT)),
      0,
    );
    const one = datedTogether(curve, readings, rate, [{ age_cal_bp: age, height_sigma_m: HEIGHT }], sure)!;
    weights += weight;
    expected += weight * square(one.left);
  }
  assert.ok(Math.abs(square(left) - expected / weights) < 0.01, `${square(left)}, ${expected / weights}`);
});

test('a plan that is none is an error of the program', () => {
  const { curve, rate } = lineOf(exactLine());
  const readings = usualReadings(curve)!;
  for (const wrong of [{ fails: 1 }, { date_price: 0 }, { core_price: -1 }, { budget: 0 }])
    assert.throws(
      () => whatToDate(curve, readings, rate, [], { ...DEFAULT_DATE_PLAN, ...wrong }),
      RangeError,
    );
});

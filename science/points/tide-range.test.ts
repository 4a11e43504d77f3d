/** The range of the tide at another time, by hand: M2 tide of 2 m today, 3 m then, the mean level 0.1 m above the datum. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import {
  forCurve,
  indexPoint,
  levelThen,
  limitingPoint,
  meanTideLevel,
  type RangeThen,
  rangeThen,
  type TideThen,
  tideRangeTable,
} from './index.ts';

/** Sums of a few doubles. */
const near = (actual: number, expected: number, within = 1e-12) =>
  assert.ok(Math.abs(actual - expected) <= within, `${actual} is not ${expected} ± ${within}`);

const row = (age_cal_bp: number, factor: number, factor_sigma: number) => ({
  age_cal_bp,
  factor,
  factor_sigma,
});
const TABLE = [row(0, 1, 0), row(4000, 1.2, 0.04), row(8000, 1.6, 0.1)];
const certain = (age: number) => ({ from_cal_bp: age, density: [1] });

test('straight between rows, constant beyond the ends', () => {
  for (const [age, factor, sigma] of [
    [-60, 1, 0],
    [0, 1, 0],
    [1000, 1.05, 0.01],
    [4000, 1.2, 0.04],
    [6000, 1.4, 0.07],
    [8000, 1.6, 0.1],
    [9500, 1.6, 0.1],
  ] as const) {
    const then = rangeThen(TABLE, certain(age));
    near(then.factor, factor);
    near(then.factor_sigma, sigma);
    assert.equal(then.age_sigma, 0);
  }
  assert.deepEqual(rangeThen([row(3000, 1.3, 0.05)], certain(7000)), {
    factor: 1.3,
    factor_sigma: 0.05,
    age_sigma: 0,
  });
});

test('an uncertain age: the mean of the factor, and its spread', () => {
  // Three years with 1, 2, 1: mean 6001, variance 0.5 yr²; the table rises by 1e-4 a year there.
  const then = rangeThen(TABLE, { from_cal_bp: 6000, density: [1, 2, 1] });
  near(then.factor, 1.4001);
  near(then.age_sigma, 1e-4 * Math.sqrt(0.5));
  // Over the kink at 4000 cal BP: half at 3000 (1.15), half at 5000 (1.3).
  const density = new Float64Array(2001);
  density[0] = 3;
  density[2000] = 3;
  const kink = rangeThen(TABLE, { from_cal_bp: 3000, density });
  near(kink.factor, 1.225);
  near(kink.age_sigma, 0.075);
});

const tide_levels = [
  { level: 'HAT', elevation_m: 1.6, sigma_m: 0.05 },
  { level: 'MHW', elevation_m: 1.1, sigma_m: 0.04 },
  { level: 'MSL', elevation_m: 0.1, sigma_m: 0.03 },
  { level: 'MLW', elevation_m: -0.9, sigma_m: 0.04 },
];
const thenOf = (range: RangeThen): TideThen => ({
  range,
  mean: { elevation_m: 0.1, sigma_m: 0.03 },
  group: 'bay',
  source: 'a model',
});
const at = (level: string, offset_m = 0) => ({ level, offset_m });
const common = { tide_levels, tide_group: 'bay', errors: [] };
const HALF_MORE = { factor: 1.5, factor_sigma: 0.08, age_sigma: 0.02 };

test('levels stand farther from the mean level, which stays; an offset in metres stays too', () => {
  const tide_then = thenOf(HALF_MORE);
  const point = indexPoint({
    ...common,
    elevation_m: -3,
    lower: at('MHW', 0.2),
    upper: at('HAT'),
    tide_then,
  });
  assert.ok(point.ok);
  // MHW: 0.1 + 1.5 × 1.0 = 1.6, and 0.2 above it; HAT: 0.1 + 1.5 × 1.5 = 2.35.
  near(point.reference_water_level_m, (1.8 + 2.35) / 2);
  near(point.indicative_range_m, 0.55);
  near(point.rsl_m, -3 - 2.075);
  // Of today: MHW 1.0 and HAT 1.5 above the mean.
  near(point.lever_m, 1.25);
  const part = (name: string) => point.components.find(({ component }) => component === name)!;
  near(part('tidal_range').sigma_m, 1.25 * 0.08);
  assert.equal(part('tidal_range').shared_group, 'tide_range:bay');
  near(part('tidal_range_age').sigma_m, 1.25 * 0.02);
  assert.equal(part('tidal_range_age').shared_group, null);
  // Common to MHW and the mean 0.03; the remainder of MHW grows with the factor.
  const mhw = Math.sqrt(0.03 ** 2 + 1.5 ** 2 * (0.04 ** 2 - 0.03 ** 2));
  const hat = Math.sqrt(0.03 ** 2 + 1.5 ** 2 * (0.05 ** 2 - 0.03 ** 2));
  near(part('tide_levels').sigma_m, (mhw + hat) / 2);
});

test('below the mean level the shared error acts the other way round', () => {
  const tide_then = thenOf(HALF_MORE);
  const sigmas = (['terrestrial', 'marine'] as const).map((kind) => {
    const point = limitingPoint({
      ...common,
      kind,
      elevation_m: -3,
      bound: at(kind === 'terrestrial' ? 'MHW' : 'MLW'),
      tide_then,
    });
    assert.ok(point.ok);
    near(point.rsl_m, kind === 'terrestrial' ? -3 - 1.6 : -3 + 1.4);
    return forCurve(point.components, kind).shared.find(({ group }) => group === 'tide_range:bay')!.sigma_m;
  });
  near(sigmas[0]!, 0.08);
  near(sigmas[1]!, -0.08);
});

test('a factor of 1 without an error leaves every number as it is, to the last bit', () => {
  const height = fc.double({ min: -8, max: 8, noNaN: true });
  const sigma = fc.option(fc.double({ min: 0, max: 0.3, noNaN: true }), { nil: null });
  const level = fc.record({ elevation_m: height, sigma_m: sigma });
  fc.assert(
    fc.property(
      height,
      level,
      level,
      level,
      fc.double({ min: -1, max: 1, noNaN: true }),
      (e, a, b, mean, offset) => {
        const levels = [
          { level: 'MHW', ...a },
          { level: 'HAT', ...b },
        ];
        const age = { from_cal_bp: 4321, density: [0.1, 0.7, 0.3, 1e-3] };
        const range = rangeThen([row(0, 1, 0), row(9000, 1, 0)], age);
        const tide_then = { range, mean, group: 'bay', source: '' };
        const input = {
          ...common,
          tide_levels: levels,
          elevation_m: e,
          lower: at('MHW', offset),
          upper: at('HAT'),
        };
        const { lever_m: _, ...today } = indexPoint(input) as { lever_m: number };
        const { lever_m: __, ...then } = indexPoint({ ...input, tide_then }) as { lever_m: number };
        assert.deepEqual(then, today);
      },
    ),
    { seed: 20260811, numRuns: 400 },
  );
});

test('the variance of a level then is that of its parts drawn', () => {
  // Level = common + own part, mean = common (the smaller error): then = mean + f (level − mean).
  const { sigma_m } = levelThen({ level: 'MHW', elevation_m: 1, sigma_m: 0.05 }, thenOf(HALF_MORE));
  near(sigma_m!, Math.hypot(0.03, 1.5 * 0.04));
  // The mean is the worse known: what it has of its own enters with 1 − f.
  const worse = { ...thenOf(HALF_MORE), mean: { elevation_m: 0, sigma_m: 0.05 } };
  near(
    levelThen({ level: 'MHW', elevation_m: 1, sigma_m: 0.03 }, worse).sigma_m!,
    Math.hypot(0.03, 0.5 * 0.04),
  );
});

test('what the tide swings about: MSL, else a zero that is mean sea level, else MTL, else nothing', () => {
  const [hat, mhw, msl] = tide_levels;
  const mtl = { level: 'MTL', elevation_m: 0.12, sigma_m: null };
  assert.equal(meanTideLevel(tide_levels, true), msl);
  assert.equal(meanTideLevel([hat!, mtl], true)?.elevation_m, 0);
  assert.equal(meanTideLevel([hat!, mtl], false), mtl);
  assert.equal(meanTideLevel([hat!, mhw!], false), null);
});

test('what is wrong with a table is named, and what is used said', () => {
  const reasons = (...of: Parameters<typeof tideRangeTable>) =>
    tideRangeTable(...of).faults.map(({ reason, row: at }) => [reason, at]);
  assert.deepEqual(reasons(TABLE, 9000), []);
  assert.deepEqual(reasons(TABLE.toReversed(), 9000), []);
  const mistyped = [TABLE[0]!, row(40000, 1.2, 0.04), TABLE[2]!];
  assert.deepEqual(reasons(mistyped, 9000), [['out_of_order', 2]]);
  assert.deepEqual(
    tideRangeTable(mistyped, 9000).rows.map((r) => r.age_cal_bp),
    [0, 8000, 40000],
  );
  const twice = [...TABLE, row(8000, 1.7, 0.1)];
  assert.deepEqual(reasons(twice, 9000), [['same_age', 3]]);
  assert.deepEqual(tideRangeTable(twice, 9000).rows, TABLE);
  const ka = [row(0, 1, 0), row(4, 1.2, 0.04), row(8, 1.6, 0.1)];
  assert.deepEqual(reasons(ka, 7500), [['ages_in_ka', null]]);
  assert.deepEqual(tideRangeTable(ka, 7500).rows, []);
  // A harbour dredged since 1960: years in truth.
  assert.deepEqual(reasons([row(-70, 1, 0), row(-10, 0.8, 0.02), row(50, 0.7, 0.02)], 7500), []);
  assert.deepEqual(reasons([], 0), []);
});

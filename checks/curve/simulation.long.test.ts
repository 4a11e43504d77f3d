/**
 * Simulation-based calibration (Talts, Betancourt, Simpson, Vehtari & Gelman 2018, arXiv:1804.06788): truth drawn from the
 * prior, data from the truth, and the rank of the truth among the posterior draws must be even for every reported number;
 * its 95 % interval must hold the truth 95 times in 100. Every kind of point is there: index points with normal, uniform
 * and one-sided height errors and all of them at once, terrestrial and marine limits, two shared height errors, ages
 * normal, radiocarbon with and without a shared reservoir error, and an arbitrary density of two peaks. With every date and
 * height as its error says, seed 21; with one date and one height in five an outlier, seed 22; with these and 15 of the 16
 * points in five holes of which the depths tell the order of the ages and two lie on compressible sediment, seed 23; under other models of the rate, seeds 24 to 26. The gate
 * takes 24 sets of the first, and 12 of seed 23, which has all that seed 22 has, and of 24; `STILLSTAND_SETS=240` takes all with 240.
 */
import assert from 'node:assert/strict';
import { type TestContext, test } from 'node:test';
import { loadCurve } from '@stillstand/published/curves';
import {
  mean,
  quantileSorted,
  type RandomStream,
  randomStream,
  standardDeviation,
} from '@stillstand/science/base';
import type { AgeConstraint } from '@stillstand/science/clocks';
import {
  type CurvePoint,
  type CurveSettings,
  curveWithDraws,
  DEFAULT_CURVE_SETTINGS,
  DEFAULT_OUTLIERS,
  type RateModel,
  SMOOTH_RATE,
} from '@stillstand/science/curve';
import type { YearlyCurve } from '@stillstand/science/dating';
import { drawSea } from './simulated-sea.ts';

const ALL = 240;
const asked = process.env['STILLSTAND_SETS'];
const FEW = Number(asked ?? 12);
const BINS = 10;

const settings: CurveSettings = {
  ...DEFAULT_CURVE_SETTINGS,
  priors: { ...DEFAULT_CURVE_SETTINGS.priors, rate_mean_mm_yr: 1 },
  tie: null,
  ages_cal_bp: [-50, 0, 500, 1500, 3000, 4500, 6000, 7500, 8500],
  intervals: [
    { older_cal_bp: 6000, younger_cal_bp: 2000 },
    { older_cal_bp: 1000, younger_cal_bp: 0 },
  ],
  age_range_cal_bp: { youngest: 0, oldest: 8000 },
  chains: 2,
  draws: 400,
};

interface Truth {
  id: string;
  age_cal_bp: number;
  make: (level_m: number) => CurvePoint;
}

const SHARED = ['bench mark', 'tide model'];

/** Half the points carry each shared error. */
function sharedOf(i: number): { group: string; sigma_m: number }[] {
  return [
    ...(i % 2 === 0 ? [{ group: SHARED[0]!, sigma_m: 0.25 }] : []),
    ...(i % 3 === 0 ? [{ group: SHARED[1]!, sigma_m: 0.05 + 0.03 * i }] : []),
  ];
}

type Outliers = NonNullable<CurveSettings['outliers']>;
const MANY: Outliers = { ...DEFAULT_OUTLIERS, age_probability: 0.2, height_probability: 0.2 };

interface Assumed {
  sets: number;
  outliers: Outliers | null;
  depth_order: boolean;
  burial_percent: number | null;
  seed: number;
  rate_model?: RateModel;
  extra_scatter_m?: number;
}
const CASES: Record<string, Assumed> = {
  'every date and height as its error says': {
    sets: Number(asked ?? 24),
    outliers: null,
    depth_order: false,
    burial_percent: null,
    seed: 21,
  },
  outliers: { sets: FEW, outliers: MANY, depth_order: false, burial_percent: null, seed: 22 },
  'outliers, the order of depths and burial': {
    sets: FEW,
    outliers: MANY,
    depth_order: true,
    burial_percent: 10,
    seed: 23,
  },
  'a stepwise rate of two changes, with jumps': {
    sets: FEW,
    outliers: null,
    depth_order: false,
    burial_percent: null,
    seed: 24,
    rate_model: { ...SMOOTH_RATE, kind: 'stepwise', changes: 2, jump_sd_m: 1.5 },
  },
  'a smooth rate with at most two breaks, with jumps, and a mean that slowed': {
    sets: FEW,
    outliers: null,
    depth_order: false,
    burial_percent: null,
    seed: 25,
    rate_model: { ...SMOOTH_RATE, changes: 2, jump_sd_m: 1, slowing_mm_yr_ka: 0.5 },
  },
  'a constant rate, outliers, heights that scatter': {
    sets: FEW,
    outliers: MANY,
    depth_order: false,
    burial_percent: null,
    seed: 26,
    rate_model: { ...SMOOTH_RATE, kind: 'constant' },
    extra_scatter_m: 0.3,
  },
};
const IN_GATE = [21, 23, 24];
for (const [what, assumed] of Object.entries(CASES))
  if (asked !== undefined || IN_GATE.includes(assumed.seed))
    test(`ranks of the truth are even and 95 % intervals cover: ${what}, ${assumed.sets} simulated sets, seed ${assumed.seed}`, (t) =>
      calibrated(t, assumed));

/** Holes on compressible sediment. */
const BURIED = [0, 3];
/** Points of a hole, from above. */
const HOLES = Array.from({ length: 5 }, (_, h) => [h, h + 5, h + 10]);

async function calibrated(
  t: TestContext,
  {
    sets: SETS,
    outliers,
    depth_order,
    burial_percent,
    seed,
    rate_model = SMOOTH_RATE,
    extra_scatter_m = 0,
  }: Assumed,
): Promise<void> {
  const curve = await loadCurve('intcal20');
  const ranks = new Map<string, number[]>();
  const quarters = new Map<string, Float64Array>();
  /** Share of the numbers within their 95 % interval, by set. */
  const inside = new Float64Array(SETS);
  let converged = 0;
  /** Sets with so many breaks, as the probabilities have it and in truth. */
  const expectedBreaks: number[] = [];
  const trueBreaks: number[] = [];
  for (let set = 0; set < SETS; set++) {
    const stream = randomStream(seed).split(set);
    const b = SHARED.map(() => stream.normal());
    const reservoir = stream.normal();
    const radiocarbon = (shared: boolean, isOutlier: boolean): Dated => {
      const cell = stream.integer(8001);
      const error_yr = 25 + 40 * stream.uniform();
      // A date that is an outlier has an error of its own where the others share theirs.
      const error = isOutlier ? stream.normal() : reservoir;
      const expected = curve.c14_age[cell - curve.from_cal_bp]! + 100 + (shared ? 60 * error : 0);
      const spread = Math.hypot(error_yr, curve.sigma_yr[cell - curve.from_cal_bp]!, shared ? 0 : 60);
      const c14_age = expected + spread * stream.normal();
      const delta_r_group = shared ? 'shells' : null;
      return {
        true_age: cell - 0.5 + stream.uniform(),
        ...(isOutlier ? calibratedMoments(curve, c14_age, error_yr) : NOT_ASKED),
        age: {
          kind: 'radiocarbon',
          c14_age,
          error_yr,
          curve,
          offset_yr: 100,
          offset_sd_yr: 60,
          delta_r_group,
        },
      };
    };
    const normal = (): Dated => {
      const mean_cal_bp = 8000 * stream.uniform();
      const sd_yr = 20 + 150 * stream.uniform();
      const true_age = mean_cal_bp + sd_yr * stream.normal();
      return { true_age, mean: mean_cal_bp, sd: sd_yr, age: { kind: 'normal', mean_cal_bp, sd_yr } };
    };
    const twoPeaks = (): Dated => {
      const from_cal_bp = Math.floor(7000 * stream.uniform());
      const density = Float64Array.from({ length: 600 }, (_, i) => (i < 100 ? 1 : i >= 400 ? 2 : 0));
      const u = stream.uniform() * 500;
      const true_age = from_cal_bp - 0.5 + (u < 100 ? u : 400 + (u - 100) / 2);
      const mean = from_cal_bp + (100 * 49.5 + 400 * 499.5) / 500;
      const squares = (100 * 49.5 ** 2 + 400 * 499.5 ** 2) / 500 - (mean - from_cal_bp) ** 2;
      const within = (100 * (100 ** 2 / 12) + 400 * (200 ** 2 / 12)) / 500;
      return {
        true_age,
        mean,
        sd: Math.sqrt(squares + within),
        age: { kind: 'density', from_cal_bp, density },
      };
    };
    const dated = (draw: (isOutlier: boolean) => Dated): Dated => {
      for (;;) {
        const isOutlier = outliers !== null && stream.uniform() < outliers.age_probability;
        const date = draw(isOutlier);
        if (!isOutlier) return date;
        const scale = outliers.age_scales_yr[stream.integer(outliers.age_scales_yr.length)]!;
        const side = stream.uniform() < outliers.too_old_share ? -1 : 1;
        const true_age = date.mean - side * scale * Math.log(1 - stream.uniform());
        // No age is younger or older than the range, but those that a date has by itself.
        if (true_age >= Math.min(0, date.mean - 6 * date.sd) && true_age <= 8000)
          return { ...date, true_age };
      }
    };
    const drawn = (i: number): Dated =>
      dated((isOutlier) => (i < 5 ? normal() : i < 13 ? radiocarbon(i < 9, isOutlier) : twoPeaks()));
    const ages = Array.from({ length: 16 }, (_, i) => drawn(i));
    const isInOrder = (hole: number[]): boolean =>
      hole.every((i, k) => k === 0 || ages[i]!.true_age > ages[hole[k - 1]!]!.true_age);
    // All dates and ages of a hole together, until the ages are in order: the prior given that they are.
    if (depth_order)
      for (const hole of HOLES) while (!isInOrder(hole)) for (const i of hole) ages[i] = drawn(i);
    // Shares of what lies below, of the first two holes.
    const lost = BURIED.map(() =>
      burial_percent === null ? 0 : (burial_percent / 100) * Math.abs(stream.normal()),
    );
    const scatter_m = extra_scatter_m > 0 ? extra_scatter_m * Math.abs(stream.normal()) : 0;
    const points = ages.map(({ true_age, age }, i): Truth => {
      const hole = HOLES.find((of) => of.includes(i)) ?? [];
      const older_below = hole.slice(hole.indexOf(i) + 1).map((j) => `P${j + 1}`);
      return {
        id: `P${i + 1}`,
        age_cal_bp: true_age,
        make: (level_m) => {
          const buried = BURIED.findIndex((h) => HOLES[h] === hole);
          const compressible_m = buried === -1 || burial_percent === null ? 0 : 1 + (i % 4);
          const low = compressible_m * (lost[buried] ?? 0);
          const point = heightOn(`P${i + 1}`, i, level_m - low, age, b, outliers, scatter_m, stream);
          return { ...point, older_below, burial: { hole: `H${buried}`, compressible_m } };
        },
      };
    });
    const levels = [...settings.ages_cal_bp, 2000, 1000, ...points.map((p) => p.age_cal_bp)];
    const sea = drawSea(settings.priors, levels, settings.ages_cal_bp, stream, rate_model);
    const { result, quantities } = curveWithDraws(
      points.map((p) => p.make(sea.level_m(p.age_cal_bp))),
      { ...settings, outliers, depth_order, burial_percent, rate_model, extra_scatter_m, seed: 1000 + set },
    );
    if (result.diagnostics.converged) converged++;

    const truth = new Map<string, number>();
    for (const age of settings.ages_cal_bp) {
      truth.set(`level at ${age} cal BP`, sea.level_m(age));
      truth.set(`rate at ${age} cal BP`, sea.rate_mm_yr(age));
    }
    for (const { older_cal_bp, younger_cal_bp } of settings.intervals) {
      const rise = sea.level_m(younger_cal_bp) - sea.level_m(older_cal_bp);
      const rate = (1000 * rise) / (older_cal_bp - younger_cal_bp);
      truth.set(`rate from ${older_cal_bp} to ${younger_cal_bp} cal BP`, rate);
    }
    for (const p of points) truth.set(`age of ${p.id}`, p.age_cal_bp);
    for (const g of result.groups) {
      truth.set(`shared error ${g.group}`, g.sigma_m * b[SHARED.indexOf(g.group)]!);
    }
    result.burials.forEach(({ hole, thickest_m }) => {
      truth.set(`lowering in hole ${hole}`, thickest_m * lost[Number(hole.slice(1))]!);
    });
    for (const o of result.offsets) truth.set(`reservoir error ${o.group}`, o.sigma_yr * reservoir);
    truth.set('sd of the rate', sea.rate_sd_mm_yr);
    if (rate_model.kind === 'smooth') truth.set('length of the rate', sea.length_ka);
    if (extra_scatter_m > 0) truth.set('extra scatter of the heights', scatter_m);
    if (rate_model.slowing_mm_yr_ka > 0) truth.set('slowing of the rate', sea.slowing_mm_yr_ka);
    if (rate_model.kind === 'stepwise')
      sea.changes.toReversed().forEach((change, k) => {
        truth.set(`age of change ${k + 1}`, change.age_cal_bp);
        truth.set(`rate before change ${k + 1}`, change.older_mm_yr);
        truth.set(`rate after change ${k + 1}`, change.younger_mm_yr);
        if (rate_model.jump_sd_m > 0) truth.set(`jump at change ${k + 1}`, change.jump_m);
      });
    result.breaks_p.forEach((p, k) => {
      expectedBreaks[k] = (expectedBreaks[k] ?? 0) + p;
      trueBreaks[k] = (trueBreaks[k] ?? 0) + (sea.changes.length === k ? 1 : 0);
    });
    assert.deepEqual(new Set(quantities.map((q) => q.name)), new Set(truth.keys()));
    for (const { name, chains } of quantities) {
      const is = truth.get(name)!;
      const draws = Float64Array.from(chains.flatMap((c) => [...c])).sort();
      let below = 0;
      while (draws[below]! < is) below++;
      const list = ranks.get(name) ?? [];
      list.push((below + 0.5) / (draws.length + 1));
      ranks.set(name, list);
      // Below the 95 % interval, in its lower half, in its upper, above.
      const counts = quarters.get(name) ?? new Float64Array(4);
      const bounds = [0.025, 0.5, 0.975].map((p) => quantileSorted(draws, p));
      const quarter = bounds.filter((bound) => is > bound).length;
      counts[quarter]!++;
      if (quarter === 1 || quarter === 2) inside[set]! += 1 / quantities.length;
      quarters.set(name, counts);
    }
  }

  // Pearson's chi-square, against its upper 1e-5 quantile at 9 and at 3 degrees of freedom: with some seventy
  // histograms a sound sampler fails once in over a thousand seeds.
  let worst = 0;
  for (const [name, places] of ranks) {
    assert.equal(places.length, SETS);
    const bins = new Float64Array(BINS);
    for (const place of places) bins[Math.floor(BINS * place)]!++;
    const chiSquare = bins.reduce((sum, count) => sum + (count - SETS / BINS) ** 2 / (SETS / BINS), 0);
    worst = Math.max(worst, chiSquare);
    assert.ok(chiSquare < 39.3, `${name}: ranks ${Array.from(bins)}`);
  }
  const expected = [0.025, 0.475, 0.475, 0.025].map((share) => share * SETS);
  let least = 1;
  for (const [name, counts] of quarters) {
    const chiSquare = counts.reduce((sum, count, k) => sum + (count - expected[k]!) ** 2 / expected[k]!, 0);
    const share = (counts[1]! + counts[2]!) / SETS;
    least = Math.min(least, share);
    assert.ok(
      chiSquare < 25.9,
      `${name}: below, lower, upper, above the 95 % interval ${Array.from(counts)}`,
    );
  }
  const error = standardDeviation(inside) / Math.sqrt(SETS);
  t.diagnostic(
    `${ranks.size} rank histograms, largest chi-square ${worst.toFixed(1)} (9 df); ${quarters.size} intervals, coverage ` +
      `${mean(inside).toFixed(3)} ± ${error.toFixed(3)} on average, least ${least.toFixed(3)}; converged in ${converged} of ${SETS}`,
  );
  if (trueBreaks.length > 0)
    t.diagnostic(
      `breaks: ${expectedBreaks.map((x) => x.toFixed(1)).join(', ')} sets expected of 0, 1 …, ${trueBreaks.join(', ')} there were`,
    );
  // A hundredth, as first written: the 41 numbers of one set go together, so that the error of their mean is that between
  // the sets; it is printed. Of fewer sets the same in
  // the errors of their mean, which go with 1/√sets: 3.1 of them, at 0.05 between sets of 16 points.
  const allowed = 0.01 * Math.sqrt(ALL / SETS);
  assert.ok(Math.abs(mean(inside) - 0.95) < allowed, `mean coverage ${mean(inside)}`);
}

interface Dated {
  true_age: number;
  age: AgeConstraint;
  /** Moments of what the date says of its age. */
  mean: number;
  sd: number;
}

const NOT_ASKED = { mean: Number.NaN, sd: Number.NaN };

/** Of a date calibrated on even years 0 to 8000, the reservoir error its own. */
function calibratedMoments(
  { from_cal_bp, c14_age, sigma_yr }: YearlyCurve,
  found: number,
  error_yr: number,
): { mean: number; sd: number } {
  const weight = Float64Array.from({ length: 8001 }, (_, year) => {
    const at = year - from_cal_bp;
    const spread = Math.hypot(error_yr, sigma_yr[at]!, 60);
    return Math.exp(-0.5 * ((found - c14_age[at]! - 100) / spread) ** 2) / spread;
  });
  const sum = (of: (year: number) => number): number =>
    weight.reduce((total, w, year) => total + w * of(year), 0);
  const total = sum(() => 1);
  const mean = sum((year) => year) / total;
  return { mean, sd: Math.sqrt(sum((year) => (year - mean) ** 2) / total) };
}

/** What a sample at this level is measured as; a limit is a coin the level throws. */
function heightOn(
  id: string,
  i: number,
  level_m: number,
  age: AgeConstraint,
  b: readonly number[],
  outliers: Outliers | null,
  scatter_m: number,
  stream: RandomStream,
): CurvePoint {
  const shared = sharedOf(i);
  const sigma_m = 0.1 + 0.3 * stream.uniform();
  const [half, low] = (
    [
      [0, 0],
      [0, 0],
      [0.5, 0],
      [0, 0.6],
      [0.2, 0.6],
      [0.6, 0.3],
    ] as const
  )[i % 8] ?? [0, 0];
  const isOutlier = outliers !== null && stream.uniform() < outliers.height_probability;
  const times = isOutlier ? outliers.height_times[stream.integer(outliers.height_times.length)]! : 0;
  const own = Math.hypot(sigma_m, times * Math.sqrt(sigma_m ** 2 + half ** 2 / 3 + low ** 2));
  const scatter = i % 8 < 6 && scatter_m > 0 ? scatter_m * stream.normal() : 0;
  const z =
    level_m +
    scatter +
    shared.reduce((sum, s) => sum + s.sigma_m * b[SHARED.indexOf(s.group)]!, 0) +
    own * stream.normal();
  const index = (half_range_m: number, lowering_m: number): CurvePoint => ({
    id,
    kind: 'index',
    height_m: z + half_range_m * (2 * stream.uniform() - 1) - lowering_m * Math.abs(stream.normal()),
    sigma_m,
    half_range_m,
    lowering_m,
    shared,
    age,
  });
  if (i % 8 < 6) return index(half, low);
  // The height is chosen without knowing the sea; whether the sea was below it is the observation.
  const height_m = 6 * stream.normal();
  const kind = z <= height_m ? 'terrestrial' : 'marine';
  return { id, kind, height_m, sigma_m, half_range_m: 0, lowering_m: 0, shared, age };
}

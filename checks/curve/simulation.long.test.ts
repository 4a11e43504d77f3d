/**
 * Simulation-based calibration (Talts, Betancourt, Simpson, Vehtari & Gelman 2018, arXiv:1804.06788): truth drawn from the
 * prior, data from the truth, and the rank of the truth among the posterior draws must be even for every reported number;
 * its 95 % interval must hold the truth 95 times in 100. Every kind of point is there: index points with normal, uniform
 * and one-sided height errors and all of them at once, terrestrial and marine limits, two shared height errors, ages
 * normal, radiocarbon with and without a shared reservoir error, and an arbitrary density of two peaks. Seed 21.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { loadCurve } from '@stillstand/published/curves';
import {
  mean,
  quantileSorted,
  type RandomStream,
  randomStream,
  standardDeviation,
} from '@stillstand/science/base';
import {
  type AgeConstraint,
  type CurvePoint,
  type CurveSettings,
  curveWithDraws,
  DEFAULT_CURVE_SETTINGS,
} from '@stillstand/science/curve';
import { drawSea } from './simulated-sea.ts';

const SETS = 240;
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

test(`ranks of the truth are even and 95 % intervals cover: ${SETS} simulated sets, seed 21`, async (t) => {
  const curve = await loadCurve('intcal20');
  const ranks = new Map<string, number[]>();
  const quarters = new Map<string, Float64Array>();
  /** Share of the numbers within their 95 % interval, by set. */
  const inside = new Float64Array(SETS);
  let converged = 0;
  for (let set = 0; set < SETS; set++) {
    const stream = randomStream(21).split(set);
    const b = SHARED.map(() => stream.normal());
    const reservoir = stream.normal();
    const radiocarbon = (shared: boolean): { true_age: number; age: AgeConstraint } => {
      const cell = stream.integer(8001);
      const error_yr = 25 + 40 * stream.uniform();
      const expected = curve.c14_age[cell - curve.from_cal_bp]! + 100 + (shared ? 60 * reservoir : 0);
      const spread = Math.hypot(error_yr, curve.sigma_yr[cell - curve.from_cal_bp]!, shared ? 0 : 60);
      const c14_age = expected + spread * stream.normal();
      const delta_r_group = shared ? 'shells' : null;
      return {
        true_age: cell - 0.5 + stream.uniform(),
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
    const normal = (): { true_age: number; age: AgeConstraint } => {
      const mean_cal_bp = 8000 * stream.uniform();
      const sd_yr = 20 + 150 * stream.uniform();
      return { true_age: mean_cal_bp + sd_yr * stream.normal(), age: { kind: 'normal', mean_cal_bp, sd_yr } };
    };
    const twoPeaks = (): { true_age: number; age: AgeConstraint } => {
      const from_cal_bp = Math.floor(7000 * stream.uniform());
      const density = Float64Array.from({ length: 600 }, (_, i) => (i < 100 ? 1 : i >= 400 ? 2 : 0));
      const u = stream.uniform() * 500;
      const true_age = from_cal_bp - 0.5 + (u < 100 ? u : 400 + (u - 100) / 2);
      return { true_age, age: { kind: 'density', from_cal_bp, density } };
    };
    const points = Array.from({ length: 16 }, (_, i): Truth => {
      const { true_age, age } =
        i < 5 ? normal() : i < 9 ? radiocarbon(true) : i < 13 ? radiocarbon(false) : twoPeaks();
      return {
        id: `P${i + 1}`,
        age_cal_bp: true_age,
        make: (level_m) => heightOn(`P${i + 1}`, i, level_m, age, b, stream),
      };
    });
    const levels = [...settings.ages_cal_bp, 2000, 1000, ...points.map((p) => p.age_cal_bp)];
    const sea = drawSea(settings.priors, levels, settings.ages_cal_bp, stream);
    const { result, quantities } = curveWithDraws(
      points.map((p) => p.make(sea.level_m(p.age_cal_bp))),
      { ...settings, seed: 1000 + set },
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
    for (const o of result.offsets) truth.set(`reservoir error ${o.group}`, o.sigma_yr * reservoir);
    truth.set('sd of the rate', sea.rate_sd_mm_yr);
    truth.set('length of the rate', sea.length_ka);
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
  // A hundredth, as first written: the 41 numbers of one set go together, so that the error of their mean is that between
  // the sets; it is printed.
  assert.ok(Math.abs(mean(inside) - 0.95) < 0.01, `mean coverage ${mean(inside)}`);
});

/** What a sample at this level is measured as; a limit is a coin the level throws. */
function heightOn(
  id: string,
  i: number,
  level_m: number,
  age: AgeConstraint,
  b: readonly number[],
  stream: RandomStream,
): CurvePoint {
  const shared = sharedOf(i);
  const sigma_m = 0.1 + 0.3 * stream.uniform();
  const z =
    level_m +
    shared.reduce((sum, s) => sum + s.sigma_m * b[SHARED.indexOf(s.group)]!, 0) +
    sigma_m * stream.normal();
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
  switch (i % 8) {
    case 0:
    case 1:
      return index(0, 0);
    case 2:
      return index(0.5, 0);
    case 3:
      return index(0, 0.6);
    case 4:
      return index(0.2, 0.6);
    case 5:
      return index(0.6, 0.3);
    default: {
      // The height is chosen without knowing the sea; whether the sea was below it is the observation.
      const height_m = 6 * stream.normal();
      const kind = z <= height_m ? 'terrestrial' : 'marine';
      return { id, kind, height_m, sigma_m, half_range_m: 0, lowering_m: 0, shared, age };
    }
  }
}

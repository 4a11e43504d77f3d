/**
 * Two small holes whose dates share one error against their slow twin: histories of each drawn from the prior and weighed
 * by the dates at 33 values of the error, in plain formulas; the two meet in the sum over the error alone.
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { exp, mean, randomStream, summarize } from '@stillstand/science/base';
import { type AgeConstraint, sharingOf } from '@stillstand/science/clocks';
import {
  type AgeDepthInput,
  type AgeDepthSettings,
  ageDepthDefaults,
  ageDepthTogether,
} from '@stillstand/science/dating';
import { weighed, weightedHistories } from './weighted-histories.ts';

const settings: AgeDepthSettings = { ...ageDepthDefaults, sections: 3, draws: 20_000 };
const HISTORIES = 400_000;
const ERRORS = Array.from({ length: 33 }, (_, k) => -4 + k / 4);
const SHARED_YR = 150;

interface Date {
  id: string;
  depth_m: Float64Array;
  mean: number;
  sd: number;
  shares: boolean;
}

/** Even within whole years, so that the twin can look it up. */
function density({ mean, sd }: Date): { from_cal_bp: number; density: Float64Array } {
  const from_cal_bp = Math.floor(mean - 5 * sd);
  const years = Math.ceil(10 * sd);
  return {
    from_cal_bp,
    density: Float64Array.from({ length: years }, (_, i) => exp(-0.5 * ((from_cal_bp + i - mean) / sd) ** 2)),
  };
}

const first: Date[] = [
  { id: 'A1', depth_m: Float64Array.of(0.5, 0.7, 0.6, 0.9), mean: 700, sd: 200, shares: true },
  { id: 'A2', depth_m: Float64Array.of(1.2, 1.5, 1.3, 1.4), mean: 2900, sd: 220, shares: true },
  { id: 'A3', depth_m: Float64Array.of(2.4, 2.6, 2.2, 2.7), mean: 3500, sd: 300, shares: false },
];
/** Its second date is of another clock and says what the error is. */
const second: Date[] = [
  { id: 'B1', depth_m: Float64Array.of(1, 1.1, 1.05, 0.95), mean: 1900, sd: 180, shares: true },
  { id: 'B2', depth_m: Float64Array.of(1.2, 1.3, 1.25, 1.15), mean: 1500, sd: 90, shares: false },
  { id: 'B3', depth_m: Float64Array.of(2.2, 2.3, 2.1, 2.4), mean: 3600, sd: 200, shares: true },
];

const inputOf = (dates: readonly Date[]): AgeDepthInput => ({
  horizons: dates.map((date) => ({ id: date.id, depth_m: date.depth_m, age: density(date) })),
  surface: { age_cal_bp: 0, sd_yr: 50 },
  breaks: [{ id: 'contact', depth_m: Float64Array.of(1, 1.1, 0.9, 1.2) }],
  bottom_m: 3,
});

const sharedOf = (dates: readonly Date[]) =>
  dates
    .filter(({ shares }) => shares)
    .map(({ id, mean: mean_cal_bp, sd: sd_yr }): { id: string; age: AgeConstraint } => ({
      id,
      age: { kind: 'normal', mean_cal_bp, sd_yr, systematic: { group: 'lamp', sd_yr: SHARED_YR } },
    }));

const twinOf = (dates: readonly Date[], seed: number) => {
  const input = inputOf(dates);
  return weightedHistories(input, settings, HISTORIES, seed, undefined, {
    errors: ERRORS,
    inPlace: (i, year, error) => {
      const { mean, sd, shares } = dates[i]!;
      if (!shares) return null;
      const own = Math.sqrt(sd ** 2 - SHARED_YR ** 2);
      return Math.exp(-0.5 * ((mean - year - SHARED_YR * error) / own) ** 2) / (own * Math.sqrt(2 * Math.PI));
    },
  });
};

/** Mean of the weights of a stretch of the histories, by error. */
const fitOf = ({ given }: ReturnType<typeof twinOf>, from = 0, to = HISTORIES): number[] =>
  given.map(({ weight }) => mean(weight.subarray(from, to)));

test('two holes that share an error: ages, dates out of place and the error, seed 4', (t) => {
  const holes = [first, second];
  const twins = holes.map((dates, h) => twinOf(dates, 4 + h));
  const results = ageDepthTogether(
    holes.map((dates, h) => ({
      hole: 'AB'[h]!,
      input: inputOf(dates),
      settings,
      shared: sharingOf({ shared: sharedOf(dates), settings }),
    })),
    randomStream(4),
  ).map((result) => {
    assert(result.kind === 'age_depth');
    assert(result.diagnostics.converged, result.diagnostics.remarks.join('\n'));
    return result;
  });

  // The error: its prior times what each hole says; its Monte-Carlo error from ten stretches of the histories.
  const prior = ERRORS.map((e) => Math.exp(-0.5 * e * e));
  const momentsOf = (fits: readonly (readonly number[])[]) => {
    const p = prior.map((q, e) => q * fits[0]![e]! * fits[1]![e]!);
    const total = p.reduce((a, b) => a + b);
    const m = p.reduce((sum, q, e) => sum + q * ERRORS[e]!, 0) / total;
    return { mean: m, sd: Math.sqrt(p.reduce((sum, q, e) => sum + q * (ERRORS[e]! - m) ** 2, 0) / total) };
  };
  const there = momentsOf(twins.map((twin) => fitOf(twin)));
  const part = HISTORIES / 10;
  const parts = Array.from(
    { length: 10 },
    (_, k) => momentsOf(twins.map((twin) => fitOf(twin, k * part, (k + 1) * part))).mean,
  );
  const spread = Math.sqrt(parts.reduce((sum, m) => sum + (m - there.mean) ** 2, 0) / 9 / 10);
  for (const { shared } of results) {
    const { mean: here, sd, mcse } = shared[0]!.shift_yr;
    const off = Math.abs(here / SHARED_YR - there.mean) / Math.hypot(mcse / SHARED_YR, spread);
    const ratio = sd / SHARED_YR / there.sd;
    t.diagnostic(
      `error ${(here / SHARED_YR).toFixed(3)} ± ${(sd / SHARED_YR).toFixed(3)} sds, twin ${there.mean.toFixed(3)} ± ${there.sd.toFixed(3)}: means ${off.toFixed(2)} errors apart, sds as ${ratio.toFixed(3)}`,
    );
    // Bounds as in the twin of one hole, set before measuring.
    assert(off < 4);
    assert(Math.abs(ratio - 1) < 0.06);
  }

  for (const [h, dates] of holes.entries()) {
    const twin = twins[h]!;
    const other = fitOf(twins[1 - h]!);
    const weight = new Float64Array(HISTORIES);
    for (const [e, { weight: given }] of twin.given.entries())
      for (let k = 0; k < HISTORIES; k++) weight[k]! += prior[e]! * other[e]! * given[k]!;
    const total = weight.reduce((a, b) => a + b);
    for (const [i, { id }] of dates.entries()) {
      const clock = results[h]!.clocks[i]!;
      const age = weighed(weight, twin.values.get(`age of ${id}`)!);
      const off = Math.abs(clock.age_cal_bp.mean - age.mean) / Math.hypot(clock.age_cal_bp.mcse, age.error);
      const ratio = clock.age_cal_bp.sd / age.sd;
      const out =
        twin.given.reduce((sum, { outOfPlace }, e) => sum + prior[e]! * other[e]! * outOfPlace[i]!, 0) /
        total;
      t.diagnostic(
        `${id}: ${clock.age_cal_bp.mean.toFixed(0)} ± ${clock.age_cal_bp.sd.toFixed(0)}, means ${off.toFixed(2)} errors apart, sds as ${ratio.toFixed(3)}; out of place ${clock.outlier_probability.toFixed(3)}, ${out.toFixed(3)}`,
      );
      assert(off < 4, `${id}: means ${off} errors apart`);
      assert(Math.abs(ratio - 1) < 0.06, `${id}: sds as ${ratio}`);
      assert(Math.abs(clock.outlier_probability - out) < 0.03, `${id} out of place`);
    }
    const bottom = results[h]!.agesAt(3).map((age) => Math.log(1000 + age));
    const { chains, draws } = results[h]!.diagnostics;
    const here = summarize(
      Array.from({ length: chains }, (_, c) => bottom.subarray(c * draws, (c + 1) * draws)),
    );
    const low = weighed(
      weight,
      twin.values.get('age at 3.00 m')!.map((age) => Math.log(1000 + age)),
    );
    const off = Math.abs(here.mean - low.mean) / Math.hypot(here.mcse, low.error);
    t.diagnostic(
      `${'AB'[h]} at 3 m, logarithm: means ${off.toFixed(2)} errors apart, sds as ${(here.sd / low.sd).toFixed(3)}`,
    );
    assert(off < 4);
    assert(Math.abs(here.sd / low.sd - 1) < 0.06);
  }
});

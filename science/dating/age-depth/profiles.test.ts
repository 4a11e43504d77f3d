/** A profile that reads one depth is a date there: the same ages, whichever way the chain hears of it. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { exp, log, quantiles, randomStream, square } from '@stillstand/science/base';
import { type AgeDepthInput, ageDepth, ageDepthDefaults, type DatedHorizon, type Profile } from './index.ts';

/** Dates are all but never out of place here, so that they are what a profile is. */
const settings = { ...ageDepthDefaults, sections: 10, outlier: 1e-6 };
const normal =
  (mean: number, sd: number) =>
  (age: number): number =>
    exp(-0.5 * square((age - mean) / sd));
const date = (id: string, depth_m: number[], mean: number, sd: number): DatedHorizon => ({
  id,
  depth_m: Float64Array.from(depth_m),
  age: {
    from_cal_bp: mean - 6 * sd,
    density: Float64Array.from({ length: 12 * sd + 1 }, (_, i) => normal(mean, sd)(i - 6 * sd + mean)),
  },
});
const profile = (ends_m: number[], mean: number, sd: number): Profile => ({
  id: 'profile',
  ends_m: Float64Array.from(ends_m),
  // Up to a constant: one that is far from 0 must not matter.
  logLikelihood: (ages) => log(normal(mean, sd)(ages.at(-1)!) + 1e-300) + 40,
});

const top = date('top', [0.5, 0.6, 0.55, 0.45], 500, 100);
const low = date('low', [2.5, 2.4, 2.55, 2.6], 5000, 100);
const input: AgeDepthInput = {
  horizons: [top, low],
  surface: { age_cal_bp: 0, sd_yr: 20 },
  breaks: [],
  bottom_m: 3,
};

test('ages with a profile of one depth are those with the date, far from what the other dates say (seed 9)', (t) => {
  const middle = date('middle', [1.5, 1.5, 1.5, 1.5], 1200, 50);
  const [dated, read] = [
    { ...input, horizons: [top, middle, low] },
    { ...input, profiles: [profile([1.5], 1200, 50)] },
  ].map((each) => {
    const result = ageDepth(each, settings, randomStream(9));
    assert(result.kind === 'age_depth' && result.diagnostics.converged);
    return result;
  });
  for (const depth_m of [0.3, 1, 1.5, 2, 2.9]) {
    const [a, b] = [dated!, read!].map((of) =>
      quantiles(of.agesAt(depth_m), [0.025, 0.16, 0.5, 0.84, 0.975]),
    );
    const sd = (a![3]! - a![1]!) / 2;
    const apart = (b![2]! - a![2]!) / sd;
    const wide = (b![4]! - b![0]!) / (a![4]! - a![0]!);
    t.diagnostic(`${depth_m} m: medians ${apart.toFixed(2)} sd apart, 95 % as ${wide.toFixed(2)}`);
    // 400 effective draws: a median to 0.06 sd, the difference of two to 0.09; widths of 95 % to a tenth. Three of these.
    assert.ok(Math.abs(apart) < 0.27, `${depth_m} m: ${apart} sd`);
    assert.ok(Math.abs(log(wide)) < 0.27, `${depth_m} m: 95 % as ${wide}`);
  }
});

test('a profile upside down, below the bottom or over a break is an error', () => {
  const refused = (more: Partial<AgeDepthInput>, of: RegExp): void => {
    assert.throws(() => ageDepth({ ...input, ...more }, settings, randomStream(9)), of);
  };
  refused(
    { profiles: [profile([0.2, 0.1], 100, 10)] },
    /depths of profile are 0\.2, 0\.1; expected some, downward/,
  );
  refused({ profiles: [profile([], 100, 10)] }, /expected some, downward/);
  refused({ profiles: [profile([1, 4], 100, 10)] }, /profile reaches 4 m; expected at most 3 m/);
  const contact = { id: 'contact', depth_m: Float64Array.of(0.9, 1.1, 1, 1) };
  refused(
    { profiles: [profile([0.5, 1], 100, 10)], breaks: [contact] },
    /contact lies among the depths of profile/,
  );
});

/** A move at the same quantile: against plain sums over the years, there and back, and its Jacobian against differences. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { cos, exp } from '@stillstand/science/base';
import { logAgeGiven } from '@stillstand/science/clocks';
import { agePrior } from './age-prior.ts';
import { ageQuantiles, atSameQuantile } from './age-quantiles.ts';

/** Runs with the calendar, and winds as much as calibration curves do. */
const winding = {
  name: 'winding',
  from_cal_bp: 0,
  c14_age: Float64Array.from({ length: 9001 }, (_, year) => 0.9 * year + 100 + 40 * cos(year / 45)),
  sigma_yr: new Float64Array(9001).fill(15),
};
const prior = agePrior(
  {
    kind: 'radiocarbon',
    c14_age: 4500,
    error_yr: 30,
    curve: winding,
    offset_yr: 0,
    offset_sd_yr: 80,
    delta_r_group: 'shells',
  },
  { youngest: 0, oldest: 9000 },
)!;
const quantiles = ageQuantiles(prior)!;

/** Share below an age by a sum over whole years. */
function below(age: number, error: number): number {
  let sum = 0;
  let all = 0;
  for (let year = 3000; year < 7000; year++) {
    const p = exp(logAgeGiven(prior, year, error));
    all += p;
    if (year < age) sum += p * Math.min(1, age - year + 0.5);
  }
  return sum / all;
}

test('an age lies at the same quantile under another shared error', () => {
  for (const [age, from, to] of [
    [4850, 0, 0.7],
    [4800, 0.5, -1.3],
    [4900, -0.4, 2.2],
  ] as const) {
    const moved = atSameQuantile(quantiles, age, from, to)!;
    // Nodes are 5 years apart and errors a fifth of an sd: a hundredth.
    assert.ok(
      Math.abs(below(age, from) - below(moved.age_cal_bp, to)) < 0.015,
      `${age} to ${moved.age_cal_bp}`,
    );
  }
});

test('the move goes back where it came from, and stretches the years as it says', () => {
  for (const age of [4700.3, 4851.7, 4933.2]) {
    const there = atSameQuantile(quantiles, age, 0.13, -0.61)!;
    const back = atSameQuantile(quantiles, there.age_cal_bp, -0.61, 0.13)!;
    assert.ok(Math.abs(back.age_cal_bp - age) < 1e-6);
    assert.ok(Math.abs(there.log_stretch + back.log_stretch) < 1e-9);
    const beside = atSameQuantile(quantiles, age + 1e-4, 0.13, -0.61)!;
    const slope = (beside.age_cal_bp - there.age_cal_bp) / 1e-4;
    assert.ok(Math.abs(Math.log(slope) - there.log_stretch) < 1e-3);
  }
});

test('beyond the tables there is no move, and an age without a shared error has none', () => {
  assert.equal(atSameQuantile(quantiles, 4850, 0, 4.5), null);
  assert.equal(atSameQuantile(quantiles, 100, 0, 1), null);
  const alone = agePrior({ kind: 'normal', mean_cal_bp: 4000, sd_yr: 40 }, { youngest: 0, oldest: 9000 })!;
  assert.equal(ageQuantiles(alone), null);
});

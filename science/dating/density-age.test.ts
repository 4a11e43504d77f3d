/** Ages of any shape: a table of weights, and a likelihood. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import type { Calibration, NotCalibrated } from './calibration.ts';
import { ageLikelihood, weightedAge } from './density-age.ts';
import { evenAge } from './even-age.ts';
import { normalAge } from './normal-age.ts';

function certain(answer: Calibration | NotCalibrated): Calibration {
  assert.equal(answer.kind, 'calibrated', 'reason' in answer ? answer.reason : '');
  return answer as Calibration;
}

const rows = (...of: [age_cal_bp: number, weight: number][]) =>
  of.map(([age_cal_bp, weight]) => ({ age_cal_bp, weight }));

const near = (is: number, expected: number, by: number, what: string): void =>
  assert.ok(Math.abs(is - expected) <= by, `${what}: ${is}, expected ${expected}`);

test('a triangle of years has the mean and the variance of the triangular law', () => {
  // Mean (a + b + c)/3, variance (a² + b² + c² − ab − ac − bc)/18: common knowledge of probability, from memory.
  const [a, c, b] = [6000, 6300, 7200];
  const age = certain(weightedAge(rows([b, 0], [a, 0], [c, 4])));
  near(age.mean_cal_bp, (a + b + c) / 3, 0.01, 'mean');
  const variance = (a * a + b * b + c * c - a * b - a * c - b * c) / 18;
  // The years of the grid are a year wide each.
  near(age.sd_yr, Math.sqrt(variance + 1 / 6), 0.2, 'sd');
  near(
    age.density.reduce((sum, p) => sum + p, 0),
    1,
    1e-12,
    'sum',
  );
});

test('two rows of one weight are an even age, at whole and at broken years', () => {
  for (const [from, to] of [
    [100, 140],
    [100.3, 139.8],
    [-20.5, 3.25],
  ] as const) {
    const age = certain(weightedAge(rows([from, 7], [to, 7])));
    const even = certain(evenAge((from + to) / 2, (to - from) / 2));
    assert.equal(age.from_cal_bp, even.from_cal_bp);
    assert.equal(age.density.length, even.density.length);
    for (const [i, p] of even.density.entries()) near(age.density[i]!, p, 1e-9, `year ${i}`);
  }
});

test('of any table each year holds the area of its cell, in whatever order and on whatever scale', () => {
  const table = fc.uniqueArray(
    fc.record({
      age_cal_bp: fc.double({ min: -60, max: 400, noNaN: true }),
      weight: fc.double({ min: 0.001, max: 9, noNaN: true }),
    }),
    { minLength: 2, maxLength: 8, selector: (row) => row.age_cal_bp + 0 },
  );
  fc.assert(
    fc.property(table, (of) => {
      const age = certain(weightedAge(of));
      const sorted = [...of].sort((a, b) => a.age_cal_bp - b.age_cal_bp);
      const areaUpTo = (x: number): number =>
        sorted.slice(1).reduce((sum, right, i) => {
          const left = sorted[i]!;
          const end = Math.min(x, right.age_cal_bp);
          if (end <= left.age_cal_bp) return sum;
          const width = right.age_cal_bp - left.age_cal_bp;
          const at = left.weight + ((right.weight - left.weight) * (end - left.age_cal_bp)) / width;
          return sum + ((left.weight + at) / 2) * (end - left.age_cal_bp);
        }, 0);
      const whole = areaUpTo(Infinity);
      for (const [i, p] of age.density.entries()) {
        const year = age.from_cal_bp + i;
        near(p, (areaUpTo(year + 0.5) - areaUpTo(year - 0.5)) / whole, 2e-6, `year ${year}`);
      }
      const other = certain(weightedAge(of.map((row) => ({ ...row, weight: 1e6 * row.weight })).reverse()));
      near(other.mean_cal_bp, age.mean_cal_bp, 1e-6, 'mean on another scale');
    }),
    { seed: 20261130, numRuns: 200 },
  );
});

test('tables that are no density are refused with a reason', () => {
  for (const of of [
    rows(),
    rows([100, 1]),
    rows([100, 1], [100, 2]),
    rows([100, -1], [200, 1]),
    rows([100, 0], [200, 0]),
    rows([Number.NaN, 1], [200, 1]),
    rows([0, 1], [2e6, 1]),
  ])
    assert.equal(weightedAge(of).kind, 'not_a_number', JSON.stringify(of));
});

test('a normal likelihood is the normal age, and no age lies in the future of its measurement', () => {
  const law = (mean: number, sd: number) => (age: number) => Math.exp(-0.5 * ((age - mean) / sd) ** 2);
  const age = certain(ageLikelihood(law(5000, 120), 4280, 5720, 2010));
  const normal = certain(normalAge(4940, 120));
  near(age.median_cal_bp, 4940, 0.01, 'median');
  near(age.sd_yr, 120, 0.05, 'sd');
  for (const [i, p] of age.density.entries()) {
    const year = age.from_cal_bp + i - normal.from_cal_bp;
    near(p, normal.density[year] ?? 0, 1e-7, `year ${i}`);
  }
  const young = certain(ageLikelihood(law(10, 40), -230, 250, 2010));
  assert.ok(young.from_cal_bp >= -61, `begins at ${young.from_cal_bp} cal BP`);
  assert.equal(ageLikelihood(law(10, 40), 300, 200, null).kind, 'not_a_number');
  assert.equal(ageLikelihood(() => 0, 0, 200, null).kind, 'not_a_number');
});

/** Ages that share a part of their error: one unknown for all of them, entering once. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { exp, log, type Summary, square } from '@stillstand/science/base';
import type { AgeConstraint } from '@stillstand/science/clocks';
import { logAgeDensity, logAgeGiven } from '@stillstand/science/clocks';
import { computeCurve } from './compute-curve.ts';
import { agePrior } from './problem/age-prior.ts';
import type { CurvePoint } from './problem/model.ts';
import { unusablePoints } from './problem/problem.ts';
import { DEFAULT_CURVE_SETTINGS } from './problem/settings.ts';
import type { CurveSettings } from './result/result.ts';

const settings: CurveSettings = {
  ...DEFAULT_CURVE_SETTINGS,
  ages_cal_bp: [0, 2000, 4000, 6000],
  intervals: [{ older_cal_bp: 6000, younger_cal_bp: 2000 }],
  seed: 17,
};

const point = (id: string, age: AgeConstraint, height_m: number, sigma_m = 0.05): CurvePoint => ({
  id,
  kind: 'index',
  height_m,
  sigma_m,
  half_range_m: 0,
  lowering_m: 0,
  shared: [],
  age,
});

/** Known to 20 yr and 5 cm on a rise of 1 mm/yr. */
const line = [500, 1500, 2500, 3500, 4500, 5500, 6500].map((age, i) =>
  point(`P${i + 1}`, { kind: 'normal', mean_cal_bp: age, sd_yr: 20 }, -0.001 * age),
);

const OWN_YR = 80;
const SHARED_YR = 300;
const TRUE_AGES = [800, 1800, 2800, 3800, 4800, 5800];

/** All of them found 400 yr too old, give or take their own error. */
const found = (i: number): number => TRUE_AGES[i]! + 400 + OWN_YR * [0.4, -1.1, 0.7, 1.2, -0.6, -0.6][i]!;
const doses = TRUE_AGES.map((age, i) =>
  point(
    `L${i}`,
    {
      kind: 'normal',
      mean_cal_bp: found(i),
      sd_yr: Math.hypot(OWN_YR, SHARED_YR),
      systematic: { group: 'lab', sd_yr: SHARED_YR },
    },
    -0.001 * age,
  ),
);

test('the density given the shared error, over all errors, is the density of the whole', () => {
  const prior = agePrior(
    { kind: 'normal', mean_cal_bp: 5000, sd_yr: 500, systematic: { group: 'lab', sd_yr: 400 } },
    settings.age_range_cal_bp,
  )!;
  const whole = (age: number): number => {
    let sum = 0;
    for (let b = -6; b <= 6; b += 0.05) sum += exp(-0.5 * b * b + logAgeGiven(prior, age, b));
    return log(sum);
  };
  for (const age of [4000, 4700, 5600]) {
    const by = whole(age) - whole(5000);
    assert.ok(Math.abs(by - (logAgeDensity(prior, age) - logAgeDensity(prior, 5000))) < 1e-9);
  }
});

test('doses all too old by as much show a shared error as large, as a sum by hand has it', () => {
  const { offsets, diagnostics } = computeCurve([...line, ...doses], { ...settings, outliers: null });
  assert.equal(diagnostics.converged, true);
  assert.deepEqual([offsets.length, offsets[0]!.group, offsets[0]!.sigma_yr], [1, 'dose:lab', SHARED_YR]);
  // Each dose shows the error to √(80² + 50²) yr (5 cm are 50 yr on this rise), six of them to 38.5 yr, the prior to 300 yr:
  // 400 yr · 300²/(300² + 38.5²) = 393.5 yr ± 38.2 yr. What is not known of the rise itself adds some 20 yr.
  const { mean, sd } = offsets[0]!.shift_yr;
  assert.ok(Math.abs(mean - 393.5) < 25, `${mean}`);
  assert.ok(sd > 36 && sd < 48, `${sd}`);
});

test('calendar ages with a shared part are radiocarbon ages on a curve that runs with the calendar', () => {
  const calendar = {
    name: 'calendar',
    from_cal_bp: -80,
    c14_age: Float64Array.from({ length: 14_081 }, (_, i) => i - 80),
    sigma_yr: new Float64Array(14_081),
  };
  const twins = doses.map((p, i) => ({
    ...p,
    age: {
      kind: 'radiocarbon' as const,
      c14_age: found(i),
      error_yr: OWN_YR,
      curve: calendar,
      offset_yr: 0,
      offset_sd_yr: SHARED_YR,
      delta_r_group: 'lab',
    },
  }));
  const few = line.filter((_, i) => i % 3 === 0);
  const ranged = { ...settings, age_range_cal_bp: { youngest: -80, oldest: 14_000 } };
  const a = computeCurve([...few, ...doses], ranged);
  const b = computeCurve([...few, ...twins], ranged);
  assert.ok(a.diagnostics.converged && b.diagnostics.converged);
  // Five Monte-Carlo errors; widths of 68 %, since an outlier's tail leaves an sd to a few draws.
  const near = (x: Summary, y: Summary, what: string): void => {
    const off = Math.abs(x.mean - y.mean) / Math.hypot(x.mcse, y.mcse);
    const [wide, other] = [x.upper68 - x.lower68, y.upper68 - y.lower68];
    assert.ok(
      off < 5 && Math.abs(wide / other - 1) < 0.15,
      `${what}: ${x.mean}, ${y.mean}; ${wide}, ${other}`,
    );
  };
  near(a.offsets[0]!.shift_yr, b.offsets[0]!.shift_yr, 'shared error');
  near(a.intervals[0]!.rate_mm_yr, b.intervals[0]!.rate_mm_yr, 'rate');
  for (const [i, p] of a.points.entries()) {
    near(p.age_cal_bp, b.points[i]!.age_cal_bp, `age of ${p.id}`);
    const twin = b.points[i]!;
    assert.ok(Math.abs(p.predictive_p! - twin.predictive_p!) < 0.06, `${p.id} among the others`);
    // Five Monte-Carlo errors, and a twentieth for the sums over the age.
    const allowed = 5 * Math.hypot(p.score_mcse!, twin.score_mcse!) + 0.05;
    assert.ok(Math.abs(p.score! - twin.score!) < allowed, `score of ${p.id}: ${p.score}, ${twin.score}`);
  }
});

test('a shared part above the whole sigma is named; none at all is an ordinary age', () => {
  const of = (sd_yr: number): CurvePoint =>
    point('L', { kind: 'normal', mean_cal_bp: 3000, sd_yr: 100, systematic: { group: 'lab', sd_yr } }, -3);
  const [refused] = unusablePoints([of(120)], settings);
  assert.match(`${refused!.found}; ${refused!.expected}`, /120 of it shared by lab; a shared part from 0/);
  assert.deepEqual(unusablePoints([of(100), of(0)], settings), []);
  const plain = { ...of(0), age: { kind: 'normal' as const, mean_cal_bp: 3000, sd_yr: 100 } };
  const level = (p: CurvePoint): number => computeCurve([...line, p], settings).level_m.mean[2]!;
  assert.equal(level(of(0)), level(plain));
  assert.ok(square(level(of(100)) - level(plain)) < 0.01);
});

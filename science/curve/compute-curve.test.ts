/** The smooth curve as a whole: what must hold whatever the points. Outside truth is in checks/curve. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { inProcess } from '@stillstand/science/base';
import { computeCurve } from './compute-curve.ts';
import type { CurvePoint } from './problem/model.ts';
import { unusablePoints } from './problem/problem.ts';
import { DEFAULT_CURVE_SETTINGS } from './problem/settings.ts';
import { intervalRate, pointInfluence } from './result/interval-rate.ts';
import type { CurveSettings } from './result/result.ts';
import { curveSensitivity, meanRates } from './result/sensitivity.ts';

const settings: CurveSettings = {
  ...DEFAULT_CURVE_SETTINGS,
  ages_cal_bp: [0, 2000, 4000, 6000],
  intervals: [{ older_cal_bp: 6000, younger_cal_bp: 2000 }],
  seed: 3,
};

/** A curve of yearly radiocarbon ages that run with the calendar, up to 9000. */
const straight = {
  name: 'straight',
  from_cal_bp: 0,
  c14_age: Float64Array.from({ length: 9001 }, (_, i) => 0.9 * i + 100),
  sigma_yr: new Float64Array(9001).fill(15),
};

function point(id: string, age: CurvePoint['age'], height_m: number): CurvePoint {
  return { id, kind: 'index', height_m, sigma_m: 0.2, half_range_m: 0, lowering_m: 0, shared: [], age };
}

const line = [500, 1500, 2500, 3500, 4500, 5500, 6500].map((age, i) =>
  point(`P${i + 1}`, { kind: 'normal', mean_cal_bp: age, sd_yr: 60 }, -0.001 * age),
);

test('the same seed gives the same numbers, another seed others within their errors', () => {
  const a = computeCurve(line, settings);
  const b = computeCurve(line, settings);
  assert.deepEqual(a, b);
  const c = computeCurve(line, { ...settings, seed: 4 });
  const [x, y] = [a.intervals[0]!.rate_mm_yr, c.intervals[0]!.rate_mm_yr];
  assert.notEqual(x.mean, y.mean);
  assert.ok(Math.abs(x.mean - y.mean) < 5 * Math.hypot(x.mcse, y.mcse));
  assert.ok(Math.abs(x.mean - 1) < 2 * x.sd, 'a rise of 1 mm/yr comes back');
});

test('without points the prior comes back', () => {
  const result = computeCurve([], { ...settings, priors: { ...settings.priors, rate_mean_mm_yr: 2 } });
  assert.equal(result.diagnostics.converged, true);
  // Means within 5 Monte-Carlo errors; E σ = 5·√(2/π), median ℓ = 2.
  assert.ok(Math.abs(result.rate_sd_mm_yr.mean - 5 * Math.sqrt(2 / Math.PI)) < 5 * result.rate_sd_mm_yr.mcse);
  assert.ok(Math.abs(result.length_ka!.median - 2) < 5 * result.length_ka!.mcse);
  assert.ok(Math.abs(result.level_m.mean[0]!) < 0.6);
  assert.ok(Math.abs(result.level_m.sd[0]! - 5) < 0.4);
  assert.ok(Math.abs(result.rate_mm_yr.mean[2]! - 2) < 0.5);
});

test('the tie holds the level at the mid-year of the epoch', () => {
  const tied = computeCurve(line.slice(2), {
    ...settings,
    ages_cal_bp: [-42, 0],
    tie: { year_ce: 1992, sd_m: 0.03 },
  });
  assert.ok(Math.abs(tied.level_m.mean[0]!) < 0.01);
  assert.ok(Math.abs(tied.level_m.sd[0]! - 0.03) < 0.003);
});

test('a known year and a doubled point move nothing they should not', () => {
  const known = point('gauge', { kind: 'normal', mean_cal_bp: -20, sd_yr: 0 }, 0);
  const result = computeCurve([...line, known, { ...known, id: 'twin' }], settings);
  const age = result.points.at(-1)!.age_cal_bp;
  assert.equal(age.mean, -20);
  assert.equal(age.sd, 0);
  assert.equal(result.diagnostics.converged, true);
});

test('points that cannot be used are named, and the rest is the curve without them', () => {
  const radiocarbon = (c14_age: number): CurvePoint['age'] => ({
    kind: 'radiocarbon',
    c14_age,
    error_yr: 30,
    curve: straight,
    offset_yr: 0,
    offset_sd_yr: 0,
    delta_r_group: null,
  });
  const bad = [
    point('too old', radiocarbon(20_000), -3),
    point('no height', radiocarbon(2000), NaN),
    { ...point('no sigma', radiocarbon(2000), -1), sigma_m: 0 },
    point('no mass', { kind: 'density', from_cal_bp: 0, density: new Float64Array(9) }, -1),
    point('age NaN', { kind: 'normal', mean_cal_bp: NaN, sd_yr: 10 }, -1),
  ];
  const refused = unusablePoints([...line, ...bad], settings);
  assert.deepEqual(
    refused.map((r) => r.id),
    bad.map((p) => p.id),
  );
  const result = computeCurve([...bad, ...line], settings);
  assert.deepEqual(result.points, computeCurve(line, settings).points);
  assert.match(
    result.diagnostics.remarks[0]!,
    /^too old was left out: radiocarbon age 20000 ± 30 on straight/,
  );
  assert.equal(result.diagnostics.converged, true);
});

test('a limit bounds one side only', () => {
  const at = (kind: CurvePoint['kind'], height_m: number): number => {
    const limit = { ...point('L', { kind: 'normal', mean_cal_bp: 4000, sd_yr: 30 }, height_m), kind };
    return computeCurve([...line.slice(0, 2), limit], settings).level_m.mean[2]!;
  };
  const free = at('terrestrial', 100);
  assert.ok(at('terrestrial', -8) < -8 && at('marine', 0) > 0);
  assert.ok(Math.abs(at('marine', -100) - free) < 1, 'a limit far away says nothing');
});

test('halved and doubled priors by weights and by computing again agree within their errors (seeds 3 and 8)', (t) => {
  const [weighted] = computeCurve(line, settings).intervals;
  const { priors } = settings;
  for (const [factor, rate] of [
    [0.5, weighted!.prior_halved_mm_yr],
    [2, weighted!.prior_doubled_mm_yr],
  ] as const) {
    const rate_sd_scale_mm_yr = factor * priors.rate_sd_scale_mm_yr;
    const other = { ...settings, priors: { ...priors, rate_sd_scale_mm_yr }, seed: 8 };
    const computed = computeCurve(line, other).intervals[0]!.rate_mm_yr;
    const off = Math.abs(rate! - computed.mean) / computed.mcse;
    t.diagnostic(`${factor} times the prior: ${off.toFixed(1)} Monte-Carlo errors apart`);
    // The weighted mean has the larger error: its draws are worth 0.3 of their number or more, so that the two are apart by
    // √(1 + 1/0.3) = 2.1 errors, 1 sigma. Six are 2.9 sigma.
    assert.ok(off < 6, `${factor}: ${rate}, ${computed.mean}`);
    const [roughly] = meanRates(line, other);
    assert.ok(Math.abs(roughly! - computed.mean) < 0.4 * computed.sd, `${factor}: ${roughly}`);
  }
});

test('where the draws do not carry to another prior, it is computed; intercalated points are left out', () => {
  // A prior far too narrow: doubling it changes everything.
  // Without outliers: under it every height would be one.
  const narrow = { ...settings, outliers: null, priors: { ...settings.priors, rate_sd_scale_mm_yr: 0.05 } };
  const result = computeCurve(line, narrow);
  assert.equal(result.intervals[0]!.prior_doubled_mm_yr, null);
  const [filled] = inProcess(curveSensitivity(line, narrow, result, new Set(['P6', 'P7']))).intervals;
  assert.notEqual(filled!.prior_doubled_mm_yr, null);
  const without = computeCurve(line.slice(0, 5), narrow).intervals[0]!.rate_mm_yr;
  assert.ok(Math.abs(filled!.without_intercalated_mm_yr! - without.mean) < 0.4 * without.sd);
  const all = new Set(line.map((p) => p.id));
  const none = inProcess(curveSensitivity(line, settings, result, all)).intervals[0]!;
  assert.equal(none.without_intercalated_mm_yr, null);
});

test('a height that its neighbours in time contradict has an improbable place among them', () => {
  const at = (id: string, kind: CurvePoint['kind'], height_m: number): CurvePoint => {
    return { ...point(id, { kind: 'normal', mean_cal_bp: 3000, sd_yr: 5 }, height_m), kind };
  };
  const twins = [at('A', 'index', -3), at('B', 'index', -3.1)];
  const odd = (kind: CurvePoint['kind'], height_m: number): number =>
    computeCurve([...line, ...twins, at('odd', kind, height_m)], settings).points.at(-1)!.predictive_p!;
  assert.ok(Math.abs(odd('index', -3) - 0.5) < 0.2);
  assert.ok(odd('index', -1.5) > 0.975 && odd('index', -4.5) < 0.025);
  assert.ok(odd('terrestrial', -4) < 0.025 && odd('marine', -2) < 0.025);
  assert.ok(odd('terrestrial', -2) > 0.9 && odd('marine', -4) > 0.9);
});

test('shells all too old by the same amount tell of a reservoir offset as large', () => {
  const shells = [500, 1500, 2500, 3500, 4500, 5500, 6500].map((age, i) =>
    point(
      `S${i}`,
      {
        kind: 'radiocarbon',
        c14_age: 0.9 * age + 100 + 150,
        error_yr: 20,
        curve: straight,
        offset_yr: 0,
        offset_sd_yr: 100,
        delta_r_group: 'shells',
      },
      -0.001 * age,
    ),
  );
  // Heights to 5 cm are ages to 50 years on this rise.
  const exact = [...line, ...shells].map((p) => ({ ...p, sigma_m: 0.05 }));
  const { offsets, diagnostics } = computeCurve(exact, settings);
  assert.equal(diagnostics.converged, true);
  assert.deepEqual([offsets.length, offsets[0]!.group, offsets[0]!.sigma_yr], [1, 'shells', 100]);
  const { mean, sd } = offsets[0]!.shift_yr;
  assert.ok(Math.abs(mean - 150) < 2 * sd && sd < 40, `${mean} ± ${sd}`);
});

test('influence ranks the points at the ends of the headline interval over those beside it', () => {
  const result = computeCurve(line, settings);
  const influence = new Map(result.points.map((p) => [p.id, p.influence]));
  assert.ok(influence.get('P6')! > influence.get('P4')!);
});

test('the rate over an interval chosen afterwards is the one that was asked for before', () => {
  const result = computeCurve(line, settings);
  const chosen = intervalRate(result, 6000, 2000)!;
  const asked = result.intervals[0]!.rate_mm_yr;
  for (const name of ['mean', 'sd', 'median', 'lower95', 'upper95', 'rhat', 'ess_bulk'] as const) {
    assert.ok(Math.abs(chosen.rate_mm_yr[name] / asked[name] - 1) < 1e-9, name);
  }
  assert.equal(chosen.converged, true);
  const { prior_halved_mm_yr } = result.intervals[0]!;
  assert.ok(Math.abs(chosen.prior_halved_mm_yr! / prior_halved_mm_yr! - 1) < 1e-9);
  const byInfluence = [...result.points].sort((a, b) => b.influence - a.influence).map((p) => p.id);
  assert.deepEqual(
    pointInfluence(result, chosen)
      .slice(0, 2)
      .map((p) => p.id),
    byInfluence.slice(0, 2),
  );
  assert.equal(intervalRate(result, 2000, 6000), null);
  assert.equal(intervalRate(result, 6000, 1), null);
});

test('what leaving a point out does to the rate is foretold, by computing without it (seed 3)', (t) => {
  const sound: CurveSettings = { ...settings, outliers: null, draws: 4000 };
  // The same error as a normal, and as an even range with little else: power scaling sees nothing of the latter.
  const even = line.map((p) => ({ ...p, sigma_m: 0.06, half_range_m: 0.33 }));
  const usual: CurveSettings = { ...settings, draws: 4000 };
  for (const [points, asked] of [
    [line, sound],
    [even, sound],
    [line, usual],
  ] as const) {
    const of = (some: readonly CurvePoint[]): number =>
      intervalRate(computeCurve(some, asked), 6000, 2000)!.rate_mm_yr.sd;
    const curve = computeCurve(points, asked);
    const whole = intervalRate(curve, 6000, 2000)!;
    const deciding = pointInfluence(curve, whole);
    const found = points.map(({ id }) => ({
      id,
      grown: of(points.filter((p) => p.id !== id)) / whole.rate_mm_yr.sd - 1,
      foretold: deciding.find((p) => p.id === id)!.growth,
    }));
    const said = found.map((p) => `${p.id} ${p.grown.toFixed(2)}, foretold ${p.foretold.toFixed(2)}`);
    t.diagnostic(`sd of the rate grows without it by ${said.join('; ')}`);
    // Foretold as if all were normal and the rate's own sd and length stayed: to first order where they are normal, within
    // a factor of 2 where they are even, or may be outliers. 0.03 and 0.05 allow for the noise of the draws.
    for (const { id, grown, foretold } of found) {
      const fine =
        points === line && asked === sound
          ? Math.abs(grown - foretold) < 0.03 + 0.4 * grown
          : foretold > grown / 2 - 0.05 && foretold < 2 * grown + 0.05;
      assert.ok(fine, `${id}: ${grown}, foretold ${foretold}`);
    }
    const best = (by: 'grown' | 'foretold') => found.reduce((a, b) => (b[by] > a[by] ? b : a)).id;
    assert.equal(best('foretold'), best('grown'));
  }
});

test('progress counts up to what was planned', () => {
  const heard: [number, number][] = [];
  computeCurve(line, settings, (done, of) => heard.push([done, of]));
  assert.ok(heard.every(([done, of], k) => done <= of && (k === 0 || done > heard[k - 1]![0])));
  const [done, of] = heard.at(-1)!;
  assert.equal(done, of);
});

test('settings that are none are an error of the program', () => {
  assert.throws(() => computeCurve(line, { ...settings, chains: 0 }), RangeError);
  const intervals = [{ older_cal_bp: 1, younger_cal_bp: 2 }];
  assert.throws(() => computeCurve(line, { ...settings, intervals }), /expected older > younger/);
});

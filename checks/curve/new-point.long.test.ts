/**
 * What one more point is said to do to a rate, against doing it: points drawn from the curve's own draws, put in, and the
 * curve computed again. Seeds 51 (the coast) and 52 (the points).
 */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { mean, randomStream } from '@stillstand/science/base';
import {
  type CurvePoint,
  computeCurve,
  DEFAULT_CURVE_SETTINGS,
  intervalRate,
  rateWithLayer,
  rateWithPointAt,
} from '@stillstand/science/curve';

const AGES = Array.from({ length: 41 }, (_, i) => 200 * i);
const settings = { ...DEFAULT_CURVE_SETTINGS, ages_cal_bp: AGES, chains: 2, draws: 1500, seed: 51 };
const [OLDER, YOUNGER] = [6000, 4000];
const NEW = { height_sigma_m: 0.15, age_sd_yr: 60 };

const index = (id: string, age: number, height_m: number, sigma_m: number, sd_yr: number): CurvePoint => ({
  id,
  kind: 'index',
  height_m,
  sigma_m,
  half_range_m: 0,
  lowering_m: 0,
  shared: [],
  age: { kind: 'normal', mean_cal_bp: age, sd_yr },
});

/** A rise that dies away, m. */
const level = (age: number): number => -0.0003 * age - 10.4 * (Math.exp(-(8000 - age) / 1600) - Math.exp(-5));

function coast(): CurvePoint[] {
  const stream = randomStream(51).split('coast');
  // nobody has drilled the years between 5,600 and 3,400
  return [400, 1200, 2100, 3000, 3400, 5600, 6100, 6900, 7400].map((age, i) =>
    index(`P${i}`, age + 40 * stream.normal(), level(age) + 0.2 * stream.normal(), 0.2, 40),
  );
}

/** What the posterior variance of the rate is, over that without, on average over points one may come to find. */
function varianceDone(points: readonly CurvePoint[], age: number, tries: number, label: string): number {
  const before = computeCurve(points, settings);
  const rate = intervalRate(before, OLDER, YOUNGER)!;
  const at = AGES.indexOf(age);
  const stream = randomStream(52).split(label);
  const after = Array.from({ length: tries }, () => {
    const d = stream.integer(rate.draws.length);
    const height = before.draws.level_m[d * AGES.length + at]! + NEW.height_sigma_m * stream.normal();
    const dated = age + NEW.age_sd_yr * stream.normal();
    const more = [...points, index('new', dated, height, NEW.height_sigma_m, NEW.age_sd_yr)];
    return intervalRate(computeCurve(more, settings), OLDER, YOUNGER)!.rate_mm_yr.sd ** 2;
  });
  return mean(after) / rate.rate_mm_yr.sd ** 2;
}

test('the sd said to be left is the sd left when such points are put in and the curve computed again (seeds 51 and 52)', (t) => {
  const points = coast();
  const curve = computeCurve(points, settings);
  const rate = intervalRate(curve, OLDER, YOUNGER)!;
  const said = rateWithPointAt(curve, rate, NEW);
  const table = [1000, 4000, 4600, 6000, 7600].map((age) => {
    const left = said[AGES.indexOf(age)]!.left;
    return { age, said: left, done: Math.sqrt(varianceDone(points, age, 12, `at ${age}`)) };
  });
  for (const row of table)
    t.diagnostic(`${row.age} cal BP: said ${row.said.toFixed(3)}, done ${row.done.toFixed(3)}`);
  for (const { age, said: left, done } of table) {
    // Twelve points and the draws' own error: a few per cent; a straight rule never promises too much. Measured on one coast.
    assert.ok(done < left + 0.05 && done > left - 0.06, `${age}: said ${left}, done ${done}`);
  }
  const best = said.reduce((a, b) => (b.left < a.left ? b : a)).age_cal_bp.mean;
  assert.ok(best >= 3400 && best <= 6400, `best at ${best}: at an end of the interval, where points are few`);
});

test('a layer not yet dated: its ages are where the curve passes its height, and what it would tell lies between (seed 51)', (t) => {
  const curve = computeCurve(coast(), settings);
  const rate = intervalRate(curve, OLDER, YOUNGER)!;
  const steep = rateWithLayer(curve, rate, level(6600), NEW)!;
  t.diagnostic(`a layer of 6600 cal BP is given ${steep.age_cal_bp.mean} ± ${steep.age_cal_bp.sd}`);
  assert.ok(
    Math.abs(steep.age_cal_bp.mean - 6600) < 2 * steep.age_cal_bp.sd + 50,
    `${steep.age_cal_bp.mean}`,
  );
  const at = rateWithPointAt(curve, rate, NEW).map((r) => r.left);
  assert.ok(steep.left >= Math.min(...at) && steep.left <= Math.max(...at));
  assert.equal(rateWithLayer(curve, rate, 40, NEW), null, 'far above any sea');
  const worse = rateWithLayer(curve, rate, level(6600), { height_sigma_m: 2, age_sd_yr: 400 })!;
  assert.ok(worse.left > steep.left, 'a worse height and date tell less');
});

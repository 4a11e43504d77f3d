/** Results of the bomb years against published ranges, a plain twin, and simulated samples of known age. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { bombRows, loadCurve } from '@stillstand/published/curves';
import { randomStream } from '@stillstand/science/base';
import {
  ageFromF14C,
  type Calibration,
  calibrate,
  calibrateMany,
  calibrationSets,
  type YearlyCurve,
} from '@stillstand/science/dating';

function dated(f14c: number, sigma: number, curve: YearlyCurve): Calibration {
  const age = ageFromF14C(f14c, sigma);
  assert.ok(age.kind === 'age');
  const { c14_age, error_yr } = age;
  const answer = calibrate({ c14_age, error_yr, offset_yr: 0, offset_sd_yr: 0 }, curve);
  assert.equal(answer.kind, 'calibrated', JSON.stringify(answer));
  return answer as Calibration;
}

/**
 * Miller C.B. et al. 2022, Commun. Earth Environ. 3:173, doi 10.1038/s43247-022-00501-x; data doi
 * 10.6084/m9.figshare.20137649.v2: F14C ± 1 sigma of the base of nine salt marshes at 35° N and the likelier of the
 * published ranges, decimal years CE. They used a bomb curve of the generation before, its zone not stated.
 */
const PUBLISHED: readonly (readonly [string, number, number, number, number, number])[] = [
  ['JB_8', 1.457, 0.0031, 1972.21, 1973.87, 0.731],
  ['LB_9', 1.0697, 0.0023, 2002.94, 2006.9, 0.9],
  ['NB_1', 1.0694, 0.0021, 2002.97, 2006.9, 0.898],
  ['NB_9', 1.3672, 0.0038, 1974.69, 1976.73, 0.866],
  ['NB_3b', 1.271, 0.0026, 1979.89, 1981.98, 0.885],
  ['NPR_D_8', 1.0819, 0.0022, 2001.05, 2004.22, 0.936],
  ['NPR_D_14', 1.4848, 0.0089, 1970.57, 1972.98, 0.835],
  ['NPR_D_16', 1.6248, 0.0037, 1966.7, 1968.07, 0.902],
  ['SRE_D_1', 1.6556, 0.0034, 1965.68, 1967.63, 0.965],
];
/** The curve was revised since, and ours gives whole calendar years. */
const BOMB_YEARS = 1.5;

test('published ranges of the bomb years come back to a year and a half, on another generation of the curve', async () => {
  const curve = await loadCurve('bomb21_nh2');
  for (const [core, f14c, sigma, from, to] of PUBLISHED) {
    const likeliest = calibrationSets(dated(f14c, sigma, curve), 0.954).sort(
      (a, b) => b.probability - a.probability,
    )[0]!;
    const [first, end] = [1950 - likeliest.older_cal_bp, 1951 - likeliest.younger_cal_bp];
    assert.ok(
      first > from - BOMB_YEARS && end < to + BOMB_YEARS,
      `${core}: ${first}–${end}, not ${from}–${to}`,
    );
    assert.ok(end > from && first < to, `${core}: ${first}–${end} does not meet ${from}–${to}`);
    assert.ok(likeliest.probability > 0.5, `${core}: ${likeliest.probability}`);
  }
});

test('month by month in F14C: a plain twin over months and years gives the same density', async () => {
  const curve = await loadCurve('bomb21_sh3');
  const months = await bombRows('bomb21_sh3');
  for (const [f14c, sigma] of [
    [1.3, 0.004],
    [0.985, 0.002],
    [1.02, 0.003],
    [0.7, 0.003],
  ] as const) {
    const kernel = (mu: number, s: number): number =>
      Math.exp((-0.5 * (f14c - mu) ** 2) / (sigma ** 2 + s ** 2)) / Math.hypot(sigma, s);
    const weight = new Map<number, number>();
    for (const [m, year] of months.year_ce.entries()) {
      if (year < 1942) continue;
      const bp = 1950 - Math.floor(year);
      weight.set(bp, (weight.get(bp) ?? 0) + kernel(months.f14c[m]!, months.f14c_sigma[m]!) / 12);
    }
    for (let bp = 9; bp <= 20_000; bp++) {
      const mu = Math.exp(-curve.c14_age[bp]! / 8033);
      weight.set(bp, kernel(mu, (mu * curve.sigma_yr[bp]!) / 8033));
    }
    const total = [...weight.values()].reduce((a, b) => a + b, 0);
    const { density, from_cal_bp } = dated(f14c, sigma, curve);
    for (const [bp, w] of weight) {
      assert.ok(Math.abs((density[bp - from_cal_bp] ?? 0) - w / total) < 1e-6, `${f14c}: ${bp} cal BP`);
    }
  }
});

test('where the air changed slowly F14C and age agree: the same date with and without the bomb years', async () => {
  const [plain, bomb] = [await loadCurve('intcal20'), await loadCurve('bomb21_nh1')];
  const age = { c14_age: 2000, error_yr: 30, offset_yr: 0, offset_sd_yr: 0 };
  const [a, b] = [calibrate(age, plain) as Calibration, calibrate(age, bomb) as Calibration];
  assert.ok(Math.abs(a.median_cal_bp - b.median_cal_bp) < 0.5 && Math.abs(a.sd_yr - b.sd_yr) < 0.5);
  assert.deepEqual(
    calibrateMany([age], bomb, 0.954).median_cal_bp,
    Float64Array.of(b.median_cal_bp),
    'many at once take the same way',
  );
});

test('2,000 simulated samples of 1958 to 2010: sets hold the year they grew as often as they say (seed 31)', async (t) => {
  const curve = await loadCurve('bomb21_nh1');
  const { year_ce, f14c, f14c_sigma } = curve.months!;
  const stream = randomStream(31);
  const [first, end] = [year_ce.findIndex((y) => y >= 1958), year_ce.findIndex((y) => y >= 2010)];
  const covered = { 0.683: 0, 0.954: 0 };
  const n = 2000;
  for (let i = 0; i < n; i++) {
    const m = first + stream.integer(end - first);
    const measured = f14c[m]! + Math.hypot(0.003, f14c_sigma[m]!) * stream.normal();
    const bp = 1950 - Math.floor(year_ce[m]!);
    const date = dated(measured, 0.003, curve);
    for (const mass of [0.683, 0.954] as const) {
      const isIn = calibrationSets(date, mass).some((s) => bp <= s.older_cal_bp && bp >= s.younger_cal_bp);
      if (isIn) covered[mass] += 1;
    }
  }
  // whole years hold more than asked, and less only by chance; four sd of a binomial of 2,000: 0.042 and 0.019
  for (const mass of [0.683, 0.954] as const) {
    const share = covered[mass] / n;
    t.diagnostic(`${share} in sets of ${mass}`);
    assert.ok(share > mass - 4 * Math.sqrt((mass * (1 - mass)) / n), `${mass}: ${share}`);
  }
});

test('younger than the last month, or never in the air, is said', async () => {
  const curve = await loadCurve('bomb21_nh2');
  const at = (f14c: number): ReturnType<typeof calibrate> => {
    const age = ageFromF14C(f14c, 0.003);
    assert.ok(age.kind === 'age');
    return calibrate({ c14_age: age.c14_age, error_yr: age.error_yr, offset_yr: 0, offset_sd_yr: 0 }, curve);
  };
  const never = at(2.4);
  assert.ok(never.kind === 'beyond_curve' && /F14C 2\.4000 .* ever had/.test(never.reason));
  const recent = at(1.008);
  assert.ok(recent.kind === 'beyond_curve' && /after 2019\.4 CE/.test(recent.reason), JSON.stringify(recent));
  const perhaps = at(1.02);
  assert.ok(perhaps.kind === 'calibrated' && perhaps.truncated > 0.001, JSON.stringify(perhaps));
});

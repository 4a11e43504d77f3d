/** The analysis finds constants that are known, and its error bars hold. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { randomStream } from '@stillstand/science/base';
import {
  analyse,
  compareSimultaneously,
  highAndLowWaters,
  meanLevels,
  predict,
  resolvableConstituents,
  tabulatedExtremes,
  tideCurve,
} from '@stillstand/science/tide';
import { STATIONS } from './stations.ts';

const HOUR_MS = 3_600_000;
const hourly = (from_ms: number, days: number): Float64Array =>
  Float64Array.from({ length: days * 24 + 1 }, (_, i) => from_ms + i * HOUR_MS);
const turned = (a: number, b: number): number => ((((a - b) % 360) + 540) % 360) - 180;

/** Constants of an exact series: what the day-wise node corrections leave. */
const AMPLITUDE_M = 1e-4;
/** A month short of the true month, and another month of the node, give the same mean datums within this (Swanson 1974, one month, west and east coast 0.13 ft = 0.040 m, 1 sd; from memory). */
const MONTH_SD_M = 0.04;

test('a year of hourly heights without weather gives back every constant of Boston, to 0.1 mm', () => {
  const { tide } = STATIONS[0]!;
  const time_ms = hourly(Date.UTC(2019, 4, 3), 370);
  const found = analyse({ time_ms, height_m: predict({ ...tide, mean_m: 2.66 }, time_ms) })!;
  assert.ok(Math.abs(found.mean_m - 2.66) < AMPLITUDE_M);
  // SA and T2, R2 need a year and a few days; nothing else is left out.
  assert.deepEqual(found.left_out, []);
  for (const truth of tide.constants) {
    const constant = found.constants.find((c) => c.constituent === truth.constituent)!;
    const apart = Math.hypot(
      constant.amplitude_m - truth.amplitude_m,
      (truth.amplitude_m * turned(constant.phase_deg, truth.phase_deg) * Math.PI) / 180,
    );
    assert.ok(apart < AMPLITUDE_M, `${truth.constituent}: ${apart}`);
  }
});

test('a month cannot tell K2 from S2 nor P1 from K1, and says from how long on it could', () => {
  const { chosen, left_out } = resolvableConstituents(30 * 24, 1);
  const names = new Set(chosen.map(({ name }) => name));
  for (const name of ['M2', 'S2', 'N2', 'K1', 'O1']) assert.ok(names.has(name), name);
  const without = new Map(left_out.map((left) => [left.constituent, left]));
  // 182.6 d for both pairs (Pugh 1987, table 4.2; from memory): two turns of the sun a year.
  assert.equal(without.get('K2')!.from, 'S2');
  assert.ok(Math.abs(without.get('K2')!.needs_days - 182.6) < 0.1);
  assert.equal(without.get('P1')!.from, 'K1');
  assert.ok(Math.abs(without.get('P1')!.needs_days - 182.6) < 0.1);
  assert.equal(without.get('SA')!.from, 'mean');
  // M2 and S2 part in 14.77 d.
  assert.ok(resolvableConstituents(14.8 * 24, 1).chosen.some(({ name }) => name === 'S2'));
  assert.ok(!resolvableConstituents(14.7 * 24, 1).chosen.some(({ name }) => name === 'S2'));
  // Read every 13 hours nothing that turns twice a day is seen.
  assert.ok(!resolvableConstituents(365 * 24, 13).chosen.some(({ name }) => name === 'M2'));
});

for (const memory of [0, 0.9]) {
  test(`error bars of 31 days hold: hourly weather of 0.1 m, memory ${memory} (seed 1)`, (t) => {
    const random = randomStream(1).split(`weather ${memory}`);
    const chosen = new Set(resolvableConstituents(31 * 24, 1).chosen.map(({ name }) => name));
    const constants = STATIONS[1]!.tide.constants.filter(
      (c) => chosen.has(c.constituent) && c.amplitude_m > 0,
    );
    const time_ms = hourly(Date.UTC(2021, 8, 1), 31);
    const clean = predict({ mean_m: 1, constants }, time_ms);
    const fresh = 0.1 * Math.sqrt(1 - memory ** 2);
    let asked = 0;
    let held = 0;
    let meanHeld = 0;
    const RUNS = 150;
    for (let run = 0; run < RUNS; run++) {
      let weather = 0.1 * random.normal();
      const height_m = clean.map((height) => {
        weather = memory * weather + fresh * random.normal();
        return height + weather;
      });
      const found = analyse({ time_ms, height_m })!;
      assert.ok(Math.abs(found.residual_sd_m - 0.1) < 0.05);
      if (Math.abs(found.mean_m - 1) < 2 * found.mean_sigma_m) meanHeld++;
      for (const truth of constants) {
        const constant = found.constants.find((c) => c.constituent === truth.constituent)!;
        // The angle is a normal one only where the amplitude stands clear of the noise.
        if (truth.amplitude_m < 4 * constant.amplitude_sigma_m) continue;
        asked += 2;
        if (Math.abs(constant.amplitude_m - truth.amplitude_m) < 2 * constant.amplitude_sigma_m) held++;
        if (Math.abs(turned(constant.phase_deg, truth.phase_deg)) < 2 * constant.phase_sigma_deg) held++;
      }
    }
    t.diagnostic(
      `2 sigma hold ${(held / asked).toFixed(3)} of ${asked} constants, the mean level in ${(meanHeld / RUNS).toFixed(3)} of ${RUNS}`,
    );
    assert.ok(asked > 500, String(asked));
    // 95.4 % of normal errors; the fitted weather forgets a little faster than the true one. Six binomial sds: 0.03 of
    // 2,000 constants, 0.10 of 150 means.
    assert.ok(held / asked > 0.92 && held / asked < 0.98, `${held / asked} of ${asked}`);
    assert.ok(meanHeld / RUNS > 0.85, `mean level ${meanHeld / RUNS}`);
  });
}

test('a month beside a reference station: the same water gives its accepted levels, another place 19-year levels', () => {
  const { tide } = STATIONS[0]!;
  const levels = (of: typeof tide, from_ms: number, to_ms: number) =>
    meanLevels(tabulatedExtremes(highAndLowWaters(tideCurve(of), from_ms, to_ms)))!;
  const [from_ms, to_ms] = [Date.UTC(1983, 0, 1), Date.UTC(2002, 0, 1)];
  const accepted = levels(tide, from_ms, to_ms);
  // A place up the coast: less range, a later tide, another zero.
  const other = {
    mean_m: 0.4,
    constants: tide.constants.map((c) => ({
      ...c,
      amplitude_m: 0.85 * c.amplitude_m,
      phase_deg: c.phase_deg + 15,
    })),
  };
  const truth = levels(other, from_ms, to_ms);
  for (const [month, year] of [
    [0, 1997],
    [6, 1988],
  ] as const) {
    const [a, b] = [Date.UTC(year, month, 1), Date.UTC(year, month, 30)];
    const there = levels(tide, a, b);
    const here = levels(other, a, b);
    for (const method of ['standard', 'range_ratio'] as const) {
      const itself = compareSimultaneously(there, there, accepted, method);
      const found = compareSimultaneously(here, there, accepted, method);
      for (const level of ['MHHW_m', 'MHW_m', 'MTL_m', 'DTL_m', 'MLW_m', 'MLLW_m'] as const) {
        assert.ok(Math.abs(itself[level] - accepted[level]) < 1e-9, level);
        assert.ok(
          Math.abs(found[level] - truth[level]) < 2 * MONTH_SD_M,
          `${level} ${found[level]} ${truth[level]}`,
        );
      }
    }
    // Without the comparison the month is off by far more: the node alone moves the range by several per cent.
    assert.ok(Math.abs(here.MN_m - truth.MN_m) > 0.03);
  }
});

/** The analysis finds constants that are known, and its error bars hold. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { randomStream } from '@stillstand/science/base';
import {
  type Analysis,
  analyse,
  compareSimultaneously,
  expectedConstituents,
  highAndLowWaters,
  meanLevels,
  predict,
  resolvableConstituents,
  tabulatedExtremes,
  tideCurve,
} from '@stillstand/science/tide';
import { readTable } from '../points/table.ts';
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
  assert.deepEqual(found.unresolved, []);
  assert.deepEqual(found.too_fast, []);
  for (const truth of tide.constants) {
    const constant = found.constants.find((c) => c.constituent === truth.constituent)!;
    const apart = Math.hypot(
      constant.amplitude_m - truth.amplitude_m,
      (truth.amplitude_m * turned(constant.phase_deg, truth.phase_deg) * Math.PI) / 180,
    );
    assert.ok(apart < AMPLITUDE_M, `${truth.constituent}: ${apart}`);
  }
});

test('a month cannot separate K2 from S2 nor P1 from K1, and says from how long on it could', () => {
  const { resolved, unresolved } = resolvableConstituents(30 * 24, 1);
  const names = new Set(resolved.map(({ name }) => name));
  for (const name of ['M2', 'S2', 'N2', 'K1', 'O1', 'Q1']) assert.ok(names.has(name), name);
  const without = new Map(unresolved.map((left) => [left.constituent, left]));
  // 182.6 d for both pairs (Pugh 1987, table 4.2; from memory): two turns of the sun a year.
  assert.equal(without.get('K2')!.from, 'S2');
  assert.ok(Math.abs(without.get('K2')!.needs_days - 182.6) < 0.1);
  assert.equal(without.get('P1')!.from, 'K1');
  assert.ok(Math.abs(without.get('P1')!.needs_days - 182.6) < 0.1);
  assert.equal(without.get('SA')!.from, 'mean');
  // The larger of two that cannot be separated is the one that is resolved.
  assert.equal(without.get('RHO')!.from, 'Q1');
  assert.equal(without.get('NU2')!.from, 'N2');
  // M2 and S2 part in 14.77 d.
  assert.ok(resolvableConstituents(14.8 * 24, 1).resolved.some(({ name }) => name === 'S2'));
  assert.ok(!resolvableConstituents(14.7 * 24, 1).resolved.some(({ name }) => name === 'S2'));
  // Read every 13 hours nothing that turns twice a day is seen.
  assert.ok(resolvableConstituents(365 * 24, 13).too_fast.includes('M2'));
});

test('a year is a year: n readings cover n steps, and one step or half a day of it may be missing', () => {
  const ofYear = (readings: number, step_h: number): string[] => {
    const time_ms = Float64Array.from(
      { length: readings },
      (_, i) => Date.UTC(2019, 4, 3) + i * step_h * HOUR_MS,
    );
    const found = analyse({ time_ms, height_m: predict({ ...STATIONS[1]!.tide, mean_m: 1 }, time_ms) })!;
    assert.equal(found.duration_days, (readings * step_h) / 24);
    const settled = found.constants.filter((c) => c.unresolved_from !== null).map((c) => c.constituent);
    const unresolved = found.unresolved.map(({ constituent }) => constituent).sort();
    assert.deepEqual(settled.sort(), unresolved);
    return unresolved;
  };
  // 8,766 hours are 365.25 d, the last reading 365.21 d after the first: a mean year of 365.2422 d all the same. So are
  // a common year and one read every three hours.
  for (const [readings, step_h] of [
    [8766, 1],
    [8765, 1],
    [8760, 1],
    [2922, 3],
    [2920, 3],
  ] as const)
    assert.deepEqual(ofYear(readings, step_h), [], `${readings} every ${step_h} h`);
  // A day less is less; T2 and R2 part from S2 in 365.26 d, S1 from K1 in 365.24 d.
  assert.deepEqual(ofYear(8736, 1), ['R2', 'S1', 'SA', 'T2']);
});

test('what is expected decides where the record cannot: K2 and P1 of a month follow their neighbours (seed 3)', () => {
  const constants = [
    { constituent: 'M2', amplitude_m: 1, phase_deg: 100 },
    { constituent: 'S2', amplitude_m: 0.4, phase_deg: 130 },
    { constituent: 'K2', amplitude_m: 0.4 * 0.272, phase_deg: 130 },
    { constituent: 'T2', amplitude_m: 0.4 * 0.0584, phase_deg: 130 },
    { constituent: 'K1', amplitude_m: 0.3, phase_deg: 200 },
    { constituent: 'P1', amplitude_m: 0.3 * 0.27, phase_deg: 190 },
  ];
  const time_ms = Float64Array.from({ length: 720 }, (_, i) => Date.UTC(2021, 2, 1) + i * HOUR_MS);
  const random = randomStream(3);
  const clean = predict({ mean_m: 0, constants }, time_ms);
  const record = { time_ms, height_m: clean.map((height) => height + 0.05 * random.normal()) };
  const off = (found: Analysis, name: string): number => {
    const c = found.constants.find(({ constituent }) => constituent === name)!;
    const truth = constants.find(({ constituent }) => constituent === name)!;
    const turn = (turned(c.phase_deg, truth.phase_deg) * Math.PI) / 180;
    return Math.hypot(c.amplitude_m - truth.amplitude_m * Math.cos(turn), truth.amplitude_m * Math.sin(turn));
  };
  const plain = analyse(record)!;
  assert.ok(off(plain, 'K2') < 0.02 && off(plain, 'S2') < 0.02);
  // P1 is a fifth smaller than expected and 10° away: within the error bars of both, and known once it is stated.
  assert.ok(off(plain, 'P1') > 0.015);
  const stated = analyse(record, expectedConstituents(constants))!;
  assert.ok(off(stated, 'P1') < off(plain, 'P1') / 2);
  for (const found of [plain, stated])
    for (const name of ['S2', 'K2', 'K1', 'P1']) {
      const c = found.constants.find(({ constituent }) => constituent === name)!;
      assert.ok(off(found, name) < 3 * c.amplitude_sigma_m, name);
    }
});

test('expected ratios are those of the potential that moon and sun make, and none turns the phase', () => {
  const expected = new Map(expectedConstituents().map((of) => [of.constituent.name, of]));
  const rows = readTable(new URL('data/ratios.csv', import.meta.url));
  assert.equal(rows.length, [...expected.values()].filter(({ ratio }) => ratio > 0).length);
  for (const { constituent, neighbour, ratio, phase_difference_deg } of rows) {
    const of = expected.get(constituent!)!;
    assert.equal(of.from, neighbour);
    // R2, the smallest, has tides of the annual cycle of S2 beside it in 18.6 years of a potential; 0.0084 of S2.
    const isMixed = constituent === 'R2';
    assert.ok(Math.abs(of.ratio / Number(ratio) - 1) < (isMixed ? 0.25 : 0.005), constituent);
    assert.ok(Math.abs(Number(phase_difference_deg)) < (isMixed ? 6 : 0.1), constituent);
  }
});

test('half a day, a step of six hours, all heights alike, four readings: what can be said, or nothing', () => {
  const every = (n: number, step_h: number): Float64Array =>
    Float64Array.from({ length: n }, (_, i) => Date.UTC(2024, 5, 1) + i * step_h * HOUR_MS);
  const of = (time_ms: Float64Array) =>
    analyse({ time_ms, height_m: predict({ ...STATIONS[0]!.tide, mean_m: 2 }, time_ms) });
  const half = of(every(25, 0.5))!;
  const M2 = half.constants.find(({ constituent }) => constituent === 'M2')!;
  assert.ok(half.unresolved.some(({ constituent, from }) => constituent === 'S2' && from === 'M2'));
  // Half a day of Boston is not its tide: the bars say so, and hold.
  assert.ok(Math.abs(M2.amplitude_m - 1.371) < 2 * M2.amplitude_sigma_m && M2.amplitude_sigma_m > 0.1);
  assert.deepEqual(of(every(4, 6)), null);
  const sixHourly = of(every(1461, 6))!;
  assert.ok(sixHourly.too_fast.includes('S2') && sixHourly.too_fast.includes('M4'));
  assert.ok(sixHourly.constants.every((c) => Number.isFinite(c.amplitude_sigma_m + c.phase_sigma_deg)));
  const time_ms = every(100, 1);
  assert.equal(analyse({ time_ms, height_m: new Float64Array(100).fill(1.2) }), null);
});

for (const memory of [0, 0.9]) {
  test(`error bars of 31 days hold the truth itself: hourly weather of 0.1 m, memory ${memory} (seed 1)`, (t) => {
    const random = randomStream(1).split(`weather ${memory}`);
    const tide = { ...STATIONS[1]!.tide, mean_m: 1 };
    const time_ms = hourly(Date.UTC(2021, 8, 1), 31);
    const clean = predict(tide, time_ms);
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
      for (const truth of tide.constants) {
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
    // 95.4 % of normal errors. One month of one year: what is expected is off by the same in all runs.
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

/** Levels of a gauge's own readings against accepted datums of two stations, whose tide is predicted hour by hour. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { randomStream } from '@stillstand/science/base';
import { observedLevels, predict, type Tide } from '@stillstand/science/tide';
import { STATIONS } from './stations.ts';

const HOUR_MS = 3_600_000;
const LEVELS = ['MHHW', 'MHW', 'MTL', 'DTL', 'MSL', 'MLW', 'MLLW'] as const;

function recordOf(tide: Tide, from_ms: number, days: number, step_ms = HOUR_MS, noise_m = 0, seed = 1) {
  const random = randomStream(seed);
  const time_ms = Float64Array.from(
    { length: Math.floor((days * 86_400_000) / step_ms) + 1 },
    (_, i) => from_ms + i * step_ms,
  );
  return { time_ms, height_m: predict(tide, time_ms).map((height) => height + noise_m * random.normal()) };
}

for (const { name, tide, published } of STATIONS) {
  test(`${name}: 19 years of hours give the datums of 1983–2001 to 0.04 m`, () => {
    const found = observedLevels(recordOf(tide, Date.UTC(1983, 0, 1), 6940));
    assert.ok(found.ok);
    for (const level of LEVELS) {
      const off = found.levels[level].height_m - (published[level]! - published['MSL']!);
      assert.ok(Math.abs(off) < 0.04, `${level} ${off}`);
      assert.ok(found.levels[level].sigma_m > 0.01 && found.levels[level].sigma_m < 0.03, level);
    }
  });

  test(`${name}: 2 sigma of a month, half a year, a year hold the accepted datums in 0.90 or more of 60 records each`, () => {
    for (const days of [30, 182, 366]) {
      let held = 0;
      for (let k = 0; k < 60; k++) {
        const found = observedLevels(
          recordOf(tide, Date.UTC(1983, 0, 1) + k * 113 * 86_400_000, days, HOUR_MS, 0.03, k),
        );
        assert.ok(found.ok);
        for (const level of LEVELS) {
          const { height_m, sigma_m } = found.levels[level];
          if (Math.abs(height_m - (published[level]! - published['MSL']!)) <= 2 * sigma_m) held++;
        }
      }
      assert.ok(held / (60 * LEVELS.length) >= 0.9, `${days} days: ${held / (60 * LEVELS.length)}`);
    }
  });
}

test('readings each 6 minutes with 0.03 m of chop give the levels of calm hours to 0.01 m', () => {
  const [{ tide }] = STATIONS as [(typeof STATIONS)[number]];
  const calm = observedLevels(recordOf(tide, Date.UTC(2020, 2, 1), 60));
  const choppy = observedLevels(recordOf(tide, Date.UTC(2020, 2, 1), 60, HOUR_MS / 10, 0.03));
  assert.ok(calm.ok && choppy.ok);
  for (const level of LEVELS)
    assert.ok(Math.abs(calm.levels[level].height_m - choppy.levels[level].height_m) < 0.01, level);
});

test('a plain tide of 1 m by hand: MHW +1, MLW −1, the rest 0; a zero lifts all', () => {
  // M2 alone without the node: heights are cosines of 12.42 h.
  const time_ms = Float64Array.from({ length: 24 * 40 }, (_, i) => i * HOUR_MS);
  const height_m = time_ms.map((time) => 3 + Math.cos((2 * Math.PI * time) / (12.4206 * HOUR_MS)));
  const found = observedLevels({ time_ms, height_m });
  assert.ok(found.ok);
  const expected = { MHHW: 4, MHW: 4, MTL: 3, DTL: 3, MSL: 3, MLW: 2, MLLW: 2 };
  for (const level of LEVELS)
    assert.ok(Math.abs(found.levels[level].height_m - expected[level]) < 0.005, level);
});

test('too short, too far apart, or read by day only: no levels, and what is missing', () => {
  const [{ tide }] = STATIONS as [(typeof STATIONS)[number]];
  const week = observedLevels(recordOf(tide, Date.UTC(2020, 0, 1), 7));
  assert.deepEqual(week, { ok: false, readings: 169, days: 7, needs_days: 29 });
  const sparse = observedLevels(recordOf(tide, Date.UTC(2020, 0, 1), 60, 3 * HOUR_MS));
  assert.ok(!sparse.ok && sparse.days === 0);
  const all = recordOf(tide, Date.UTC(2020, 0, 1), 60);
  const isDay = (time: number): boolean => (time / HOUR_MS) % 24 >= 6 && (time / HOUR_MS) % 24 < 18;
  const kept = [...all.time_ms].flatMap((time, i) => (isDay(time) ? [i] : []));
  const byDay = observedLevels({
    time_ms: kept.map((i) => all.time_ms[i]!),
    height_m: kept.map((i) => all.height_m[i]!),
  });
  assert.ok(!byDay.ok && byDay.days === 0);
  assert.ok(!observedLevels({ time_ms: [], height_m: [] }).ok);
});

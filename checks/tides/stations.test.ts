/** Prediction and tide levels against what the US National Ocean Service publishes for two stations (data/README.md). */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import {
  astronomicalExtremes,
  CONSTITUENTS,
  constituentNamed,
  formNumber,
  highAndLowWaters,
  type MeanLevels,
  meanLevels,
  meanLongitudes,
  predictedLevels,
  springsAndNeaps,
  tabulatedExtremes,
  tideCurve,
} from '@stillstand/science/tide';
import { readTable } from '../points/table.ts';
import { STATIONS } from './stations.ts';

/** HAT and LAT are predictions; constants are published to the millimetre, some to none at all. */
const EXTREME_M = 0.02;
/** Mean datums are of observed waters, with the weather in them. */
const DATUM_M = 0.04;
/** Published to the millimetre, each rounded by itself. */
const ROUNDED_M = 0.0011;
/** Lunitidal intervals are of observed waters after the true moon; a mixed tide scatters them by hours. */
const INTERVAL_H = 0.15;
/** Ours are those of Meeus, theirs of 1900: eight times the difference for M8. */
const SPEED_DEG_H = 2e-6;

const EPOCH = 1983;

test('speeds and arguments of all 37 constituents are the published ones', () => {
  const rows = readTable(new URL('data/constituents.csv', import.meta.url));
  assert.deepEqual(
    CONSTITUENTS.map(({ name }) => name),
    rows.map((row) => row['name']),
  );
  for (const row of rows) {
    const { argument, speed_deg_h } = constituentNamed(row['name']!)!;
    assert.deepEqual(
      argument.map(String),
      ['T', 's', 'h', 'p', 'p1'].map((angle) => row[angle]),
    );
    assert.ok(Math.abs(speed_deg_h - Number(row['speed_deg_per_hour'])) < SPEED_DEG_H, row['name']);
  }
  for (const { speeds } of STATIONS) {
    for (const [name, speed] of speeds) {
      // Single precision, as published.
      assert.ok(Math.abs(constituentNamed(name)!.speed_deg_h - speed) < 1e-5, name);
    }
  }
});

for (const { name, tide, published } of STATIONS) {
  const above = (datum: string): number => published[datum]! - published['MSL']!;
  const close = (found: number, datum: string, tolerance: number): void =>
    assert.ok(Math.abs(found - above(datum)) < tolerance, `${datum}: ${found} against ${above(datum)}`);

  test(`${name}: HAT and LAT of 1983–2001`, () => {
    const extremes = astronomicalExtremes(tide, EPOCH)!;
    const { HAT_m, LAT_m, MHW_m, MLLW_m, MSL_m } = predictedLevels(tide, EPOCH)!;
    assert.deepEqual([HAT_m, LAT_m, MSL_m], [extremes.HAT_m, extremes.LAT_m, 0]);
    close(MHW_m, 'MHW', DATUM_M);
    close(MLLW_m, 'MLLW', DATUM_M);
    close(extremes.HAT_m, 'HAT', EXTREME_M);
    close(extremes.LAT_m, 'LAT', EXTREME_M);
  });

  test(`${name}: mean datums, ranges and lunitidal intervals of 1983–2001`, () => {
    const curve = tideCurve(tide);
    assert.deepEqual(curve.unknown, []);
    const waters = tabulatedExtremes(
      highAndLowWaters(curve, Date.UTC(EPOCH, 0, 1), Date.UTC(EPOCH + 19, 0, 1)),
    );
    const levels = meanLevels(waters)!;
    for (const datum of ['MHHW', 'MHW', 'MTL', 'DTL', 'MLW', 'MLLW'] as const) {
      close(levels[`${datum}_m`], datum, DATUM_M);
    }
    for (const range of ['DHQ', 'DLQ'] as const) {
      assert.ok(Math.abs(levels[`${range}_m`] - published[range]!) < DATUM_M, range);
    }
    // Each is a difference of two datums.
    for (const range of ['MN', 'GT'] as const) {
      assert.ok(Math.abs(levels[`${range}_m`] - published[range]!) < 2 * DATUM_M, range);
    }
    // Two highs in a tidal day of 24.84 h, but for the days in which the moon brings one only.
    assert.ok(Math.abs(levels.days - (19 * 365.25 * 24) / 24.8412) < 5);
    assert.ok(Math.abs(intervalAfterMoon(waters, 'high') - published['HWI']!) < INTERVAL_H);
    assert.ok(Math.abs(intervalAfterMoon(waters, 'low') - published['LWI']!) < INTERVAL_H);
  });

  test(`${name}: the published datums close, and so do ours`, () => {
    const closes = (levels: (datum: string) => number): void => {
      const equal = (a: number, b: number): void => assert.ok(Math.abs(a - b) < ROUNDED_M, `${a} ${b}`);
      equal(levels('MTL'), (levels('MHW') + levels('MLW')) / 2);
      equal(levels('DTL'), (levels('MHHW') + levels('MLLW')) / 2);
      equal(levels('MN'), levels('MHW') - levels('MLW'));
      equal(levels('GT'), levels('MHHW') - levels('MLLW'));
      equal(levels('DHQ'), levels('MHHW') - levels('MHW'));
      equal(levels('DLQ'), levels('MLW') - levels('MLLW'));
    };
    closes((datum) => published[datum]!);
    const month = meanLevels(highAndLowWaters(tideCurve(tide), Date.UTC(2020, 0, 1), Date.UTC(2020, 1, 1)))!;
    closes((datum) => month[`${datum}_m` as keyof MeanLevels]);
  });
}

test('Boston: springs and neaps by the convention, and a semidiurnal tide; San Francisco: a mixed one', () => {
  const [boston, golden] = STATIONS;
  // 4.239 and 3.823 m above station zero: mean sea level 2.660 ± (1.371 ± 0.208).
  const { MHWS_m, MHWN_m } = springsAndNeaps({ ...boston!.tide, mean_m: 2.66 });
  assert.ok(Math.abs(MHWS_m - 4.239) < 1e-9);
  assert.ok(Math.abs(MHWN_m - 3.823) < 1e-9);
  assert.ok(Math.abs(formNumber(boston!.tide.constants) - 0.164) < 5e-4);
  const mixed = formNumber(golden!.tide.constants);
  assert.ok(mixed > 0.25 && mixed < 1.5);
});

/** Mean hours from a transit of the mean moon at Greenwich to the waters after it, on a circle of half a lunar day. */
function intervalAfterMoon(waters: ReturnType<typeof highAndLowWaters>, kind: 'high' | 'low'): number {
  const HALF_DAY_H = 12.4206012;
  let east = 0;
  let north = 0;
  for (const water of waters) {
    if (water.kind !== kind) continue;
    const { T_deg, s_deg, h_deg } = meanLongitudes(water.time_ms);
    const angle = (2 * (T_deg + h_deg - s_deg) * Math.PI) / 180;
    east += Math.sin(angle);
    north += Math.cos(angle);
  }
  const turns = Math.atan2(east, north) / (2 * Math.PI);
  return ((turns + 1) % 1) * HALF_DAY_H;
}

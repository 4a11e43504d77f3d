/** Worked examples on the published datums of tide station Boston 8443970 (NOAA CO-OPS, 1983–2001). */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { declaredError, type HeightError, indexPoint, plainPoint } from '@stillstand/science/points';

/** Metres above mean sea level of the station: MHW 1.411, HAT 2.1706. */
const TIDE_LEVELS = [
  { level: 'MHW', elevation_m: 1.411, sigma_m: 0 },
  { level: 'HAT', elevation_m: 2.1706, sigma_m: 0 },
];

/** Printed to four decimals. */
const PRINTED_M = 5e-5;

const twoSigma = (value_m: number, i: number): HeightError =>
  declaredError({
    component: `part ${i}`,
    value_m,
    sigma_level: 2,
    shape: 'normal',
    shared_group: null,
    source: 'worked example',
  });

const highMarsh = (elevation_m: number, parts: number[]) =>
  indexPoint({
    elevation_m,
    lower: { level: 'MHW', offset_m: 0 },
    upper: { level: 'HAT', offset_m: 0 },
    tide_levels: TIDE_LEVELS,
    tide_group: null,
    errors: parts.map(twoSigma),
  });

test('high-marsh peat at −3.20 m: RSL −4.9908 m, 0.4112 m at 2 sigma', () => {
  // Computed outside the product: half thickness 0.02, levelling 0.03, core 0.15, 1 % of 3.2 m.
  const point = highMarsh(-3.2, [0.02, 0.03, 0.15, 0.032]);
  assert.ok(point.ok);
  assert.ok(Math.abs(point.reference_water_level_m - 1.7908) <= PRINTED_M);
  assert.ok(Math.abs(point.indicative_range_m / 2 - 0.3798) <= PRINTED_M);
  assert.ok(Math.abs(point.rsl_m - -4.9908) <= PRINTED_M);
  assert.ok(Math.abs(point.protocol_2sigma_m - 0.4112) <= PRINTED_M);
  // In the curve the range is a uniform, narrower than a normal with the same 2 sigma would have it wide.
  assert.ok(point.sigma_m > point.protocol_2sigma_m / 2);
});

test('high-marsh peat at −4.37 m: RSL −6.161 m, 0.404 m at 2 sigma, 0.137 m without the range', () => {
  // Computed outside the product by a second reader, printed to three decimals, HAT rounded to 2.171.
  const parts = [0.02, 0.01, 0.03, 0.05, 0.05, 0.1, 0.05];
  const point = highMarsh(-4.37, parts);
  assert.ok(point.ok);
  assert.ok(Math.abs(point.rsl_m - -6.161) <= 5e-4);
  assert.ok(Math.abs(point.protocol_2sigma_m - 0.404) <= 5e-4);
  assert.ok(Math.abs(Math.hypot(...parts) - 0.137) <= 5e-4);
});

test('the plain table gives the same first example', () => {
  const point = plainPoint({
    id: 'C4',
    kind: 'index',
    elevation_m: '-3.20',
    reference_water_level_m: '1.7908',
    indicative_range_m: '0.7596',
    error_thickness_m: '0.02',
    error_levelling_m: '0.03',
    error_core_m: '0.15',
    error_lean_m: '0.032',
  });
  assert.ok(point.ok);
  assert.ok(Math.abs(point.rsl_m - -4.9908) <= PRINTED_M);
  assert.ok(Math.abs(point.error_m - 0.4112) <= PRINTED_M);
});

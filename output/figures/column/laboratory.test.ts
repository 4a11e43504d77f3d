/** Lanes of laboratory values: which values a scale covers, what is never drawn as zero, and the order of lanes. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { MeasurementResult } from '@stillstand/campaign/results';
import { estimate, logsOf, results } from '../fixtures/results.ts';
import { lanesOf, notDrawn } from './laboratory.ts';

function value(
  property: string,
  depth: number | null,
  parts: Partial<MeasurementResult> = {},
): MeasurementResult {
  return {
    row_id: `${property} ${depth} ${parts.value} ${parts.qualifier}`,
    property,
    value: null,
    sigma: null,
    unit: '%',
    qualifier: null,
    method: null,
    batch: null,
    sample: null,
    hole: 'H1',
    depth_m: depth === null ? null : estimate(depth, 0.02),
    thickness_m: null,
    elevation_m: null,
    ...parts,
  };
}
const lanes = (measurements: readonly MeasurementResult[]) =>
  lanesOf(results({ logs: logsOf(measurements) }), 'H1').filter((lane) => lane.kind === 'values');

test('one lane a quantity and unit, the one with most values first, from the top down', () => {
  const found = lanes([
    value('sand', 2, { value: 80 }),
    value('LOI', 3, { value: 12 }),
    value('LOI', 1, { value: 10 }),
    value('LOI', 4, { value: 0.1, unit: 'g/g' }),
    value('LOI', 2, { value: 11, hole: 'H2' }),
    value('LOI', null, { value: 11 }),
  ]);
  assert.deepEqual(
    found.map(({ property, unit, values }) => [property, unit, values.map(({ depth_m }) => depth_m)]),
    [
      ['LOI', '%', [1, 3]],
      ['sand', '%', [2]],
      ['LOI', 'g/g', [4]],
    ],
  );
  assert.equal(notDrawn(found.slice(1)), 'Measured and without room here: sand, LOI (measurements.csv).');
  assert.equal(notDrawn([]), '');
});

test('a scale covers its values, begins at 0 where they are not close together, and is cut off for a wide error', () => {
  const scaleOf = (...values: Partial<MeasurementResult>[]) => {
    const [{ low, high, unit }] = lanes(values.map((parts, i) => value('x', i, parts))) as [
      ReturnType<typeof lanes>[number],
    ];
    return { low, high, unit };
  };
  const wide = scaleOf({ value: 5 }, { value: 50, sigma: 400 });
  // By hand: 50 + (50 − 5)/4 = 61.25, and 4 % of that
  assert.deepEqual([wide.low, wide.high.toFixed(2)], [0, (61.25 * 1.04).toFixed(2)]);
  const close = scaleOf({ value: -27.1 }, { value: -25.2 });
  assert.ok(close.low < -27.1 && close.low > -27.3 && close.high > -25.2 && close.high < -25);
  const alike = scaleOf({ value: 7.9 }, { value: 8.1 });
  assert.ok(alike.low > 7.8 && alike.high < 8.2);
  const small = scaleOf({ value: 0.0004 }, { value: 0.0002 });
  assert.deepEqual([small.unit, small.high.toFixed(3)], ['× 0.001 %', (0.4 * 1.04).toFixed(3)]);
  const large = scaleOf({ value: 3_000_000 }, { value: 0 });
  assert.deepEqual([large.unit, large.high.toFixed(0)], ['× 1,000 %', '3120']);
  const zero = scaleOf({ value: 0 }, { value: 0 });
  assert.ok(zero.low === 0 && zero.high > 0);
});

test('a limit keeps its side; what has no number has none, not even where a number was written', () => {
  const [lane] = lanes([
    value('x', 1, { value: 0.5, qualifier: 'less_than' }),
    value('x', 2, { qualifier: 'less_than' }),
    value('x', 3, { value: 9, qualifier: 'not_determined' }),
    value('x', 4, { value: 60, qualifier: 'greater_than' }),
  ]);
  assert.deepEqual(
    lane!.values.map((each) => [each.value, each.limit]),
    [
      [0.5, 'less_than'],
      [null, 'less_than'],
      [null, null],
      [60, 'greater_than'],
    ],
  );
});

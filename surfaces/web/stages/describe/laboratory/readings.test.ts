/** One line reads all lanes: which depths there are, and what is said at each. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Lane } from '@stillstand/output/figures';
import { depthsOf, nearestTo, readingsAt } from './readings.ts';

const value = (depth_m: number, parts: object) => ({
  trace: `measurement:${depth_m}`,
  depth_m,
  lower95_m: depth_m,
  upper95_m: depth_m,
  thickness_m: 0.02,
  value: null,
  two_sigma: null,
  limit: null,
  ...parts,
});
const LANES: Lane[] = [
  {
    kind: 'values',
    property: 'loss on ignition',
    unit: '%',
    low: 0,
    high: 50,
    values: [
      value(0.5, { value: 11.63, two_sigma: 1.2 }),
      value(1.2, { value: 0.5, limit: 'less_than' }),
      value(2, {}),
    ],
  },
  {
    kind: 'grains',
    property: 'grain size',
    unit: '% of mass',
    low: 0,
    high: 100,
    parts: ['clay', 'silt', 'sand'],
    samples: [
      { row_id: 'g1', depth_m: 0.502, thickness_m: 0.02, percents: [41, 51, 8], isJoined: false },
      { row_id: 'g2', depth_m: 1.4, thickness_m: 0.02, percents: [0.2, 0, 99.8], isJoined: false },
    ],
  },
];

test('each depth once, from the top down, and the nearest to a press', () => {
  const depths = depthsOf(LANES);
  assert.deepEqual(depths, [0.5, 1.2, 1.4, 2]);
  assert.deepEqual(
    [0, 0.9, 1.31, 9].map((depth) => nearestTo(depths, depth)),
    [0, 1, 2, 3],
  );
});

test('what is said at a depth: a value with 2 sigma, a limit, what was not determined, parts of grain size', () => {
  const said = (depth: number) => readingsAt(LANES, depth).map(({ text, id }) => [text, id]);
  assert.deepEqual(said(0.5), [
    ['11.6 ±1.2 %', 'measurement:0.5'],
    ['41 % clay, 51 % silt, 8 % sand', 'grain size:g1'],
  ]);
  assert.deepEqual(said(1.2), [['< 0.5 %', 'measurement:1.2']]);
  assert.deepEqual(said(1.4), [['100 % sand', 'grain size:g2']]);
  assert.deepEqual(said(2), [['not determined', 'measurement:2']]);
});

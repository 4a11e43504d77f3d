/** Ages by elevation for lines of one age: the history of a hole before its dates, and round ages that two holes reach. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { HoleHistory, HoleResult } from '@stillstand/campaign/results';
import type { PlacedDate } from '../hole/compared-column.ts';
import { agedHoles, roundAges } from './times.ts';

const hole = (label: string, ground: number) => ({
  hole: {
    hole: label,
    ground_elevation_m: { value: ground, sigma: 0, lower95: 0, upper95: 0 },
  } as HoleResult,
  along_m: 0,
  offset_m: 0,
});
const date = (depth_m: number, mean_cal_bp: number, role: PlacedDate['role']): PlacedDate => ({
  depth_m,
  thickness_m: 0,
  mean_cal_bp,
  sd_yr: 50,
  sets_95: [],
  role,
});

test('a hole has the medians of its history, or else its direct dates, by elevation', () => {
  const history = {
    hole: 'A',
    depth_m: Float64Array.of(0, 2),
    age_cal_bp: { median: Float64Array.of(100, 4100) },
  } as unknown as HoleHistory;
  const dates = new Map([
    ['A', [date(1, 9000, 'direct')]],
    ['B', [date(1, 3000, 'direct'), date(2, 5000, 'minimum'), date(3, 6000, 'direct')]],
  ]);
  assert.deepEqual(
    agedHoles([hole('A', 2), hole('B', 0.5)], [history], dates).map(({ ages }) => ages),
    [
      [
        { age_cal_bp: 100, elevation_m: 2 },
        { age_cal_bp: 4100, elevation_m: 0 },
      ],
      [
        { age_cal_bp: 3000, elevation_m: -0.5 },
        { age_cal_bp: 6000, elevation_m: -2.5 },
      ],
    ],
  );
});

test('ages are round, at most six, and reached by two holes', () => {
  const aged = (young: number, old: number) => ({
    hole: 'x',
    along_m: 0,
    ages: [young, old].map((age_cal_bp) => ({ age_cal_bp, elevation_m: 0 })),
  });
  assert.deepEqual(roundAges([aged(300, 7200), aged(2500, 8800)]), [3000, 4000, 5000, 6000, 7000]);
  assert.deepEqual(roundAges([aged(300, 340), aged(320, 900)]), [320, 330, 340]);
  assert.deepEqual(roundAges([aged(300, 7200)]), []);
  assert.deepEqual(roundAges([aged(0, 1000), aged(2000, 3000)]), []);
  assert.deepEqual(roundAges([]), []);
});

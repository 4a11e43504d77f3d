import assert from 'node:assert/strict';
import { test } from 'node:test';
import { againstSea, levelAt, type SeaDraws } from './against-sea.ts';
import type { AgedColumn } from './column.ts';
import { column, type MadeLayer } from './hand-made.ts';
import { spells } from './spells.ts';
import { stood } from './stood.ts';
import { surfaceAt } from './surface.ts';

const sea: SeaDraws = {
  ages_cal_bp: Float64Array.of(0, 100, 1000),
  // Two draws.
  level_m: Float64Array.of(0, -1, -10, 2, 1, -8),
};

test('the level between two ages is straight, beyond the oldest not known, and held for a century at the youngest', () => {
  const at = (age: number, k = 0, draws = 2): number => levelAt(sea, k, draws, age);
  assert.equal(at(100), -1);
  assert.equal(at(50), -0.5);
  assert.equal(at(550), -5.5);
  assert.equal(at(1000), -10);
  assert.equal(at(0), 0);
  assert.equal(at(-73), 0);
  assert.equal(at(-100), 0);
  assert.ok(Number.isNaN(at(-100.1)));
  assert.ok(Number.isNaN(at(1000.1)));
  assert.ok(Number.isNaN(at(Number.NaN)));
  // Rows of the curve are spread evenly over the draws of the hole.
  assert.deepEqual(
    [0, 1, 2, 3].map((k) => at(100, k, 4)),
    [-1, -1, 1, 1],
  );
});

test('a spell against the sea, by hand: heights, accretion and rise', () => {
  const marsh: MadeLayer = {
    environment: 'marsh',
    depth_m: [1, 2],
    age_cal_bp: [
      [100, 100],
      [1000, 1100],
    ],
  };
  const of = column('A', [marsh], { ground_m: 3, draws: 2 });
  const spell = spells(of, []).find(({ kind }) => kind === 'environment')!;
  const { began_m, ended_m, accretion_mm_yr, rise_mm_yr } = againstSea(of, spell, sea);
  // Base at 1 m with the sea at −10 m; top at 2 m with the sea at −1 m; 1 m and 9 m in 900 yr.
  assert.deepEqual([began_m[0], ended_m[0]], [11, 3]);
  assert.ok(Math.abs(accretion_mm_yr[0]! - 1 / 0.9) < 1e-12);
  assert.ok(Math.abs(rise_mm_yr[0]! - 10) < 1e-12);
  // The second draw began before the curve does.
  assert.ok(Number.isNaN(began_m[1]!) && Number.isNaN(rise_mm_yr[1]!));
  assert.equal(ended_m[1], 1);
});

test('a spell that took no time in a draw has no rate in it', () => {
  const of = column('A', [{ environment: 'marsh', depth_m: [0, 1], age_cal_bp: [500, 500] }]);
  const [, spell] = spells(of, []);
  assert.ok(Number.isNaN(againstSea(of, spell!, sea).accretion_mm_yr[0]!));
});

test('how long an environment stood: first and last by the holes that say so, the longest by one hole, breaks and all', () => {
  const of = (hole: string, ...spans: readonly (readonly [top: number, base: number])[]) =>
    column(
      hole,
      spans.map(([top, base], i) => ({
        environment: 'marsh',
        depth_m: [i, i + 1],
        age_cal_bp: [top, base],
      })),
    );
  const says = (...columns: AgedColumn[]) => {
    const { began, ended, unbroken, at_least_yr } = stood(columns, 'marsh', 0.95)!;
    return [...[began, ended, unbroken].flatMap(({ hole, draws }) => [hole, draws[0]]), at_least_yr];
  };
  assert.deepEqual(says(of('A', [100, 400]), of('B', [300, 900])), ['B', 900, 'A', 100, 'B', 600, 600]);
  // One layer upon another goes on; with years between them it does not.
  assert.deepEqual(says(of('A', [100, 400], [400, 600])), ['A', 600, 'A', 100, 'A', 500, 500]);
  assert.deepEqual(says(of('A', [100, 400], [500, 600])), ['A', 600, 'A', 100, 'A', 300, 300]);
  assert.equal(stood([of('A', [100, 400])], 'lagoon', 0.95), null);
  const bed: MadeLayer = { environment: 'washover', depth_m: [0, 1], age_cal_bp: [100, 100], isAtOnce: true };
  assert.equal(stood([column('A', [bed])], 'washover', 0.95), null);
});

test('the surface of an age is the layer of that age, straight between its places; at a contact with time missing the contact', () => {
  const of = column(
    'A',
    [
      { environment: 'washover', depth_m: [0, 0.5], age_cal_bp: [100, 100], isAtOnce: true },
      { environment: 'marsh', depth_m: [0.5, 1, 2], age_cal_bp: [100, 200, 600] },
      { environment: 'lagoon', depth_m: [2, 3], age_cal_bp: [800, 900] },
    ],
    { ground_m: 5 },
  );
  const at = (age: number) => {
    const { elevation_m, least_m } = surfaceAt(of, age);
    return [elevation_m[0], least_m[0]];
  };
  assert.deepEqual(at(150), [4.25, Number.NaN]);
  assert.deepEqual(at(100), [4.5, Number.NaN]);
  assert.deepEqual(at(400), [3.5, Number.NaN]);
  assert.deepEqual(at(700), [Number.NaN, 3]);
  assert.deepEqual(at(850), [2.5, Number.NaN]);
  assert.deepEqual(at(50), [Number.NaN, Number.NaN]);
  assert.deepEqual(at(900), [Number.NaN, Number.NaN]);
});

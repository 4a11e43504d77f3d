/** What is expected below a hole, on holes drawn by hand. Invented. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { expectedBelow } from './expected-below.ts';
import type { HoleBelow, TiedBases } from './holes.ts';
import { horizonsOf } from './horizons.ts';
import { belowDefaults } from './settings.ts';

const hole = (name: string, east_m: number, ...bases: [sediment: string, base_m: number][]): HoleBelow => ({
  hole: name,
  east_m,
  north_m: 0,
  ground_m: { value: 1, sigma: 0.02 },
  units: bases.map(([sediment, value], i) => ({
    id: `${i + 1}`,
    sediment,
    environment: sediment === 'peat' ? 'marsh' : null,
    base_m: { value, sigma: 0.05 },
    isBaseSeen: i < bases.length - 1,
  })),
});
const tie = (a: string, b: string): TiedBases => {
  const [[hole_a, unit_a], [hole_b, unit_b]] = [a.split(' '), b.split(' ')] as [string[], string[]];
  return { hole_a: hole_a!, unit_a: unit_a!, hole_b: hole_b!, unit_b: unit_b! };
};

const A = hole('A', 0, ['sand', -1], ['mud', -4], ['peat', -4.5], ['clay', -6]);
const B = hole('B', 100, ['sand', -1.4], ['mud', -4.8], ['peat', -5.4], ['clay', -7]);
const C = hole('C', 200, ['sand', -1.2], ['mud', -5.1], ['clay', -7]);
const TIES = [tie('A 1', 'B 1'), tie('A 2', 'B 2'), tie('A 3', 'B 3'), tie('B 1', 'C 1'), tie('B 3', 'C 2')];
const started = (east_m: number): HoleBelow => hole('H', east_m, ['sand', 0.2]);
const about = (x: number | undefined, wanted: number, off: number): void =>
  assert(x !== undefined && Math.abs(x - wanted) < off, `${x}, not ${wanted} ± ${off}`);

test('between two holes alike: their contacts in order, each between theirs, with the sediment above it', () => {
  const { contacts, asked } = expectedBelow(started(50), 0.2, [A, B], TIES, belowDefaults)!;
  assert.deepEqual(
    contacts.map(({ sediment, environment }) => [sediment, environment]),
    [
      ['sand', null],
      ['mud', null],
      ['peat', 'marsh'],
    ],
  );
  for (const [i, wanted] of [-1.2, -4.4, -4.95].entries()) {
    const { elevation_m, present, met } = contacts[i]!;
    about(elevation_m.median, wanted, 0.3);
    assert(elevation_m.lower95 < wanted && elevation_m.upper95 > wanted);
    assert(present > 0.85 && met === null);
  }
  assert.deepEqual(
    asked.map(({ distance_m }) => distance_m),
    [50, 50],
  );
});

test('a layer that ends between two holes is the less probable the nearer the hole without it', () => {
  const probable = [110, 150, 190].map((east_m) => {
    const { contacts } = expectedBelow(started(east_m), 0.2, [A, B, C], TIES, belowDefaults)!;
    return contacts.find(({ units }) => units.some(({ hole: of, unit }) => of === 'B' && unit === '2'))!
      .present;
  });
  assert(probable[0]! > 0.8 && probable[2]! < 0.3, probable.join(', '));
  about(probable[1], 0.5, 0.15);
});

test('a contact that should have been met by now is the less probable the deeper the hole without it', () => {
  const atMud = (reached_m: number): number =>
    expectedBelow(started(50), reached_m, [A, B], TIES, belowDefaults)!.contacts[1]!.present;
  assert(atMud(0.2) > 0.85 && atMud(-4.4) < atMud(0.2) && atMud(-9) < 0.2, `${atMud(-4.4)}, ${atMud(-9)}`);
});

test('what was met is no more expected; far off it is improbable, and all below moves with it', () => {
  const met = (base_m: number): HoleBelow => hole('H', 50, ['sand', base_m], ['mud', base_m - 1]);
  const with_ = (base_m: number) =>
    expectedBelow(met(base_m), base_m - 1, [A, B], [...TIES, tie('H 1', 'A 1')], belowDefaults)!.contacts;
  assert(with_(-1.2)[0]!.met!.improbable > 0.5);
  assert(with_(-3.2)[0]!.met!.improbable < 0.05);
  assert(with_(-2.2)[1]!.elevation_m.median < with_(-1.2)[1]!.elevation_m.median);
});

test('how deep a planned hole must go is the deeper the surer it is to be', () => {
  const { contacts } = expectedBelow(hole('P', 50), 1, [A, B], TIES, belowDefaults)!;
  const { elevation_m, with80_m, with95_m } = contacts[2]!;
  assert(elevation_m.median > with80_m && with80_m > with95_m && with95_m > elevation_m.lower95);
});

test('a ground that is not levelled: elevations all the same', () => {
  const planned = { ...hole('P', 50), ground_m: null };
  const { contacts } = expectedBelow(planned, Infinity, [A, B], TIES, belowDefaults)!;
  about(contacts[2]!.elevation_m.median, -4.95, 0.3);
});

test('no other hole with a base, no expectation; holes that end above a contact say nothing against it', () => {
  assert.equal(expectedBelow(started(50), 0.2, [hole('D', 10, ['sand', -3])], [], belowDefaults), null);
  const short = hole('D', 40, ['sand', -1.1], ['mud', -2]);
  const with_ = expectedBelow(started(50), 0.2, [A, B, short], [...TIES, tie('D 1', 'A 1')], belowDefaults)!;
  assert(with_.contacts[1]!.present > 0.85, `${with_.contacts[1]!.present}`);
});

test('horizons go down in every hole; of two bases of one hole that would be one, the second stays by itself', () => {
  const order = horizonsOf([A, B, C], TIES).map(({ units }) =>
    [...units].map(([h, u]) => h + u.id).join(' '),
  );
  assert.deepEqual(order, ['A1 B1 C1', 'A2 B2', 'A3 B3 C2']);
  const twice = horizonsOf([A, B], [...TIES, tie('A 2', 'B 3')]);
  assert.equal(twice.length, 3);
  // Ties that cross leave an order all the same.
  assert.equal(horizonsOf([A, B], [tie('A 1', 'B 2'), tie('A 2', 'B 1')]).length, 4);
});

/** Each rule of the section on columns small enough to be drawn by hand; expected places worked out beside each. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { fillUnits } from './fill.ts';
import { sliceAt } from './fixtures/slices.ts';
import { heightAt } from './ground.ts';
import type { FilledSection, SectionBoundary, SectionColumn, SectionTie, SectionUnit } from './shape.ts';

/** A column from words: `sand 2, mud 3` is 2 m of sand over 3 m of mud; `!` after a word: its base is erosional. */
function column(hole: string, along_m: number, ground_m: number, words: string): SectionColumn {
  let at = ground_m;
  const units = words
    .split(', ')
    .filter((word) => word !== '')
    .map((word, i): SectionUnit => {
      const [name = '', thick] = word.split(' ');
      const top_m = at;
      at -= Number(thick);
      const sediment = name.replace('!', '');
      const base = name.endsWith('!') ? 'erosional' : null;
      return { id: `${hole}${i + 1}`, top_m, bottom_m: at, sediment, base, isBaseSeen: true };
    });
  return { hole, along_m, ground_m, units };
}

const tie = (unit_a: string, unit_b: string, more: Partial<SectionTie> = {}): SectionTie => ({
  row_id: `${unit_a}-${unit_b}`,
  hole_a: unit_a[0]!,
  unit_a,
  hole_b: unit_b[0]!,
  unit_b,
  confidence: 'certain',
  horizon: null,
  ...more,
});

const row = (hole_a: string, horizon: string, more: Partial<SectionBoundary>): SectionBoundary => ({
  row_id: `row ${horizon}`,
  horizon,
  hole_a,
  hole_b: null,
  ending: 'continuous',
  at_fraction: null,
  lift_m: null,
  ...more,
});

const A = (words: string): SectionColumn => column('A', 0, 0, words);
const B = (words: string, ground_m = 0): SectionColumn => column('B', 100, ground_m, words);
const at = (filled: FilledSection, x: number): string =>
  sliceAt(filled.bodies, x)
    .filter(({ top_m, bottom_m }) => top_m - bottom_m > 1e-9)
    .map(({ body, top_m, bottom_m }) => `${body.sediment} ${round(top_m - bottom_m)}`)
    .join(', ');
const round = (m: number): number => Math.round(m * 1000) / 1000 + 0;
const contact = (filled: FilledSection, unit: string, isLateral = false) =>
  filled.contacts.find((c) => (c.unit_a === unit || c.unit_b === unit) && c.isLateral === isLateral)!;

test('a unit tied above and below runs through, straight', () => {
  const filled = fillUnits(
    [A('sand 2, mud 3'), B('sand 4, mud 1')],
    [tie('A1', 'B1'), tie('A2', 'B2')],
    [],
    [],
  );
  // At 25 m a quarter of the way: sand 2.5, mud 2.5.
  assert.equal(at(filled, 25), 'sand 2.5, mud 2.5');
  assert.deepEqual(
    filled.bodies.map(({ units }) => units.map(({ unit }) => unit)),
    [
      ['A1', 'B1'],
      ['A2', 'B2'],
    ],
  );
  const base = contact(filled, 'A1');
  assert.deepEqual([base.ending, base.confidence, base.tie], ['continuous', 'certain', 'A1-B1']);
  assert.deepEqual(base.line, [
    [0, -2],
    [100, -4],
  ]);
});

test('a unit of one hole only thins to a point half way, or where a row says; what goes on takes its room', () => {
  const columns = [A('sand 4, shells 1, mud 4'), B('sand 4, mud 5')];
  const half = fillUnits(columns, [tie('A3', 'B2')], [], []);
  // At 25 m shells are 0.5 of 8.75 m straight (sand 4, mud 4.25); the room is 9 m: each ×9/8.75.
  assert.equal(
    at(half, 25),
    `sand ${round(36 / 8.75)}, shells ${round(4.5 / 8.75)}, mud ${round(38.25 / 8.75)}`,
  );
  assert.deepEqual(contact(half, 'A2').ending, 'pinch_out');
  assert.equal(contact(half, 'A2').line.at(-1)![0], 50);
  assert.equal(contact(half, 'A2').hole_b, null);
  const said = fillUnits(
    columns,
    [tie('A3', 'B2')],
    [row('A', 'A2', { ending: 'pinch_out', at_fraction: 0.8 })],
    [],
  );
  assert.deepEqual(contact(said, 'A2').line.at(-1)![0], 80);
  assert.equal(contact(said, 'A2').boundary, 'row A2');
  // Seen from the other hole the fraction runs the other way.
  const turned = fillUnits(
    [A('sand 4, mud 5'), B('sand 4, shells 1, mud 4')],
    [tie('A2', 'B3')],
    [row('B', 'B2', { hole_b: 'A', ending: 'pinch_out', at_fraction: 0.8 })],
    [],
  );
  assert.equal(round(contact(turned, 'B2').line[0]![0]), 20);
});

test('under an erosional base units are cut from the top down, the lowest last', () => {
  const filled = fillUnits(
    [A('sand! 4, clay 1, peat 1, mud 4'), B('sand 4, mud 6')],
    [tie('A4', 'B2')],
    [],
    [],
  );
  const [clay, peat] = [contact(filled, 'A2'), contact(filled, 'A3')];
  assert.deepEqual([clay.ending, peat.ending], ['truncated', 'truncated']);
  // Together 2 m, gone half way: 1 m of them, all of it peat, is left at 25 m.
  assert.deepEqual([clay.line.at(-1)![0], peat.line.at(-1)![0]], [25, 50]);
  assert.equal(contact(filled, 'A1').isErosional, true);
});

test('two sediments of one band meet half way: queried, or in fingers where a row says so', () => {
  const columns = [A('sand 4'), B('mud 4')];
  const unknown = fillUnits(columns, [tie('A1', 'B1')], [], []);
  assert.equal(at(unknown, 49), 'sand 4');
  assert.equal(at(unknown, 51), 'mud 4');
  assert.equal(contact(unknown, 'A1', true).ending, 'unknown');
  assert.ok(unknown.queries.some(([x, y]) => x === 50 && y === -2));
  const fingers = fillUnits(
    columns,
    [tie('A1', 'B1')],
    [row('A', 'A1', { hole_b: 'B', ending: 'interfingered', at_fraction: 0.4 })],
    [],
  );
  const side = contact(fingers, 'A1', true);
  assert.deepEqual([side.ending, side.line[0], side.line.at(-1)], ['interfingered', [40, 0], [40, -4]]);
  // Three fingers each way, 6 m long.
  assert.deepEqual(
    [Math.max(...side.line.map(([x]) => x)), Math.min(...side.line.map(([x]) => x))].map(round),
    [46, 34],
  );
  assert.ok(at(fingers, 43).split(', ').length > 3);
  assert.deepEqual(
    fingers.queries.filter(([x]) => x > 30 && x < 70),
    [],
  );
});

test('several units on both sides of one band go half way, and nobody knows', () => {
  const filled = fillUnits([A('sand 1, clay 1, peat 2'), B('silt 2, mud 2')], [tie('A3', 'B2')], [], []);
  assert.equal(at(filled, 49), 'sand 1, clay 1, peat 2');
  assert.equal(at(filled, 51), 'silt 2, mud 2');
  assert.ok(filled.queries.some(([x]) => x === 50));
});

test('a unit of several is said to end, from the outer ones inwards; what is left meets', () => {
  const columns = [A('sand 1, clay 1, peat 2'), B('silt 2, mud 2')];
  const ends = (...rows: SectionBoundary[]) => fillUnits(columns, [tie('A3', 'B2')], rows, []);
  const pinch = { ending: 'pinch_out', at_fraction: 0.4 } as const;
  // Sand gone at 40 m, clay and peat (3 of 4 m) still meet silt and mud half way.
  const one = ends(row('A', 'A1', pinch));
  assert.deepEqual(contact(one, 'A1').line.at(-1)![0], 40);
  assert.equal(at(one, 49), `clay ${round(4 / 3)}, peat ${round(8 / 3)}`);
  const two = ends(row('A', 'A1', pinch), row('A', 'A2', pinch), row('B', 'B1', pinch));
  assert.deepEqual(two.problems, []);
  assert.equal(at(two, 49), 'peat 4');
  assert.equal(at(two, 51), 'mud 4');
  // Clay alone lies between two that stay: which of silt and mud it would end against is not known.
  assert.deepEqual(ends(row('A', 'A2', pinch)).problems, [
    { kind: 'boundary_without_contact', row_id: 'row A2' },
  ]);
});

test('fingers where no two units meet are named, and an uncorrelated contact may be said to go on', () => {
  const columns = [A('sand 2, mud 2'), B('sand 2, mud 2')];
  const fingers = row('A', 'A1', { ending: 'interfingered', hole_b: 'B' });
  assert.deepEqual(fillUnits(columns, [tie('A2', 'B2')], [fingers], []).problems, [
    { kind: 'no_fingers', row_id: 'row A1' },
  ]);
  const said = fillUnits(columns, [tie('A2', 'B2')], [row('A', 'A1', { hole_b: 'B' })], []);
  assert.equal(contact(said, 'A1').ending, 'continuous');
});

test('units of one sediment next to a common contact are one body, their other contact dotted', () => {
  const filled = fillUnits([A('sand 2, mud 2'), B('sand 2, mud 2')], [tie('A2', 'B2')], [], []);
  assert.equal(at(filled, 50), 'sand 2, mud 2');
  const base = contact(filled, 'A1');
  assert.deepEqual([base.ending, base.confidence, base.tie, base.unit_b], ['unknown', null, null, 'B1']);
});

test('below the lowest tie, and beyond the last hole, units are drawn 15 % of the way and queried', () => {
  const filled = fillUnits([A('sand 2, mud 2'), B('sand 3, peat 1')], [tie('A1', 'B1')], [], []);
  assert.equal(at(filled, 14), 'sand 2.14, mud 2');
  assert.equal(at(filled, 16), 'sand 2.16');
  assert.equal(at(filled, 86), 'sand 2.86, peat 1');
  assert.equal(at(filled, -14), 'sand 2, mud 2');
  assert.equal(at(filled, -16), '');
  assert.equal(at(filled, 114), 'sand 3, peat 1');
  // One for each unit: two below the tie, two beyond each hole.
  assert.equal(filled.queries.length, 6);
  assert.deepEqual(filled.ground, [
    [-15, 0],
    [0, 0],
    [100, 0],
    [115, 0],
  ]);
  const said = fillUnits(
    [A('sand 2, mud 2'), B('sand 3, peat 1')],
    [tie('A1', 'B1')],
    [row('A', 'A2', { ending: 'pinch_out', at_fraction: 0.6 })],
    [],
  );
  // Half of its way, half of its 2 m.
  assert.equal(at(said, 30), 'sand 2.3, mud 1');
  assert.equal(at(said, 60.1), 'sand 2.601');
});

test('a line is lifted at its middle, and what lies above gives way', () => {
  const columns = [A('sand 2, mud 2, peat 2'), B('sand 2, mud 2, peat 2')];
  const ties = [tie('A2', 'B2', { horizon: 'top of peat' }), tie('A3', 'B3')];
  const lifted = (lift_m: number) =>
    fillUnits(columns, ties, [row('B', ' Top of  PEAT', { hole_b: 'A', lift_m })], []);
  // 4 m down at the middle, lifted by 1: sand and mud share 3 m, peat gains 1.
  assert.equal(at(lifted(1), 50.0001), 'sand 1.5, mud 1.5, peat 3');
  assert.deepEqual(lifted(1).problems, []);
  assert.equal(contact(lifted(1), 'A2').boundary, 'row  Top of  PEAT');
  // The ground lies 4 m above: 98 % of that is what is left to it.
  assert.deepEqual(lifted(10).problems, [
    { kind: 'lift_clamped', row_id: 'row  Top of  PEAT', asked_m: 10, drawn_m: 3.92 },
  ]);
});

test('the ground cuts what lies above it, and the uppermost band reaches up to it', () => {
  const columns = [A('sand 2, mud 2'), B('sand 2, mud 2')];
  const ties = [tie('A1', 'B1'), tie('A2', 'B2')];
  const creek = fillUnits(
    columns,
    ties,
    [],
    [
      { along_m: 0, elevation_m: 0 },
      { along_m: 50, elevation_m: -3 },
      { along_m: 100, elevation_m: 0 },
    ],
  );
  assert.equal(at(creek, 50.0001), 'mud 1');
  const bar = fillUnits(
    columns,
    ties,
    [],
    [
      { along_m: 50, elevation_m: 1 },
      { along_m: 0, elevation_m: 0.2 },
      { along_m: 100, elevation_m: 0.2 },
    ],
  );
  // The profile is 0.2 m too high at both holes, so also between them.
  assert.equal(at(bar, 50.0001), 'sand 2.8, mud 2');
  assert.equal(round(heightAt(bar.ground, 50)!), 0.8);
});

test('of two ties that cross the first stays, and one through a third hole ties its neighbours', () => {
  const columns = [A('sand 2, mud 2'), B('sand 2, mud 2')];
  const crossed = fillUnits(columns, [tie('A1', 'B2'), tie('A2', 'B1')], [], []);
  assert.deepEqual(crossed.problems, [{ kind: 'tie_crosses', row_id: 'A2-B1', other: 'A1-B2' }]);
  const three = [A('sand 2'), B('sand 2'), column('C', 200, 0, 'sand 2')];
  const filled = fillUnits(three, [tie('A1', 'C1'), tie('C1', 'B1', { confidence: 'possible' })], [], []);
  assert.equal(filled.bodies.length, 1);
  // Named after the first row, as certain as the least certain of them.
  assert.deepEqual([contact(filled, 'A1').tie, contact(filled, 'A1').confidence], ['A1-C1', 'possible']);
});

test('a stretch nobody described is paper, and overlaps are the upper unit’s', () => {
  const gap: SectionColumn = {
    ...A('sand 2, mud 2'),
    units: [
      { id: 'A1', top_m: 0, bottom_m: -1, sediment: 'sand', base: null, isBaseSeen: true },
      { id: 'A2', top_m: -2, bottom_m: -4, sediment: 'mud', base: null, isBaseSeen: true },
    ],
  };
  const filled = fillUnits([gap, B('sand 1, mud 3')], [tie('A1', 'B1'), tie('A2', 'B2')], [], []);
  const slice = sliceAt(filled.bodies, 1);
  assert.ok(slice[1]!.top_m < slice[0]!.bottom_m - 0.9);
  const over: SectionColumn = { ...gap, units: [gap.units[0]!, { ...gap.units[1]!, top_m: -0.5 }] };
  assert.equal(at(fillUnits([over], [], [], []), 1), 'sand 1, mud 3');
});

test('rows that are about nothing here are named', () => {
  const columns = [A('sand 2'), B('sand 2'), column('C', 200, 0, 'sand 2')];
  const rows = [
    row('A', 'A9', { row_id: '1' }),
    row('Z', 'Z1', { row_id: '2' }),
    row('A', 'A1', { row_id: '3', hole_b: 'Y' }),
    row('A', 'A1', { row_id: '4', hole_b: 'C' }),
    row('A', 'A1', { row_id: '5', hole_b: 'B', ending: 'pinch_out' }),
    row('B', 'B1', { row_id: '6', hole_b: 'A' }),
    row('B', 'B1', { row_id: '7', hole_b: 'A', lift_m: 1 }),
  ];
  assert.deepEqual(fillUnits(columns, [tie('A1', 'B1')], rows, []).problems, [
    { kind: 'boundary_against_tie', row_id: '5', tie: 'A1-B1' },
    { kind: 'boundary_twice', row_id: '7', other: '6' },
    { kind: 'boundary_without_contact', row_id: '1' },
    { kind: 'boundary_off_line', row_id: '2', hole: 'Z' },
    { kind: 'boundary_off_line', row_id: '3', hole: 'Y' },
    { kind: 'boundary_not_neighbours', row_id: '4' },
  ]);
});

test('no hole, one hole, two at one place, a hole without units, a tie to nowhere', () => {
  const empty = fillUnits([], [], [], [{ along_m: 0, elevation_m: 1 }]);
  assert.deepEqual([empty.bodies, empty.problems], [[], []]);
  // A hole alone has no way to the next: 5 m on each side.
  const alone = fillUnits([A('sand 2, mud 1')], [], [], []);
  assert.equal(at(alone, 4.9), 'sand 2, mud 1');
  assert.equal(at(alone, 5.1), '');
  const same = fillUnits([A('sand 2'), { ...B('mud 3', 1), along_m: 0 }], [tie('A1', 'B1')], [], []);
  assert.deepEqual(same.problems, [{ kind: 'one_place', hole_a: 'A', hole_b: 'B' }]);
  assert.ok(same.bodies.length === 2);
  const bare = fillUnits([A('sand 2'), B('')], [tie('A1', 'B1'), tie('A1', 'Q1')], [], []);
  assert.equal(at(bare, 10), 'sand 2');
  assert.equal(at(bare, 50), '');
});

/** What the crew is shown of what is expected. Invented numbers; sums by hand. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Results } from '@stillstand/campaign/results';
import { percentExpected } from '@stillstand/output/words';
import { FOOT_M } from '@stillstand/science/base';
import { aheadOf, layersAhead } from './ahead.ts';
import { aboutOf, lengthOf } from './ahead-words.ts';
import { type ExpectedHere, expectedHere } from './expected-here.ts';

type Contact = ExpectedHere['contacts'][number];

const contact = (id: string, median: number, of: Partial<Contact> = {}): Contact => ({
  horizon: null,
  sediment: id,
  environment: null,
  units: [{ hole: 'A', unit: '1', unit_row_id: id }],
  before: 0.9,
  present: 0.9,
  elevation_m: { median, lower95: median - 1, upper95: median + 0.5 },
  with_80_m: median - 0.4,
  with_95_m: median - 0.8,
  age_cal_bp: null,
  met: null,
  ...of,
});

const here = (contacts: Contact[], ground_m: number | null = 2): ExpectedHere => ({
  ground_m,
  asked: [
    { hole: 'A', distance_m: 40 },
    { hole: 'B', distance_m: 90 },
  ],
  contacts,
  thickness: new Map([
    ['clay', 1.5],
    ['peat', 0.3],
    ['sand', 4],
  ]),
  contradictions: [],
});

const names = (expected: ExpectedHere, shoe_m = 0, sank = 0): (string | null)[] =>
  aheadOf(expected, shoe_m, sank)?.lines.map(({ sediment }) => sediment) ?? [];

test('depths are below the ground as it is now; the holes are those that say it', () => {
  const ahead = aheadOf(here([contact('clay', -1)]), 1, -0.03);
  const [line] = ahead!.lines;
  // 2 + 1 − 0.03; the shallower end is the higher one
  assert.ok(Math.abs(line!.base.median - 2.97) < 1e-9);
  assert.ok(Math.abs(line!.base.upper - 2.47) < 1e-9 && Math.abs(line!.base.lower - 3.97) < 1e-9);
  assert.equal(line!.isAbove, false);
  assert.deepEqual(
    ahead!.from.map(({ hole }) => hole),
    ['A'],
  );
});

test('from the top down, four at most, and nothing that is improbable', () => {
  const many = ['a', 'b', 'c', 'd', 'e'].map((id, i) => contact(id, -i));
  assert.deepEqual(names(here(many.toReversed())), ['a', 'b', 'c', 'd']);
  assert.deepEqual(names(here([contact('a', 0, { present: 0.29 }), contact('b', -1, { present: 0.3 })])), [
    'b',
  ]);
  assert.equal(aheadOf(here([contact('a', 0, { present: 0.1 })]), 0, 0), null);
});

test('a named horizon is among the lines, however deep', () => {
  const many = ['a', 'b', 'c', 'd', 'e'].map((id, i) => contact(id, -i));
  many.push(contact('deep', -20, { horizon: 'lower peat' }));
  assert.deepEqual(names(here(many)), ['a', 'b', 'c', 'deep']);
});

test('of what should be above the shoe by now the lowest that is no less probable than not', () => {
  const all = [
    contact('a', 1),
    contact('b', 0),
    contact('c', -0.5, { present: 0.4 }),
    contact('d', -3),
    contact('e', -4),
  ];
  const ahead = aheadOf(here(all), 3, 0)!;
  assert.deepEqual(
    ahead.lines.map(({ sediment, isAbove }) => [sediment, isAbove]),
    [
      ['b', true],
      ['d', false],
      ['e', false],
    ],
  );
});

test('where the ground is not levelled it is elevations, the highest first, and none is above the shoe', () => {
  const ahead = aheadOf(here([contact('low', -5), contact('high', 1)], null), 30, 0)!;
  assert.equal(ahead.isDepth, false);
  assert.deepEqual(
    ahead.lines.map(({ sediment, base, isAbove }) => [sediment, base.median, isAbove]),
    [
      ['high', 1, false],
      ['low', -5, false],
    ],
  );
  assert.deepEqual(layersAhead(here([contact('peat', -5)], null), 0), []);
});

test('layers are as thick as the nearest hole has them, no two in one place, blank between them', () => {
  const layers = layersAhead(
    here([contact('clay', -1), contact('peat', -2), contact('sand', -3), contact('thin', -9)]),
    2,
  );
  assert.deepEqual(
    layers.map(({ sediment, from_m, to_m }) => [sediment, from_m, to_m]),
    [
      // 1.5 m above 3 m, but not above 2
      ['clay', 2, 3],
      ['peat', 3.7, 4],
      // 4 m above 5 m, but below the peat
      ['sand', 4, 5],
    ],
  );
});

test('words: decimals as the band has use for, age to the hundred years, never certain', () => {
  assert.equal(lengthOf(6.248, 'm', { upper: 5, lower: 7 }), '6.2');
  assert.equal(lengthOf(6.248, 'm', { upper: 6.2, lower: 6.3 }), '6.25');
  assert.equal(lengthOf(10 * FOOT_M, 'ft', { upper: 2, lower: 4 }), '10.0');
  assert.equal(lengthOf(-4.64, 'm', { upper: -3, lower: -6 }), '−4.6');
  assert.deepEqual([0.999, 0.94, 0.001].map(percentExpected), ['99 %', '94 %', '1 %']);
  assert.equal(
    aboutOf({ environment: 'high marsh', age_cal_bp: { younger: 6113, older: 8795 } }),
    'high marsh; 8,800–6,100 cal BP',
  );
  assert.equal(
    aboutOf({ environment: null, age_cal_bp: { younger: 8097, older: 8120 } }),
    'about 8,100 cal BP',
  );
  assert.equal(aboutOf({ environment: null, age_cal_bp: null }), '');
});

test('what came up otherwise is that of this hole alone: the layer that is not as expected before what was not met', () => {
  const problem = (code: string, row_id: string, severity: string) => ({
    ...{ code, row_id, severity, table: '', line: null, label: null, column: null },
    ...{ found: `found ${row_id}`, expected: 'something', fix: '' },
  });
  const unit = (row_id: string, label: string) => ({
    ...{ row_id, unit: label },
    ...{ depth_top_m: { value: 1 }, depth_bottom_m: { value: 1.5 } },
  });
  const results = {
    expectations: [{ hole_row_id: 'h', hole: 'H', ground_m: 2, asked: [], contacts: [] }],
    holes: [
      { hole: 'H', units: [unit('u1', '1')] },
      { hole: 'A', units: [unit('a1', '7')] },
    ],
    problems: [
      problem('expected-not-met', 'h', 'note'),
      problem('expected-not-met', 'other', 'note'),
      problem('not-as-expected', 'u1', 'warning'),
      problem('not-as-expected', 'a1', 'warning'),
    ],
  } as unknown as Results;
  const expected = expectedHere(results, 'H')!;
  assert.deepEqual(
    expected.contradictions.map(({ unit: of, found }) => [of, found]),
    [
      ['1', 'found u1'],
      [null, 'found h'],
    ],
  );
  assert.equal(expected.thickness.get('a1'), 0.5);
  assert.equal(expectedHere(results, 'A'), null);
  assert.equal(expectedHere(null, 'H'), null);
});

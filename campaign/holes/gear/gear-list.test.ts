import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { assumptionFault, type GearAssumption, gearAssumptions } from '@stillstand/campaign/settings';
import type { TableName } from '@stillstand/campaign/tables';
import { type GearLine, gearList } from './gear-list.ts';
import { packingList } from './packing.ts';

type Cells = Record<string, string>;

const HOLES = [
  { hole: 'H1', method: 'string', state: 'planned', target_depth: '9.6 m', pipe: 'P' },
  { hole: 'H2', method: 'string', state: 'planned', target_depth: '8 m', pipe: 'P' },
];
/** Bore 88.9 − 2 × 4.45 = 80 mm: π/4 × 0.08² m² = 5.0265 L in a metre. */
const PIPES = [{ pipe: 'P', outside_diameter_mm: '88.9', wall_mm: '4.45', makeup_loss: '3 cm' }];

function listOf(
  tables: Partial<Record<TableName, Cells[]>>,
  typed: Partial<Record<GearAssumption, string>> = {},
  date: string | null = null,
): GearLine[] {
  let document = newDocument('gear');
  for (const [name, rows] of Object.entries({ pipes: PIPES, holes: HOLES, ...tables }))
    document = withRows(
      document,
      name as TableName,
      rows.map((cells, i) => ({ row_id: `${name}${i}`, ...cells })),
    );
  return gearList(
    parseCampaign(document).campaign,
    gearAssumptions((name) => typed[name] ?? null),
    date,
  );
}
const line = (lines: readonly GearLine[], name: string): GearLine => lines.find((l) => l.line === name)!;
const amount = (lines: readonly GearLine[], name: string) => line(lines, name).amount;

test('amounts by hand, for two holes of 9.6 and 8 m', () => {
  const lines = listOf({});
  // 9.6 deep + 2 × 5 mast + 5 turns × π × 0.2 m = 3.14: 22.74, up to 23 m
  assert.equal(amount(lines, 'cable'), 23);
  assert.equal(line(lines, 'cable').why, '9.60 m deep, mast up and down 10.00 m, 5 turns on the drum 3.14 m');
  // 17.6 m × 5.0265 L/m = 88.47 L, twice: 176.9, up to 177 L
  assert.equal(amount(lines, 'water'), 177);
  assert.equal(line(lines, 'water').why, 'for 17.60 m and 1 refill, bore 80.0 mm');
  // 9.6 + 0.8 = 10.4 m; 3.048, then 3.018 each: 3 joints 9.084, 4 joints 12.102; one spare of 20 %
  assert.equal(amount(lines, 'joints'), 5);
  assert.match(line(lines, 'joints').why, /^4 of 3\.05 m reach 9\.60 m with 0\.80 m stick-up; 1 spare$/);
  // 10 and 8 trays of 1 m
  assert.equal(amount(lines, 'trays'), 18);
  // 2 holes × 4 h × 1 L/h × 1.2 = 9.6
  assert.equal(amount(lines, 'fuel'), 10);
  // 9.6 and 3 more: 12.6
  assert.equal(amount(lines, 'marks'), 13);
  // 1 part × 5 + 2 × 5 + 10
  assert.equal(amount(lines, 'rope'), 25);
  // two people, 10 h, 0.5 L/h
  assert.equal(amount(lines, 'drinking_water'), 10);
});

test('the assumptions change it, and one that cannot be used does not', () => {
  const typed = { gear_holes: '1', gear_tray_m: '1.2', gear_fuel_l_h: '-3', gear_refills: '0' };
  const lines = listOf({}, typed);
  assert.equal(amount(lines, 'trays'), 8);
  // 9.6 × 5.0265 = 48.25
  assert.equal(amount(lines, 'water'), 49);
  // 4 h × 1 L/h × 1.2 = 4.8
  assert.equal(amount(lines, 'fuel'), 5);
  assert.equal(
    assumptionFault('gear_fuel_l_h', '-3'),
    'Found “-3”; expected a number from 0 to 30 L/h. 1 L/h is used until then.',
  );
  assert.match(assumptionFault('gear_fuel_l_h', '1000 L')!, /Found “1000 L”/);
  assert.equal(assumptionFault('gear_tray_m', '1,2'), null);
});

test('a day has its crew and its tide: one tide more, and a life jacket each', () => {
  const days = [{ date: '2024-03-05', crew: 'geologist, driller and hand', access: 'boat' }];
  const lines = listOf({ field_days: days }, {}, '2024-03-05');
  // 3 × (10 + 12.5) h × 0.5 = 33.75
  assert.equal(amount(lines, 'drinking_water'), 34);
  assert.equal(amount(lines, 'life_jackets'), 3);
  assert.equal(
    listOf({ field_days: days }).some((l) => l.line === 'life_jackets'),
    false,
  );
});

test('what is at hand: the longest cable, litres of all cans, none that is lost, samplers that fit', () => {
  const lines = listOf({
    gear: [
      { gear: 'sampler cable, 20 m', kind: 'cable', count: '2' },
      { gear: 'fuel can, 5 L', count: '3' },
      { gear: 'core box', count: '20', condition: 'lost' },
      { gear: 'rope', kind: 'rope' },
    ],
    samplers: [
      { sampler: 'V50', outside_mm: '60' },
      { sampler: 'V80', outside_mm: '82' },
    ],
    pipe_stock: [
      { stock_item: 'A1', item: 'joint', length: '3.05 m' },
      { stock_item: 'A2', item: 'joint', length: '3.05 m' },
      { stock_item: 'S1', item: 'shoe' },
    ],
  });
  const hand = (name: string) => line(lines, name).atHand;
  assert.equal(hand('cable').amount, 20);
  assert.equal(hand('fuel').amount, 15);
  assert.deepEqual(hand('trays'), { amount: 0, words: '20 × core box lost' });
  assert.deepEqual(hand('rope'), { amount: null, words: 'rope' });
  assert.deepEqual(hand('samplers'), { amount: 1, words: 'V50; V80 does not fit the bore' });
  assert.equal(hand('joints').amount, 2);
  assert.equal(hand('shoes').amount, 1);
  assert.equal(hand('bags').amount, null);
});

test('planned samples that were taken need no bag; without a planned hole or a pipe nothing is made up', () => {
  const planned = ['S1', 'S2', 'S3'].map((sample) => ({ sample }));
  // 2 left, 20 % of them up to 1
  const samples = [{ sample: 'S1', hole: 'H1' }];
  assert.equal(amount(listOf({ planned_samples: planned, samples }), 'bags'), 3);
  assert.equal(amount(listOf({}), 'labels'), 0);
  assert.deepEqual(listOf({ holes: [] }), []);
  assert.deepEqual(
    [line(listOf({ pipes: [], holes: HOLES.map(({ pipe: _, ...hole }) => hole) }), 'water')].map((l) => [
      l.amount,
      l.why,
    ]),
    [[null, 'enter outside diameter and wall of the pipe']],
  );
});

test('the crew’s own amounts and lines are kept, ticks are of their day, and what looks wrong is named', () => {
  const lines = listOf({ gear: [{ gear: 'fuel can, 5 L' }] });
  const row = (cells: Cells, i: number) => ({ row_id: `k${i}`, cells });
  const packed = (cells: Cells[], date = '2024-03-05') => packingList(lines, cells.map(row), date);
  const fuel = (cells: Cells, date?: string) =>
    packed([{ item: 'Fuel', line: 'fuel', ...cells }], date).find((l) => l.line === 'fuel')!;
  assert.deepEqual([fuel({}).amount, fuel({}).short, fuel({}).isPacked], [10, 5, false]);
  assert.deepEqual([fuel({ amount: '12' }).amount, fuel({ amount: '12' }).short], [12, 7]);
  assert.equal(fuel({ packed: '2024-03-05' }).isPacked, true);
  assert.equal(fuel({ packed: '2024-03-05' }, '2024-03-06').isPacked, false);
  const doubt = (cells: Cells) => fuel(cells).doubts.join(' ');
  assert.equal(
    doubt({ amount: '1000' }),
    '1000 L is more than 5 times the 10 L computed. Check unit and amount.',
  );
  assert.equal(doubt({ amount: '4' }), 'Less than the 10 L computed.');
  assert.match(doubt({ amount: '-4' }), /^Found “-4”; expected /);
  assert.match(doubt({ amount: 'two cans' }), /^Found “two cans”; expected /);
  assert.equal(doubt({ amount: '12', unit: 'm' }), 'Found “12 m”; expected L. Check unit and amount.');
  // What cannot be used leaves the computed amount in force.
  assert.equal(fuel({ amount: '-4' }).amount, 10);
  const own = packed([
    { item: 'Kettle', amount: '1' },
    { item: 'Life jackets', line: 'life_jackets', packed: '2024-03-01' },
  ]).filter((l) => l.computed === null);
  assert.deepEqual(
    own.map((l) => [l.item, l.amount, l.short]),
    [['Kettle', 1, null]],
  );
});

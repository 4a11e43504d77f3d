import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Act, CellsOf } from '../store/index.ts';
import { choicesOf, EVERYTHING, type Line, linesOf, wantedActs } from './lines.ts';

const ROWS: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  amended: { amends: 'T2 0', amend_kind: 'withdraw' },
  unit: { hole: 'T1', unit: '4' },
};
/** Readings are named after their hole. */
const cellsOf: CellsOf = (_, row_id) => ROWS[row_id] ?? { hole: row_id.split(' ')[0]! };

let made = 0;
const act = (time: string, by: string, change: 'unit' | string): Act => ({
  id: `a${made++}`,
  time,
  by,
  device: `tablet of ${by}`,
  how: 'done',
  changes: [
    change === 'unit'
      ? { kind: 'edit', table: 'units', row_id: 'unit', cells: {} }
      : { kind: 'add', table: 'soundings', row_id: change },
  ],
});

const ACTS = [
  act('2026-03-03T16:00:00+01:00', 'A', 'unit'),
  act('2026-03-04T09:12:00+01:00', 'A', 'T2 0'),
  act('2026-03-04T10:00:00+01:00', 'B', 'T1 0'),
  act('2026-03-04T11:40:00+01:00', 'A', 'T2 1'),
  act('2026-03-04T11:50:00+01:00', 'A', 'amended'),
  act('2026-03-04T12:00:00+01:00', 'A', 'T2 2'),
];

const inWords = (line: Line): string => {
  if (line.kind === 'day') return line.date;
  return line.kind === 'writer' ? line.act.by : line.acts.map(({ id }) => id).join(' ');
};

test('the newest day first, each writer apart, a run of readings of one hole as one line', () => {
  // An amendment is no reading of the run, and ends it.
  assert.deepEqual(linesOf(ACTS, cellsOf).map(inWords), [
    '2026-03-04',
    'A',
    'a5',
    'a4',
    'a3 a1',
    'B',
    'a2',
    '2026-03-03',
    'A',
    'a0',
  ]);
});

test('acts by person, hole, table and by others; an amendment is of the hole of its reading', () => {
  const wanted = (of: Partial<typeof EVERYTHING>): string[] =>
    wantedActs(ACTS, { ...EVERYTHING, ...of }, cellsOf, ({ by }) => by === 'B').map(({ id }) => id);
  assert.deepEqual(wanted({ by: 'B' }), ['a2']);
  assert.deepEqual(wanted({ where: 'hole T1' }), ['a0', 'a2']);
  assert.deepEqual(wanted({ where: 'hole T2' }), ['a1', 'a3', 'a4', 'a5']);
  assert.deepEqual(wanted({ where: 'table units' }), ['a0']);
  assert.deepEqual(wanted({ others: true }), ['a2']);
  assert.deepEqual(wanted({ others: true, by: 'A' }), []);
  assert.deepEqual(choicesOf(ACTS, cellsOf), {
    by: ['A', 'B'],
    device: ['tablet of A', 'tablet of B'],
    holes: ['T1', 'T2'],
    tables: ['soundings', 'units'],
  });
});

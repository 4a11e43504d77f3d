/** The facts of a day, of a quiet campaign and of a messy one: each number by a sum done by hand. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import type { TableName } from '@stillstand/campaign/tables';
import { rowsOfDocument } from '../row-source.ts';
import { dayFacts } from './day-facts.ts';

type Tables = Partial<Record<TableName, Record<string, string>[]>>;

function factsOf(tables: Tables, date: string) {
  let document = newDocument('a campaign');
  for (const [table, rows] of Object.entries(tables) as [TableName, Record<string, string>[]][])
    document = withRows(document, table, rows);
  return dayFacts(parseCampaign(document).campaign, rowsOfDocument(document), date);
}

const near = (a: number, b: number) => assert.ok(Math.abs(a - b) < 1e-9, `${a} is not ${b}`);
const at = (time: string, hole = 'H1') => (time === '' ? { hole } : { hole, time: `${time}:00+02:00` });
const joint = (seq: string, label: string, time: string, more: Record<string, string> = {}) => ({
  ...at(time),
  seq,
  action: 'add',
  item: 'joint',
  joint: label,
  length: '3 m',
  tight: 'yes',
  ...more,
});

/** A night shift over midnight, two crews, a breakdown, a reading without a time, an amended run, a withdrawn event. */
const NIGHT: Tables = {
  holes: [
    {
      hole: 'H1',
      method: 'string',
      state: 'refused',
      end_reason: 'boulder',
      ended_at: '2024-06-12T02:10:00+02:00',
    },
  ],
  ground_levels: [{ ...at('2024-06-11T21:50'), seq: '1', by: 'AB', ground_below_reference: '0 m' }],
  string_items: [joint('2', 'A1', '2024-06-11T22:00'), joint('8', 'A2', '2024-06-12T00:25', { by: 'CD' })],
  drives: [
    { ...at('2024-06-11T22:20'), seq: '3', by: 'AB', stick_up_start: '3 m', stick_up_end: '0.5 m' },
    { ...at('2024-06-12T01:00'), seq: '9', by: 'CD', stick_up_start: '3.5 m', stick_up_end: '2 m' },
  ],
  soundings: [
    // without a time, between two readings of one day
    { ...at(''), seq: '4', to_sediment: '1 m', purpose: 'after_drive' },
    { ...at('2024-06-12T01:20'), seq: '10', by: 'CD', to_sediment: '2.2 m', purpose: 'after_drive' },
  ],
  runs: [
    { ...at('2024-06-11T22:40'), row_id: 'r1', seq: '5', run: 'R1', start_mark: '1 m' },
    // goes on for 50 minutes, which is no stop
    {
      ...at('2024-06-11T23:30'),
      row_id: 'r2',
      seq: '5',
      run: 'R1',
      start_mark: '1 m',
      end_mark: '2 m',
      amends: 'r1',
      amend_kind: 'replace',
      recovered: '0.9 m',
      fall_in: '0.1 m',
    },
    { ...at('2024-06-12T01:40'), row_id: 'r3', seq: '11', run: 'R2', start_mark: '2.2 m', end_mark: '3 m' },
  ],
  events: [
    { ...at('2024-06-11T23:35'), row_id: 'e1', seq: '6', kind: 'breakdown', text: 'pump' },
    { ...at('2024-06-11T23:36'), row_id: 'e2', seq: '7', kind: 'weather', text: 'typed in the wrong hole' },
    { ...at('2024-06-11T23:37'), row_id: 'e3', seq: '7', amends: 'e2', amend_kind: 'withdraw' },
    {
      ...at('2024-06-12T00:20'),
      row_id: 'e4',
      seq: '7.5',
      kind: 'hand_over',
      by: 'AB',
      with_whom: 'CD',
      text: 'String: 1 joint',
      next: 'Add a joint',
      confirmed: 'yes',
    },
  ],
};

test('a shift over midnight is on the sheets of both days, each reading on its own', () => {
  const first = factsOf(NIGHT, '2024-06-11');
  // 3 − 0.5
  near(first.driven_m, 2.5);
  const [hole] = first.holes;
  assert.deepEqual([hole!.started, hole!.ended, hole!.state], ['21:50', null, 'open, 1 joint in']);
  near(hole!.reached_m!, 2.5);
  // 0.9 recovered, less 0.1 of fall-in
  near(first.recovered_m, 0.8);
  assert.deepEqual(first.recorders, ['AB']);
  assert.deepEqual(
    first.events.map((e) => [e.clock, e.kind, e.words]),
    [['23:35', 'breakdown', 'pump']],
  );
  assert.deepEqual(first.stops, [
    { hole: 'H1', words: 'stopped 23:30–00:25 on 2024-06-12, 55 min: breakdown, pump; hand-over' },
  ]);
  assert.deepEqual([first.pipe.went_in, first.pipe.in_string], [['H1: joint A1'], ['H1: joint A1']]);
  assert.equal(first.undated, 0);

  const second = factsOf(NIGHT, '2024-06-12');
  // 3.5 − 2; at the shoe 6 − 2 below the ground
  near(second.driven_m, 1.5);
  near(second.holes[0]!.reached_m!, 4);
  assert.deepEqual(
    [second.holes[0]!.started, second.holes[0]!.ended, second.holes[0]!.state],
    [null, '02:10', 'refused: boulder'],
  );
  assert.deepEqual([second.recovered_m, second.unmeasured], [0, 1]);
  assert.deepEqual(second.recorders, ['CD', 'AB']);
  assert.equal(second.events[0]!.words, 'to CD. String: 1 joint. Next: Add a joint. Confirmed.');
  assert.deepEqual(second.pipe.not_back, ['H1: joints A1, A2, not accounted for']);
});

test('no times, no crew: nothing is put on a day by guess, and what is left out is counted', () => {
  const strip = (rows: Record<string, string>[] = []) => rows.map(({ time: _, by: __, ...rest }) => rest);
  const bare: Tables = Object.fromEntries(
    Object.entries({ ...NIGHT, events: [], runs: NIGHT.runs!.slice(0, 1) }).map(([t, rows]) => [
      t,
      strip(rows),
    ]),
  );
  bare.holes = [{ hole: 'H1', method: 'string' }];
  const facts = factsOf(bare, '2024-06-11');
  assert.deepEqual(facts.holes, []);
  // ground, two joints, two drives, two soundings, one run
  assert.equal(facts.undated, 8);
  assert.deepEqual(facts.recorders, []);
  assert.deepEqual([facts.crew, facts.plan_next], ['', '']);
});

test('a no that stands, calls made late and not at all, a tape that is off, a bad row', () => {
  const facts = factsOf(
    {
      ...NIGHT,
      holes: [{ hole: 'H1', method: 'string', state: 'open' }],
      field_days: [{ date: '2024-06-11', crew: 'AB, CD', plan_next: 'Pull H1' }],
      checks: [
        {
          date: '2024-06-11',
          seq: '1',
          question: 'Nobody works alone',
          check: 'alone',
          answer: 'no',
          time: '2024-06-11T21:00:00+02:00',
        },
      ],
      events: [
        {
          seq: '1',
          date: '2024-06-11',
          time: '2024-06-11T21:00:00+02:00',
          kind: 'call_in',
          with_whom: 'harbour',
          due: '2024-06-11T22:00:00+02:00',
        },
        {
          seq: '2',
          date: '2024-06-11',
          time: '2024-06-11T22:12:30+02:00',
          kind: 'call_in',
          with_whom: 'harbour',
          due: '2024-06-11T23:10:00+02:00',
        },
        { seq: '3', date: '2024-06-11', kind: 'no such kind', text: 'x' },
      ],
      instrument_checks: [
        { seq: '4', date: '2024-06-11', instrument: 'T1', kind: 'tape', known: '10 m', observed: '9.988 m' },
      ],
    },
    '2024-06-11',
  );
  assert.equal(facts.open[0]!.level, 'danger');
  assert.deepEqual(
    facts.calls.map((c) => [c.clock, c.words, c.level]),
    [
      ['21:00', 'call with harbour, next 22:00', 'normal'],
      ['22:12', 'call with harbour, next 23:10; 12 min late', 'caution'],
      ['23:10', 'due with harbour: no call recorded', 'caution'],
    ],
  );
  assert.deepEqual(facts.instruments, [
    { words: 'tape T1 reads 1.2 cm short in 10 m; beyond its reading error', isBeyond: true },
  ]);
  assert.deepEqual([facts.plan_next, facts.unusable], ['Pull H1', 1]);
  // a date on which nothing was done
  const empty = factsOf(NIGHT, '2024-06-20');
  assert.deepEqual([empty.holes, empty.driven_m, empty.events], [[], 0, []]);
});

test('permits of the day: what stops or warns, and what they demand of the hole that ended on it', () => {
  const permits = [
    {
      row_id: 'p1',
      permit: 'Shore licence',
      kind: 'protected_ground',
      state: 'granted',
      until: '2024-06-11',
    },
    { row_id: 'p2', permit: 'Field', kind: 'landowner', state: 'granted', closing_seal: 'bentonite' },
    { row_id: 'p3', permit: 'Cables', kind: 'buried_services', state: 'not_needed' },
  ];
  assert.deepEqual(factsOf({ ...NIGHT, permits }, '2024-06-12').permits, [
    { level: 'stop', words: 'Shore licence: expired 2024-06-11, 1 day before this day' },
    { level: 'ok', words: 'H1 ended; Field demands seal: bentonite' },
  ]);
  // On the day before the hole went on: ordnance was still to be found out, and the licence ended that night.
  assert.deepEqual(factsOf({ ...NIGHT, permits }, '2024-06-11').permits, [
    { level: 'stop', words: 'Find out before drilling: unexploded ordnance' },
    { level: 'warn', words: 'Shore licence: granted, expires at the end of this day' },
  ]);
  assert.deepEqual(factsOf(NIGHT, '2024-06-12').permits, []);
});

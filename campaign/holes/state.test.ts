/** One state of a hole: at any reading, with one being typed, from a campaign or from rows as typed. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { holeBefore, holeState, readHole, rowsOfDocument } from './index.ts';

type Rows = Record<string, string>[];
const read = (tables: Record<string, Rows>) => {
  const document = Object.entries(tables).reduce(
    (made, [table, rows]) =>
      withRows(
        made,
        table as 'holes',
        rows.map((row, i) => ({ row_id: `${table}${i}`, ...row })),
      ),
    newDocument('x'),
  );
  const typed = rowsOfDocument(document);
  return { typed, campaign: { ...parseCampaign(document).campaign, typed } };
};

const TABLES: Record<string, Rows> = {
  holes: [
    { hole: 'H1', method: 'string', pipe: '3 in', state: 'finished' },
    { hole: 'H2', method: 'string', state: 'open' },
  ],
  pipes: [{ pipe: '3 in', outside_diameter_mm: '88.9', wall_mm: '5.49', makeup_loss: '3 cm' }],
  samplers: [{ sampler: 'V50', outside_mm: '60' }, { sampler: 'gouge' }],
  ground_levels: [{ hole: 'H1', seq: '1', ground_below_reference: '0.27 m' }],
  string_items: [
    { hole: 'H1', seq: '2', action: 'add', item: 'joint', joint: 'A1', length: '10 ft', tight: 'true' },
    { hole: 'H1', seq: '9', action: 'pull', item: 'joint', joint: 'A1' },
  ],
  drives: [{ hole: 'H1', seq: '3', stick_up_start: '2.8 m', stick_up_end: '0.3 m' }],
  soundings: [
    {
      hole: 'H1',
      seq: '4',
      to_sediment: '1.2 m',
      to_water_inside: '0.1 m',
      water_outside: '1.6 m',
      time: '2024-06-11T09:00:00+02:00',
    },
  ],
  runs: [{ hole: 'H1', seq: '5', run: 'R1', sampler: 'gouge', start_mark: '4 ft' }],
};
const near = (a: number | null | undefined, b: number) =>
  assert.ok(a != null && Math.abs(a - b) < 1e-9, `${a} is not ${b}`);

test('as it stood after a reading: not ended, the run in hand, the sampler of that run, units of then and now', () => {
  const { campaign } = read(TABLES);
  const then = holeState(campaign, 'H1', 5)!;
  assert.deepEqual([then.ended, then.run?.run, then.sampler?.sampler], [false, 'R1', 'gouge']);
  near(then.clearance?.clearance_m, 3.048 - 4 * 0.3048);
  assert.deepEqual(then.units, { pipe: 'ft', tape: 'm', cable: 'ft', core: 'm', last: 'ft' });
  assert.deepEqual(then.read_at, {
    inside: '2024-06-11T09:00:00+02:00',
    outside: '2024-06-11T09:00:00+02:00',
  });
  const now = holeState(campaign, 'H1')!;
  assert.deepEqual([now.ended, now.run, now.string], [true, null, []]);
  assert.equal(holeState(campaign, 'H9'), null);
});

test('nobody has used a sampler: the only one that goes down a string; null where two could be meant', () => {
  assert.equal(holeState(read(TABLES).campaign, 'H1', 4)!.sampler?.sampler, 'V50');
  const two = {
    ...TABLES,
    samplers: [
      { sampler: 'V50', outside_mm: '60' },
      { sampler: 'V40', outside_mm: '48' },
    ],
  };
  assert.equal(holeState(read({ ...two, runs: [] }).campaign, 'H1')!.sampler, null);
});

test('a reading that is being typed changes the state and nothing else', () => {
  const { campaign } = read(TABLES);
  const before = holeState(campaign, 'H1', 5)!;
  const typing = holeState(campaign, 'H1', 5, { ...before.run!, row_id: 'draft', seq: 6, end_mark_m: 2.9 })!;
  near(typing.clearance?.clearance_m, 0.148);
  assert.equal(typing.clearance?.verdict, 'stop');
  assert.equal(typing.entries.length, before.entries.length);
  assert.deepEqual(holeState(campaign, 'H1', 5), before);
});

test('before a place in the order is the state at the reading before it', () => {
  const { campaign } = read(TABLES);
  const { entries, readings, fold } = holeBefore(holeState(campaign, 'H1')!, 5);
  const at = holeState(campaign, 'H1', 4)!;
  assert.deepEqual([entries, readings, fold.states], [at.entries, at.readings, at.fold.states]);
});

test('from rows as typed it is the same state as from the whole campaign', () => {
  const { campaign, typed } = read(TABLES);
  const { problems, campaign: part, ...fromRows } = readHole(typed, 'H1')!;
  const { campaign: _, ...whole } = holeState(campaign, 'H1')!;
  assert.deepEqual(fromRows, whole);
  assert.deepEqual([problems, part.rows.pipes], [[], campaign.rows.pipes]);
});

test('a reading with amendments that differ is a conflict of its hole, from its place on', () => {
  const soundings = [
    ...TABLES['soundings']!,
    { hole: 'H1', seq: '4', to_sediment: '1.3 m', amends: 'soundings0', amend_kind: 'replace' },
    { hole: 'H1', seq: '4', to_sediment: '1.4 m', amends: 'soundings0', amend_kind: 'replace' },
  ];
  const { campaign } = read({ ...TABLES, soundings });
  assert.deepEqual(holeState(campaign, 'H1')!.conflicts, [
    { table: 'soundings', row_id: 'soundings0', seq: 4 },
  ]);
  assert.deepEqual(holeState(campaign, 'H1', 3)!.conflicts, []);
  assert.deepEqual(holeState(campaign, 'H2')!.conflicts, []);
});

test('a unit typed in a reading that was withdrawn is no longer the crew’s', () => {
  const soundings = [
    ...TABLES['soundings']!,
    { hole: 'H1', seq: '6', to_sediment: '4 ft' },
    { hole: 'H1', seq: '6', amends: 'soundings1', amend_kind: 'withdraw' },
  ];
  const { campaign } = read({ ...TABLES, soundings });
  assert.equal(holeState(campaign, 'H1')!.units.tape, 'm');
});

test('a reading that cannot be used keeps its words: the joint its label, the run that it is lifted', () => {
  const { campaign } = read({
    holes: [{ hole: 'H1', method: 'string', state: 'open' }],
    string_items: [
      { hole: 'H1', seq: '1', action: 'add', item: 'joint', joint: 'A1', length: '3 m', tight: 'true' },
      { hole: 'H1', seq: '2', action: 'add', item: 'joint', joint: 'A2', length: 'three' },
      { hole: 'H1', seq: '4', action: 'sold', item: 'joint', joint: 'A2' },
    ],
    runs: [{ hole: 'H1', seq: '3', run: 'R1', start_mark: 'deep', outcome: 'full' }],
  });
  const now = holeState(campaign, 'H1', 3)!;
  assert.deepEqual(
    now.fold.account.map((i) => i.label),
    ['A1', 'A2'],
  );
  assert.equal(now.run, null);
  // what was done to A2 is not known: it may be any item, of any length
  assert.equal(holeState(campaign, 'H1')!.fold.collar_to_shoe_m, null);
});

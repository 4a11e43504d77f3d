/** The chain of samples and cores, by histories written out by hand. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import type { TableName } from '@stillstand/campaign/tables';
import {
  type Custody,
  chainProblems,
  costsWords,
  custodyOf,
  custodyWords,
  plannedSamples,
  plannedWhere,
} from './index.ts';
import { sampleOverlaps } from './overlaps.ts';

type Rows = Record<string, string>[];

const HOLES: Rows = [
  { hole: 'T1', method: 'string', state: 'open' },
  { hole: 'T2', method: 'hand', state: 'finished' },
];
const RUNS: Rows = [
  { hole: 'T1', seq: '1', run: 'R1', recovered: '1.8 m', time: '2026-03-01T10:00:00Z' },
  { hole: 'T1', seq: '2', run: 'R2', recovered: '0 m', time: '2026-03-01T11:00:00Z' },
];
const LABORATORIES: Rows = [
  { laboratory: 'Quay', weeks: '6', price: '380', currency: 'EUR' },
  { laboratory: 'Hill' },
];
const SAMPLES: Rows = [
  { sample: 'A', hole: 'T1', depth_basis: 'run', run: 'R1', top: '0.42 m', bottom: '0.46 m' },
  { sample: 'B', hole: 'T1', depth_basis: 'run', run: 'R1', top: '0.80 m', bottom: '0.82 m' },
];

function campaignOf(tables: Partial<Record<TableName, Rows>>) {
  const usual = { holes: HOLES, runs: RUNS, laboratories: LABORATORIES, samples: SAMPLES };
  let document = newDocument('chain');
  for (const [name, rows] of Object.entries({ ...usual, ...tables }))
    document = withRows(document, name as TableName, rows);
  const { campaign, problems } = parseCampaign(document);
  assert.deepEqual(
    problems.filter(({ severity, code }) => severity === 'error' && code !== 'amendment-conflict'),
    [],
  );
  return campaign;
}

/** Entries of sample A unless another is named, each with a `seq` as its day gives it. */
const entries = (...rows: Rows): Rows =>
  rows.map((row, i) => ({
    ...(row['hole'] === undefined && row['sample'] === undefined ? { sample: 'A' } : {}),
    seq: String(i + 1),
    row_id: `e${i + 1}`,
    ...row,
  }));

const chainOf = (tables: Partial<Record<TableName, Rows>>, today = '2026-06-01') =>
  custodyOf(campaignOf(tables), today);
const ofA = (custody: Rows, more: Partial<Record<TableName, Rows>> = {}, today?: string): Custody =>
  chainOf({ custody, ...more }, today).find(({ name }) => name === 'A')!;
const codes = (tables: Partial<Record<TableName, Rows>>) =>
  chainProblems(campaignOf(tables)).map(({ code, label, found }) => `${code} ${label}: ${found}`);

test('nothing but samples and cores has a place; what came up empty is no core', () => {
  assert.deepEqual(
    chainOf({}).map(({ name, state, table }) => [name, state, table]),
    [
      ['A', 'no entry', 'samples'],
      ['B', 'no entry', 'samples'],
      ['T1 R1', 'no entry', 'runs'],
    ],
  );
});

test('sent, arrived, dated, returned: each state, its days and its words', () => {
  const stored = { action: 'stored', date: '2026-03-02', place: 'Cold room', shelf: '3', box: 'B7' };
  const sent = { action: 'sent', date: '2026-03-10', laboratory: 'Quay', submission: 'P1', left: '4 g' };
  assert.equal(custodyWords(ofA(entries(stored))), 'in store, Cold room, shelf 3, box B7');
  // 2026-03-10 and six weeks are 2026-04-21; to 1 June are 83 and 41 days.
  const waiting = ofA(entries(stored, sent));
  assert.equal(waiting.state, 'sent');
  assert.deepEqual(
    [waiting.waiting?.days, waiting.waiting?.due, waiting.waiting?.due_from, waiting.waiting?.overdue_days],
    [83, '2026-04-21', 'usual', 41],
  );
  assert.deepEqual([waiting.place, waiting.box, waiting.left], ['Cold room', 'B7', '4 g']);
  assert.equal(
    custodyWords(waiting),
    'sent to Quay, parcel P1, on 2026-03-10, waiting 83 days, overdue by 41 days (due about 2026-04-21)',
  );
  const due = { ...sent, due: '2026-06-01' };
  assert.match(custodyWords(ofA(entries(stored, due))), /waiting 83 days, due 2026-06-01$/);
  assert.equal(ofA(entries(stored, due), {}, '2026-06-02').waiting?.overdue_days, 1);
  // 2026-03-10 to 2029-03-10 are three years, one of them a leap year.
  assert.match(custodyWords(ofA(entries(stored, due), {}, '2029-03-10')), /waiting 1,096 days/);
  const arrived = { action: 'arrived', date: '2026-03-12' };
  assert.equal(ofA(entries(stored, sent, arrived)).state, 'arrived');
  const result = { action: 'result', date: '2026-05-01' };
  assert.equal(ofA(entries(stored, sent, arrived, result)).state, 'result');
  const back = { action: 'returned', date: '2026-05-20', place: 'Archive' };
  // A new place leaves the shelf and box of the old one behind.
  assert.deepEqual(
    (({ state, place, shelf, box }) => [state, place, shelf, box])(ofA(entries(stored, sent, back))),
    ['stored', 'Archive', null, null],
  );
});

test('a date in the tables ends the wait without an entry; a second parcel waits for a second one', () => {
  const sent = (date: string) => ({ action: 'sent', date, laboratory: 'Quay' });
  const dated = (...codes: string[]) => ({
    determinations: codes.map((lab_code) => ({
      lab_code,
      sample: 'A',
      method: 'radiocarbon',
      value: '5000',
      error: '30',
    })),
  });
  assert.equal(ofA(entries(sent('2026-03-10'))).state, 'sent');
  const one = ofA(entries(sent('2026-03-10')), dated('Q-1'));
  assert.deepEqual([one.state, custodyWords(one)], ['result', 'result received: Q-1']);
  const again = entries(sent('2026-03-10'), sent('2026-05-10'));
  assert.equal(ofA(again, dated('Q-1')).state, 'sent');
  assert.equal(ofA(again, dated('Q-1', 'Q-2')).state, 'result');
  const old = ofA([], dated('Q-1'));
  assert.deepEqual([old.state, old.results.unentered], ['result', 1]);
  // A date from before the chain was kept is entered first: then the parcel waits for another.
  const entered = { action: 'result', date: '2025-01-01' };
  const then = ofA(entries(entered, sent('2026-03-10')), dated('Q-1'));
  assert.deepEqual([then.state, then.results.unentered], ['sent', 0]);
  assert.equal(ofA(entries(entered, sent('2026-03-10')), dated('Q-1', 'Q-2')).state, 'result');
});

test('entries are read by their days: the later of them counts, in whatever order they were typed', () => {
  const custody = entries(
    { action: 'sent', date: '2026-03-10', laboratory: 'Quay', seq: '1' },
    { action: 'stored', date: '2026-03-02', place: 'Cold room', seq: '1' },
    { action: 'stored', place: 'Van', seq: '1' },
  );
  const a = ofA(custody);
  assert.deepEqual(
    a.entries.map(({ row_id }) => row_id),
    ['e3', 'e2', 'e1'],
  );
  assert.deepEqual([a.state, a.place], ['sent', 'Cold room']);
});

test('what was amended counts as amended, what was withdrawn not, and what is disputed is said', () => {
  const custody = entries(
    { action: 'stored', date: '2026-03-02', place: 'Cold room' },
    { action: 'lent', date: '2026-04-02', laboratory: 'Hill', due: '2026-05-01' },
  );
  const lent = ofA(custody);
  assert.equal(custodyWords(lent), 'lent to Hill, on 2026-04-02, overdue by 31 days (due back 2026-05-01)');
  const amend = (row: Record<string, string>) => ({ sample: 'A', seq: '9', action: 'lent', ...row });
  const later = amend({
    row_id: 'x',
    amends: 'e2',
    amend_kind: 'replace',
    date: '2026-04-02',
    laboratory: 'Hill',
    due: '2026-07-01',
  });
  assert.equal(ofA([...custody, later]).loan?.overdue_days, null);
  const withdrawn = amend({ row_id: 'y', amends: 'e2', amend_kind: 'withdraw' });
  assert.equal(ofA([...custody, withdrawn]).state, 'stored');
  const both = ofA([...custody, later, withdrawn]);
  assert.deepEqual([both.state, both.isDisputed], ['stored', true]);
  assert.match(custodyWords(both), /an entry cannot be used/);
});

test('an entry about all cores of a hole is about each, and its cost is counted once', () => {
  const pushes = [
    { hole: 'T2', seq: '1', push: 'P1', from: '0 m', to: '1 m', recovered: '1 m' },
    { hole: 'T2', seq: '2', push: 'P2', from: '1 m', to: '2 m', recovered: '1 m' },
  ];
  const custody = entries(
    { hole: 'T2', action: 'stored', place: 'Store', cost: '1000.5', currency: 'eur' },
    { hole: 'T2', run: 'P2', action: 'lent', laboratory: 'Hill', cost: '240', currency: 'EUR' },
    { hole: 'T2', run: 'P1', tray: 'tray 2', action: 'discarded', cost: '12' },
  );
  const chain = chainOf({ pushes, custody });
  assert.deepEqual(
    chain.filter(({ hole }) => hole === 'T2').map(({ name, state, place }) => [name, state, place]),
    [
      ['T2 P1', 'stored', 'Store'],
      ['T2 P1, tray 2', 'discarded', 'Store'],
      ['T2 P2', 'lent', 'Store'],
    ],
  );
  // 1000.50 + 240.00
  assert.equal(costsWords(chain.find(({ name }) => name === 'T2 P2')!.costs), '1,240.50 EUR');
  assert.equal(
    costsWords(chain.find(({ name }) => name === 'T2 P1, tray 2')!.costs),
    '1,000.50 EUR and 12.00',
  );
});

test('entries that cannot be so are named, once, and used as entered', () => {
  const at = (action: string, date: string, more: Record<string, string> = {}) => ({ action, date, ...more });
  assert.deepEqual(codes({ custody: entries(at('discarded', '2026-04-01'), at('sent', '2026-05-01')) }), [
    'custody-after-discarding A: sent on 2026-05-01, discarded on 2026-04-01 before',
  ]);
  assert.deepEqual(
    codes({
      custody: entries(at('sent', '2026-03-05'), at('discarded', '2026-04-01'), at('result', '2026-05-01')),
    }),
    [],
  );
  assert.deepEqual(
    codes({
      custody: entries(at('lent', '2026-04-01', { laboratory: 'Hill' }), at('sent', '2026-05-01')),
    }),
    ['custody-while-lent A: sent on 2026-05-01, lent on 2026-04-01 to Hill and not returned'],
  );
  assert.deepEqual(codes({ custody: entries(at('result', '2026-05-01')) }), [
    'custody-never-sent A: result received on 2026-05-01',
  ]);
  assert.deepEqual(codes({ custody: entries(at('stored', '2026-02-28')) }), [
    'custody-before-taken A: stored on 2026-02-28',
  ]);
  assert.deepEqual(codes({ custody: entries({ hole: 'T1', run: 'R9', action: 'stored' }) }), [
    'custody-of-nothing T1: R9',
  ]);
  assert.deepEqual(
    codes({
      custody: entries({ hole: 'T2', action: 'stored' }, { hole: 'T1', tray: 'A', action: 'stored' }),
    }),
    ['custody-of-nothing T2: all cores of hole T2', 'custody-of-nothing T1: A without a run'],
  );
  // Of a whole core and its part once.
  const core = { hole: 'T1', run: 'R1' };
  assert.deepEqual(
    codes({
      custody: entries(
        { ...core, ...at('discarded', '2026-03-05') },
        { ...core, ...at('opened', '2026-03-06') },
        { ...core, tray: 'tray 1', ...at('stored', '2026-03-05', { seq: '0' }) },
      ),
    }),
    ['custody-after-discarding T1 R1: opened on 2026-03-06, discarded on 2026-03-05 before'],
  );
});

test('two samples of one centimetre are a problem; pieces of one sample, and neighbours, are none', () => {
  const cut = (sample: string, top: string, bottom: string, more: Record<string, string> = {}) => ({
    ...{ sample, hole: 'T1', depth_basis: 'run', run: 'R1', top, bottom },
    ...more,
  });
  const found = (...samples: Rows) =>
    sampleOverlaps(campaignOf({ samples })).map(({ first, second, from_m, to_m }) =>
      [first.sample, second.sample, from_m.toFixed(3), to_m.toFixed(3)].join(' '),
    );
  assert.deepEqual(found(cut('C', '50 cm', '52 cm'), cut('A', '0.51 m', '0.55 m')), ['C A 0.510 0.520']);
  assert.deepEqual(found(cut('A', '50 cm', '52 cm'), cut('B', '52 cm', '54 cm')), []);
  assert.deepEqual(found(cut('A', '50 cm', ''), cut('B', '50 cm', '')), ['A B 0.500 0.500']);
  assert.deepEqual(found(cut('A', '50 cm', '54 cm'), cut('B', '52 cm', '')), ['A B 0.520 0.520']);
  assert.deepEqual(found(cut('A', '50 cm', '54 cm'), cut('B', '50 cm', ''), cut('C', '54 cm', '')), []);
  const piece = cut('B', '51 cm', '52 cm', { parent: 'A' });
  const other = cut('C', '51 cm', '52 cm', { parent: 'A' });
  assert.deepEqual(found(cut('A', '50 cm', '54 cm'), piece, other), []);
  assert.deepEqual(
    found(cut('A', '50 cm', '54 cm'), cut('B', '50 cm', '54 cm', { depth_basis: 'in_situ', run: '' })),
    [],
  );
  const [problem] = chainProblems(
    campaignOf({ samples: [cut('A', '50 cm', '54 cm'), cut('B', '52 cm', '53 cm')] }),
  );
  assert.equal(problem!.found, 'A and B, both from 0.520–0.530 m of run R1 of hole T1');
  assert.match(problem!.fix, /name A as the parent of B/);
  // Ten from one depth: each but the first is named once.
  const ten = Array.from({ length: 10 }, (_, i) => cut(`S${i}`, '50 cm', '52 cm'));
  const each = chainProblems(campaignOf({ samples: ten }));
  assert.equal(each.length, 9);
  assert.match(each.at(-1)!.found, /^S0 and S9, both from .*; 8 more there$/);
});

test('planned, taken, or missed when its hole ended', () => {
  const planned_samples = [
    { sample: 'A', hole: 'T1', top: '3.60 m', bottom: '3.64 m' },
    { sample: 'S3', hole: 'T1', top: '3.60 m', bottom: '3.64 m', unit: 'base of peat' },
    { sample: 'S4', hole: 'T1', unit: 'base of peat' },
    { sample: 'S5', hole: 'T2', top: '12 ft' },
    { sample: 'S6' },
  ];
  const campaign = campaignOf({ planned_samples });
  const planned = plannedSamples(campaign);
  assert.deepEqual(
    planned.map(({ row, state }) => [row.sample, state, plannedWhere(row)]),
    [
      ['A', 'taken', '3.60–3.64 m'],
      ['S3', 'planned', '3.60–3.64 m, base of peat'],
      ['S4', 'planned', 'base of peat'],
      // 12 ft are 3.6576 m.
      ['S5', 'missed', '3.66 m'],
      ['S6', 'planned', ''],
    ],
  );
  assert.deepEqual(codes({ planned_samples }), [
    'planned-sample-missed S5: no sample S5, and hole T2 has ended',
  ]);
});

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, readingOf, withRows, writeFiles } from '@stillstand/campaign/document';
import { tablet } from './fixtures/tablet.ts';
import { sameCampaign } from './index.ts';

/** Two tablets that parted: T2 with run R13, M1 with unit 4, T4 with a sounding. */
function parted() {
  const rows = [
    ['holes', ['T2', 'M1', 'T4'].map((hole) => ({ hole, row_id: hole }))],
    [
      'runs',
      [
        {
          hole: 'T2',
          seq: '13',
          run: 'R13',
          end_mark: '15.20 m',
          time: '2026-02-14T14:38:00+01:00',
          row_id: 'r13',
        },
      ],
    ],
    ['units', [{ hole: 'M1', unit: '4', sediment: 'washover', bottom: '3.75 m', row_id: 'u4' }]],
  ] as const;
  const document = rows.reduce((made, [table, of]) => withRows(made, table, of), newDocument('spit', 'id'));
  const a = tablet('A', document, 'recorder');
  return { a, b: tablet('B', a.doc, 'driller') };
}

test('the run amended twice: both are shown with who, when and why; the choice is in force on both', () => {
  const { a, b } = parted();
  a.edits.amend('runs', 'r13', { end_mark: '15.25 m', amend_reason: 'read again on the tape' });
  b.edits.amend('runs', 'r13', { end_mark: '15.02 m', amend_reason: 'two digits transposed' });
  const plan = a.plan(b);
  assert.equal(plan.relation, 'both changed');
  assert.equal(plan.by, 'history');
  const [conflict, ...others] = plan.conflicts;
  assert.deepEqual(others, []);
  assert.deepEqual(
    { ...conflict, sides: conflict!.sides.map(({ time: _, ...side }) => side) },
    {
      key: 'amendment runs r13',
      kind: 'amendment',
      table: 'runs',
      row_id: 'r13',
      column: '',
      name: 'Hole T2, run R13: cable mark at the end',
      was: '15.20 m at 14:38',
      sides: [
        {
          side: 'ours',
          value: '15.25 m',
          words: 'cable mark at the end 15.25 m',
          by: 'recorder',
          device: 'A',
          reason: 'read again on the tape',
        },
        {
          side: 'theirs',
          value: '15.02 m',
          words: 'cable mark at the end 15.02 m',
          by: 'driller',
          device: 'B',
          reason: 'two digits transposed',
        },
      ],
      choices: [
        { key: conflict!.choices[0]!.key, side: 'ours', words: 'Keep 15.25 m' },
        { key: conflict!.choices[1]!.key, side: 'theirs', words: 'Keep 15.02 m' },
        { key: 'r13', side: null, words: 'Keep 15.20 m, as first written' },
        { key: 'later', side: null, words: 'Decide later' },
      ],
      effect: [],
      until: 'The reading is not used until this is decided.',
    },
  );
  a.merge(b, new Map([[conflict!.key, conflict!.choices[1]!.key]]));
  b.merge(a);
  for (const each of [a, b])
    assert.equal(readingOf('runs', each.edits.rows('runs'), 'r13')?.now?.cells['end_mark'], '15.02 m');
  assert.deepEqual(writeFiles(a.document()), writeFiles(b.document()));
  assert.equal(a.plan(b).relation, 'same');
});

test('the base of a unit set twice stays visible until it is decided, and the choice is one act', () => {
  const { a, b } = parted();
  a.edits.editRow('units', 'u4', { bottom: '3.82 m' });
  b.edits.editRow('units', 'u4', { bottom: '3.79 m' });
  const [conflict] = a.plan(b).conflicts;
  assert.equal(conflict?.name, 'Hole M1, unit 4: bottom');
  assert.equal(conflict?.was, '3.75 m');
  assert.deepEqual(
    conflict?.sides.map(({ side, value, by }) => [side, value, by]),
    [
      ['ours', '3.82 m', 'recorder'],
      ['theirs', '3.79 m', 'driller'],
    ],
  );
  b.merge(a);
  assert.equal(b.acts.conflicts().length, 1);
  a.merge(b, new Map([[conflict!.key, 'value 3.82 m']]));
  assert.equal(a.cell('units', 'u4', 'bottom'), '3.82 m');
  assert.deepEqual(a.acts.conflicts(), []);
  b.merge(a);
  assert.deepEqual(b.acts.conflicts(), []);
  assert.equal(b.cell('units', 'u4', 'bottom'), '3.82 m');
});

test('what came and what is only here, by table and hole; the acts of both strands in words', () => {
  const { a, b } = parted();
  a.edits.editRow('units', 'u4', { colour: '10YR 2/1' });
  b.edits.addReading('soundings', { hole: 'T4', to_sediment: '6.14 m' });
  b.edits.addReading('soundings', { hole: 'T4', to_sediment: '6.20 m' });
  b.edits.amend('runs', 'r13', { end_mark: '15.02 m' });
  b.files.set('photos/new.jpg', 1000);
  a.files.set('photos/own.jpg', 500);
  const plan = a.plan(b);
  assert.deepEqual(
    plan.came.map(({ names: _, ...count }) => count),
    [
      { table: 'soundings', hole: 'T4', added: 2, changed: 0, deleted: 0 },
      { table: 'runs', hole: 'T2', added: 0, changed: 1, deleted: 0 },
    ],
  );
  assert.deepEqual(
    plan.only_here.map(({ table, hole, changed }) => [table, hole, changed]),
    [['units', 'M1', 1]],
  );
  assert.deepEqual(
    plan.ours.map(({ words, by, device, rows }) => [words, by, device, rows]),
    [['edit unit 4 of M1 (colour)', 'recorder', 'A', 1]],
  );
  assert.equal(plan.theirs.length, 3);
  assert.deepEqual([plan.conflicts, plan.different], [[], 0]);
  assert.deepEqual(plan.files, { come: ['photos/new.jpg'], bytes: 1000, only_here: 1, missing: [] });
});

test('merged again nothing changes; a copy that is behind brings nothing', () => {
  const { a, b } = parted();
  a.edits.addReading('soundings', { hole: 'T4', to_sediment: '6.14 m' });
  assert.equal(b.plan(a).relation, 'theirs ahead');
  assert.equal(a.plan(b).relation, 'ours ahead');
  b.merge(a);
  const files = writeFiles(b.document());
  const acts = b.acts.all().length;
  b.merge(a);
  b.merge(b);
  assert.deepEqual(writeFiles(b.document()), files);
  assert.equal(b.acts.all().length, acts);
  assert.equal(b.plan(a).relation, 'same');
});

test('one slip corrected alike on both, each for a reason of its own, is nothing to decide', () => {
  const { a, b } = parted();
  a.edits.amend('runs', 'r13', { end_mark: '15.02 m', amend_reason: 'read again on the tape' });
  b.edits.amend('runs', 'r13', { end_mark: '15.02 m', amend_reason: 'two digits transposed' });
  assert.deepEqual(a.plan(b).conflicts, []);
  a.merge(b);
  assert.equal(readingOf('runs', a.edits.rows('runs'), 'r13')?.now?.cells['end_mark'], '15.02 m');
});

test('both merge at once: decided alike there is nothing left, decided differently it is a conflict again', () => {
  for (const [ofA, ofB, open] of [
    ['3.82 m', '3.82 m', 0],
    ['3.82 m', '3.79 m', 1],
  ] as const) {
    const { a, b } = parted();
    a.edits.editRow('units', 'u4', { bottom: '3.82 m' });
    b.edits.editRow('units', 'u4', { bottom: '3.79 m' });
    a.edits.amend('runs', 'r13', { end_mark: '15.25 m' });
    b.edits.amend('runs', 'r13', { end_mark: '15.02 m' });
    const [copyOfA, copyOfB] = [tablet('A2', a.doc), tablet('B2', b.doc)];
    const decided = (each: typeof a, other: typeof a, value: string) =>
      new Map(
        each.plan(other).conflicts.map(({ key, kind, choices }) => {
          const words = kind === 'cell' ? value : value === '3.82 m' ? '15.25 m' : '15.02 m';
          return [key, choices.find((choice) => choice.words.includes(words))!.key];
        }),
      );
    a.merge(copyOfB, decided(a, copyOfB, ofA));
    b.merge(copyOfA, decided(b, copyOfA, ofB));
    a.merge(b);
    b.merge(a);
    for (const each of [a, b]) {
      assert.equal(each.acts.conflicts().length, open);
      const { state } = readingOf('runs', each.edits.rows('runs'), 'r13')!;
      assert.equal(state, open === 0 ? 'replaced' : 'conflict');
    }
    assert.deepEqual(writeFiles(a.document()), writeFiles(b.document()));
  }
});

test('deleted here and edited there it is kept; deleted here and named there it is restored; both are said', () => {
  const { a, b } = parted();
  a.edits.removeRow('units', 'u4');
  a.edits.removeRow('holes', 'T4');
  b.edits.editRow('units', 'u4', { colour: '10YR 2/1' });
  b.edits.addReading('soundings', { hole: 'T4', to_sediment: '6.14 m' });
  const words = a.plan(b).notes.map((note) => note.words);
  assert.deepEqual(words, [
    'Unit 4 of M1 was deleted here and edited in the copy: it is kept.',
    'Hole T4 was removed while it was used elsewhere. It has been restored.',
  ]);
  a.merge(b);
  assert.equal(a.cell('units', 'u4', 'colour'), '10YR 2/1');
  assert.equal(a.cell('holes', 'T4', 'hole'), 'T4');
});

test('a hole of two names is one conflict, and its units follow the name that is chosen', () => {
  const { a, b } = parted();
  a.edits.editRow('holes', 'M1', { hole: 'North' });
  b.edits.editRow('holes', 'M1', { hole: 'South' });
  const { conflicts } = a.plan(b);
  assert.equal(conflicts.length, 1);
  assert.match(conflicts[0]!.name, /^Hole (?:North|South): hole, and in 1 unit$/);
  a.merge(b, new Map([[conflicts[0]!.key, 'value South']]));
  assert.deepEqual([a.cell('holes', 'M1', 'hole'), a.cell('units', 'u4', 'hole')], ['South', 'South']);
  assert.deepEqual(a.acts.conflicts(), []);
});

test('campaigns are told apart by the identity of their package', () => {
  const [one, two] = [newDocument('one', '1'), newDocument('two', '2')];
  assert.equal(sameCampaign(one, newDocument('renamed', '1')), 'same');
  assert.equal(sameCampaign(one, two), 'other');
  assert.equal(sameCampaign(one, newDocument('none')), 'not stated');
});

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, rowsInForce, withRows, writeFiles } from '@stillstand/campaign/document';
import { readHole, rowsOfDocument } from '@stillstand/campaign/holes';
import { type Tablet, tablet } from './fixtures/tablet.ts';

/** T4: one joint of 3.00 m, ground 0.20 m below the reference, driven until 0.50 m stick up. */
function parted() {
  const tables = [
    ['holes', [{ row_id: 'h', hole: 'T4', method: 'string' }]],
    ['ground_levels', [{ row_id: 'g', hole: 'T4', seq: '1', ground_below_reference: '0.20 m' }]],
    [
      'string_items',
      [{ row_id: 'j', hole: 'T4', seq: '2', action: 'add', item: 'joint', joint: 'A1', length: '3.00 m' }],
    ],
    ['drives', [{ row_id: 'd', hole: 'T4', seq: '3', stick_up_start: '2.80 m', stick_up_end: '0.50 m' }]],
  ] as const;
  const document = tables.reduce(
    (made, [table, rows]) => withRows(made, table, rows),
    newDocument('spit', 'id'),
  );
  const a = tablet('A', document, 'recorder');
  return { a, b: tablet('B', a.doc, 'driller') };
}

const at = (clock: string): string => `2026-02-15T${clock}:00+01:00`;
const seqs = (each: Tablet, table: 'soundings' | 'events' | 'runs' | 'drives') =>
  rowsInForce(table, each.edits.rows(table)).map(({ row_id, cells }) => `${row_id} ${cells['seq']}`);

test('a drive here and a run in the copy at one place: asked once, with the numbers that differ', () => {
  const { a, b } = parted();
  a.edits.addReading('drives', {
    hole: 'T4',
    stick_up_start: '0.50 m',
    stick_up_end: '0.20 m',
    time: at('10:20'),
    row_id: 'd2',
  });
  b.edits.addReading('runs', {
    hole: 'T4',
    run: 'R1',
    start_mark: '1.50 m',
    end_mark: '2.10 m',
    time: at('10:05'),
    row_id: 'r',
  });
  const [conflict, ...others] = a.plan(b).conflicts;
  assert.deepEqual(others, []);
  assert.equal(conflict?.kind, 'order');
  assert.equal(conflict?.name, 'Hole T4: two readings hold one place');
  // 2.10 m below the collar − stick-up 0.50 − ground 0.20 = 1.40 m; after the drive 2.10 − 0.20 − 0.20 = 1.70 m.
  assert.equal(conflict?.effect[0], 'depth of run R1 1.40 or 1.70 m');
  assert.deepEqual(
    conflict?.choices.map(({ key, words }) => [key, words]),
    [
      ['ours', 'Keep both, drive at 10:20 of T4 first'],
      ['theirs', 'Keep both, run R1 of T4 first'],
      ['later', 'Decide later'],
    ],
  );
  a.merge(b, new Map([[conflict!.key, 'theirs']]));
  b.merge(a);
  for (const each of [a, b])
    assert.ok(
      Math.abs(readHole(rowsOfDocument(each.document()), 'T4')!.fold.runs[0]!.tip_depth_m! - 1.4) < 1e-9,
    );
  assert.deepEqual(a.plan(b).conflicts, []);
  assert.equal(a.plan(b).relation, 'same');
});

test('where the order changes no number the clock puts them, on both devices at once as on one', () => {
  const { a, b } = parted();
  a.edits.addReading('soundings', { hole: 'T4', to_sediment: '2.30 m', time: at('10:20'), row_id: 's' });
  b.edits.addReading('events', { hole: 'T4', kind: 'note', text: 'shells', time: at('10:05'), row_id: 'n' });
  const plan = a.plan(b);
  assert.deepEqual(plan.conflicts, []);
  assert.match(plan.notes.map(({ words }) => words).join(), /One reading is put in order by the clock/);
  const [ofA, ofB] = [tablet('A2', a.doc), tablet('B2', b.doc)];
  a.merge(ofB);
  b.merge(ofA);
  a.merge(b);
  b.merge(a);
  assert.deepEqual(writeFiles(a.document()), writeFiles(b.document()));
  assert.equal(a.edits.rows('soundings').length + a.edits.rows('events').length, 3);
  const problems = parseCampaign(a.document()).problems.map(({ code }) => code);
  assert.ok(!problems.includes('seq-twice') && !problems.includes('row-twice'), problems.join());
  assert.deepEqual([...seqs(a, 'events'), ...seqs(a, 'soundings')], ['n 4', 's 5']);
});

test('one reading moved to two places is asked about', () => {
  const { a, b } = parted();
  a.edits.addReading('soundings', { hole: 'T4', to_sediment: '2.30 m', row_id: 's' });
  b.merge(a);
  a.edits.move('soundings', 's', 2.5);
  b.edits.move('soundings', 's', 1.5);
  const [conflict, ...others] = a.plan(b).conflicts;
  assert.deepEqual(others, []);
  assert.equal(conflict?.until, 'It stays number 4 until this is decided.');
  a.merge(b, new Map([[conflict!.key, '1.5']]));
  b.merge(a);
  assert.deepEqual([seqs(a, 'soundings'), seqs(b, 'soundings')], [['s 1.5'], ['s 1.5']]);
});

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, withRows } from '@stillstand/campaign/document';
import * as Y from 'yjs';
import { fill, unattended } from './index.ts';

/** A device with a copy of a campaign of one hole with one unit. */
function device(name: string, from?: Y.Doc) {
  const doc = new Y.Doc();
  if (from === undefined) {
    const holes = withRows(newDocument('two', 'id'), 'holes', [{ hole: 'H1', row_id: 'h' }]);
    fill(doc, withRows(holes, 'units', [{ hole: 'H1', unit: '1', sediment: 'sand', row_id: 'u' }]));
  } else Y.applyUpdate(doc, Y.encodeStateAsUpdate(from));
  let made = 0;
  const { acts, edits } = unattended(doc, {
    crew: () => ({ by: `crew of ${name}`, device: name }),
    time: () => '2026-03-04T10:00:00+01:00',
    newRowId: () => `${name}${made++}`,
  });
  const cell = (table: 'units' | 'holes', row_id: string, column: string) =>
    edits.rows(table).find((row) => row.row_id === row_id)?.cells[column];
  return { doc, acts, edits, cell };
}

const exchange = (a: { doc: Y.Doc }, b: { doc: Y.Doc }): void => {
  const [ofA, ofB] = [Y.encodeStateAsUpdate(a.doc), Y.encodeStateAsUpdate(b.doc)];
  Y.applyUpdate(a.doc, ofB);
  Y.applyUpdate(b.doc, ofA);
};

test('an act says who did what to which row, and what stood there', () => {
  const a = device('A');
  a.edits.editRow('units', 'u', { sediment: 'peat', top: '1 m' });
  a.edits.addReading('soundings', { hole: 'H1', to_sediment: '2 m', row_id: 's' });
  a.edits.undo();
  assert.deepEqual(
    a.acts.all().map(({ by, device, how, changes }) => ({ by, device, how, changes })),
    [
      {
        by: 'crew of A',
        device: 'A',
        how: 'done',
        changes: [
          {
            kind: 'edit',
            table: 'units',
            row_id: 'u',
            cells: {
              sediment: { before: 'sand', after: 'peat', known: [] },
              top: { before: '', after: '1 m', known: [] },
            },
          },
        ],
      },
      {
        by: 'crew of A',
        device: 'A',
        how: 'done',
        changes: [{ kind: 'add', table: 'soundings', row_id: 's' }],
      },
      {
        by: 'crew of A',
        device: 'A',
        how: 'undone',
        changes: [
          {
            kind: 'edit',
            table: 'units',
            row_id: 'u',
            cells: {
              sediment: { before: 'peat', after: 'sand', known: ['A0'] },
              top: { before: '1 m', after: '', known: ['A0'] },
            },
          },
        ],
      },
    ],
  );
});

test('a cell set on two devices is in conflict on both until one settles it', () => {
  const a = device('A');
  const b = device('B', a.doc);
  a.edits.editRow('units', 'u', { sediment: 'peat' });
  b.edits.editRow('units', 'u', { sediment: 'clay', top: '1 m' });
  assert.deepEqual([a.acts.conflicts(), b.acts.conflicts()], [[], []]);
  exchange(a, b);
  for (const { acts } of [a, b]) {
    const [conflict, ...others] = acts.conflicts();
    assert.deepEqual(others, []);
    assert.equal(conflict?.column, 'sediment');
    assert.deepEqual(
      new Set(conflict?.between.map(({ act, before, after }) => `${act.device}: ${before} to ${after}`)),
      new Set(['A: sand to peat', 'B: sand to clay']),
    );
  }
  assert.equal(a.cell('units', 'u', 'sediment'), b.cell('units', 'u', 'sediment'));
  assert.ok(b.edits.settle('units', 'u', 'sediment', 'peat'));
  exchange(a, b);
  for (const each of [a, b]) {
    assert.deepEqual(each.acts.conflicts(), []);
    assert.equal(each.cell('units', 'u', 'sediment'), 'peat');
  }
  assert.equal(a.acts.all().at(-1)?.how, 'settled');
});

test('keeping the value in force settles a conflict too; the same value set twice is none', () => {
  const a = device('A');
  const b = device('B', a.doc);
  a.edits.editRow('units', 'u', { sediment: 'peat', colour: '10YR 2/1' });
  b.edits.editRow('units', 'u', { sediment: 'clay', colour: '10YR 2/1' });
  exchange(a, b);
  const inForce = a.cell('units', 'u', 'sediment')!;
  a.edits.settle('units', 'u', 'sediment', inForce);
  exchange(a, b);
  for (const each of [a, b]) {
    assert.deepEqual(each.acts.conflicts(), []);
    assert.equal(each.cell('units', 'u', 'sediment'), inForce);
  }
  assert.equal(a.edits.settle('units', 'u', 'sediment', 'sand'), false);
  assert.match(a.edits.news()?.words ?? '', /decided elsewhere/);
});

test('a hole given two names: its units follow the one that is chosen', () => {
  const a = device('A');
  const b = device('B', a.doc);
  a.edits.editRow('holes', 'h', { hole: 'North' });
  b.edits.editRow('holes', 'h', { hole: 'South' });
  exchange(a, b);
  const lost = a.cell('holes', 'h', 'hole') === 'North' ? 'South' : 'North';
  assert.equal(a.acts.conflicts().length, 2);
  assert.ok(a.edits.settle('holes', 'h', 'hole', lost));
  exchange(a, b);
  for (const each of [a, b]) {
    assert.deepEqual(each.acts.conflicts(), []);
    assert.equal(each.cell('holes', 'h', 'hole'), lost);
    assert.equal(each.cell('units', 'u', 'hole'), lost);
  }
});

test('three devices meet in any order: one history, one list of conflicts', () => {
  const first = device('A');
  const all = [first, device('B', first.doc), device('C', first.doc)];
  for (const [i, sediment] of ['peat', 'clay', 'silt'].entries())
    all[i]!.edits.editRow('units', 'u', { sediment });
  exchange(all[0]!, all[2]!);
  exchange(all[1]!, all[2]!);
  exchange(all[0]!, all[1]!);
  const [a, b, c] = all.map(({ acts }) => JSON.stringify([acts.all(), acts.conflicts()]));
  assert.equal(a, b);
  assert.equal(a, c);
  assert.equal(first.acts.conflicts()[0]?.between.length, 3);
});

test('what was not done here is said to have arrived: an update of another device, not an act of this one', () => {
  const a = device('A');
  const b = device('B', a.doc);
  a.edits.editRow('units', 'u', { sediment: 'peat' });
  b.edits.editRow('units', 'u', { top: '1 m' });
  assert.deepEqual([...b.acts.arrived()], []);
  // As a window reads what others wrote: within a transaction of its own.
  b.doc.transact(() => Y.applyUpdate(b.doc, Y.encodeStateAsUpdate(a.doc)));
  assert.deepEqual([...b.acts.arrived()], ['A0']);
  assert.deepEqual([...a.acts.arrived()], []);
  b.edits.undo();
  assert.deepEqual([...b.acts.arrived()], ['A0']);
});

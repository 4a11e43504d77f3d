/** Earlier states are what the campaign was, on every device as far as it can know. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { type CampaignDocument, writeFiles } from '@stillstand/campaign/document';
import { actsOf, readDocument } from '@stillstand/campaign/replica';
import { randomStream } from '@stillstand/science/base';
import * as Y from 'yjs';
import { begun, device, opened, saved } from './fixtures/saved.ts';
import { documentAfter, trimActs } from './index.ts';

type Device = ReturnType<typeof device>;

/** Rows of every table that has any, cells that say something, in their order. */
const rowsOf = (document: CampaignDocument) =>
  Object.fromEntries(
    [...document.tables].flatMap(([name, { columns, rows }]) =>
      rows.length === 0
        ? []
        : [
            [
              name,
              rows.map(({ cells }) =>
                Object.fromEntries(columns.flatMap((c, i) => (cells[i] ? [[c, cells[i]]] : []))),
              ),
            ],
          ],
    ),
  );

/** One act on a device, by chance; nothing where it was refused. */
function act({ edits }: Device, below: (n: number) => number): void {
  const units = edits.rows('units');
  const unit = units[below(units.length)];
  const soundings = edits.rows('soundings');
  const sounding = soundings[below(soundings.length)]!;
  switch (below(10)) {
    case 0:
      edits.addReading('soundings', { hole: 'H1', to_sediment: `${below(900)} cm` });
      return;
    case 1:
      edits.amend('soundings', sounding.row_id, { to_sediment: `${below(900)} cm` });
      return;
    case 2:
      edits.withdraw('soundings', sounding.row_id);
      return;
    case 3:
      edits.addRow('units', { hole: 'H2', unit: `n${below(1000)}`, sediment: 'mud' });
      return;
    case 4:
      if (unit !== undefined) edits.removeRow('units', unit.row_id);
      return;
    case 5:
      edits.undo();
      return;
    case 6:
      edits.redo();
      return;
    case 7:
      edits.addRow('photos', { file: `photos/${below(1000)}.jpg`, hole: 'H1' });
      return;
    default:
      if (unit === undefined) return;
      edits.editRow('units', unit.row_id, {
        sediment: ['sand', 'mud', 'peat'][below(3)]!,
        note: `${below(9)}`,
      });
  }
}

/** Acts on `at`, and what its campaign was after each by its own eyes. */
function remembered(at: Device, count: number, below: (n: number) => number): Map<string, unknown> {
  const states = new Map<string, unknown>();
  for (let i = 0; i < count; i++) {
    const before = at.acts.all().length;
    act(at, below);
    // A repair is an act of its own, behind the one that needed it.
    if (at.acts.all().length > before) states.set(at.acts.all().at(-1)!.id, rowsOf(at.document()));
  }
  return states;
}

const below = (seed: number) => {
  const random = randomStream(seed);
  return (n: number): number => Math.floor(random.uniform() * n);
};

const exchange = (a: Y.Doc, b: Y.Doc): void => {
  const [ofA, ofB] = [Y.encodeStateAsUpdate(a), Y.encodeStateAsUpdate(b)];
  Y.applyUpdate(a, ofB);
  Y.applyUpdate(b, ofA);
};

const copy = (doc: Y.Doc): Y.Doc => opened(saved(doc)).doc;

for (const seed of [1, 2, 3, 4, 5, 6]) {
  test(`on one device every earlier state is what the campaign was: seed ${seed}`, () => {
    const at = device('A', begun());
    const first = rowsOf(at.document());
    const states = remembered(at, 60, below(seed));
    assert.deepEqual(rowsOf(documentAfter(at.doc, null)), first);
    for (const [id, state] of states) assert.deepEqual(rowsOf(documentAfter(at.doc, id)), state, id);
    assert.deepEqual(
      [...writeFiles(documentAfter(at.doc, at.acts.all().at(-1)!.id))],
      [...writeFiles(at.document())],
    );
  });

  // Two devices work on one state and meet. The acts of one stand before those of the other in the list: of that
  // device's every state is known exactly; of the other's, all that the first did not touch.
  test(`two devices apart: the states of the one that stands first are exact: seed ${seed}`, () => {
    const from = begun();
    const [a, b] = [device('A', copy(from)), device('B', copy(from))];
    const random = below(seed);
    const states = new Map([a, b].map((each) => [each.name, remembered(each, 25, random)]));
    exchange(a.doc, b.doc);
    const all = a.acts.all();
    const first = states.get(all[0]!.device)!;
    for (const [id, state] of first) assert.deepEqual(rowsOf(documentAfter(a.doc, id)), state, id);
    const last = all.at(-1)!.id;
    assert.deepEqual(rowsOf(documentAfter(a.doc, last)), rowsOf(readDocument(a.doc)));
  });

  test(`three devices that exchange: one history, the last state is the campaign: seed ${seed}`, () => {
    const from = begun();
    const devices = ['A', 'B', 'C'].map((name) => device(name, copy(from)));
    const random = below(seed + 100);
    for (let i = 0; i < 60; i++) {
      act(devices[random(3)]!, random);
      if (random(8) === 0) exchange(devices[random(3)]!.doc, devices[random(3)]!.doc);
    }
    for (const a of devices) for (const b of devices) exchange(a.doc, b.doc);
    for (const a of devices) for (const b of devices) exchange(a.doc, b.doc);
    const [a, b, c] = devices.map(({ doc }) =>
      actsOf(doc)
        .all()
        .map(({ id }) => JSON.stringify(rowsOf(documentAfter(doc, id)))),
    );
    assert.deepEqual(a, b);
    assert.deepEqual(a, c);
    assert.equal(a!.at(-1), JSON.stringify(rowsOf(readDocument(devices[0]!.doc))));
    assert.deepEqual(rowsOf(documentAfter(devices[0]!.doc, null)), rowsOf(readDocument(from)));
  });
}

test('a value set on two devices: after both acts the one in force', () => {
  const from = begun();
  const [a, b] = [device('A', copy(from)), device('B', copy(from))];
  a.edits.editRow('units', 'u1', { sediment: 'peat' });
  b.edits.editRow('units', 'u1', { sediment: 'clay' });
  exchange(a.doc, b.doc);
  const inForce = a.edits.rows('units')[0]!.cells['sediment'];
  const [, both] = a.acts.all();
  a.edits.settle('units', 'u1', 'sediment', 'silt');
  const then = (id: string) => rowsOf(documentAfter(a.doc, id))['units']![0]!['sediment'];
  // the value in force now is neither of theirs: the later in the list
  assert.equal(
    then(both!.id),
    both!.changes[0]!.kind === 'edit' && both!.changes[0]!.cells['sediment']!.after,
  );
  assert.ok(['peat', 'clay'].includes(inForce!));
  assert.throws(() => documentAfter(a.doc, 'no such act'), /no act/);
});

test('the oldest acts leave the list; copies that each trim have one list; open conflicts stay', () => {
  const from = begun();
  const [a, b] = [device('A', copy(from)), device('B', copy(from))];
  a.edits.editRow('units', 'u1', { sediment: 'peat' });
  b.edits.editRow('units', 'u1', { sediment: 'clay' });
  exchange(a.doc, b.doc);
  for (let i = 0; i < 30; i++) {
    a.edits.editRow('units', 'u2', { note: `a ${i}` });
    b.edits.editRow('holes', 'h1', { note: `b ${i}` });
  }
  const whole = rowsOf(a.document());
  trimActs(a.doc, 20);
  assert.deepEqual(rowsOf(a.document()), whole);
  assert.equal(a.acts.all().length, 22);
  assert.equal(a.acts.conflicts().length, 1);
  trimActs(b.doc, 10);
  exchange(a.doc, b.doc);
  assert.deepEqual(a.acts.all(), b.acts.all());
  assert.deepEqual(a.acts.conflicts(), b.acts.conflicts());
  assert.equal(a.acts.conflicts().length, 1);
  assert.equal(a.acts.all().length, 32);
  assert.equal(rowsOf(documentAfter(a.doc, null))['units']![1]!['note'], 'a 9');
  assert.equal(rowsOf(documentAfter(a.doc, a.acts.all().at(-1)!.id))['units']![1]!['note'], 'a 29');
});

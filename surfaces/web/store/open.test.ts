/** The open campaign: what is undone, refused, carried along, put right between windows, and kept when the device refuses. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { parseCampaign, rowIds } from '@stillstand/campaign/document';
import { replicaOf } from '@stillstand/campaign/history';
import { actsOf } from '@stillstand/campaign/replica';
import { openZip } from '@stillstand/campaign/versions';
import fc from 'fast-check';
import { HOLE, memoryDevice, settled, type Window } from './fixtures/memory-device.ts';
import type { Store } from './store.ts';

const opened = async (document = HOLE): Promise<Store> => (await memoryDevice(document).window()).store;
const drive = { stick_up_start: '2 m', stick_up_end: '1 m' };
const labels = (store: Store, table: 'holes' | 'samples' | 'units', column: string): (string | undefined)[] =>
  store.rows(table).map((row) => row.cells[column]);

test('undo says what it takes; a hole with readings is neither undone, deleted nor renamed, and says why', async () => {
  const store = await opened();
  assert.equal(store.undoes(), null);
  const row_id = store.addRow('holes', { hole: 'H3', method: 'string' });
  assert.equal(store.undoes(), 'add hole H3');
  store.undo();
  assert.deepEqual(store.news(), { words: 'Undone: add hole H3.', isRefusal: false });
  assert.deepEqual(labels(store, 'holes', 'hole'), ['H1']);
  assert.equal(store.redoes(), 'add hole H3');
  store.redo();
  assert.deepEqual(labels(store, 'holes', 'hole'), ['H1', 'H3']);

  for (let i = 0; i < 12; i++) store.addReading('drives', { hole: 'H3', ...drive });
  store.addRow('units', {
    hole: 'H3',
    unit: '1',
    depth_basis: 'entered',
    top: '0 m',
    bottom: '1 m',
    sediment: 'sand',
  });
  store.undo();
  assert.equal(store.undoes(), 'add hole H3');
  store.undo();
  assert.deepEqual(store.news(), {
    words: 'Not undone: add hole H3. Hole H3 has 12 readings, so it stays.',
    isRefusal: true,
  });
  assert.deepEqual(labels(store, 'holes', 'hole'), ['H1', 'H3']);
  assert.equal(store.whyKept('holes', row_id), 'Hole H3 has 12 readings, so it cannot be deleted.');
  assert.equal(store.removeRow('holes', row_id), false);
  assert.equal(store.news()?.words, 'Hole H3 has 12 readings, so it cannot be deleted.');
  assert.equal(store.editRow('holes', row_id, { hole: 'H4' }), false);
  assert.equal(store.news()?.words, 'Hole H3 has 12 readings, so it cannot be renamed.');
  // Anything else of it may change, and a hole without readings may go.
  assert.equal(store.editRow('holes', row_id, { note: 'soft' }), true);
  assert.equal(store.undoes(), 'edit hole H3 (note)');
  assert.equal(store.removeRow('holes', 'h1'), true);
  assert.equal(store.news(), null);
});

test('a withdrawn reading depends on its hole too: it stays in the record, and may be restored', async () => {
  const store = await opened();
  const reading = store.addReading('drives', { hole: 'H1', ...drive });
  store.amend('drives', reading, { note: 'again' });
  assert.notEqual(store.withdraw('drives', reading), null);
  assert.equal(
    store.whyKept('holes', 'h1'),
    'Hole H1 has 1 reading, so it cannot be deleted.',
    'one, in four rows',
  );
  assert.equal(store.removeRow('holes', 'h1'), false);
  assert.notEqual(store.restore('drives', reading), null);
  assert.deepEqual(parseCampaign(store.document()).problems, []);
});

test('a run with pieces is not withdrawn or relabelled under them; written again elsewhere it may be', async () => {
  const store = await opened();
  const run = store.addReading('runs', { hole: 'H1', run: 'R1' });
  const piece = store.addReading('pieces', { hole: 'H1', run: 'R1', top: '0 m', bottom: '1 m' });
  assert.equal(store.withdraw('runs', run), null);
  assert.equal(
    store.news()?.words,
    'Run R1 of H1 has 1 reading, so it stays as it is. Withdraw or change them first.',
  );
  assert.equal(store.amend('runs', run, { run: 'R2' }), null);
  assert.notEqual(store.amend('runs', run, { recovered: '1 m' }), null);
  // As Drill puts a reading in its turn: written again, then withdrawn.
  store.addReading('runs', { hole: 'H1', run: 'R1', seq: '1.5' });
  assert.notEqual(store.withdraw('runs', run), null);
  assert.deepEqual(parseCampaign(store.document()).problems, []);
  assert.notEqual(store.withdraw('pieces', piece), null);
});

test('a new label is carried into the rows that name it, as one step of undo', async () => {
  const store = await opened();
  store.addRow('samples', { sample: 'S1', hole: 'H1', depth_basis: 'entered', top: '1 m', bottom: '1.1 m' });
  store.addRow('units', {
    hole: 'H1',
    unit: '1',
    depth_basis: 'entered',
    top: '0 m',
    bottom: '1 m',
    sediment: 'sand',
  });
  assert.equal(store.editRow('holes', 'h1', { hole: 'H9' }), true);
  assert.deepEqual([labels(store, 'samples', 'hole'), labels(store, 'units', 'hole')], [['H9'], ['H9']]);
  assert.deepEqual(parseCampaign(store.document()).problems, []);
  store.undo();
  assert.deepEqual([labels(store, 'samples', 'hole'), labels(store, 'units', 'hole')], [['H1'], ['H1']]);
  store.redo();
  assert.deepEqual(labels(store, 'samples', 'hole'), ['H9']);
});

test('what a text may name is depended on: a benchmark in the level book, a day with answers, a unit with a correlation', async () => {
  const store = await opened();
  const benchmark = store.addRow('benchmarks', { benchmark: 'BM', elevation_m: '2' });
  store.addReading('levelling', { loop: 'L', point: 'BM', backsight_m: '1' });
  assert.equal(
    store.whyKept('benchmarks', benchmark),
    'Benchmark BM has 1 reading, so it cannot be deleted.',
  );
  const day = store.addRow('field_days', { date: '2024-03-05' });
  store.addReading('checks', { date: '2024-03-05', question: 'permits', answer: 'yes' });
  assert.match(store.whyKept('field_days', day)!, /^Field day 2024-03-05 has 1 reading/);
  const unit = store.addRow('units', {
    hole: 'H1',
    unit: '1',
    depth_basis: 'entered',
    top: '0 m',
    bottom: '1 m',
    sediment: 'sand',
  });
  store.addRow('holes', { hole: 'H2', method: 'string' });
  store.addRow('units', {
    hole: 'H2',
    unit: '7',
    depth_basis: 'entered',
    top: '0 m',
    bottom: '1 m',
    sediment: 'sand',
  });
  store.addRow('correlations', { hole_a: 'H1', unit_a: '1', hole_b: 'H2', unit_b: '7' });
  assert.match(store.whyKept('units', unit)!, /^Unit 1 of H1 has 1 correlation/);
  const datum = store.addRow('datums', { datum: 'CD', kind: 'tidal' });
  assert.equal(store.whyKept('datums', datum), null);
  store.setSetting('datum', 'CD');
  assert.match(store.whyKept('datums', datum)!, /^Datum CD has 1 setting/);
});

test('several edits are all made or none', async () => {
  const store = await opened();
  store.addReading('drives', { hole: 'H1', ...drive });
  const before = store.document();
  const done = store.together(() => {
    store.addRow('samples', { sample: 'S1', hole: 'H1' });
    assert.deepEqual(labels(store, 'samples', 'sample'), ['S1'], 'seen by what follows');
    store.removeRow('holes', 'h1');
  });
  assert.equal(done, false);
  assert.deepEqual(labels(store, 'samples', 'sample'), []);
  assert.equal(store.document(), before);
  assert.throws(
    () =>
      store.together(() => {
        store.addRow('samples', { sample: 'S1' });
        throw new Error('halfway');
      }),
    /halfway/,
  );
  assert.deepEqual(labels(store, 'samples', 'sample'), []);
});

test('a table of thousands is added, undone and redone at once, not row by row through all the others', async () => {
  const store = await opened();
  const began = performance.now();
  store.together(() => {
    for (let i = 0; i < 1500; i++) {
      store.addRow('samples', { sample: `S${i}`, hole: 'H1', top: `${i} cm`, bottom: `${i} cm` });
      store.addRow('measurements', { sample: `S${i}`, property: 'LOI', value: String(i) });
    }
  });
  store.undo();
  assert.equal(store.rows('samples').length, 0);
  assert.equal(store.rows('measurements').length, 0);
  store.redo();
  assert.equal(store.rows('samples').length, 1500);
  assert.equal(store.rows('measurements').at(-1)!.cells['value'], '1499');
  // Half a second; several minutes where each change looks through all the others.
  assert.ok(performance.now() - began < 20_000);
});

test('a deleted row comes back in its place and under its identity', async () => {
  const store = await opened();
  const ids = ['A', 'B', 'C'].map((site) => store.addRow('sites', { site }));
  store.removeRow('sites', ids[1]!);
  store.undo();
  assert.deepEqual(
    store.rows('sites').map((row) => [row.row_id, row.cells['site']]),
    [
      [ids[0], 'A'],
      [ids[1], 'B'],
      [ids[2], 'C'],
    ],
  );
  assert.ok(![...store.document().tables.get('sites')!.rows].some(({ line }, i) => line !== i + 2));
});

/** Two windows on one device. */
async function two(document = HOLE): Promise<{ a: Window; b: Window; meet: () => Promise<void> }> {
  const { window } = memoryDevice(document);
  const [a, b] = [await window(), await window()];
  return {
    a,
    b,
    meet: async () => {
      for (let i = 0; i < 3; i++) for (const each of [a, b]) await each.listen();
    },
  };
}

test('a hole deleted in one window while a reading is written in another is restored in both, and said', async () => {
  const { a, b, meet } = await two();
  assert.equal(a.store.removeRow('holes', 'h1'), true);
  b.store.addReading('drives', { hole: 'H1', ...drive });
  await meet();
  for (const { store } of [a, b]) {
    assert.deepEqual(labels(store, 'holes', 'hole'), ['H1']);
    assert.deepEqual(parseCampaign(store.document()).problems, []);
  }
  assert.match(
    a.store.news()!.words,
    /^Hole H1 was removed while it was used elsewhere\. It has been restored\./,
  );
});

test('a hole renamed in one window while a reading is written in another: the reading is amended, once', async () => {
  const { a, b, meet } = await two();
  assert.equal(a.store.editRow('holes', 'h1', { hole: 'H9' }), true);
  b.store.addReading('drives', { hole: 'H1', ...drive });
  await meet();
  for (const { store } of [a, b]) {
    const { campaign, problems } = parseCampaign(store.document());
    assert.deepEqual(problems, []);
    assert.deepEqual(
      campaign.rows.drives.map((row) => row.hole),
      ['H9'],
    );
  }
});

test('an edit made while the row was deleted elsewhere is not lost with it', async () => {
  const { a, b, meet } = await two();
  a.store.removeRow('holes', 'h1');
  b.store.editRow('holes', 'h1', { note: 'soft at 3 m' });
  await meet();
  for (const { store } of [a, b]) assert.deepEqual(labels(store, 'holes', 'note'), ['soft at 3 m']);
});

test('undo in two windows is what each did last, if it was not changed since, and never another value (seed 41)', async () => {
  const acts = fc.array(fc.tuple(fc.nat(1), fc.constantFrom('edit', 'edit', 'undo', 'redo')), {
    minLength: 8,
    maxLength: 14,
  });
  let refused = 0;
  await fc.assert(
    fc.asyncProperty(acts, async (list) => {
      const { a, b, meet } = await two();
      /** The slow way: each window's own edits, and the value that all see. */
      let value = '';
      const done: { before: string; after: string }[][] = [[], []];
      const undone: { before: string; after: string }[][] = [[], []];
      for (const [i, [at, act]] of list.entries()) {
        const { store } = [a, b][at]!;
        if (act === 'edit') {
          const after = `v${i}`;
          store.editRow('holes', 'h1', { note: after });
          done[at]!.push({ before: value, after });
          undone[at] = [];
          value = after;
        } else {
          const [from, to] = act === 'undo' ? [done[at]!, undone[at]!] : [undone[at]!, done[at]!];
          const step = from.pop();
          const [was, will] = act === 'undo' ? [step?.after, step?.before] : [step?.before, step?.after];
          if (act === 'undo') store.undo();
          else store.redo();
          if (step !== undefined && was === value) {
            value = will!;
            to.push(step);
          } else if (step !== undefined) {
            refused += 1;
            assert.match(store.news()!.words, /It was changed in another window since\.$/);
          }
        }
        await meet();
        for (const each of [a, b]) assert.equal(each.store.rows('holes')[0]!.cells['note'] ?? '', value);
      }
    }),
    { seed: 41, numRuns: 120 },
  );
  assert.ok(refused > 50, `${refused} refused`);
});

test('a full device: rows stay on the screen and are marked until the device has them; then they are there', async (t) => {
  t.mock.timers.enable({ apis: ['setTimeout'] });
  const { window, refuse } = memoryDevice(HOLE);
  const { store } = await window();
  refuse(new DOMException('', 'QuotaExceededError'));
  const row_id = store.addReading('drives', { hole: 'H1', ...drive });
  assert.deepEqual([store.saved, [...store.unsaved]], ['saving', [row_id]], 'shown, and not called saved');
  await settled();
  assert.deepEqual([store.saved, store.failure], ['failed', 'this device is full']);
  const second = store.addRow('holes', { hole: 'H2', method: 'string' });
  await settled();
  assert.deepEqual([...store.unsaved].sort(), [row_id, second].sort());
  assert.equal(store.rows('drives').length, 1, 'still on the screen');
  assert.equal((await window()).store.rows('drives').length, 0, 'not on the device, as was said');
  refuse(null);
  t.mock.timers.tick(2000);
  await settled();
  assert.deepEqual([store.saved, store.failure, store.unsaved.size], ['saved', null, 0]);
  const again = (await window()).store;
  assert.deepEqual([again.rows('drives').length, again.rows('holes').length], [1, 2]);
});

test('a campaign left while the device refuses is kept in memory, goes on being tried, and opens as it was left', async (t) => {
  t.mock.timers.enable({ apis: ['setTimeout'] });
  const { window, refuse } = memoryDevice(HOLE);
  const { store } = await window();
  refuse(new DOMException('', 'QuotaExceededError'));
  store.addReading('drives', { hole: 'H1', ...drive });
  await store.close();
  const again = (await window()).store;
  assert.equal(again.rows('drives').length, 1);
  assert.equal(again.saved, 'failed');
  await again.close();
  refuse(null);
  t.mock.timers.tick(2000);
  await settled();
  const later = (await window()).store;
  assert.notEqual(later, again, 'let go once the device had it');
  assert.equal(later.rows('drives').length, 1);
});

test('a full device opens what it has, and packs it', async () => {
  const { window, refuse } = memoryDevice(HOLE);
  refuse(new DOMException('', 'QuotaExceededError'));
  const { store } = await window();
  assert.deepEqual(labels(store, 'holes', 'hole'), ['H1']);
  assert.ok((await store.exportZip()).size > 0);
  await assert.rejects(store.addFile(new Uint8Array([1]), 'image/png'), { name: 'QuotaExceededError' });
  assert.deepEqual(await store.filePaths(), []);
});

test('a saved copy has its history: opened elsewhere it is the same campaign, act by act', async () => {
  const store = await opened();
  store.addReading('drives', { hole: 'H1', ...drive });
  store.editRow('holes', 'h1', { note: 'soft' });
  const zip = new Uint8Array(await (await store.exportZip()).arrayBuffer());
  const read = openZip(zip);
  const copy = replicaOf(read, rowIds(read.document));
  assert.deepEqual([copy.history, copy.problems, [...copy.document.files]], ['as it is', [], []]);
  assert.deepEqual(actsOf(copy.doc).all(), store.acts());
  // the same campaign, the same bytes
  assert.deepEqual(new Uint8Array(await (await store.exportZip()).arrayBuffer()), zip);
  // cut anywhere it is no campaign at all, never half of one
  for (let length = 0; length < zip.length; length += 97)
    assert.equal(openZip(zip.slice(0, length)).document.tables.size, 0);
});

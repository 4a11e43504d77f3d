/** A merge is kept whole or not at all, and taken back as one step while nothing was written since. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { rowIds } from '@stillstand/campaign/document';
import { fill, type Unattended, unattended } from '@stillstand/campaign/replica';
import * as Y from 'yjs';
import { HOLE, memoryDevice, settled } from './fixtures/memory-device.ts';
import { openIn } from './open.ts';
import type { Store } from './store.ts';

const drive = { hole: 'H1', from_mark: '0 m', to_mark: '0.50 m' };
const writer = {
  crew: () => ({ by: 'driller', device: 'tablet B' }),
  time: () => '2026-03-04T15:40:00+00:00',
  newRowId: () => `b-${next++}`,
};
let next = 0;

/** What another device wrote on its copy, as one update. */
function copy(write: (edits: Unattended['edits']) => void): Uint8Array {
  const doc = new Y.Doc();
  fill(doc, HOLE, rowIds(HOLE));
  write(unattended(doc, writer).edits);
  return Y.encodeStateAsUpdate(doc);
}

const COPY = copy((edits) => {
  edits.addReading('drives', drive);
  edits.addRow('samples', { sample: 'S1', hole: 'H1' });
});
const photo = (): Map<string, Blob> => new Map([['photos/1.jpg', new Blob([new Uint8Array([1, 2, 3])])]]);
const merged = () => ({ update: COPY, files: photo(), words: 'merge a copy of H' });
const counts = (store: Store): number[] => [
  store.rows('holes').length,
  store.rows('samples').length,
  store.rows('drives').length,
];

test('a merge comes with its photos, the other window has it, and undo takes it back in both', async () => {
  const { window, files } = memoryDevice(HOLE);
  const [a, b] = [await window(), await window()];
  a.store.addRow('holes', { hole: 'H2', method: 'string' });
  await a.store.merge(merged());
  await b.listen();
  for (const { store } of [a, b]) assert.deepEqual(counts(store), [2, 1, 1]);
  assert.deepEqual([...files.keys()], ['photos/1.jpg']);
  assert.deepEqual([...(await a.store.fileSizes())], [['photos/1.jpg', 3]]);
  assert.equal(a.store.undoes(), 'merge a copy of H');
  a.store.undo();
  await settled();
  await b.listen();
  assert.equal(a.store.isOver, 'Undone: merge a copy of H.');
  assert.equal(b.store.isOver, 'The merge was undone in another window.');
  const again = await window();
  assert.deepEqual(counts(again.store), [2, 0, 0], 'what was here before the merge is here');
  assert.equal(again.store.undoes(), null);
  // From the same copy it comes again, whole.
  await again.store.merge(merged());
  assert.deepEqual(counts(again.store), [2, 1, 1]);
  assert.deepEqual(counts((await window()).store), [2, 1, 1]);
});

test('after a reload the merge can still be undone; edits made since are undone first', async () => {
  const { window } = memoryDevice(HOLE);
  const first = await window();
  await first.store.merge(merged());
  await first.store.close();
  const { store } = await window();
  assert.equal(store.undoes(), 'merge a copy of H');
  store.addRow('holes', { hole: 'H3', method: 'string' });
  assert.equal(store.undoes(), 'add hole H3');
  store.undo();
  assert.equal(store.undoes(), 'merge a copy of H');
  store.undo();
  await settled();
  assert.equal(store.isOver, 'Undone: merge a copy of H.');
  assert.deepEqual(counts((await window()).store), [1, 0, 0]);
});

test('a merge with a reading recorded since is not undone: the reading is never lost', async () => {
  const { window } = memoryDevice(HOLE);
  const { store } = await window();
  store.addRow('holes', { hole: 'H2', method: 'string' });
  await store.merge(merged());
  store.addReading('drives', drive);
  store.undo();
  await settled();
  assert.match(
    store.news()!.words,
    /^Not undone: merge a copy of H\. 1 reading was recorded since the merge\. Readings are never undone\.$/,
  );
  assert.ok(store.news()!.isRefusal);
  assert.deepEqual(counts(store), [2, 1, 2]);
  assert.equal(store.undoes(), 'add hole H2', 'what was done before can be undone');
  assert.deepEqual(counts((await window()).store), [2, 1, 2]);
});

test('a merge with an edit in another window since is not undone', async () => {
  const { window } = memoryDevice(HOLE);
  const [a, b] = [await window(), await window()];
  await a.store.merge(merged());
  await b.listen();
  b.store.editRow('holes', 'h1', { note: 'soft' });
  await settled();
  a.store.undo();
  await settled();
  assert.match(a.store.news()!.words, /Rows were edited since the merge: undo or restore those first\.$/);
  assert.equal(a.store.rows('holes')[0]!.cells['note'], 'soft');
  b.store.undo();
  await settled();
  a.store.undo();
  await settled();
  assert.equal(a.store.isOver, 'Undone: merge a copy of H.');
});

test('a reading written in a window that has not heard that the merge was undone is kept, with all it rests on', async () => {
  const { window } = memoryDevice(HOLE);
  const [a, b] = [await window(), await window()];
  await a.store.merge(merged());
  await b.listen();
  a.store.undo();
  await settled();
  assert.notEqual(a.store.isOver, null);
  b.store.amend('drives', b.store.rows('drives')[0]!.row_id, { to_mark: '0.60 m' });
  await settled();
  await b.listen();
  assert.equal(b.store.isOver, null, 'it has all there is');
  const { store } = await window();
  assert.deepEqual(counts(store), [1, 1, 2]);
});

test('a full device: the merge is refused as a whole and the campaign is as it was', async () => {
  const { window, refuse, files } = memoryDevice(HOLE);
  const { store } = await window();
  refuse(new DOMException('', 'QuotaExceededError'));
  await assert.rejects(store.merge(merged()), { name: 'QuotaExceededError' });
  assert.deepEqual(counts(store), [1, 0, 0]);
  assert.deepEqual([store.undoes(), store.saved, files.size], [null, 'saved', 0]);
  refuse(null);
  assert.deepEqual(counts((await window()).store), [1, 0, 0]);
});

test('a campaign that is read only here takes no merge', async () => {
  const { device } = memoryDevice(HOLE);
  const readUpdates: typeof device.readUpdates = async (id, after) => {
    const found = await device.readUpdates(id, after);
    return found === null ? null : { ...found, record: { ...found.record, read_only: true } };
  };
  const store = await openIn('read only', () => ({
    device: { ...device, readUpdates },
    channel: { postMessage: () => undefined, close: () => undefined, addEventListener: () => undefined },
    watchPage: () => () => undefined,
  }));
  await assert.rejects(store!.merge(merged()), /read only/);
});

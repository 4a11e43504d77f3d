/** One file opened on two devices is one campaign when they meet. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { rowIds, withRows } from '@stillstand/campaign/document';
import * as Y from 'yjs';
import { devicesAgree, exchange, FILE, filled, ROWS } from './fixtures/devices.ts';
import { fill, readTable } from './index.ts';
import { append, edit } from './write.ts';

const rowsOf = (doc: Y.Doc, table: string) =>
  readTable(doc, table, { layout: '', rows: new WeakMap() })?.rows ?? [];
const countOf = (doc: Y.Doc): number =>
  ['holes', 'soundings', 'units'].reduce((sum, table) => sum + rowsOf(doc, table).length, 0);

test('the same document gives the same update, byte for byte; another gives another client', () => {
  assert.deepEqual(Y.encodeStateAsUpdate(filled()), Y.encodeStateAsUpdate(filled()));
  assert.deepEqual(Y.encodeStateAsUpdateV2(filled()), Y.encodeStateAsUpdateV2(filled()));
  const clients = (doc: Y.Doc) => [...doc.store.clients.keys()];
  const other = new Y.Doc();
  const document = withRows(FILE, 'sites', [{ site: 'S', row_id: 's' }]);
  fill(other, document, rowIds(document));
  assert.notDeepEqual(clients(other), clients(filled()));
  // Yjs names clients by chance below 2^32: those of a content lie above, in both ways of writing updates
  for (const id of [...clients(other), ...clients(filled())])
    assert.ok(id >= 2 ** 32 && id < 2 ** 53, `${id}`);
  const again = new Y.Doc();
  Y.applyUpdateV2(again, Y.encodeStateAsUpdateV2(filled()));
  assert.deepEqual(clients(again), clients(filled()));
});

test('one file opened on two devices has its 502 rows once when they meet, with the edits of both', () => {
  const here = filled();
  const there = filled();
  edit(here, 'units', 0, { note: 'here' });
  append(here, 'drives', [{ hole: 'H1', stick_up_start: '1 m', row_id: 'd-here' }]);
  edit(there, 'units', 0, { colour: '10YR 4/2' });
  append(there, 'drives', [{ hole: 'H1', stick_up_start: '2 m', row_id: 'd-there' }]);
  exchange(here, there);
  exchange(there, here);
  for (const doc of [here, there]) {
    assert.equal(countOf(doc), ROWS);
    const { note, colour } = rowsOf(doc, 'units')[0]!.cells;
    assert.deepEqual([note, colour], ['here', '10YR 4/2']);
    assert.deepEqual(
      rowsOf(doc, 'drives')
        .map((row) => row.row_id)
        .sort(),
      ['d-here', 'd-there'],
    );
  }
});

test('edits after the fill are made under a client of the device, never of the content', () => {
  const [a, b] = [filled(), filled()];
  assert.notEqual(a.clientID, b.clientID);
  for (const doc of [a, b]) {
    assert.ok(doc.clientID < 2 ** 32);
    append(doc, 'drives', [{ hole: 'H1', row_id: `d${doc.clientID}` }]);
    assert.ok(doc.store.clients.has(doc.clientID));
  }
});

test('a Yjs document that holds something is not filled over', () => {
  const doc = filled();
  assert.throws(() => fill(doc, FILE), /not empty/);
});

for (const seed of [1, 2]) {
  test(`five devices, one file opened on several, migrated and edited apart: seed ${seed}`, () => {
    devicesAgree(seed, { count: 5, edits: 300 });
  });
}

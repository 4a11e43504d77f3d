import assert from 'node:assert/strict';
import { test } from 'node:test';
import {
  type CampaignDocument,
  DOCUMENT_VERSION,
  newDocument,
  readFiles,
  rowIds,
  withRows,
  writeFiles,
} from '@stillstand/campaign/document';
import { migrate } from '@stillstand/campaign/versions';
import * as Y from 'yjs';
import { fill } from './fill.ts';
import { layOver, migrated } from './migrate.ts';
import { readDocument, readTable } from './read.ts';
import { append, edit } from './write.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const filesOf = (files: Record<string, string>) =>
  new Map(Object.entries(files).map(([path, text]) => [path, bytes(text)]));

function kept(document: CampaignDocument): Y.Doc {
  const doc = new Y.Doc();
  fill(doc, document, rowIds(document));
  return doc;
}

const OLD = readFiles(
  filesOf({
    'datapackage.json': '{"title":"old","resources":[]}',
    'holes.csv': 'hole,method\nH1,string\nH2,string\n',
    'own.csv': 'a,b\n1,2\n',
  }),
).document;

test('a campaign kept by an older version is migrated as one more change, the same as a file is', () => {
  const doc = kept(OLD);
  const old = Y.encodeStateAsUpdate(doc);
  const { update, read_only } = migrated(doc);
  assert.equal(read_only, false);
  assert.deepEqual(writeFiles(readDocument(doc)), writeFiles(migrate(OLD).document));
  // The device has the old changes and the lifting behind them.
  const again = new Y.Doc();
  Y.applyUpdate(again, old);
  assert.deepEqual(writeFiles(readDocument(again)), writeFiles(OLD));
  Y.applyUpdate(again, update!);
  assert.deepEqual(writeFiles(readDocument(again)), writeFiles(migrate(OLD).document));
  assert.equal(migrated(again).update, null, 'migrated once');
});

test('a campaign of our version is left alone; a newer one is read only and left alone', () => {
  const ours = migrated(kept(newDocument('ours')));
  assert.deepEqual(ours, { update: null, read_only: false, problems: [] });
  const newer = migrated(
    kept({ ...newDocument('newer'), package: { stillstand: { version: DOCUMENT_VERSION + 1 } } }),
  );
  assert.equal(newer.update, null);
  assert.equal(newer.read_only, true);
  assert.deepEqual(
    newer.problems.map(({ code }) => code),
    ['newer-version'],
  );
});

test('cells that a step writes are laid over the rows they are of; other tables stay the very same', () => {
  const doc = kept(OLD);
  append(doc, 'drives', [{ hole: 'H1', stick_up_start: '1 m', row_id: 'd1' }]);
  const before = readDocument(doc);
  const seen = (table: string) =>
    readTable(doc, table, { layout: '', rows: new WeakMap() })?.rows.map(({ row_id }) => row_id);
  const ids = seen('holes');
  const updates: Uint8Array[] = [];
  doc.on('update', (update: Uint8Array) => updates.push(update));
  layOver(doc, before, withState(before, 'open'));
  assert.equal(updates.length, 1, 'one change');
  assert.deepEqual(seen('holes'), ids);
  assert.deepEqual(seen('drives'), ['d1']);
  const { holes, own, drives } = Object.fromEntries(readDocument(doc).tables);
  assert.deepEqual(
    holes!.rows.map(({ cells }) => cells.slice(0, 3)),
    [
      ['H1', 'string', 'open'],
      ['H2', 'string', 'open'],
    ],
  );
  assert.deepEqual(own, before.tables.get('own'));
  assert.deepEqual(drives, before.tables.get('drives'));
});

/** The document with a state of each hole, as a step would write it. */
function withState(document: CampaignDocument, state: string): CampaignDocument {
  const columns = ['hole', 'method', 'state'];
  return withRows(
    document,
    'holes',
    document.tables.get('holes')!.rows.map(({ cells }) => ({
      ...Object.fromEntries(columns.map((column, i) => [column, cells[i] ?? state])),
    })),
  );
}

test('two devices migrate one campaign, each with an edit of its own: every row once, both edits there', () => {
  const here = kept(OLD);
  const there = kept(OLD);
  edit(here, 'holes', 0, { state: 'lost' });
  append(here, 'holes', [{ hole: 'H3', method: 'tube', row_id: 'h3' }]);
  for (const doc of [here, there]) {
    const before = readDocument(doc);
    layOver(doc, before, withState(before, 'open'));
  }
  edit(there, 'holes', 1, { method: 'hand' });
  for (const [a, b] of [
    [here, there],
    [there, here],
  ] as const)
    Y.applyUpdate(a, Y.encodeStateAsUpdate(b));
  for (const doc of [here, there]) {
    const { columns, rows } = readDocument(doc).tables.get('holes')!;
    assert.deepEqual(columns.slice(0, 3), ['hole', 'method', 'state']);
    assert.deepEqual(
      rows.map(({ cells }) => cells.slice(0, 3)),
      [
        ['H1', 'string', 'lost'],
        ['H2', 'hand', 'open'],
        ['H3', 'tube', ''],
      ],
    );
  }
});

test('readings are never rewritten: what a step says of one lies over it, by its identity', () => {
  const document = withRows(newDocument('x'), 'drives', [
    { hole: 'H1', seq: '1', stick_up_start: '1 m', note: 'stone', row_id: 'd1' },
    { hole: 'H1', seq: '2', stick_up_start: '2 m', note: '', row_id: 'd2' },
  ]);
  const doc = kept(document);
  const before = readDocument(doc);
  const { columns, rows } = before.tables.get('drives')!;
  const after = withRows(
    before,
    'drives',
    rows.map(({ cells }) => {
      const row = Object.fromEntries(columns.map((column, i) => [column, cells[i] ?? '']));
      return { ...row, ended_by: row['note'] === 'stone' ? 'obstruction' : '' };
    }),
  );
  const state = Y.encodeStateAsUpdate(doc);
  const memory = { layout: '', rows: new WeakMap() };
  readTable(doc, 'drives', memory);
  layOver(doc, before, after);
  const said = (of: Y.Doc, known = memory) =>
    readTable(of, 'drives', known)!.rows.map((row) => row.cells['ended_by']);
  assert.deepEqual(said(doc), ['obstruction', ''], 'rows read before are read again');
  const again = new Y.Doc();
  Y.applyUpdate(again, state);
  Y.applyUpdate(again, Y.encodeStateAsUpdate(doc));
  assert.deepEqual(said(again, { layout: '', rows: new WeakMap() }), ['obstruction', '']);
});

test('a step that would take a table or a row out, or put a row in, is refused before anything is written', () => {
  const doc = kept(OLD);
  const before = readDocument(doc);
  const state = Y.encodeStateAsUpdate(doc);
  const without = new Map(before.tables);
  without.delete('own');
  assert.throws(() => layOver(doc, before, { ...before, tables: without }), /own is gone/);
  const fewer = withRows(before, 'holes', [{ hole: 'H1', method: 'string' }]);
  assert.throws(() => layOver(doc, before, fewer), /holes had 2 rows and has 1/);
  const more = withRows(before, 'sites', [{ site: 'S', row_id: 's1' }]);
  assert.throws(() => layOver(doc, before, more), /sites had 0 rows and has 1/);
  assert.deepEqual(Y.encodeStateAsUpdate(doc), state);
});

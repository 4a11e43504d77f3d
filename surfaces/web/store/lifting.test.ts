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
import { lift } from '@stillstand/campaign/versions';
import * as Y from 'yjs';
import { append, fill, overwrite, readDocument, readTable } from './content.ts';
import { lifted } from './lifting.ts';

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

test('a campaign kept by an older version is lifted as one more change, the same as a file is', () => {
  const doc = kept(OLD);
  const old = Y.encodeStateAsUpdate(doc);
  const { update, read_only } = lifted(doc);
  assert.equal(read_only, false);
  assert.deepEqual(writeFiles(readDocument(doc)), writeFiles(lift(OLD).document));
  // The device has the old changes and the lifting behind them.
  const again = new Y.Doc();
  Y.applyUpdate(again, old);
  assert.deepEqual(writeFiles(readDocument(again)), writeFiles(OLD));
  Y.applyUpdate(again, update!);
  assert.deepEqual(writeFiles(readDocument(again)), writeFiles(lift(OLD).document));
  assert.equal(lifted(again).update, null, 'lifted once');
});

test('a campaign of our version is left alone; a newer one is read only and left alone', () => {
  const ours = lifted(kept(newDocument('ours')));
  assert.deepEqual(ours, { update: null, read_only: false, problems: [] });
  const newer = lifted(
    kept({ ...newDocument('newer'), package: { stillstand: { version: DOCUMENT_VERSION + 1 } } }),
  );
  assert.equal(newer.update, null);
  assert.equal(newer.read_only, true);
  assert.deepEqual(
    newer.problems.map(({ code }) => code),
    ['newer-version'],
  );
});

test('a table that a step writes anew keeps the identities of its rows; others stay the very same', () => {
  const doc = kept(OLD);
  append(doc, 'drives', { hole: 'H1', stick_up_start: '1 m', row_id: 'd1' });
  const before = readDocument(doc);
  const seen = (table: string) =>
    readTable(doc, table, { layout: '', rows: new WeakMap() })?.rows.map(({ row_id }) => row_id);
  const ids = seen('holes');
  const columns = ['hole', 'method', 'state'];
  const after = withRows(
    before,
    'holes',
    before.tables.get('holes')!.rows.map(({ cells }) => ({
      ...Object.fromEntries(columns.map((column, i) => [column, cells[i] ?? 'open'])),
    })),
  );
  const updates: Uint8Array[] = [];
  doc.on('update', (update: Uint8Array) => updates.push(update));
  overwrite(doc, before, after, rowIds(after));
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

test('a table that a step takes out is gone, one it adds is there', () => {
  const doc = kept(OLD);
  const before = readDocument(doc);
  const { own, ...rest } = Object.fromEntries(before.tables);
  const after = withRows({ ...before, tables: new Map(Object.entries(rest)) }, 'sites', [
    { site: 'S', row_id: 's1' },
  ]);
  assert.ok(own);
  overwrite(doc, before, after, rowIds(after));
  assert.deepEqual([...readDocument(doc).tables.keys()], ['holes', 'sites']);
});

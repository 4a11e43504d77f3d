/** A campaign that version 1 kept on a device, with its names of tables and columns, on two devices at once. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, readFiles, withNewNames } from '@stillstand/campaign/document';
import { schemas, type TableName } from '@stillstand/campaign/tables';
import * as Y from 'yjs';
import { fill } from './fill.ts';
import { parts, whole } from './layout.ts';
import { migrated } from './migrate.ts';
import { readDocument } from './read.ts';
import { reader } from './reader.ts';
import { append, edit } from './write.ts';

const FILES = {
  'datapackage.json': '{"title":"old","stillstand":{"version":1},"resources":[]}',
  'holes.csv': 'row_id,hole,method,offset_m\nh1,H1,string,\nh2,H2,string,4\n',
  'days.csv':
    'row_id,date,note\nd1,2026-03-01,"gale; way: on foot, lowest +0.40 m, margin 0.30 m, takes 30 min"\n',
  'ground.csv': 'row_id,hole,seq,ground_below_reference\ng1,H1,1,0.30 m\n',
};

/** As version 1 kept it: lists under their first names, cells edited and readings entered under the columns of then. */
function keptBefore(): Y.Doc {
  const files = Object.entries(FILES).map(([path, text]) => [path, new TextEncoder().encode(text)] as const);
  const { document } = readFiles(new Map(files));
  const doc = new Y.Doc();
  fill(doc, { ...document, tables: withTablesNamed(document) });
  whole(doc).set('tables', ['holes', 'days', 'ground']);
  (doc.getArray('rows:holes').get(0) as Y.Map<unknown>).set('=offset_m', '2');
  doc.getArray('rows:runs').push([{ r: { row_id: 'r1', hole: 'H1', seq: '2', run: 'R1', loss_at: 'top' } }]);
  return doc;
}

/** Tables named as today hold rows in the same lists; their headings stay those of then. */
function withTablesNamed(document: ReturnType<typeof readFiles>['document']) {
  const names = [...withNewNames(document).tables.keys()];
  return new Map([...document.tables.values()].map((table, i) => [names[i]!, table]));
}

const copyOf = (doc: Y.Doc): Y.Doc => {
  const copy = new Y.Doc();
  Y.applyUpdate(copy, Y.encodeStateAsUpdate(doc));
  return copy;
};
const rowsOf = (doc: Y.Doc) => parseCampaign(readDocument(doc)).campaign.rows;

test('what version 1 kept is read under the names of today', () => {
  const doc = keptBefore();
  assert.deepEqual(
    [...doc.share.keys()].filter((key) => /^rows:(field_days|ground_levels)/.test(key)),
    [],
  );
  const { holes, ground_levels, field_days, runs } = rowsOf(doc);
  assert.deepEqual(
    holes.map(({ hole, distance_to_replaced_m }) => [hole, distance_to_replaced_m]),
    [
      ['H1', 2],
      ['H2', 4],
    ],
  );
  assert.equal(ground_levels[0]!.ground_below_reference_m, 0.3);
  assert.equal(field_days[0]!.date, '2026-03-01');
  assert.equal(runs[0]!.loss_position, 'top');
});

test('migrated apart on two devices and edited there, it has each row once and both edits', () => {
  const old = keptBefore();
  const [a, b] = [copyOf(old), copyOf(old)];
  for (const doc of [a, b]) {
    const { read_only, update } = migrated(doc);
    assert.equal(read_only, false);
    assert.ok(update !== null);
  }
  edit(a, 'holes', 0, { distance_to_replaced_m: '3' });
  edit(b, 'field_days', 0, { access_level_m: '0.50' });
  append(b, 'ground_levels', [{ row_id: 'g2', hole: 'H1', seq: '3', ground_below_reference: '0.35 m' }]);
  Y.applyUpdate(a, Y.encodeStateAsUpdate(b));
  Y.applyUpdate(b, Y.encodeStateAsUpdate(a));
  for (const doc of [a, b]) {
    const { holes, ground_levels, field_days, runs } = rowsOf(doc);
    assert.deepEqual(
      holes.map((row) => row.distance_to_replaced_m),
      [3, 4],
    );
    assert.deepEqual(
      ground_levels.map((row) => row.row_id),
      ['g1', 'g2'],
    );
    const [day] = field_days;
    assert.deepEqual(
      [
        field_days.length,
        day!.access,
        day!.access_level_m,
        day!.access_margin_m,
        day!.access_minutes,
        day!.note,
      ],
      [1, 'foot', 0.5, 0.3, 30, 'gale'],
    );
    assert.equal(runs.length, 1);
    assert.equal(parts(doc, 'ground_levels').rows, doc.getArray('rows:ground'));
    assert.equal(migrated(doc).update, null, 'migrated once');
  }
});

test('what another device writes is read, in every table', () => {
  const here = new Y.Doc();
  fill(here, newDocument('both'));
  const there = copyOf(here);
  const read = reader(here);
  for (const table of Object.keys(schemas) as TableName[]) {
    const before = read.read(table)?.rows.length ?? 0;
    append(there, table, [{ row_id: `${table}1`, note: 'from there' }]);
    Y.applyUpdate(here, Y.encodeStateAsUpdate(there));
    assert.equal(read.read(table)?.rows.length, before + 1, table);
  }
});

import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import {
  type CampaignDocument,
  newDocument,
  parseCampaign,
  readFiles,
  rowIds,
  writeFiles,
} from '@stillstand/campaign/document';
import fc from 'fast-check';
import * as Y from 'yjs';
import { fill } from './fill.ts';
import { readDocument, readTable, type TableMemory } from './read.ts';
import { append, edit, remove } from './write.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const filesOf = (files: Record<string, string>) =>
  new Map(Object.entries(files).map(([path, text]) => [path, bytes(text)]));

/** The document a Yjs document holds. */
function read(doc: Y.Doc, memories: Map<string, TableMemory> = new Map()): CampaignDocument {
  return readDocument(doc, (name) => {
    const memory = memories.get(name) ?? { layout: '', rows: new WeakMap() };
    memories.set(name, memory);
    return readTable(doc, name, memory);
  });
}

/** Through the Yjs document and its bytes, as they are kept on the device. */
function kept(document: CampaignDocument): Y.Doc {
  const first = new Y.Doc();
  fill(first, document, rowIds(document));
  const again = new Y.Doc();
  Y.applyUpdate(again, Y.encodeStateAsUpdate(first));
  return again;
}

const withoutFiles = (document: CampaignDocument): Map<string, Uint8Array> =>
  writeFiles({ ...document, files: new Map() });

const DEMO = join(import.meta.dirname, '..', '..', 'demo', 'campaign');

test('what is not edited comes out as the very bytes that went in: the demo, and odd files', () => {
  const demo = new Map(
    readdirSync(DEMO).map((name) => [name, new Uint8Array(readFileSync(join(DEMO, name)))]),
  );
  const odd = filesOf({
    'datapackage.json': '{ "title": "odd",   "ours": [1, 2], "stillstand": {"version": 1} }',
    'Holes.csv':
      '\ufeffsep=;\r\nHole;method;my notes;;my notes\r\nH1;string;"a;b";x;y\r\n\r\nH2;tube\r\nH3;tube;1;2;3;4\r\n',
    'own table.csv': 'a,b\n1,"two\nlines"\n',
    'torn.csv': 'hole,method\n"H1"x,string\n',
  });
  for (const files of [demo, odd]) {
    const { document } = readFiles(files);
    assert.deepEqual(withoutFiles(read(kept(document))), withoutFiles(document));
    assert.deepEqual(parseCampaign(read(kept(document))), parseCampaign(document));
  }
});

test('any table of cells goes through unchanged, edited or not (seed 5)', () => {
  const cell = fc.oneof(
    fc.constantFrom('', 'H1', 'a,b', '"q"', 'two\nlines', ' 1,5 ', '=1+1'),
    fc.string({ maxLength: 6 }),
  );
  fc.assert(
    fc.property(
      fc.uniqueArray(fc.constantFrom('hole', 'Method', 'my own', 'note', '', 'row_id', 'seq'), {
        minLength: 1,
      }),
      fc.array(fc.array(cell, { minLength: 1, maxLength: 8 }), { maxLength: 6 }),
      (columns, rows) => {
        const before: CampaignDocument = {
          ...newDocument('x'),
          tables: new Map([
            [
              'holes',
              {
                path: 'holes.csv',
                columns,
                rows: rows.map((cells, i) => ({ cells, line: i + 2 })),
                dialect: {
                  delimiter: ',',
                  line_end: '\n',
                  bom: false,
                  decimal_comma: false,
                  sep_line: false,
                },
                source: null,
              },
            ],
          ]),
        };
        const table = read(kept(before)).tables.get('holes')!;
        const ids = rowIds(before).get('holes');
        const idAt = columns.indexOf('row_id');
        assert.deepEqual(table.columns.slice(0, columns.length), columns);
        rows.forEach((cells, i) => {
          // Rows that state no identity are given the one they are known by; everything typed stays.
          cells.forEach((typed, c) => {
            // What stood beyond the headings still does.
            const at = c < columns.length ? c : c + table.columns.length - columns.length;
            const found = table.rows[i]!.cells[at];
            if (c === idAt && typed.trim() === '') assert.ok(found === typed || found === ids?.get(i + 2));
            else assert.equal(found, typed);
          });
        });
      },
    ),
    { seed: 5, numRuns: 200 },
  );
});

test('an appended reading and an edited cell change only themselves; headings of people are kept', () => {
  const doc = kept(
    readFiles(
      filesOf({
        'datapackage.json': '{"title":"x","stillstand":{"version":1},"resources":[]}',
        'holes.csv': 'Hole,method,crew mood\nH1,string,good\nH2,tube,fair\n',
        'drives.csv': 'hole,seq,stick up start,stick_up_end\nH1,1,3 m,2 m\n',
      }),
    ).document,
  );
  const memories = new Map<string, TableMemory>();
  const before = read(doc, memories);
  append(doc, 'drives', [
    {
      row_id: 'r-1',
      hole: 'H1',
      seq: '2',
      stick_up_start: '2 m',
      stick_up_end: '1 m',
      by: 'A',
    },
  ]);
  edit(doc, 'holes', 1, { method: 'hand' });
  const after = read(doc, memories);
  const files = writeFiles(after);
  const text = (path: string): string => new TextDecoder().decode(files.get(path));
  assert.equal(
    text('holes.csv'),
    `Hole,method,crew mood,row_id\nH1,string,good,${id(doc, 'holes', 0)}\nH2,hand,fair,${id(doc, 'holes', 1)}\n`,
  );
  assert.equal(
    text('drives.csv'),
    `hole,seq,stick up start,stick_up_end,by,row_id\nH1,1,3 m,2 m,,${id(doc, 'drives', 0)}\nH1,2,2 m,1 m,A,r-1\n`,
  );
  const [was, is] = [parseCampaign(before).campaign, parseCampaign(after).campaign];
  assert.deepEqual(
    is.rows.holes.map((row) => row.row_id),
    was.rows.holes.map((row) => row.row_id),
    'rows keep their identity through an edit',
  );
  assert.equal(is.rows.drives.length, 2);
  edit(doc, 'holes', 1, { method: 'gouge', note: 'soft' });
  const again = parseCampaign(read(doc, memories)).campaign.rows.holes[1];
  assert.deepEqual([again?.method, again?.note], ['gouge', 'soft'], 'a second edit is seen');
  remove(doc, 'holes', 0);
  assert.deepEqual(
    parseCampaign(read(doc, memories)).campaign.rows.holes.map((row) => row.hole),
    ['H2'],
  );
});

test('a table begun here stands in the package', () => {
  const doc = kept(
    readFiles(
      filesOf({
        'datapackage.json': '{"title":"x","stillstand":{"version":1}}',
        'holes.csv': 'hole,method\n',
      }),
    ).document,
  );
  append(doc, 'sites', [{ row_id: 'r-1', site: 'S' }]);
  const files = writeFiles(read(doc));
  const again = readFiles(files);
  assert.deepEqual(again.problems, []);
  assert.equal(parseCampaign(again.document).campaign.rows.sites[0]?.site, 'S');
  assert.match(new TextDecoder().decode(files.get('datapackage.json')), /"path": "sites.csv"/);
});

test('two copies that were edited apart agree after exchanging changes, and lose nothing', () => {
  const one = kept(newDocument('x'));
  append(one, 'holes', [{ row_id: 'h', hole: 'H1', method: 'string' }]);
  const two = new Y.Doc();
  Y.applyUpdate(two, Y.encodeStateAsUpdate(one));
  edit(one, 'holes', 0, { state: 'open' });
  append(one, 'drives', [{ row_id: 'd1', hole: 'H1', seq: '1', 'own one': 'x' }]);
  edit(two, 'holes', 0, { note: 'wet' });
  append(two, 'drives', [{ row_id: 'd2', hole: 'H1', seq: '2', 'own two': 'y' }]);
  Y.applyUpdate(one, Y.encodeStateAsUpdate(two));
  Y.applyUpdate(two, Y.encodeStateAsUpdate(one));
  assert.deepEqual(read(one), read(two));
  const holes = readTable(one, 'holes', { layout: '', rows: new WeakMap() })!.rows;
  assert.equal(holes[0]?.cells['state'], 'open');
  assert.equal(holes[0]?.cells['note'], 'wet');
  const drives = readTable(one, 'drives', { layout: '', rows: new WeakMap() })!.rows;
  const byId = new Map(drives.map((row) => [row.row_id, row.cells]));
  assert.equal(byId.get('d1')?.['own one'], 'x');
  assert.equal(byId.get('d2')?.['own two'], 'y');
  assert.equal(byId.get('d2')?.['own one'], '');
});

function id(doc: Y.Doc, table: string, at: number): string {
  return readTable(doc, table, { layout: '', rows: new WeakMap() })!.rows[at]!.row_id;
}

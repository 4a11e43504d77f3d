/** A saved campaign opens with its history, whatever became of its tables and of the history. */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { readFiles, rowIds, withRows, writeFiles } from '@stillstand/campaign/document';
import { actsOf, fill, readDocument, readTable } from '@stillstand/campaign/replica';
import { schemas, type TableName } from '@stillstand/campaign/tables';
import { randomStream } from '@stillstand/science/base';
import * as Y from 'yjs';
import { begun, device, edited, type Files, opened, saved } from './fixtures/saved.ts';
import { docOfHistory } from './history-file.ts';
import { HISTORY_PATH, historyBytes, withHistory } from './index.ts';

function worked(): Y.Doc {
  const { doc, edits } = device('A', begun());
  edits.editRow('units', 'u1', { sediment: 'clay' });
  edits.addReading('soundings', { hole: 'H2', to_sediment: '3 m' });
  edits.amend('soundings', 's1', { to_sediment: '1.25 m' });
  edits.addRow('units', { hole: 'H2', unit: '1', sediment: 'silt' });
  edits.removeRow('units', 'u2');
  return doc;
}

type Device = ReturnType<typeof device>;

const rowsOf = (doc: Y.Doc, table: string) =>
  new Map(
    readTable(doc, table, { layout: '', rows: new WeakMap() })?.rows.map((row) => [row.row_id, row.cells]),
  );
const codes = ({ problems }: { problems: readonly { code: string }[] }) => problems.map(({ code }) => code);
const outsideActs = (doc: Y.Doc) =>
  actsOf(doc)
    .all()
    .filter(({ how }) => how === 'outside');
const exchange = (a: Y.Doc, b: Y.Doc): void => {
  const [ofA, ofB] = [Y.encodeStateAsUpdate(a), Y.encodeStateAsUpdate(b)];
  Y.applyUpdate(a, ofB);
  Y.applyUpdate(b, ofA);
};

test('what was saved opens as it was: the same document, the same acts, the same bytes again', () => {
  const doc = worked();
  const files = saved(doc);
  const back = opened(files);
  assert.equal(back.history, 'as it is');
  assert.deepEqual(back.problems, []);
  assert.deepEqual(actsOf(back.doc).all(), actsOf(doc).all());
  assert.deepEqual([...saved(back.doc)], [...files]);
  assert.ok(!back.document.files.has(HISTORY_PATH));
  // copies merge: nothing is new to either
  const state = Y.encodeStateVector(doc);
  exchange(doc, back.doc);
  assert.deepEqual(Y.encodeStateVector(doc), state);
});

test('two devices that have exchanged everything save the same bytes, and so does a copy opened again', () => {
  const from = saved(worked());
  const [a, b] = ['B', 'C'].map((name) => device(name, opened(from).doc)) as [Device, Device];
  for (let i = 0; i < 6; i++) {
    for (const { edits, name } of [a, b]) {
      edits.editRow('units', 'u1', { note: `${name} ${i}` });
      edits.addReading('soundings', { hole: 'H1', to_sediment: `${i} m` });
    }
    if (i % 2 === 1) exchange(a.doc, b.doc);
  }
  assert.deepEqual(historyBytes(a.doc), historyBytes(b.doc));
  assert.deepEqual(historyBytes(opened(saved(a.doc)).doc), historyBytes(a.doc));
});

test('opened from tables and never touched, a campaign is saved as the tables that came', () => {
  const plain = writeFiles(readDocument(worked()));
  const { doc, document } = opened(plain);
  assert.deepEqual([...writeFiles(withHistory(document, doc))], [...plain]);
  const { edits } = device('B', doc);
  edits.editRow('holes', 'h1', { note: 'soft' });
  const files = writeFiles(withHistory(readDocument(doc), doc));
  assert.ok(files.has(HISTORY_PATH));
  // what was opened from the untouched copy is the same campaign still
  const copy = opened(plain);
  Y.applyUpdate(copy.doc, Y.encodeStateAsUpdate(opened(files).doc));
  assert.equal(rowsOf(copy.doc, 'holes').size, 2);
  assert.equal(rowsOf(copy.doc, 'holes').get('h1')?.['note'], 'soft');
});

test('a campaign of a newer Stillstand keeps the history that came', () => {
  const newer = edited(saved(worked()), 'datapackage.json', (text) =>
    text.replace('"version": 2', '"version": 3'),
  );
  const back = opened(newer);
  assert.equal(back.history, 'newer');
  assert.deepEqual([...writeFiles(back.document)].sort(), [...newer].sort());
});

test('a history of an older version of the document is lifted with its tables', () => {
  const files: Files = new Map(
    Object.entries({
      'datapackage.json':
        '{"id":"old","stillstand":{"version":1},"resources":[{"name":"ground","path":"ground.csv"}]}',
      'ground.csv': 'hole,seq,ground_below_reference,row_id\nH1,1,0.30 m,g1\nH1,2,0.40 m,g2\n',
    }).map(([path, text]) => [path, new TextEncoder().encode(text)]),
  );
  const { document } = readFiles(files);
  const doc = new Y.Doc();
  fill(doc, document, rowIds(document));
  files.set(HISTORY_PATH, historyBytes(doc));
  const back = opened(files);
  assert.deepEqual([back.history, codes(back)], ['as it is', []]);
  assert.deepEqual([...back.document.tables.keys()], ['ground_levels']);
  const there = opened(edited(files, 'ground.csv', (csv) => csv.replace('0.30', '0.35')));
  assert.deepEqual([there.history, codes(there)], ['edited outside', []]);
  const levels = [...rowsOf(there.doc, 'ground_levels').values()];
  assert.deepEqual(
    levels.map((cells) => cells['ground_below_reference']),
    ['0.30 m', '0.40 m', '0.35 m'],
  );
  assert.equal(levels[2]?.['amends'], 'g1');
  // each device lifts its own copy; they meet as one
  const [a, b] = [opened(files).doc, opened(files).doc];
  exchange(a, b);
  assert.equal(rowsOf(a, 'ground_levels').size, 2);
});

test('the demo campaign, with a row in every table there is, opens as it was saved', () => {
  const folder = join(import.meta.dirname, '..', '..', 'demo', 'campaign');
  const names = readdirSync(folder).filter((name) => /\.(?:csv|json)$/.test(name));
  const files = new Map(names.map((name) => [name, new Uint8Array(readFileSync(join(folder, name)))]));
  const { doc } = opened(files);
  const { edits } = device('A', doc);
  for (const table of Object.keys(schemas) as TableName[]) {
    const cells = { note: `of ${table}` };
    if (schemas[table].readings) edits.addReading(table, cells);
    else edits.addRow(table, cells);
  }
  const back = opened(saved(doc));
  assert.deepEqual([back.history, codes(back)], ['as it is', []]);
  assert.deepEqual([...saved(back.doc)], [...saved(doc)]);
});

test('without a history the tables open as ever', () => {
  const files = saved(worked());
  files.delete(HISTORY_PATH);
  const back = opened(files);
  assert.equal(back.history, 'none');
  assert.deepEqual([...writeFiles(back.document)], [...files]);
});

test('a file in another writing and with the same cells is no edit; a table nobody edited keeps its bytes', () => {
  const files = saved(worked());
  const inSpreadsheet = (csv: string): string =>
    csv.replaceAll(',', ';').replaceAll('\n', '\r\n').replace('H1', '"H1"');
  const other = edited(edited(files, 'units.csv', inSpreadsheet), 'holes.csv', inSpreadsheet);
  const back = opened(other);
  assert.equal(back.history, 'as it is');
  assert.deepEqual(codes(back), []);
  assert.deepEqual(outsideActs(back.doc), []);
  const again = writeFiles(back.document);
  assert.deepEqual(again.get('holes.csv'), other.get('holes.csv'));
  assert.match(new TextDecoder().decode(again.get('units.csv')), /^[^,]*;[^,]*\r\n/);
  assert.equal(rowsOf(back.doc, 'units').get('u1')?.['sediment'], 'clay');
});

test('edited outside: cells set, rows added and deleted, as one act that says what was there', () => {
  const files = saved(worked());
  const there = edited(files, 'units.csv', (csv) =>
    csv
      .replace('clay', 'gravel')
      .replace(/\n[^\n]*silt[^\n]*\n/, '\n')
      .replace(/\n$/, '\nH2,9,5 m,6 m,,mud\n'),
  );
  const columns = new TextDecoder().decode(files.get('units.csv')).split('\n')[0]!.split(',');
  const row = columns.map((column) => ({ hole: 'H2', unit: '9', sediment: 'mud' })[column] ?? '').join(',');
  const lines = new TextDecoder().decode(there.get('units.csv')).split('\n');
  const files2 = new Map(there).set(
    'units.csv',
    new TextEncoder().encode(
      [...lines.filter((line) => !line.startsWith('H2,9')), row, ''].join('\n').replace('\n\n', '\n'),
    ),
  );
  const back = opened(files2);
  assert.equal(back.history, 'edited outside');
  assert.deepEqual(codes(back), []);
  const units = rowsOf(back.doc, 'units');
  assert.equal(units.get('u1')?.['sediment'], 'gravel');
  assert.deepEqual(
    [...units.values()].map((cells) => cells['sediment']),
    ['gravel', 'mud'],
  );
  const [act, ...others] = outsideActs(back.doc);
  assert.deepEqual(others, []);
  assert.deepEqual(
    act?.changes.map(({ kind, table }) => `${kind} ${table}`),
    ['add units', 'edit units', 'delete units'],
  );
  const edit = act?.changes.find(({ kind }) => kind === 'edit');
  assert.deepEqual(edit?.kind === 'edit' && edit.cells, {
    sediment: { before: 'clay', after: 'gravel', known: ['A0'] },
  });
  // it stays so
  const again = opened(saved(back.doc));
  assert.equal(again.history, 'as it is');
});

test('a reading edited outside is amended; one deleted outside is kept and named', () => {
  const files = saved(worked());
  const back = opened(
    edited(files, 'soundings.csv', (csv) =>
      csv.replace('2.40 m', '2.45 m').replace(/\n[^\n]*3 m[^\n]*\n/, '\n'),
    ),
  );
  assert.equal(back.history, 'edited outside');
  assert.deepEqual(codes(back), ['reading-deleted-outside']);
  const soundings = rowsOf(back.doc, 'soundings');
  assert.equal(soundings.size, 5);
  assert.equal(soundings.get('s2')?.['to_sediment'], '2.40 m');
  const amendment = [...soundings.values()].find((cells) => cells['amends'] === 's2');
  assert.equal(amendment?.['to_sediment'], '2.45 m');
  assert.equal(amendment?.['amend_kind'], 'replace');
  assert.equal(amendment?.['amend_reason'], 'edited outside Stillstand');
});

test('two devices open the same edited file, work on, and meet: every row once, one act', () => {
  const files = edited(
    edited(saved(worked()), 'soundings.csv', (csv) => csv.replace('2.40 m', '2.45 m')),
    'units.csv',
    (csv) => csv.replace('clay', 'gravel'),
  );
  const [a, b] = [opened(files), opened(files)];
  assert.deepEqual(historyBytes(a.doc), historyBytes(b.doc));
  const [here, there] = [device('B', a.doc), device('C', b.doc)];
  here.edits.addReading('soundings', { hole: 'H1', to_sediment: '4 m' });
  there.edits.editRow('units', 'u1', { colour: '10YR 4/2' });
  exchange(a.doc, b.doc);
  assert.deepEqual([...writeFiles(readDocument(a.doc))], [...writeFiles(readDocument(b.doc))]);
  assert.equal(outsideActs(a.doc).length, 1);
  assert.equal(rowsOf(a.doc, 'soundings').size, 6);
  assert.equal(rowsOf(a.doc, 'units').get('u1')?.['sediment'], 'gravel');
  assert.deepEqual(here.acts.conflicts(), []);
});

test('a decimal comma, a column of one’s own and an unknown table are taken as they are', () => {
  const files = saved(worked());
  const comma = edited(files, 'soundings.csv', (csv) =>
    csv.replaceAll(',', ';').replace(/(\d)\.(\d)/g, '$1,$2'),
  );
  const back = opened(comma);
  assert.deepEqual([back.history, codes(back)], ['as it is', []]);
  const own = edited(files, 'soundings.csv', (csv) =>
    csv
      .split('\n')
      .map((line, i) => (line === '' ? '' : `${line},${i === 0 ? 'weather' : `day ${i}`}`))
      .join('\n'),
  ).set('shells.csv', new TextEncoder().encode('shell,count\nCerastoderma,3\n'));
  const with_own = opened(own);
  assert.deepEqual([with_own.history, codes(with_own)], ['edited outside', []]);
  assert.equal(rowsOf(with_own.doc, 'soundings').get('s1')?.['weather'], 'day 1');
  assert.equal(rowsOf(with_own.doc, 'soundings').size, 4);
  assert.deepEqual(writeFiles(with_own.document).get('shells.csv'), own.get('shells.csv'));
  const again = saved(with_own.doc);
  assert.equal(opened(again).history, 'as it is');
  const more = edited(again, 'shells.csv', (csv) => csv.replace('3', '4'));
  const third = opened(more);
  assert.deepEqual(writeFiles(third.document).get('shells.csv'), more.get('shells.csv'));
});

test('rows that state no identity are known by their label or their place', () => {
  const doc = begun();
  const plain = new Map(writeFiles(readDocument(doc)));
  const withoutIds = (csv: string): string => {
    const [heads, ...rows] = csv.split('\n').map((line) => line.split(','));
    const at = heads!.indexOf('row_id');
    return [heads!, ...rows].map((cells) => cells.filter((_, i) => i !== at).join(',')).join('\n');
  };
  const first = opened(edited(edited(plain, 'soundings.csv', withoutIds), 'units.csv', withoutIds));
  const files = saved(first.doc);
  const back = opened(edited(files, 'soundings.csv', (csv) => csv.replace('1.20 m', '1.30 m')));
  assert.deepEqual([back.history, codes(back)], ['edited outside', []]);
  const soundings = rowsOf(back.doc, 'soundings');
  assert.equal(soundings.size, 3);
  assert.equal(
    [...soundings.values()].filter((cells) => cells['amends'] !== undefined && cells['amends'] !== '').length,
    1,
  );
});

test('a row copied in a spreadsheet with its identity: the first keeps it, the copy is a new row', () => {
  const back = opened(
    edited(saved(worked()), 'soundings.csv', (csv) =>
      csv.replace(
        /\n([^\n]*2\.40 m[^\n]*)\n/,
        (_, line: string) => `\n${line.replace('2.40', '2.60')}\n${line}\n`,
      ),
    ),
  );
  assert.deepEqual(codes(back), []);
  const soundings = rowsOf(back.doc, 'soundings');
  assert.equal(soundings.size, 5);
  assert.equal(soundings.get('s2')?.['to_sediment'], '2.40 m');
});

test('what cannot be read in the file is kept from the history, and named', () => {
  const files = saved(worked());
  const missing = new Map(files);
  missing.delete('soundings.csv');
  const back = opened(missing);
  assert.deepEqual(codes(back), ['table-kept']);
  assert.equal(rowsOf(back.doc, 'soundings').size, 4);
  const headless = opened(edited(files, 'soundings.csv', (csv) => csv.replace('to_sediment', 'hole')));
  assert.deepEqual(codes(headless), ['table-not-taken']);
  assert.equal(rowsOf(headless.doc, 'soundings').size, 4);
  const slipped = opened(
    edited(files, 'units.csv', (csv) => csv.replace('clay', 'clay,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,,x')),
  );
  assert.deepEqual(codes(slipped), ['row-not-taken']);
  assert.equal(rowsOf(slipped.doc, 'units').get('u1')?.['sediment'], 'clay');
  const lost = opened(edited(files, 'units.csv', (csv) => csv.replace('sediment', 'sedimennt')));
  assert.ok(codes(lost).includes('column-kept'));
  assert.equal(rowsOf(lost.doc, 'units').get('u1')?.['sediment'], 'clay');
});

test('of another campaign, of a newer Stillstand, damaged, too large: named, and the tables alone open', () => {
  const files = saved(worked());
  const tables = [...files].filter(([path]) => path !== HISTORY_PATH);
  const other = device('B', begun('another campaign')).doc;
  const newer = worked();
  newer.getMap('campaign').set('layout', 2);
  const later = worked();
  const campaign = later.getMap<string>('campaign');
  campaign.set('package', campaign.get('package')!.replace('"version":2', '"version":3'));
  const strange = worked();
  strange.getArray('rows:holes').push([3]);
  for (const [history, bytes] of [
    ['other', historyBytes(other)],
    ['newer', historyBytes(newer)],
    ['newer', historyBytes(later)],
    ['damaged', historyBytes(strange)],
    ['damaged', new Uint8Array([1, 2, 3])],
    ['damaged', new Uint8Array(0)],
    ['damaged', new Uint8Array(65 * 2 ** 20)],
  ] as const) {
    const back = opened(new Map(files).set(HISTORY_PATH, bytes));
    assert.equal(back.history, history, `${bytes.length} bytes`);
    assert.deepEqual(codes(back), ['history-unused']);
    assert.deepEqual([...writeFiles(back.document)], tables);
  }
});

test('cut at any length, or with any bits flipped, a history does no harm', () => {
  // A campaign without the descriptions of its tables, so that what is changed is what counts.
  const plain = readFiles(
    new Map([
      [
        'datapackage.json',
        new TextEncoder().encode('{"id":"small","stillstand":{"version":2},"resources":[]}'),
      ],
    ]),
  ).document;
  const doc = new Y.Doc();
  fill(
    doc,
    withRows(withRows(plain, 'holes', [{ hole: 'H1', row_id: 'h1' }]), 'units', [
      { hole: 'H1', unit: '1', sediment: 'sand', row_id: 'u1' },
    ]),
  );
  const { edits } = device('A', doc);
  edits.editRow('units', 'u1', { sediment: 'clay' });
  edits.addReading('soundings', { hole: 'H1', to_sediment: '1.25 m' });
  const files = saved(doc);
  const bytes = files.get(HISTORY_PATH)!;
  const tables = [...files].filter(([path]) => path !== HISTORY_PATH);
  const holds = (changed: Uint8Array, name: string): void => {
    const began = process.cpuUsage();
    const read = docOfHistory(changed);
    const took_ms = process.cpuUsage(began).user / 1000;
    assert.ok(took_ms < 2000, `${name} took ${took_ms} ms`);
    if (typeof read === 'string') return;
    actsOf(read).conflicts();
    readDocument(read);
    if (survivors++ % 25 > 0) return;
    // Whatever the history says, the tables are as their files have them, or say more.
    const { document, history, doc } = opened(new Map(files).set(HISTORY_PATH, changed));
    if (history !== 'edited outside') assert.deepEqual([...writeFiles(document)], tables, name);
    assert.equal(rowsOf(doc, 'units').get('u1')?.['sediment'], 'clay', name);
    assert.ok(
      [...rowsOf(doc, 'soundings').values()].some((cells) => cells['to_sediment'] === '1.25 m'),
      name,
    );
  };
  let survivors = 0;
  for (let length = 0; length < bytes.length; length++) holds(bytes.slice(0, length), `cut at ${length}`);
  const random = randomStream(7);
  for (let i = 0; i < 3000; i++) {
    const changed = bytes.slice();
    for (let n = 0; n <= i % 3; n++)
      changed[Math.floor(random.uniform() * bytes.length)] = Math.floor(random.uniform() * 256);
    holds(changed, `change ${i}`);
  }
  assert.ok(survivors > 100, 'what Yjs reads without complaint is looked at too');
});

test('a few bytes that claim any number of changes, or any depth, are refused at once', () => {
  const one = new Y.Doc();
  one.getText('x').insert(0, 'a');
  const bytes = Y.encodeStateAsUpdateV2(one);
  // It ends with one writer, one change, clock 0 and nothing deleted.
  assert.deepEqual([...bytes.slice(-4)], [1, 1, 0, 0]);
  const claims = new Uint8Array([...bytes.slice(0, -3), 0x80, 0x80, 0x80, 0x80, 0x08, 0, 0]);
  const deep = new Y.Doc();
  let at = deep.getMap<unknown>('rows:x');
  for (let i = 0; i < 1000; i++) {
    const next = new Y.Map<unknown>();
    at.set('x', next);
    at = next;
  }
  for (const hostile of [claims, Y.encodeStateAsUpdateV2(deep)]) {
    const began = process.cpuUsage();
    assert.equal(docOfHistory(hostile), 'damaged');
    assert.ok(process.cpuUsage(began).user < 1_000_000);
  }
});

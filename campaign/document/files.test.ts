import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import { zipSync } from 'fflate';
import { withRows } from './document.ts';
import { readFiles, writeFiles } from './files.ts';
import { newDocument } from './package.ts';
import { parseCampaign } from './parse/parse.ts';
import { unsafePath } from './path.ts';
import { readZip, writeZip, zipBlob, zipChunks, zipOf } from './zip.ts';

const SEED = 20_240_302;
const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const text = (file: Uint8Array | undefined): string => new TextDecoder().decode(file);
const codes = (problems: readonly { code: string }[]): string[] => problems.map(({ code }) => code);

const CAMPAIGN: ReadonlyMap<string, Uint8Array> = new Map([
  ['datapackage.json', bytes('{ "title":"A spit",\n "ours": [1, 2.50], "stillstand": {"version": 1} }')],
  ['holes.csv', bytes('\ufeff"hole";method;our own\r\n"H1";"string";kept\r\n;;\r\n')],
  ['tide levels.csv', bytes('site,level,elevation_m\n')],
  ['shells.csv', bytes('shell,count\nCerastoderma,3\n')],
  ['photos/a.jpg', Uint8Array.of(255, 216, 0, 1)],
  ['notes.txt', bytes('what we saw')],
]);

test('files that were read are written back as the very same bytes', () => {
  const { document, problems } = readFiles(CAMPAIGN);
  assert.deepEqual(problems, []);
  assert.deepEqual([...document.tables.keys()], ['holes', 'tide_levels', 'shells']);
  assert.deepEqual([...document.files.keys()], ['photos/a.jpg', 'notes.txt']);
  assert.deepEqual(new Map([...writeFiles(document)].sort()), new Map([...CAMPAIGN].sort()));
});

test('an edited table keeps its dialect, its unknown columns, and the bytes of its neighbours', () => {
  const { document } = readFiles(CAMPAIGN);
  const edited = withRows(document, 'holes', [
    { hole: 'H1', method: 'string', 'our own': 'kept; too', seen: 'new' },
  ]);
  const files = writeFiles(edited);
  assert.equal(text(files.get('holes.csv')), 'hole;method;our own;seen\r\nH1;string;"kept; too";new\r\n');
  assert.deepEqual([...files.get('holes.csv')!.subarray(0, 3)], [0xef, 0xbb, 0xbf]);
  for (const [path, file] of CAMPAIGN) if (path !== 'holes.csv') assert.equal(files.get(path), file);
});

test('package members we do not know survive an edit of those we know', () => {
  const { document } = readFiles(CAMPAIGN);
  const files = writeFiles({ ...document, package: { ...document.package, title: 'A bar' } });
  assert.deepEqual(JSON.parse(text(files.get('datapackage.json'))), {
    title: 'A bar',
    ours: [1, 2.5],
    stillstand: { version: 1 },
  });
});

test('a new campaign has every table, and nothing to mend', () => {
  const files = writeFiles(newDocument('Äußere Düne, 2'));
  const { document, problems } = readFiles(files);
  assert.deepEqual(problems, []);
  assert.deepEqual(parseCampaign(document).problems, []);
  assert.equal(parseCampaign(document).campaign.name, 'Äußere Düne, 2');
  assert.match(String((document.package as { name?: string }).name), /^[a-z0-9._-]+$/);
});

test('bad packages and folders are named, and whatever can be read is read', () => {
  const read = (files: [string, string][]) =>
    readFiles(new Map(files.map(([path, file]) => [path, bytes(file)])));
  assert.deepEqual(codes(read([]).problems), ['no-campaign']);
  assert.deepEqual(codes(read([['holiday.txt', '']]).problems), ['no-campaign']);
  assert.deepEqual(codes(read([['holes.csv', 'hole,method']]).problems), ['no-package']);
  for (const json of ['', '[]', '{', '"x"', 'null']) {
    const { document, problems } = read([
      ['datapackage.json', json],
      ['holes.csv', 'hole,method'],
    ]);
    assert.deepEqual(codes(problems), ['package-unreadable']);
    assert.equal(document.tables.size, 1);
    assert.equal(text(writeFiles(document).get('datapackage.json')), json);
  }
  const listed = (path: string): string =>
    JSON.stringify({ resources: [{ name: 'holes', path }, 7, { path: 3 }] });
  assert.deepEqual(codes(read([['datapackage.json', listed('gone.csv')]]).problems), ['missing-file']);
  assert.deepEqual(codes(read([['datapackage.json', listed('../x.csv')]]).problems), ['unsafe-path']);
  const moved = read([
    ['datapackage.json', listed('data/h.csv')],
    ['data/h.csv', 'hole,method\nH1,string'],
    ['holes.csv', 'hole,method'],
  ]);
  assert.deepEqual(codes(moved.problems), ['table-twice']);
  assert.equal(moved.document.tables.get('holes')?.path, 'data/h.csv');
  assert.ok(moved.document.files.has('holes.csv'));
});

test('paths that lead out of the campaign are refused', () => {
  for (const path of [
    '../x',
    'a/../../x',
    '/x',
    'C:/x',
    'c:x',
    'a\\x',
    'a//x',
    './x',
    'a/',
    '',
    'a\u0000b',
  ]) {
    assert.notEqual(unsafePath(path), null, path);
  }
  for (const path of ['x', 'a/b.csv', '..a', 'a..b/c', 'ä ö.jpg']) assert.equal(unsafePath(path), null, path);
});

test('a zip holds the same bytes, and the same document gives the same zip', () => {
  const { document } = readFiles(CAMPAIGN);
  const zip = writeZip(document);
  assert.deepEqual(writeZip(document), zip);
  const back = readZip(zip);
  assert.deepEqual(back.problems, []);
  assert.deepEqual(new Map([...writeFiles(back.document)].sort()), new Map([...CAMPAIGN].sort()));
});

test('packed file by file, as chunks or as a Blob, the archive is the same', async () => {
  const large = Uint8Array.from({ length: 5_000_000 }, (_, i) => (i * 7919) % 251);
  const files = ['a.jpg', 'b.csv', 'c.jpg', 'd.png'].map((path) => [path, large] as const);
  const whole = zipOf(files);
  async function* inTurn() {
    yield* files;
  }
  let bytes = 0;
  for await (const chunk of zipChunks(inTurn())) {
    assert.deepEqual(chunk, whole.subarray(bytes, bytes + chunk.length));
    bytes += chunk.length;
  }
  assert.equal(bytes, whole.length);
  const blob = await zipBlob(inTurn());
  assert.equal(blob.type, 'application/zip');
  assert.equal(Buffer.compare(Buffer.from(await blob.arrayBuffer()), whole), 0);
});

test('a zip made by others, with the folder inside it, is read from that folder', () => {
  const others = zipSync({
    'spit/datapackage.json': bytes('{}'),
    'spit/holes.csv': bytes('hole,method'),
    '__MACOSX/spit/._holes.csv': Uint8Array.of(0),
  });
  const { document, problems } = readZip(others);
  assert.deepEqual(codes(problems), ['outer-folder']);
  assert.deepEqual([...document.tables.keys()], ['holes']);
});

test(`zips with any bytes changed never throw (seed ${SEED})`, () => {
  const whole = zipSync({ 'datapackage.json': bytes('{}'), 'holes.csv': bytes('hole,method\nH1,string\n') });
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.nat(whole.length - 1), fc.nat(255)), { maxLength: 6 }),
      fc.nat(whole.length),
      (changes, length) => {
        const archive = whole.slice();
        for (const [at, byte] of changes) archive[at] = byte;
        for (const cut of [archive, archive.slice(0, length), archive.slice(length)]) {
          assert.ok(Array.isArray(readZip(cut).problems));
        }
      },
    ),
    { seed: SEED, numRuns: 2000 },
  );
});

/** `stillstand merge`: folders and zips in, a new one out, and what cannot be merged named. */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { after, test } from 'node:test';
import { newDocument, withRows, writeFiles, zipOf } from '@stillstand/campaign/document';
import { HISTORY_PATH, historyBytes } from '@stillstand/campaign/history';
import { type Tablet, tablet } from '../../campaign/merge/fixtures/tablet.ts';

const LAUNCHER = join(import.meta.dirname, 'stillstand.js');
const place = mkdtempSync(join(tmpdir(), 'stillstand-merge-'));
after(() => rmSync(place, { recursive: true, force: true }));
const at = (name: string): string => join(place, name);

function merge(...words: string[]): { code: number | null; out: string; err: string } {
  const run = spawnSync(process.execPath, [LAUNCHER, 'merge', ...words], { encoding: 'utf8' });
  return { code: run.status, out: run.stdout, err: run.stderr };
}

type Files = ReadonlyMap<string, Uint8Array>;

function folder(name: string, files: Files): string {
  for (const [path, bytes] of files) {
    mkdirSync(dirname(join(at(name), path)), { recursive: true });
    writeFileSync(join(at(name), path), bytes);
  }
  return at(name);
}

function zip(name: string, files: Files): string {
  writeFileSync(at(name), zipOf(files));
  return at(name);
}

const BEGUN = withRows(withRows(newDocument('spit', 'id'), 'holes', [{ hole: 'H1', row_id: 'h' }]), 'units', [
  { hole: 'H1', unit: '1', sediment: 'sand', row_id: 'u' },
]);

/** A copy as a device saves it, with its history. */
function saved(name: string, edit: (edits: Tablet['edits']) => void, more: [string, string][] = []): Files {
  const { doc, document, edits } = tablet(name, BEGUN);
  edit(edits);
  const files = new Map(writeFiles(document()));
  for (const [path, text] of more) files.set(path, new TextEncoder().encode(text));
  return files.set(HISTORY_PATH, historyBytes(doc));
}

const here = (): Files =>
  saved(
    'A',
    (edits) => {
      edits.editRow('units', 'u', { sediment: 'peat' });
      edits.addReading('soundings', { hole: 'H1', to_sediment: '1.00 m' });
    },
    [
      ['photos/a.jpg', 'one'],
      ['photos/same.jpg', 'here'],
    ],
  );
const there = (): Files =>
  saved(
    'B',
    (edits) => {
      edits.editRow('units', 'u', { sediment: 'clay' });
      edits.addReading('runs', { hole: 'H1', run: 'R1', end_mark: '2.00 m' });
    },
    [
      ['photos/b.jpg', 'two'],
      ['photos/same.jpg', 'there'],
    ],
  );

test('a folder and a zip become a new folder; a conflict is shown with both sides and stays open', () => {
  const [a, b] = [folder('a', here()), zip('b.zip', there())];
  const { code, out, err } = merge(a, b, '--out', at('c'));
  assert.equal(code, 1, err);
  assert.match(out, /To decide: Hole H1, unit 1: sediment \(was sand\)/);
  assert.match(out, /first copy: sediment peat \(crew of A, A, 2026-02-15T09:0\d:00\+01:00\)/);
  assert.match(out, /second copy: sediment clay \(crew of B/);
  assert.match(out, /1 conflict to decide\./);
  const names = readdirSync(join(at('c'), 'photos')).sort();
  assert.deepEqual(names, ['a.jpg', 'b.jpg', 'same.copy.jpg', 'same.jpg']);
  assert.equal(readFileSync(join(at('c'), 'photos/same.copy.jpg'), 'utf8'), 'there');
  assert.match(out, /Two files are called photos\/same\.jpg/);
  assert.match(readFileSync(join(at('c'), 'runs.csv'), 'utf8'), /R1/);
  assert.match(readFileSync(join(at('c'), 'soundings.csv'), 'utf8'), /1\.00 m/);
  // What came out merges with what went in: everything of B is in it.
  const again = JSON.parse(merge(at('c'), b, '--out', at('d.zip'), '--json').out);
  assert.equal(again.relation, 'ours ahead');
  assert.deepEqual(again.came, []);
});

test('--keep decides, and ends with 0', () => {
  const [a, b] = [zip('keep-a.zip', here()), zip('keep-b.zip', there())];
  const { code, out } = merge(a, b, '--out', at('kept'), '--keep', 'theirs');
  assert.equal(code, 0);
  assert.match(out, /Decided: Hole H1, unit 1: sediment/);
  assert.match(readFileSync(join(at('kept'), 'units.csv'), 'utf8'), /clay/);
});

test('without histories row by row; with a base only what both changed is to decide', () => {
  const plain = (sediment: string, note: string): Files =>
    writeFiles(withRows(BEGUN, 'units', [{ hole: 'H1', unit: '1', sediment, note, row_id: 'u' }]));
  const [a, b, base] = [
    zip('rows-a.zip', plain('peat', '')),
    zip('rows-b.zip', plain('sand', 'dark')),
    zip('rows-base.zip', plain('sand', '')),
  ];
  const two = merge(a, b, '--out', at('two.zip'));
  assert.equal(two.code, 1);
  assert.match(two.out, /no history in common/);
  const three = merge(a, b, '--out', at('three'), '--base', base);
  assert.equal(three.code, 0, three.out + three.err);
  assert.match(readFileSync(join(at('three'), 'units.csv'), 'utf8'), /peat.*dark|dark.*peat/);
});

test('another campaign, a newer version, a truncated zip and a place that is taken are named; nothing is written', () => {
  const a = zip('named-a.zip', here());
  const other = zip('other.zip', writeFiles(newDocument('marsh', 'another')));
  const newer = new Map(here());
  const text = new TextDecoder()
    .decode(newer.get('datapackage.json'))
    .replace(/"version":\s*\d+(?=\s*\})/, '"version": 999');
  newer.set('datapackage.json', new TextEncoder().encode(text));
  writeFileSync(at('cut.zip'), readFileSync(zip('whole.zip', there())).subarray(0, 1500));
  for (const [copy, words] of [
    [other, /is another campaign than/],
    [zip('newer.zip', newer), /newer version/],
    [at('cut.zip'), /cannot be read whole/],
    [at('nowhere.zip'), /there is no such file/],
  ] as const) {
    const { code, err } = merge(a, copy, '--out', at('never'));
    assert.equal(code, 2, err);
    assert.match(err, words);
    assert.equal(existsSync(at('never')), false);
  }
  assert.equal(merge(a, other, '--out', at('any.zip'), '--any-campaign').code, 0);
  const before = readFileSync(a);
  const over = merge(a, zip('named-b.zip', there()), '--out', a);
  assert.equal(over.code, 2);
  assert.match(over.err, /is there already/);
  assert.deepEqual(readFileSync(a), before);
  assert.equal(merge(a, '--out', at('one')).code, 2);
});

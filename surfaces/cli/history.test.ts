/** `stillstand history`: acts in words, earlier states as campaigns of their own, and what `check` says of both. */
import assert from 'node:assert/strict';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { after, test } from 'node:test';
import { newDocument, readZip, withRows, writeFiles, zipOf } from '@stillstand/campaign/document';
import { withHistory } from '@stillstand/campaign/history';
import { fill, readDocument, unattended } from '@stillstand/campaign/replica';
import * as Y from 'yjs';
import { said } from './fixtures/said.ts';

const place = mkdtempSync(join(tmpdir(), 'stillstand-cli-history-'));
after(() => rmSync(place, { recursive: true, force: true }));
const at = (name: string): string => join(place, name);

function device(name: string, from?: Y.Doc) {
  const doc = new Y.Doc();
  if (from === undefined) {
    const holes = withRows(newDocument('Spit', 'id'), 'holes', [
      { hole: 'H1', method: 'string', row_id: 'h' },
    ]);
    fill(doc, withRows(holes, 'units', [{ hole: 'H1', unit: '1', sediment: 'sand', row_id: 'u' }]));
  } else Y.applyUpdate(doc, Y.encodeStateAsUpdate(from));
  let made = 0;
  const writer = {
    crew: () => ({ by: 'recorder', device: name }),
    time: () => `2026-03-04T14:3${made}:00+01:00`,
    newRowId: () => `${name}${made++}`,
  };
  return { doc, edits: unattended(doc, writer).edits };
}

const a = device('A');
const b = device('B', a.doc);
a.edits.editRow('units', 'u', { sediment: 'peat' });
a.edits.addRow('units', { hole: 'H1', unit: '2', sediment: 'mud' });
b.edits.editRow('units', 'u', { sediment: 'clay' });
Y.applyUpdate(a.doc, Y.encodeStateAsUpdate(b.doc));
const files = writeFiles(withHistory(readDocument(a.doc), a.doc));
writeFileSync(at('copy.zip'), zipOf(files));
for (const [path, bytes] of files) {
  mkdirSync(dirname(join(at('copy'), path)), { recursive: true });
  writeFileSync(join(at('copy'), path), bytes);
}

test('lists acts in words, the newest last, of a folder as of a zip', async () => {
  for (const copy of ['copy', 'copy.zip']) {
    const { code, out } = await said('history', at(copy));
    assert.equal(code, 0);
    assert.match(out, /^4 March 2026\n/);
    assert.match(out, /^ {2}A0 {2}recorder, A, 14:31: edit unit 1 of H1 \(sediment\)$/m);
    assert.match(out, /^ {2}A2 {2}recorder, A, 14:33: add unit 2 of H1$/m);
    assert.equal(out.trimEnd().split('\n').length, 4);
  }
  const last = await said('history', at('copy'), '--limit', '1');
  assert.match(last.out, /^2 earlier acts: --limit shows more\.\n/);
  const { acts, history } = JSON.parse((await said('history', at('copy.zip'), '--json')).out);
  assert.equal(history, 'as it is');
  assert.deepEqual(acts.map((act: { id: string }) => act.id).sort(), ['A0', 'A2', 'B0']);
});

test('writes the campaign as it was then, as one of its own', async () => {
  const { code, out } = await said('history', at('copy'), '--at', 'start', '--out', at('first.zip'));
  assert.equal(code, 0);
  assert.match(out, /the campaign as it was at its start/);
  const { document } = readZip(readFileSync(at('first.zip')));
  assert.deepEqual([...document.files], []);
  assert.notEqual(document.package?.['id'], 'id');
  assert.equal(document.package?.['title'], 'Spit, as it was at its start');
  const { columns, rows } = document.tables.get('units')!;
  assert.deepEqual(
    rows.map(({ cells }) => cells[columns.indexOf('sediment')]),
    ['sand'],
  );
  assert.equal((await said('history', at('copy.zip'), '--at', 'A2', '--out', at('later'))).code, 0);
  assert.match(
    readFileSync(join(at('later'), 'datapackage.json'), 'utf8'),
    /as it was on 4 March 2026, 14:3/,
  );
  // never over what is there, and never half
  assert.equal((await said('history', at('copy'), '--at', 'A0', '--out', at('first.zip'))).code, 2);
  assert.match((await said('history', at('copy'), '--at', 'X', '--out', at('x.zip'))).err, /--at: found “X”/);
  assert.match((await said('history', at('copy'), '--at', 'A0')).err, /--at and --out go together/);
});

test('check names values set on two devices, and a history that cannot be used', async () => {
  const { out } = await said('check', at('copy'));
  assert.match(
    out,
    /warning: units, line 2, unit 1 of H1, sediment: found “(peat|clay) \(recorder, [AB]\) or/,
  );
  assert.match(out, /Its history has 3 acts\.$/m);
  writeFileSync(join(at('copy'), 'history.yjs'), 'torn');
  assert.match((await said('check', at('copy'))).out, /history\.yjs: a history that cannot be read/);
  truncateSync(join(at('copy'), 'history.yjs'), 65 * 2 ** 20);
  assert.match((await said('check', at('copy'))).out, /history\.yjs: a history of 65 MiB/);
  rmSync(join(at('copy'), 'history.yjs'));
  assert.match((await said('history', at('copy'))).out, /has no history/);
  assert.doesNotMatch((await said('check', at('copy'))).out, /history/);
});

test('a command that writes a campaign folder keeps the history as it is; it is edited outside then', async () => {
  for (const [path, bytes] of files) writeFileSync(join(at('copy'), path), bytes);
  writeFileSync(at('cores.csv'), 'core,method\nH2,hand auger\n');
  const { code, err } = await said('import', at('copy'), at('cores.csv'), '--as', 'cores', '--write');
  assert.equal(code, 0, err);
  assert.deepEqual(new Uint8Array(readFileSync(join(at('copy'), 'history.yjs'))), files.get('history.yjs'));
  assert.match((await said('history', at('copy'))).out, /name not given: edited outside: add hole H2/);
});

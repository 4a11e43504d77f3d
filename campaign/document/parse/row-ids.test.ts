import assert from 'node:assert/strict';
import { test } from 'node:test';
import { readFiles } from '../files.ts';
import { parseCampaign } from './parse.ts';
import { derivedIds, rowIds } from './row-ids.ts';

test('row ids are those of the parsed campaign, stated or derived', () => {
  const encoder = new TextEncoder();
  const { document } = readFiles(
    new Map(
      Object.entries({
        'holes.csv': 'row_id,hole,method\nown-1,H1,string\n,H2,tube\n',
        'drives.csv': 'hole,seq,stick_up_start,stick_up_end\nH1,1,3 m,2 m\nH1,2,2 m,1 m\nH1,2,2 m,1 m\n',
      }).map(([path, text]) => [path, encoder.encode(text)]),
    ),
  );
  const ids = rowIds(document);
  const { rows, lines } = parseCampaign(document).campaign;
  assert.equal(ids.get('holes')?.get(2), 'own-1');
  for (const table of ['holes', 'drives'] as const) {
    for (const row of rows[table]) assert.equal(ids.get(table)?.get(lines.get(row.row_id)!), row.row_id);
  }
  assert.equal(ids.get('drives')?.get(4), undefined, 'the copy of a row has no identity of its own');
});

test('twin: where every row states its own identity, the quick answer is the slow one', () => {
  const encoder = new TextEncoder();
  const read = (drives: string) =>
    readFiles(
      new Map([
        ['holes.csv', encoder.encode('Row ID,hole,method\n own-1 ,H1,string\nown-2,H2,tube\n')],
        ['drives.csv', encoder.encode(`row_id,hole,seq,stick_up_start,stick_up_end\n${drives}`)],
      ]),
    ).document;
  for (const drives of [
    'd1,H1,1,3 m,2 m\nd2,H1,2,2 m,1 m\n',
    'd1,H1,1,3 m,2 m\nd1,H1,2,2 m,1 m\n',
    'own-1,H1,1,3 m,2 m\n',
    'd1,H1,1,3 m,2 m\n,H1,2,2 m,1 m\n',
  ]) {
    assert.deepEqual(rowIds(read(drives)), derivedIds(read(drives)), drives);
  }
});

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { readFiles } from '../files.ts';
import { parseCampaign } from './parse.ts';
import { rowIds } from './row-ids.ts';

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

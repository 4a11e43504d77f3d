import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { TableName } from '@stillstand/campaign/tables';
import { unrelatedDatums } from './unrelated-datums.ts';

test('a local datum that holes stand on is unrelated until a step leads from it or to it', () => {
  const written: [TableName, Record<string, string>][] = [
    ['datums', { datum: 'MSL', kind: 'mean_sea_level' }],
    ['datums', { datum: 'POSGAR07', kind: 'local' }],
    ['holes', { hole: 'A', reference_datum: ' POSGAR07 ' }],
  ];
  const rows = (table: TableName) =>
    written.flatMap(([of, cells], i) => (of === table ? [{ row_id: String(i), line: i, cells }] : []));
  assert.deepEqual(unrelatedDatums(rows, 'MSL'), ['POSGAR07']);
  assert.deepEqual(unrelatedDatums(rows, 'POSGAR07'), []);
  written.push(['datum_shifts', { from: 'POSGAR07', to: 'MSL', shift_m: '0.2' }]);
  assert.deepEqual(unrelatedDatums(rows, 'MSL'), []);
});

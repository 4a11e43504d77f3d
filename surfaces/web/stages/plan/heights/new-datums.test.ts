import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { TableName } from '@stillstand/campaign/tables';
import { addWithDatums, newDatums, unrelatedDatums } from './new-datums.ts';

test('a datum first named by a hole is written down with it, before it, in one step', () => {
  const written: [TableName, Record<string, string>][] = [];
  let steps = 0;
  const put = (table: TableName, cells: Readonly<Record<string, string>>): string => {
    written.push([table, { ...cells }]);
    return String(written.length);
  };
  const rows = (table: TableName) =>
    written.flatMap(([of, cells], i) => (of === table ? [{ row_id: String(i), line: i, cells }] : []));
  const store = {
    rows,
    addRow: put,
    addReading: put,
    together: (edits: () => void) => {
      steps++;
      edits();
      return true;
    },
  };
  put('datums', { datum: 'MSL', kind: 'mean_sea_level' });
  addWithDatums(store, 'holes', { hole: 'A', method: 'string', reference_datum: ' POSGAR07 ' });
  assert.equal(steps, 1);
  assert.deepEqual(written.slice(1), [
    ['datums', { datum: 'POSGAR07', kind: 'local' }],
    ['holes', { hole: 'A', method: 'string', reference_datum: ' POSGAR07 ' }],
  ]);
  assert.deepEqual(unrelatedDatums(rows, 'MSL'), ['POSGAR07']);
  assert.deepEqual(unrelatedDatums(rows, 'POSGAR07'), []);
  // Known now: nothing more is added.
  addWithDatums(store, 'holes', { hole: 'B', method: 'string', reference_datum: 'POSGAR07' });
  assert.equal(rows('datums').length, 2);
  put('datum_shifts', { from: 'POSGAR07', to: 'MSL', shift_m: '0.2' });
  assert.deepEqual(unrelatedDatums(rows, 'MSL'), []);
});

test('only the columns that stand for a datum are looked at', () => {
  assert.deepEqual(newDatums('holes', { hole: 'X', site: 'Y', pipe: 'Z' }, []), []);
  assert.deepEqual(newDatums('datum_shifts', { from: 'P', to: 'Q' }, [{ cells: { datum: 'Q' } }]), ['P']);
  assert.deepEqual(newDatums('benchmarks', { datum: '' }, []), []);
});

import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { TableName } from '@stillstand/campaign/tables';
import { addWithNamed, newRows, newRowWords } from './new-rows.ts';

function emptyStore() {
  const written: [TableName, Record<string, string>][] = [];
  const put = (table: TableName, cells: Readonly<Record<string, string>>): string => {
    written.push([table, { ...cells }]);
    return String(written.length);
  };
  const steps = { count: 0 };
  return {
    written,
    steps,
    rows: (table: TableName) =>
      written.flatMap(([of, cells], i) => (of === table ? [{ row_id: String(i), line: i, cells }] : [])),
    addRow: put,
    addReading: put,
    together: (edits: () => void) => {
      steps.count++;
      edits();
      return true;
    },
  };
}

test('site, pipe and datum first named by a hole are written down with it, before it, in one step', () => {
  const store = emptyStore();
  store.addRow('datums', { datum: 'MSL', kind: 'mean_sea_level' });
  const hole = { hole: 'A', site: 'Neck', pipe: '2 inch', reference_datum: ' POSGAR07 ' };
  assert.equal(addWithNamed(store, 'holes', [hole]), true);
  assert.equal(store.steps.count, 1);
  assert.deepEqual(store.written.slice(1), [
    ['sites', { site: 'Neck' }],
    ['datums', { datum: 'POSGAR07', kind: 'local' }],
    ['pipes', { pipe: '2 inch' }],
    ['holes', hole],
  ]);
  // Known now: nothing more is added; of two holes at one new site the site is added once.
  addWithNamed(store, 'holes', [
    { hole: 'B', site: 'Neck', reference_datum: 'POSGAR07' },
    { hole: 'C', site: 'Bar' },
    { hole: 'D', site: 'Bar' },
  ]);
  assert.deepEqual(
    (['sites', 'datums', 'pipes', 'holes'] as const).map((table) => store.rows(table).length),
    [2, 2, 1, 4],
  );
});

test('only the columns that name one are looked at, and a slip of the pen is asked after', () => {
  const store = emptyStore();
  assert.deepEqual(newRows('holes', [{ hole: 'X', site: '', replaces: 'Y' }], store.rows), []);
  store.addRow('datums', { datum: 'Q' });
  assert.deepEqual(
    newRows('datum_shifts', [{ from: 'P', to: 'Q' }], store.rows).map(({ label }) => label),
    ['P'],
  );
  store.addRow('sites', { site: 'Neck marsh' });
  const [slip] = newRows('holes', [{ hole: 'X', site: 'Nek marsh' }], store.rows);
  assert.match(
    newRowWords(slip!),
    /^Site Nek marsh is new: it is added under Sites\. Or is it Neck marsh\?$/,
  );
});

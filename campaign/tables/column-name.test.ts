/** One name for people of every column: said in words, and no two columns of a table by the same. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { columnName, settingName } from './column-name.ts';
import { schemas, type TableName } from './schemas.ts';

test('every column has a name in words, its own in its table', () => {
  for (const table of Object.keys(schemas) as TableName[]) {
    const columns = Object.keys(schemas[table].columns);
    const names = columns.map((column) => columnName(table, column));
    for (const name of names) assert.match(name, /^[^_`]+$/, `${table}: ${name}`);
    assert.equal(new Set(names).size, columns.length, `${table}: ${names.sort().join(', ')}`);
  }
});

test('names as a crew says them; a heading of one’s own stays', () => {
  assert.equal(columnName('drives', 'stick_up_end'), 'stick-up after');
  assert.equal(columnName('holes', 'replaces'), 'replaced hole');
  assert.equal(columnName('holes', 'reference_elevation_m'), 'reference elevation');
  assert.equal(columnName('runs', 'fall_in'), 'fall-in');
  assert.equal(columnName('datum_shifts', 'from'), 'from datum');
  assert.equal(columnName('pushes', 'from'), 'from');
  assert.equal(columnName('runs', 'our remarks'), 'our remarks');
  assert.equal(settingName('rate_slowing_mm_yr_ka'), 'rate slowing');
});

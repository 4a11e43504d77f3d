/** Our reader against a published collection of awkward CSV files and the cells they should give. */
import assert from 'node:assert/strict';
import { globSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { test } from 'node:test';
import { readCells } from '@stillstand/campaign/document';

const folder = join(import.meta.dirname, 'fixtures', 'csv-spectrum');
const files = globSync(join(folder, '*.csv'));
assert.equal(files.length, 11);

for (const file of files) {
  const name = basename(file, '.csv');
  test(`csv-spectrum: ${name}`, () => {
    const { cells, problems } = readCells(name, readFileSync(file));
    const objects = cells.rows.map((row) =>
      Object.fromEntries(cells.columns.map((column, i) => [column, row.cells[i]])),
    );
    let expected = JSON.parse(readFileSync(join(folder, `${name}.json`), 'utf8')) as unknown;
    if (!Array.isArray(expected)) expected = [expected];
    assert.deepEqual(problems, []);
    assert.deepEqual(objects, expected);
  });
}

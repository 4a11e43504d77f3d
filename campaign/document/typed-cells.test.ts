/** Cells by the column they are read as, whatever the file calls it. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { readFiles } from './files.ts';
import { typedCells } from './typed-cells.ts';

test('a heading in capitals is the column it is read as; a blank one is none; cells are as typed', () => {
  const csv = 'Hole,TO_Sediment,,smell\nT1, 9.80 m ,x,mud\n';
  const { document } = readFiles(new Map([['soundings.csv', new TextEncoder().encode(csv)]]));
  const [row] = typedCells(document).get('soundings')!.entries();
  assert.deepEqual(row, [2, { hole: 'T1', to_sediment: ' 9.80 m ', smell: 'mud' }]);
  assert.equal(typedCells(document).has('holes' as const), false);
});

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { freeLabel } from './free-label.ts';

test('a label is free where no row has it, also after a row before it was deleted', () => {
  assert.equal(freeLabel('Hazard', []), 'Hazard');
  assert.equal(freeLabel('Hazard', ['Hazard']), 'Hazard 2');
  // One row is left, and it has the number that a count of rows would give.
  assert.equal(freeLabel('Hazard', ['Hazard 2']), 'Hazard');
  assert.equal(freeLabel('Hazard', ['Hazard', 'Hazard 2', 'Hazard 4']), 'Hazard 3');
});

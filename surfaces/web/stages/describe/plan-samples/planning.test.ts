import assert from 'node:assert/strict';
import { test } from 'node:test';
import { relabelPlanned } from './planning.ts';

test('a sample that gets another label stays the one that was planned; one without a label is none of the plan', () => {
  const planned = ['S1', ''].map((sample, i) => ({ row_id: `p${i}`, line: i, cells: { sample } }));
  assert.deepEqual(relabelPlanned(planned, 'S1', { sample: 'S9' }), [
    { change: 'edit', table: 'planned_samples', row_id: 'p0', cells: { sample: 'S9' } },
  ]);
  assert.deepEqual(relabelPlanned(planned, '', { sample: 'S9' }), []);
  assert.deepEqual(relabelPlanned(planned, 'S1', { sample: '' }), []);
  assert.deepEqual(relabelPlanned(planned, 'S1', { material: 'peat' }), []);
});

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { isChoice } from './choice-column.ts';

test('words of a list are known from what a person typed', () => {
  assert.equal(isChoice('drives', 'ended_by'), true);
  assert.equal(isChoice('water_added', 'kind'), true);
  assert.equal(isChoice('events', 'text'), false);
  assert.equal(isChoice('drives', 'stick_up_end'), false);
  assert.equal(isChoice('drives', 'toString'), false);
});

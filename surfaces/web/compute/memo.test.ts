import assert from 'node:assert/strict';
import { test } from 'node:test';
import { forgettingMemo } from './memo.ts';

test('what is used is kept, what was not used for as many turns as asked is forgotten', () => {
  const { memo, turn } = forgettingMemo(2);
  memo.set('old', 1);
  memo.set('used', 2);
  for (let i = 0; i < 4; i++) {
    turn();
    assert.ok(memo.has('used'));
  }
  assert.ok(!memo.has('old'));
  assert.equal(memo.get('used'), 2);
});

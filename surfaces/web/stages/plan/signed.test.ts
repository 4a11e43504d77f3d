import assert from 'node:assert/strict';
import { test } from 'node:test';
import { signatures, withSignature } from './signed.ts';

test('lines are signed and taken back, and what else the note says stays', () => {
  let note = 'gale in the afternoon';
  note = withSignature(note, 'services located', 'DK 08:10');
  note = withSignature(note, 'leave by known', 'hand 08:12');
  assert.equal(
    note,
    'gale in the afternoon; signed: services located (DK 08:10), leave by known (hand 08:12)',
  );
  assert.deepEqual(signatures(note), [
    { line: 'services located', by: 'DK 08:10' },
    { line: 'leave by known', by: 'hand 08:12' },
  ]);
  note = withSignature(note, 'services located', null);
  assert.equal(note, 'gale in the afternoon; signed: leave by known (hand 08:12)');
  assert.equal(withSignature(note, 'leave by known', null), 'gale in the afternoon');
  assert.equal(withSignature('signed: a (b)', 'a', null), '');
  assert.deepEqual(signatures('nothing was signed here'), []);
});

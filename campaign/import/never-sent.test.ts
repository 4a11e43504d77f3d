/** Of which samples a result is a surprise, by custody written out by hand. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, withRows } from '@stillstand/campaign/document';
import { hereOf } from './here.ts';
import { neverSent } from './never-sent.ts';

type Cells = Record<string, string>;

/** Of A, B and C those that no parcel has. */
const unsent = (...custody: Cells[]): string[] => {
  const rows = custody.map((cells, i) => ({ seq: String(i + 1), row_id: `e${i + 1}`, ...cells }));
  const doubt = neverSent(hereOf(withRows(newDocument('parcels'), 'custody', rows)));
  return ['A', 'B', 'C'].filter((sample) => doubt(sample) !== null);
};
const sent = (sample: string, more: Cells = {}): Cells => ({ sample, action: 'sent', ...more });

test('a result of a sample that no parcel has is named, where parcels are kept', () => {
  assert.deepEqual(unsent(), []);
  assert.deepEqual(unsent({ sample: 'A', action: 'stored' }), []);
  assert.deepEqual(unsent(sent('A'), sent('B')), ['C']);
});

test('entries count as amended: a withdrawn one not, one that was of another sample for that one', () => {
  const withdrawn = sent('A', { amends: 'e1', amend_kind: 'withdraw' });
  assert.deepEqual(unsent(sent('A'), sent('B'), withdrawn), ['A', 'C']);
  const corrected = sent('C', { amends: 'e1', amend_kind: 'replace' });
  assert.deepEqual(unsent(sent('A'), sent('B'), corrected), ['A']);
});

test('entries of a file without names for its rows all count', () => {
  const nameless = { row_id: '' };
  assert.deepEqual(unsent(sent('A', nameless), sent('B', nameless)), ['C']);
});

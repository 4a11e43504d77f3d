/** Readings of one seq: one order, whatever the file says first. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import { withRows } from '../document.ts';
import { newDocument } from '../package.ts';
import { compareReadings, type InOrder } from './order.ts';
import { parseCampaign } from './parse.ts';

const SEED = 20_261_130;

const reading = (row_id: string, time: string | null, table: InOrder['table'] = 'soundings'): InOrder => ({
  table,
  seq: 4,
  time,
  row_id,
});
const ordered = (readings: InOrder[]): string =>
  readings
    .sort(compareReadings)
    .map(({ row_id }) => row_id)
    .join(' ');

test('by table, then by the moment with its offset, then by identity; one without a moment is behind', () => {
  const early = reading('z', '2024-03-05T09:30:00+08:00');
  const late = reading('a', '2024-03-05T02:00:00Z');
  assert.equal(ordered([late, early]), 'z a', '09:30 at +08:00 is 01:30 UTC');
  assert.equal(ordered([reading('b', null), reading('a', null), late, early]), 'z a a b');
  // A clock without its offset is no moment.
  assert.equal(ordered([reading('b', '2024-03-05T01:00:00'), early]), 'z b');
  assert.equal(
    ordered([early, reading('j', null, 'string_items')]),
    'j z',
    'the string before what is read in it',
  );
  assert.equal(ordered([{ ...late, seq: 4.5 }, reading('b', null)]), 'b a', 'seq comes first');
});

const anyReading = fc.record({
  table: fc.constantFrom<InOrder['table'][]>('string_items', 'soundings', 'runs'),
  seq: fc.constantFrom(4, 4.5),
  time: fc.constantFrom(
    null,
    '2024-03-05T09:30',
    '2024-03-05T09:30:00+08:00',
    '2024-03-05T01:30:00Z',
    '2024-03-05T03:00Z',
  ),
  row_id: fc.constantFrom('a', 'b', 'c', 'd'),
});

test(`it is a total order (seed ${SEED})`, () => {
  fc.assert(
    fc.property(anyReading, anyReading, anyReading, (a, b, c) => {
      assert.equal(Math.sign(compareReadings(a, b)), -Math.sign(compareReadings(b, a)) + 0);
      if (compareReadings(a, b) <= 0 && compareReadings(b, c) <= 0) assert.ok(compareReadings(a, c) <= 0);
    }),
    { seed: SEED, numRuns: 5000 },
  );
});

test(`no order of the lines changes the order of the readings (seed ${SEED})`, () => {
  const rows = ['a', 'b', 'c', 'd', 'e'].map((row_id, i) => ({
    row_id,
    hole: 'H1',
    seq: i < 4 ? '4' : '3',
    time: ['2024-03-05T09:30:00+08:00', '', '2024-03-05T01:00:00Z', '2024-03-05T09:30:00+08:00', ''][i]!,
    to_sediment: '1 m',
  }));
  const holes = withRows(newDocument('x'), 'holes', [{ hole: 'H1', method: 'string' }]);
  fc.assert(
    fc.property(fc.shuffledSubarray(rows, { minLength: rows.length }), (shuffled) => {
      const { campaign } = parseCampaign(withRows(holes, 'soundings', shuffled));
      assert.equal(campaign.rows.soundings.map(({ row_id }) => row_id).join(' '), 'e c a d b');
    }),
    { seed: SEED, numRuns: 60 },
  );
});

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { clockOf, dateOf, daysBetween, momentOf } from './iso-time.ts';

test('a moment is the same however its offset is written', () => {
  const noon = Date.UTC(2023, 1, 11, 12, 0, 0);
  for (const text of [
    '2023-02-11T12:00Z',
    '2023-02-11 12:00:00Z',
    '2023-02-11T04:00-08:00',
    '2023-02-11 04:00:00.000-0800',
    '2023-02-11T04:00−08',
    '2023-02-11T17:45:00,0+05:45',
    '2023-02-11T11:59:60Z',
  ]) {
    assert.equal(momentOf(text), noon, text);
  }
  assert.equal(momentOf('2023-02-11T12:00:00.25Z'), noon + 250);
  assert.equal(momentOf('2023-03-01T00:30+01:00'), Date.UTC(2023, 1, 28, 23, 30));
});

test('a time without its offset, or that is none, is no moment: the zone of the machine does not count', () => {
  for (const text of ['2023-02-11T12:00', '2023-02-11', '2023-02-30T12:00Z', 'noon', '']) {
    assert.equal(momentOf(text), null, text);
  }
});

test('date and clock as they were written, whatever the zone; none of what is no time', () => {
  assert.deepEqual(
    [dateOf('2024-03-05T23:59:00-08:00'), clockOf('2024-03-05T23:59:00-08:00')],
    ['2024-03-05', '23:59'],
  );
  assert.deepEqual([dateOf('2024-03-05 07:05'), clockOf('2024-03-05 07:05')], ['2024-03-05', '07:05']);
  assert.deepEqual([dateOf('2024-03-05'), clockOf('2024-03-05')], ['2024-03-05', '']);
  for (const none of [null, undefined, '', '07:05', 'soon'])
    assert.deepEqual([dateOf(none), clockOf(none)], [null, '']);
});

test('days between dates, over a leap day, backwards, and of no date', () => {
  assert.equal(daysBetween('2024-02-28', '2024-03-01'), 2);
  assert.equal(daysBetween('2023-02-28', '2023-03-01'), 1);
  assert.equal(daysBetween('2023-03-01', '2023-02-28'), -1);
  assert.equal(daysBetween('2023-02-30', '2023-03-01'), Number.NaN);
});

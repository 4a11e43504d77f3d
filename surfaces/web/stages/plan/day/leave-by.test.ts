import assert from 'node:assert/strict';
import { test } from 'node:test';
import { voidDay } from './day-date.ts';
import { isOfDay, leaveByTime, leaveByWords } from './leave-by.ts';

const DATE = '2024-03-05';

test('a leave-by time is of its day or of the night after it', () => {
  const of = (leave_by: string): boolean => isOfDay(leave_by, DATE);
  assert.deepEqual(['2024-03-05T15:00:00-08:00', '2024-03-06T00:15:00-08:00', ''].map(of), [
    true,
    true,
    true,
  ]);
  assert.deepEqual(['2024-03-04T15:00:00-08:00', '2024-03-07T00:15:00-08:00'].map(of), [false, false]);
  // Over the end of a month.
  assert.ok(isOfDay('2024-03-01T00:30:00-08:00', '2024-02-29'));
});

test('a day that is past, undated or unreadable is none that drilling begins on', () => {
  assert.equal(voidDay(DATE, DATE), null);
  assert.equal(voidDay('2024-03-06', DATE), null);
  assert.equal(voidDay('2024-03-04', DATE), '2024-03-04 is past');
  assert.equal(voidDay('', DATE), 'the day has no date');
  assert.equal(voidDay('5.3.2024', DATE), '“5.3.2024” is not a date');
  assert.equal(voidDay('2024-02-30', DATE), '“2024-02-30” is not a date');
});

test('a time of day is taken on the day, by the campaign’s clock', () => {
  for (const typed of ['18:30', '1830', '18.30', '18h30', ' 18:30 ', '2024-03-05 18:30']) {
    assert.equal(leaveByTime(typed, DATE, -180), '2024-03-05T18:30:00-03:00', typed);
  }
  assert.equal(leaveByTime('6:30', DATE, 345), '2024-03-05T06:30:00+05:45');
  assert.equal(leaveByTime('930', DATE, 0), '2024-03-05T09:30:00+00:00');
  assert.equal(leaveByTime('2024-03-06 00:15', DATE, 480), '2024-03-06T00:15:00+08:00');
  // A full time keeps its own offset and its own words.
  assert.equal(leaveByTime('2024-03-05T18:30+01:00', DATE, -180), '2024-03-05T18:30+01:00');
});

test('what is no time of day is not guessed at', () => {
  for (const typed of [
    '25:00',
    '18:75',
    '18',
    '6:3',
    '12345',
    'dusk',
    '2024-03-05',
    '2024-03-05T18:30:99+01:00',
  ]) {
    assert.equal(leaveByTime(typed, DATE, 0), null, typed);
  }
  assert.equal(leaveByTime('18:30', '', 0), null);
});

test('it is shown as it is said, and read back from that to the same moment', () => {
  for (const [leave_by, words] of [
    ['2024-03-05T18:30:00-03:00', '18:30'],
    ['2024-03-06T00:15:00-03:00', '2024-03-06 00:15'],
  ] as const) {
    assert.equal(leaveByWords(leave_by, DATE), words);
    assert.equal(leaveByTime(words, DATE, -180), leave_by);
  }
  assert.equal(leaveByWords('dusk', DATE), 'dusk');
  assert.equal(leaveByWords('', DATE), '');
});

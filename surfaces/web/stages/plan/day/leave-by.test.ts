import assert from 'node:assert/strict';
import { test } from 'node:test';
import { leaveByTime, leaveByWords } from './leave-by.ts';

const DATE = '2024-03-05';

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

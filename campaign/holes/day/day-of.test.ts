/** Of which day a reading without a time is: that which its neighbours in the log share, else none that is guessed. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import { holeState } from '../state.ts';
import { atEndOf, dayOf, daysOfReadings } from './day-of.ts';

/** Joints of H1 one after the other, each with its day and clock, or with none. */
function campaignOf(times: readonly string[], hole: (i: number) => string = () => 'H1') {
  const document = withRows(
    withRows(newDocument('days'), 'holes', [
      { hole: 'H1', method: 'string' },
      { hole: 'H2', method: 'string' },
    ]),
    'string_items',
    times.map((time, i) => ({
      row_id: `j${i}`,
      hole: hole(i),
      seq: `${i + 1}`,
      action: 'add',
      item: 'joint',
      joint: `A${i}`,
      length: '3 m',
      time: time === '' ? '' : `2024-06-${time}:00+02:00`,
    })),
  );
  return parseCampaign(document).campaign;
}
const daysOf = (times: readonly string[], hole?: (i: number) => string) => {
  const days = daysOfReadings(campaignOf(times, hole));
  return times.map((_, i) => dayOf(days.get(`j${i}`))?.slice(8) ?? null);
};

test('between two readings of one day it is of that day, however many are without a time', () => {
  assert.deepEqual(daysOf(['11T08:00', '', '', '11T09:00']), ['11', '11', '11', '11']);
});

test('between two days, first or last in the log, it is of no known day', () => {
  assert.deepEqual(daysOf(['11T23:50', '', '12T00:10']), ['11', null, '12']);
  assert.deepEqual(daysOf(['', '11T08:00', '']), [null, '11', null]);
  assert.deepEqual(daysOf(['', '']), [null, null]);
});

test('the neighbours are those of its own hole, and a clock that was set back guesses nothing', () => {
  assert.deepEqual(
    daysOf(['11T08:00', '', '11T09:00', ''], (i) => (i < 3 ? 'H1' : 'H2')),
    ['11', '11', '11', null],
  );
  const back = daysOfReadings(campaignOf(['12T08:00', '', '11T09:00']));
  assert.deepEqual(back.get('j1'), { from: '2024-06-11', to: '2024-06-12' });
});

test('at the end of a day nothing is in the hole that was surely done later; what may have been done is', () => {
  const campaign = campaignOf(['11T08:00', '', '12T08:00', '', '13T08:00']);
  const days = daysOfReadings(campaign);
  const joints = (date: string) =>
    holeState(atEndOf(campaign, date, days), 'H1')!.string.map(({ label }) => label);
  assert.deepEqual(joints('2024-06-11'), ['A0', 'A1']);
  assert.deepEqual(joints('2024-06-12'), ['A0', 'A1', 'A2', 'A3']);
  assert.deepEqual(joints('2024-06-10'), []);
});

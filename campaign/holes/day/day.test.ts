/** Emergency, call-in: each against a sum done by hand. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { degreesMinutes } from '../positions.ts';
import { callInOf, callWords } from './call-in.ts';
import { emergencyOf } from './emergency.ts';
import { stopsIn, stopWords } from './stops.ts';

test('a position is said in degrees and decimal minutes', () => {
  // 52.35575° = 52° + 0.35575·60 = 21.345′; 4.885333° = 53.120′
  assert.equal(degreesMinutes(52.35575, 4.8853333), '52° 21.345′ N, 4° 53.120′ E');
  assert.equal(degreesMinutes(-0.05, -179.9999999), '0° 03.000′ S, 180° 00.000′ W');
  assert.equal(degreesMinutes(0, 0), '0° 00.000′ N, 0° 00.000′ E');
});

const NO_DAY = { emergency_contact: null, emergency_position: null, contacts: null };

test('the contact of the day, else the last one written, with its date; nothing is made up', () => {
  const days = [
    { ...NO_DAY, date: '2024-06-10', emergency_contact: 'Coast guard, channel 16' },
    { ...NO_DAY, date: '2024-06-11', emergency_position: 'North groyne, gate 3' },
    { ...NO_DAY, date: '2024-06-12', emergency_contact: 'tomorrow’s' },
  ];
  const hole = { hole: 'H1', latitude_deg: 52.5, longitude_deg: 4.5 };
  const site = { site: 'A', frame: null, latitude_deg: 52, longitude_deg: 4 };
  const found = emergencyOf(days, '2024-06-11', hole, site);
  assert.deepEqual(found.contact, {
    words: 'Coast guard, channel 16',
    source: 'written for 2024-06-10, check it',
  });
  assert.deepEqual(found.positions, [
    { words: 'North groyne, gate 3', source: 'written for today' },
    { words: '52° 30.000′ N, 4° 30.000′ E', source: 'coordinates of hole H1, WGS 84' },
  ]);
  const bare = { ...hole, latitude_deg: null };
  const ofSite = emergencyOf([], '2024-06-11', bare, { ...site, frame: 'a local grid' });
  assert.match(ofSite.positions[0]!.source, /site A, in a local grid, not WGS 84; the hole has none/);
  assert.deepEqual(emergencyOf([], '2024-06-11', bare, null), { contact: null, ashore: null, positions: [] });
});

test('a call-in is shown from 15 min before, overdue, and a danger after 30 min', () => {
  const call = (time: string | null, due: string | null, seq: number) => ({
    kind: 'call_in' as const,
    seq,
    time,
    due,
    with_whom: 'harbour office',
  });
  const first = call('2024-06-11T14:30:00+02:00', '2024-06-11T15:30:00+02:00', 1);
  const at = (clock: string) => Date.parse(`2024-06-11T${clock}+02:00`);
  const state = (clock: string) => {
    const { minutes, level } = callInOf([first], at(clock))!;
    return [minutes, level];
  };
  assert.deepEqual(state('15:14:00'), [16, 'later']);
  assert.deepEqual(state('15:14:30'), [15, 'soon']);
  assert.deepEqual(state('15:30:00'), [0, 'soon']);
  assert.deepEqual(state('15:30:01'), [-1, 'overdue']);
  assert.deepEqual(state('16:00:00'), [-30, 'overdue']);
  assert.deepEqual(state('16:00:01'), [-31, 'danger']);
  // an hour as before, rounded down to five minutes: 15:27 + 1 h = 16:27, so 16:25
  assert.equal(callInOf([first], at('15:27:00'))!.next_ms, at('16:25:00'));
  // and an hour it stays: 16:20 is 53 min after 15:27, which counts as an hour
  const again = call('2024-06-11T15:27:00+02:00', '2024-06-11T16:25:00+02:00', 2);
  assert.equal(callInOf([first, again], at('16:20:00'))!.next_ms, at('17:20:00'));
  // called long before it is due: the next one is an hour after that, 16:25 + 1 h
  assert.equal(callInOf([first, again], at('15:20:00'))!.next_ms, at('17:25:00'));
  // the latest by the clock counts, in whatever order the rows are; one without a time is as late as it was written
  const second = call('2024-06-11T15:28:00+02:00', '2024-06-11T17:00:00+02:00', 2);
  assert.equal(callInOf([second, first], at('15:40:00'))!.due, second.due);
  assert.equal(callInOf([{ ...second, seq: 0 }, first], at('15:40:00'))!.due, second.due);
  // a due time before the call itself is a slip: the usual hour is proposed, not less than none
  const slip = call('2024-06-11T14:30:00+02:00', '2024-06-11T13:30:00+02:00', 1);
  assert.equal(callInOf([slip], at('15:00:00'))!.next_ms, at('16:00:00'));
  assert.equal(callInOf([first, call(null, null, 3)], at('15:40:00')), null);
  assert.equal(callInOf([], at('15:40:00')), null);
  // over midnight, and still asked for the next day
  const late = call('2024-06-11T23:30:00+02:00', '2024-06-12T00:30:00+02:00', 4);
  assert.equal(callInOf([late], Date.parse('2024-06-12T09:00:00+02:00'))!.level, 'danger');
  assert.deepEqual(
    [callWords({ minutes: 12 }), callWords({ minutes: 0 }), callWords({ minutes: -65 })],
    ['in 12 min', 'now', '1 h 05 min overdue'],
  );
});

test('a gap of more than 30 minutes between readings is a stop, with the reason an event between them gives', () => {
  const at = (clock: string) => `2024-06-11T${clock}:00+02:00`;
  const reading = (from: string, to = from) => ({ from: at(from), to: at(to), event: null });
  const event = (words: string) => ({ from: '', to: '', event: words });
  const stops = stopsIn([
    reading('12:00'),
    // a run that goes on for 40 minutes is no stop
    reading('12:00', '12:40'),
    event('breakdown, winch rope'),
    event('weather, rain'),
    reading('14:05'),
    reading('14:35'),
    // no time, and a clock that went back, open no gap
    { from: '', to: '', event: null },
    reading('13:00'),
    reading('15:06'),
  ]);
  assert.deepEqual(
    stops.map((s) => [s.after, s.minutes, stopWords(s)]),
    [
      [1, 85, 'stopped 12:40–14:05, 1 h 25 min: breakdown, winch rope; weather, rain'],
      [5, 31, 'stopped 14:35–15:06, 31 min: reason not recorded'],
    ],
  );
  const night = stopsIn([reading('23:40'), { from: '2024-06-12T00:30:00+02:00', to: '', event: null }]);
  assert.equal(stopWords(night[0]!), 'stopped 23:40–00:30 on 2024-06-12, 50 min: reason not recorded');
});

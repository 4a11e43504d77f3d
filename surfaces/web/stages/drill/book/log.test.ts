/** The log: a rule between days, stops with their reason, the shoe after each reading, and the end. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { stopWords } from '@stillstand/campaign/holes';
import { crewAt } from '../fixtures/crew.ts';
import { bookOf } from './book.ts';
import { type LogEntry, logOf } from './log.ts';

function words(entry: LogEntry): string {
  switch (entry.kind) {
    case 'day':
      return `— ${entry.date}`;
    case 'stop':
      return stopWords(entry.stop);
    case 'clash':
      return `which first: ${entry.clash.differs.join('; ')}`;
    case 'end':
      return `${entry.clock} ${entry.words}`;
    case 'line': {
      const shoe = entry.shoe_m === null ? '' : `, shoe ${entry.shoe_m.toFixed(2)}`;
      return `${entry.line.clock} ${entry.line.name}${shoe}`;
    }
  }
}
const told = (log: readonly LogEntry[]): string[] => log.map(words);

test('a hole over two days, with a breakdown, a reading without a time and an end', () => {
  const { store, now, enter } = crewAt('H1');
  const at = (time: string) => ({ time: time === '' ? '' : `${time}:00+02:00`, hole: 'H1' });
  store.addReading('ground_levels', { ...at('2024-06-11T12:10'), ground_below_reference: '0.20 m' });
  store.addReading('string_items', {
    ...at('2024-06-11T12:20'),
    action: 'add',
    item: 'joint',
    joint: 'A1',
    length: '3.00 m',
  });
  store.addReading('drives', {
    ...at('2024-06-11T12:40'),
    stick_up_start: '2.80 m',
    stick_up_end: '0.50 m',
  });
  store.addReading('events', { ...at('2024-06-11T12:45'), kind: 'breakdown', text: 'pump' });
  const sounded = store.addReading('soundings', {
    ...at('2024-06-11T14:05'),
    to_sediment: '1.00 m',
    purpose: 'after_drive',
  });
  store.addReading('soundings', { ...at(''), to_water_inside: '0.10 m', water_outside: '1.00 m' });
  store.addReading('soundings', { ...at('2024-06-12T08:00'), to_sediment: '1.02 m', purpose: 'resume' });
  assert.deepEqual(told(logOf(bookOf(store, now()), now())), [
    '— 2024-06-11',
    '12:10 Ground',
    '12:20 Added joint A1',
    // string 3.00 − stick-up 0.50 − ground 0.20
    '12:40 Drive, shoe 2.30',
    'stopped 12:40–14:05, 1 h 25 min: breakdown, pump',
    '12:45 Breakdown',
    '14:05 Sounding, after drive',
    'stopped 14:05–08:00 on 2024-06-12, 17 h 55 min: reason not recorded',
    ' Water',
    '— 2024-06-12',
    '08:00 Sounding, resume',
  ]);
  // a withdrawn reading stays in the log and ends no stop
  store.withdraw('soundings', sounded);
  enter('close', { state: 'refused', end_reason: 'boulder' });
  const after = told(logOf(bookOf(store, now()), now()));
  assert.ok(
    after.includes('stopped 12:40–08:00 on 2024-06-12, 19 h 20 min: breakdown, pump'),
    after.join('\n'),
  );
  assert.match(after.at(-1)!, /^\d\d:\d\d Hole ended, refused: boulder$/);
});

test('a hand-over is confirmed by a later row, a call-in is of the day', () => {
  const { store, now, enter } = crewAt('H1');
  enter('ground', { ground_below_reference: '0.20 m' });
  enter('add', { joint: 'A1', item: 'joint', length: '3.00 m' });
  const [handed] = enter('hand_over', { by: 'AB', with_whom: 'CD', confirmed: 'no' });
  const cells = () => bookOf(store, now()).find((l) => l.root_id === handed)!.cells;
  assert.deepEqual(
    cells().map((c) => c.column),
    ['text', 'with_whom', 'next'],
  );
  assert.match(
    cells()[0]!.now,
    /^Site check: 13 questions not answered\. String: 1 joint, 3\.00 m from collar to shoe\. Shoe: depth not known\./,
  );
  store.amend('events', handed!, { confirmed: 'yes' });
  assert.equal(cells().at(-1)!.column, 'confirmed');
  enter('call_in', { with_whom: 'harbour office', due: '2024-06-11T15:30:00+02:00' });
  const call = store.rows('events').at(-1)!.cells;
  assert.deepEqual(
    [call['hole'], call['kind'], call['due']],
    [undefined, 'call_in', '2024-06-11T15:30:00+02:00'],
  );
  enter('call_in', { with_whom: 'harbour office', due: 'none' });
  assert.equal(store.rows('events').at(-1)!.cells['due'], undefined);
  enter('injury', {});
  assert.equal(store.rows('events').at(-1)!.cells['kind'], 'injury');
});

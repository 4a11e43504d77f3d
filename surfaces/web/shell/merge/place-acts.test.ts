import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { MergeConflict, StrandAct } from '@stillstand/campaign/merge';
import { placeActs } from './place-acts.ts';

const act = (time: string, device: string): StrandAct => ({
  id: `${device} ${time}`,
  time,
  by: '',
  device,
  how: 'done',
  rows: 1,
  words: '',
});
const day = (clock: string): string => `2026-02-15T${clock}:00-08:00`;
const NOW = Date.parse(day('19:00'));

/** Two sides at those times. */
const conflict = (ours: string, theirs: string): MergeConflict => ({
  key: '',
  kind: 'cell',
  table: 'units',
  row_id: '',
  column: '',
  name: '',
  was: '',
  until: '',
  effect: [],
  choices: [],
  sides: [['ours', ours, 'tablet A'] as const, ['theirs', theirs, 'tablet B'] as const].map(
    ([side, time, device]) => ({ side, value: '', words: '', by: '', device, time, reason: '' }),
  ),
});

test('acts lie by their times between what both know and the last; a ring lies midway between its sides', () => {
  const placed = placeActs(
    {
      since: { time: day('09:00') },
      ours: [act(day('10:00'), 'tablet A'), act(day('14:00'), 'tablet A')],
      theirs: [act(day('12:00'), 'tablet B'), act(day('19:00'), 'tablet B')],
      conflicts: [conflict(day('10:00'), day('12:00'))],
    },
    NOW,
    4,
  );
  assert.equal(placed.fault, null);
  assert.deepEqual(placed.ours, [0.1, 0.5]);
  assert.deepEqual(placed.theirs, [0.3, 1]);
  assert.deepEqual(placed.rings, [0.2]);
  // Every three hours by the clock of the place.
  assert.deepEqual(placed.scale, [
    { at: 0, words: '09:00' },
    { at: 0.3, words: '12:00' },
    { at: 0.6, words: '15:00' },
    { at: 0.9, words: '18:00' },
  ]);
});

test('a clock a year off, one that went back, one ahead: acts lie by their order, and the device is named', () => {
  const plan = {
    since: { time: day('09:00') },
    ours: [act(day('10:00'), 'tablet A'), act(day('11:00'), 'tablet A')],
    theirs: [act('2025-02-15T12:00:00-08:00', 'tablet B')],
    conflicts: [],
  };
  const placed = placeActs(plan, NOW, 4);
  assert.match(
    placed.fault!,
    /^tablet B: a change is dated 15 Feb 2025, 12:00, before what both copies have/,
  );
  assert.deepEqual(placed.ours, [1 / 3, 2 / 3]);
  assert.deepEqual(placed.theirs, [1 / 2]);
  assert.deepEqual(placed.scale, []);
  const back = [act(day('13:00'), 'tablet B'), act(day('12:00'), 'tablet B')];
  assert.equal(placeActs({ ...plan, theirs: back }, NOW, 4).fault, 'tablet B: its clock went back');
  const ahead = [act('2027-02-15T12:00:00-08:00', 'tablet B')];
  assert.match(placeActs({ ...plan, theirs: ahead }, NOW, 4).fault!, /15 Feb 2027, 12:00, after now$/);
  const none = [act('', '')];
  assert.match(placeActs({ ...plan, theirs: none }, NOW, 4).fault!, /^a device without a name: .* no time$/);
});

test('several days are named on the scale by their days', () => {
  const placed = placeActs(
    {
      since: null,
      ours: [act('2026-02-13T08:00:00+01:00', 'tablet A')],
      theirs: [act('2026-02-15T16:00:00+01:00', 'tablet B')],
      conflicts: [],
    },
    NOW,
    3,
  );
  assert.deepEqual(
    placed.scale.map(({ words }) => words),
    ['14 Feb 2026', '15 Feb 2026'],
  );
});

test('ten thousand acts are placed at once', () => {
  const many = (device: string) =>
    Array.from({ length: 10_000 }, (_, i) =>
      act(new Date(Date.parse(day('09:00')) + i * 1000).toISOString().replace(/\.\d+Z/, '+00:00'), device),
    );
  const began = process.cpuUsage();
  placeActs({ since: null, ours: many('A'), theirs: many('B'), conflicts: [] }, NOW, 6);
  assert.ok(process.cpuUsage(began).user < 2_000_000);
});

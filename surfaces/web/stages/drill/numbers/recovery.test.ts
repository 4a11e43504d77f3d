/** Recovery where depths repeat, where hardly anything was driven, and where a reading cannot be. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { begun, crewAt } from '../fixtures/crew.ts';
import { recovery } from './recovery.ts';

test('steps of a centimetre are one depth: the share is of all that was driven, not of the last step', () => {
  const { now, enter } = begun('H1');
  for (const [from, to] of [
    ['0.35 m', '0.335 m'],
    ['0.335 m', '0.32 m'],
  ] as const) {
    enter('drive', { stick_up_start: from, stick_up_end: to });
    enter('sound', { to_sediment: '1.02 m' });
  }
  // 2.10 of 2.515 m, where it was sounded within 2 cm of now first
  assert.equal(recovery(now()).value, '83');
});

test('a sounding repeated at one depth: the first is used, and what the second shows is no doubt of it', () => {
  const { now, enter } = begun('H1');
  enter('sound', { to_sediment: '0.80 m' });
  assert.ok(now().findings.some((f) => f.code === 'sediment-rising'));
  assert.deepEqual([recovery(now()).value, recovery(now()).also], ['84', null]);
});

test('hardly driven is no recovery', () => {
  const { now, enter } = crewAt('H1');
  enter('ground', { ground_below_reference: '0 m' });
  enter('add', { joint: 'A1', item: 'joint', length: '3.00 m' });
  enter('drive', { stick_up_start: '3.00 m', stick_up_end: '2.985 m' });
  enter('sound', { to_sediment: '2.99 m' });
  assert.deepEqual([recovery(now()).value, recovery(now()).sum], [null, 'hardly driven']);
});

test('of a run it is without fall-in, until the next drive, and doubtful where more came up than was removed', () => {
  const ran = (recovered: string, fall_in: string) => {
    const rig = begun('H1');
    rig.enter('run', { start_mark: '1.02 m' });
    rig.enter('cable', { end_mark: '2.02 m' });
    rig.enter('lay_out', { recovered, fall_in, outcome: 'full', loss_position: 'base' });
    rig.enter('sound', { to_sediment: '2.02 m' });
    return rig;
  };
  const { now, enter } = ran('0.90 m', '0.10 m');
  // 0.90 − 0.10 of 1.00 m
  const own = recovery(now());
  assert.deepEqual([own.name, own.value, own.also], ['Sampler recovery, R1', '80', null]);
  assert.match(own.sum, /^0\.80 of 1\.00 m removed/);
  enter('drive', { stick_up_start: '0.35 m', stick_up_end: '0.20 m' });
  assert.deepEqual([recovery(now()).name, recovery(now()).age], ['Recovery', 'before this drive']);
  assert.equal(recovery(ran('1.50 m', '').now()).also?.value, 'doubtful');
});

/** What is suggested where something went another way than usual: water still low, a stop, a joint or a drive in between. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { lift } from '../book/record.ts';
import { begun, crewAt } from '../fixtures/crew.ts';

/** Begun, and run R1 is up: 1.02 to 1.60 m. */
function lifted(hole: string) {
  const rig = begun(hole);
  rig.enter('mark', {});
  rig.enter('run', { start_mark: '1.02 m' });
  rig.enter('cable', { end_mark: '1.60 m' });
  lift(rig.store, rig.now());
  return rig;
}

test('refilled, but still lower inside than outside: filled on before the core is looked at', () => {
  const { next, enter } = lifted('H1');
  // the sea stands 2.00 m below the collar
  enter('fill', { to_water_after: '2.30 m' });
  assert.equal(next().title, 'Refill the string');
  enter('fill', { to_water_after: '0.10 m' });
  assert.equal(next().name, 'lay_out');
});

test('a drive before the core was laid out: filled, then the core', () => {
  const { next, enter } = lifted('H1');
  enter('drive', { stick_up_start: '0.35 m', stick_up_end: '0.20 m' });
  assert.equal(next().title, 'Fill the string');
  enter('fill', { to_water_after: '0.10 m' });
  assert.equal(next().name, 'lay_out');
});

test('what stopped a drive is asked right after it, and not again after a run', () => {
  const { next, enter } = begun('H1');
  enter('drive', { stick_up_start: '0.35 m', stick_up_end: '0.30 m', ended_by: 'obstruction' });
  assert.equal(next().name, 'respond');
  enter('run', { start_mark: '1.02 m' });
  enter('lay_out', { recovered: '0.50 m', outcome: 'full', loss_position: 'base' });
  assert.equal(next().title, 'Refill the string');
});

test('lifted after an obstruction, and water read since: the string is not driven again unseen', () => {
  const { next, enter, step } = begun('H1');
  enter('drive', { stick_up_start: '0.35 m', stick_up_end: '0.30 m', ended_by: 'obstruction' });
  step('respond', { obstruction_response: 'lifted_and_retried' });
  assert.equal(next().title, 'Drive the string again');
  enter('fill', { to_water_after: '0.10 m' });
  assert.equal(next().title, 'Take sounding');
});

test('the hole is moved: the string is pulled as soon as nothing is left to sample', () => {
  const { next, enter, step } = begun('H1');
  enter('drive', { stick_up_start: '0.35 m', stick_up_end: '0.33 m', ended_by: 'refusal' });
  step('respond', { obstruction_response: 'moved' });
  enter('fill', { to_water_after: '0.10 m' });
  // 3.12 − 0.30 is the stop mark: 0.12 m to it is no run
  enter('sound', { to_sediment: '2.70 m' });
  enter('water', { to_water_inside: '0.10 m', water_outside: '1.65 m' });
  assert.deepEqual([next().name, next().why], ['pull', 'the hole is moved']);
});

test('water read half an hour ago is read again before a run', () => {
  const { next, wait } = begun('H1');
  wait(28);
  assert.equal(next().name, 'mark');
  wait(2);
  assert.deepEqual([next().name, next().why], ['water', 'last read 30 min ago']);
});

test('a joint that was added and is tight is driven', () => {
  const { next, enter, step } = begun('H1');
  enter('add', { joint: 'A2', item: 'joint', length: '3.00 m' });
  step('tighten', {});
  assert.equal(next().title, 'Drive the string');
});

test('a collar 0.80 m above the ground is driven on, a lower one gets its joint; the ground counts', () => {
  const sampled = (stick_up_end: string) => {
    const { next, enter } = crewAt('H1');
    enter('ground', { ground_below_reference: '0.27 m' });
    enter('add', { joint: 'A1', item: 'joint', length: '3.12 m' });
    enter('drive', { stick_up_start: '2.85 m', stick_up_end });
    enter('fill', { to_water_after: '0.10 m', kind: 'sea' });
    enter('sound', { to_sediment: '2.70 m' });
    enter('water', { to_water_inside: '0.10 m', water_outside: '1.65 m' });
    return next().title;
  };
  // 0.53 + 0.27
  assert.equal(sampled('0.53 m'), 'Drive the string on');
  assert.equal(sampled('0.52 m'), 'Add a joint');
});

test('a lift is told its speed by a head that was read, and by none that was not', () => {
  const { store, next, enter, wait } = begun('H1');
  store.editRow('pipes', 'p1', { outside_diameter_mm: '88.9', wall_mm: '5.49' });
  store.editRow('samplers', 'v1', { outside_mm: '70' });
  enter('water', { to_water_inside: '1.50 m', water_outside: '1.65 m' });
  enter('run', { start_mark: '1.02 m', sampler: 'V50' });
  enter('cable', { end_mark: '1.60 m' });
  assert.match(next().then, /^lift at [\d.]+ m\/s or slower|^fill while/);
  wait(180);
  assert.equal(next().then, 'then lay out the core');
});

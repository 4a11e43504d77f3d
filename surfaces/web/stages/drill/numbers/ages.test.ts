/** Readings lose their weight by the clock and by what is done after them, and say what they were when they are gone. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { agesOf, ageText, type HoleState, handOverLines, stoppedDrive } from '@stillstand/campaign/holes';
import { begun, lookedAt } from '../fixtures/crew.ts';
import { atRisk } from './at-risk.ts';
import { type Moment, summed } from './big-number.ts';
import { fourNumbers, plugLength, shoeDepth } from './numbers.ts';
import { recovery } from './recovery.ts';
import { waterHead } from './water-head.ts';

const HOUR = 3_600_000;
/** So long after the last reading; the sea has risen by so much since. */
function after(now: HoleState, hours: number, rise_m: number | null = null): Moment {
  const last = now.entries.findLast((e) => e.time !== null)!.time!;
  const at_ms = Date.parse(last) + hours * HOUR;
  return { ages: agesOf(now, at_ms), day: new Date(at_ms).toISOString().slice(0, 10), rise_m };
}

test('a head is fresh, then lighter with its age, then not read with what it was', () => {
  const { now } = begun('H1');
  const head = (hours: number, rise: number | null = null) => waterHead(now(), after(now(), hours, rise));
  assert.deepEqual([head(0.4).value, head(0.4).age], ['+1.90', null]);
  assert.deepEqual([head(1.5).value, head(1.5).age, head(1.5).level], ['+1.90', '1 h 30 min old', 'normal']);
  // by the tide the outside has come up: said, and a caution before it is as high as the water inside
  assert.equal(head(1.5, 0.49).say, 'Read at 08:16; outside rose 0.49 m');
  assert.deepEqual([head(1.5, 1.81).level, head(1.5, 1.81).word], ['caution', 'Tide rising']);
  assert.equal(head(3).value, null);
  assert.equal(head(3).sum, '+1.90 m at 08:16, 3 h ago');
  assert.equal(head(26).sum, '+1.90 m at 08:16 on 2024-06-11, 1 day ago');
});

test('a drive takes the plug and the head; what they were stays in sight', () => {
  const { now, enter } = begun('H1');
  enter('drive', { stick_up_start: '0.35 m', stick_up_end: '0.20 m', duration_s: '10' });
  const moment = after(now(), 0);
  assert.deepEqual([plugLength(now(), moment).value, waterHead(now(), moment).value], [null, null]);
  assert.equal(plugLength(now(), moment).sum, '2.10 m at 08:14, before this drive');
  assert.equal(waterHead(now(), moment).sum, '+1.90 m at 08:16, before this drive');
});

test('a plug after a night is not read; the shoe is, lighter, for it is all there is', () => {
  const { now, next } = begun('H1');
  const night = after(now(), 14);
  assert.equal(plugLength(now(), night).value, null);
  assert.equal(plugLength(now(), night).sum, '2.10 m at 08:14, 14 h 2 min ago');
  assert.deepEqual([shoeDepth(now(), night).value, shoeDepth(now(), night).age], ['2.50', '14 h 6 min old']);
  assert.equal(next(true).title, 'Repeat sounding');
});

test('a sampler that is still in the string is not forgotten by a drive', () => {
  const { now, next, enter } = begun('H1');
  enter('run', { start_mark: '1.02 m' });
  enter('cable', { end_mark: '2.00 m' });
  assert.equal(atRisk(now(), after(now(), 0)).value, '1.12');
  enter('drive', { stick_up_start: '0.35 m', stick_up_end: '0.20 m' });
  const plate = atRisk(now(), after(now(), 0));
  assert.deepEqual([plate.value, plate.level, plate.word], [null, 'caution', 'Sampler in string']);
  assert.equal(plate.sum, 'tip 2.00 m at 08:19, before this drive');
  assert.deepEqual([next().name, next().caution], ['lift', 'The string was driven with the sampler in it.']);
  // a sampler left hanging overnight has a clearance nobody should trust
  const { now: hung, enter: hang } = begun('H2');
  hang('run', { start_mark: '1.02 m' });
  assert.equal(atRisk(hung(), after(hung(), 14)).value, null);
  assert.equal(atRisk(hung(), after(hung(), 1)).age, '1 h old');
});

test('a clock a little ahead is now; far ahead, or no time at all, is no fresh reading', () => {
  const { now } = begun('H1');
  assert.equal(after(now(), -0.05).ages.head?.weight, 'fresh');
  assert.deepEqual([after(now(), -2).ages.head?.weight, after(now(), -2).ages.head?.age_min], ['old', null]);
  assert.equal(waterHead(now(), after(now(), -2)).age, 'time not known');
  assert.deepEqual([0, 59, 60, 419, 1440, 4000].map(ageText), [
    '0 min',
    '59 min',
    '1 h',
    '6 h 59 min',
    '1 day',
    '2 days',
  ]);
});

test('a drive that slows puts its rate on the plate, with the water in sight; refusal says what to do', () => {
  const { now, enter, next } = begun('H1');
  // 2.50 m in 60 s, then 0.15 m in 10 s: 0.90 of 2.50
  assert.deepEqual(shoeDepth(now(), after(now(), 0)).also, { value: '2.50', unit: 'm/min', level: 'normal' });
  enter('drive', { stick_up_start: '0.35 m', stick_up_end: '0.20 m', duration_s: '10' });
  const slow = fourNumbers(now(), after(now(), 0));
  assert.deepEqual(
    slow.map((n) => n.name),
    ['Shoe depth', 'Water head', 'Plug length', 'Penetration rate'],
  );
  const plate = slow[3];
  assert.deepEqual([plate.value, plate.word, plate.level], ['0.90', 'Slowing', 'caution']);
  assert.equal(plate.sum, '0.15 m in 10 s; 36 % of the usual 2.50');
  assert.equal(plate.say, 'Stop at 0.25, a tenth of usual.');
  // ± 2σ of the advance, 2·√2·0.005 m, in a sixth of a minute
  assert.equal(plate.spread, '0.09');
  enter('drive', { stick_up_start: '0.20 m', stick_up_end: '0.18 m', duration_s: '10', ended_by: 'refusal' });
  const stopped = fourNumbers(now(), after(now(), 0))[3];
  assert.deepEqual([stopped.value, stopped.word, stopped.level], ['0.12', 'Refusal', 'danger']);
  assert.equal(next().name, 'respond');
  enter('fill', { to_water_after: '0.10 m' });
  assert.equal(fourNumbers(now(), after(now(), 0))[3].name, 'Water head');
});

test('an obstruction: what is done is asked, kept, and leads on', () => {
  const lifted = begun('H1');
  lifted.enter('drive', { stick_up_start: '0.35 m', stick_up_end: '0.20 m', ended_by: 'obstruction' });
  lifted.step('respond', { obstruction_response: 'lifted_and_retried' });
  assert.equal(lifted.next().title, 'Drive the string again');
  // lifted, the stick-up before the next drive is read, not assumed, and is no jump
  lifted.enter('drive', { stick_up_start: '0.55 m', stick_up_end: '0.05 m' });
  assert.deepEqual(
    lifted.now().findings.filter((f) => f.code === 'stick-up-jump'),
    [],
  );
  const moved = begun('H2');
  moved.enter('drive', { stick_up_start: '0.35 m', stick_up_end: '0.33 m', ended_by: 'refusal' });
  moved.step('respond', { obstruction_response: 'moved' });
  assert.equal(moved.store.rows('drives').at(-1)!.cells['obstruction_response'], 'moved');
  moved.enter('pull', { action: 'pull' });
  moved.enter('pull', { action: 'pull' });
  moved.step('ground', { ground_below_reference: '0.3 m' });
  moved.step('close', { state: 'refused' });
  assert.equal(moved.next().title, 'Start the next hole');
  const ended = begun('H3');
  ended.enter('stuck', { stick_up_end: '0.34 m', ended_by: 'obstruction', obstruction_response: 'ended' });
  assert.equal(ended.next().name, 'fill');
});

test('ground that was open already is no advance: a drive after a lift is judged by what is new', () => {
  const { now, enter } = begun('H1');
  const response = 'lifted_and_retried';
  enter('stuck', {
    stick_up_end: '0.33 m',
    duration_s: '10',
    ended_by: 'refusal',
    obstruction_response: response,
  });
  enter('drive', { stick_up_start: '0.65 m', stick_up_end: '0.31 m', duration_s: '20' });
  // 0.34 m down, of which 0.02 m is new, in a third of a minute
  const plate = fourNumbers(now(), lookedAt(now()))[3];
  assert.deepEqual([plate.name, plate.value, plate.word], ['Penetration rate', '0.06', 'Refusal']);
  assert.match(plate.sum, /^0\.02 m in 20 s/);
});

test('refusal that only the rate shows asks what is done all the same', () => {
  const { store, now, enter, next } = begun('H1');
  enter('drive', { stick_up_start: '0.35 m', stick_up_end: '0.33 m', duration_s: '30', ended_by: 'length' });
  assert.equal(fourNumbers(now(), lookedAt(now()))[3].word, 'Refusal');
  assert.equal(next().name, 'respond');
  // and the crew that takes over hears of it, as of one that was said
  assert.deepEqual(stoppedDrive(now()), {
    by: 'refusal',
    response: null,
    at_m: now().fold.drives.at(-1)!.to_m,
  });
  assert.ok(handOverLines(now(), store).some((line) => line.startsWith('Last drive met refusal at 2.52 m')));
  // slowing is no stop; what was done after it is known all the same
  enter('stuck', {
    stick_up_start: '0.33 m',
    stick_up_end: '0.20 m',
    ended_by: 'slowing',
    obstruction_response: 'lifted_and_retried',
  });
  assert.equal(stoppedDrive(now()), null);
  assert.equal(next().title, 'Drive the string again');
});

test('a hole that has ended shows what it left, not the load of a line that hangs no more', () => {
  const { now, enter } = begun('H1');
  enter('pull', { action: 'pull', line_load_kn: '12' });
  enter('close', { state: 'finished' });
  const shown = fourNumbers(now(), lookedAt(now()));
  assert.deepEqual(
    shown.map((n) => n.name),
    ['Deepest shoe', 'Entered in all', 'Recovery', 'Pipe in the ground'],
  );
  assert.equal(shown[0].value, '2.50');
});

test('a sounding that cannot be makes the recovery doubtful, however round it looks', () => {
  const { now, enter } = begun('H1');
  enter('drive', { stick_up_start: '0.35 m', stick_up_end: '0.05 m' });
  // the plug was 2.10: 0.80 m more in a drive of 0.30
  enter('sound', { to_sediment: '0.22 m' });
  assert.ok(now().findings.some((f) => f.code === 'recovery-over-one'));
  assert.equal(recovery(now()).also?.value, 'doubtful');
  assert.equal(recovery(begun('H2').now()).also, null);
});

test('a sum is to the centimetre where its parts add up so, else to the millimetre', () => {
  // 3.1556 − 1.524 − 0.27 is 1.3616, but 3.16 − 1.52 − 0.27 is 1.37
  const of = summed([3.1556, -1.524, -0.27], '1.36');
  assert.deepEqual([of(3.1556), of(1.524), of(0.27)], ['3.156', '1.524', '0.270']);
  assert.equal(summed([3.12, -0.35, -0.27], '2.50')(3.12), '3.12');
});

/** Each limit of how old a reading may be, to the minute, and what is done since that ages it at once. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { agesOf, ageText, type HoleAges } from './ages.ts';
import { at, drive, holeTold, joint, run, sound, type Told } from './fixtures/told.ts';

const PLUG = { to_sediment: '4 m' };
const WATER = { to_water_inside: '0.1 m', water_outside: '1 m' };

const JOINT = joint('A1', '6 m', '07:00');
/** Driven at 08:00, and sounded in the same minute. */
const DRIVEN = [JOINT, drive('6 m', '2 m', '08:00'), sound({ ...PLUG, ...WATER }, '08:00')];
const weights = (told: readonly Told[], of: keyof HoleAges, clocks: readonly string[]) =>
  clocks.map((clock) => agesOf(holeTold(told), at(clock))[of]!.weight);

test('water: old at half an hour, not read at three hours, to the minute', () => {
  assert.deepEqual(weights(DRIVEN, 'head', ['08:00', '08:29', '08:30', '10:59', '11:00']), [
    'fresh',
    'fresh',
    'old',
    'old',
    'not read',
  ]);
});

test('plug: old at an hour, not read at four hours', () => {
  assert.deepEqual(weights(DRIVEN, 'sediment', ['08:59', '09:00', '11:59', '12:00']), [
    'fresh',
    'old',
    'old',
    'not read',
  ]);
});

test('stick-up: old at four hours, and never taken away', () => {
  assert.deepEqual(weights(DRIVEN, 'stick_up', ['11:59', '12:00']), ['fresh', 'old']);
  assert.equal(agesOf(holeTold(DRIVEN), at('08:00') + 30 * 86_400_000).stick_up!.weight, 'old');
});

test('a sampler in the string: old at half an hour, not read at four hours', () => {
  const hanging = [...DRIVEN, run({ start_mark: '4 m' }, '08:10')];
  assert.deepEqual(weights(hanging, 'cable', ['08:39', '08:40', '12:09', '12:10']), [
    'fresh',
    'old',
    'old',
    'not read',
  ]);
  // lifted, there is no cable to read
  const lifted = holeTold([...DRIVEN, run({ start_mark: '4 m', outcome: 'full' }, '08:10')]);
  assert.equal(agesOf(lifted, at('08:20')).cable, null);
});

test('a drive or a joint with the sampler in it: its clearance is not read, however fresh the mark', () => {
  const hanging = [...DRIVEN, run({ start_mark: '4 m' }, '08:10')];
  const driven = agesOf(holeTold([...hanging, drive('2 m', '1.9 m', '08:11')]), at('08:11')).cable!;
  assert.deepEqual([driven.weight, driven.moved_by], ['not read', 'drive']);
  const longer = agesOf(holeTold([...hanging, joint('A2', '3 m')]), at('08:11')).cable!;
  assert.deepEqual([longer.weight, longer.moved_by], ['not read', 'string']);
});

test('the head is as old as the older of its two levels, whichever that is', () => {
  const inside = { to_water_inside: '0.1 m' };
  const outside = { water_outside: '1 m' };
  const driven = [JOINT, drive('6 m', '2 m', '07:50')];
  for (const [first, second] of [
    [inside, outside],
    [outside, inside],
  ] as const) {
    const read = (clock: string) =>
      agesOf(holeTold([...driven, sound(first, '08:00'), sound(second, clock)]), at('09:00')).head!;
    // of an hour and of 5 min: one is fresh, the other counts
    assert.deepEqual([read('08:55').weight, read('08:55').age_min], ['old', 60]);
    // of an hour and of 40 min: both are old
    assert.equal(read('08:20').age_min, 60);
    // one without a time: nobody knows how old the head is
    assert.deepEqual([read('').weight, read('').age_min], ['old', null]);
    // one level alone is no head
    assert.equal(agesOf(holeTold([...driven, sound(first, '08:00')]), at('08:00')).head, null);
  }
});

test('a drive takes plug and head even where neither it nor they have a time', () => {
  const told = [JOINT, drive('6 m', '2 m'), sound({ ...PLUG, ...WATER }), drive('2 m', '1.8 m')];
  const moved = agesOf(holeTold(told), at('09:00'));
  for (const reading of ['sediment', 'head'] as const)
    assert.deepEqual(
      [moved[reading]!.weight, moved[reading]!.moved_by, moved[reading]!.age_min],
      ['not read', 'drive', null],
    );
  // the stick-up at its end is the newest there is, and has no time
  assert.deepEqual([moved.stick_up!.weight, moved.stick_up!.time], ['old', null]);
});

test('a run takes the head and leaves a plug of its own time; a joint takes neither', () => {
  const done = run({ start_mark: '4 m', end_mark: '5 m', recovered: '0.9 m', outcome: 'full' }, '09:10');
  const ages = agesOf(holeTold([...DRIVEN, done]), at('09:20'));
  assert.deepEqual([ages.head!.weight, ages.head!.moved_by], ['not read', 'run']);
  assert.deepEqual([ages.sediment!.weight, ages.sediment!.age_min], ['fresh', 10]);
  const longer = agesOf(holeTold([...DRIVEN, joint('A2', '3 m', '08:05')]), at('08:10'));
  assert.deepEqual([longer.head!.weight, longer.sediment!.weight], ['fresh', 'fresh']);
});

test('a stick-up is read with a drive or a sounding that has one; a drive without its end renews nothing', () => {
  const read = holeTold([...DRIVEN, sound({ ...PLUG, stick_up: '1.99 m' }, '12:00')]);
  assert.equal(agesOf(read, at('12:30')).stick_up!.age_min, 30);
  const missing = holeTold([...DRIVEN, drive('2 m', '', '12:00')]);
  assert.equal(agesOf(missing, at('12:30')).stick_up!.age_min, 270);
});

test('a clock five minutes behind is now; six behind, the age is not known', () => {
  const early = (clock: string) => {
    const { weight, age_min } = agesOf(holeTold(DRIVEN), at(clock)).head!;
    return [weight, age_min];
  };
  assert.deepEqual(early('07:55'), ['fresh', 0]);
  assert.deepEqual(early('07:54'), ['old', null]);
});

test('nothing read has no age; a day is 24 hours', () => {
  assert.deepEqual(agesOf(holeTold([]), at('08:00')), {
    stick_up: null,
    sediment: null,
    head: null,
    cable: null,
  });
  assert.deepEqual([1439, 1440, 2879, 2880].map(ageText), ['23 h 59 min', '1 day', '1 day', '2 days']);
});

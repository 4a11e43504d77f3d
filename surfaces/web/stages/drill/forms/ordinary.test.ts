/** A number that would be ordinary in another unit is asked about, one that is ordinary as it is never. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { HoleState } from '@stillstand/campaign/holes';
import { completeLength, type PadUnit } from '../../../parts/entry/keypad-typing.ts';
import { begun, crewAt } from '../fixtures/crew.ts';
import { unitMeant } from './ordinary.ts';
import { doubtOf } from './plausible.ts';

const asked = (
  now: HoleState,
  column: string,
  text: string,
  unit: PadUnit,
  cells: Record<string, string> = {},
  lengths: Record<string, number | null> = {},
) => unitMeant(column, completeLength({ text, unit }), now, { lengths, cells })?.text ?? null;

test('a joint: 10 in metres is 10 ft, 3.05 in feet is metres, 305 is centimetres', () => {
  const now = crewAt('H1').now();
  const joint = (text: string, unit: PadUnit) => asked(now, 'length', text, unit, { item: 'joint' });
  assert.equal(joint('10', 'm'), '10 ft');
  assert.equal(joint('10 m', 'm'), '10 ft');
  assert.equal(joint('3.05', 'ft'), '3.05 m');
  assert.equal(joint('305', 'm'), '305 cm');
  assert.equal(joint('120', 'ft'), '120 in');
  // ordinary as they are
  for (const [text, unit] of [
    ['3.05', 'm'],
    ['10', 'ft'],
    ['9 ft 11 1/2', 'ft'],
    ['2.4', 'm'],
    ['0.30', 'm'],
    ['6.1', 'm'],
    ['305', 'cm'],
    ['', 'm'],
    ['0', 'm'],
  ] as const)
    assert.equal(joint(text, unit), null, `${text} ${unit}`);
  // in no unit a joint: the other doubt says so
  assert.equal(joint('700', 'm'), null);
  assert.match(doubtOf('length', 700, now)?.words ?? '', /unusual for a joint/);
});

test('a joint like those measured before is recognised, whatever pipe is sold', () => {
  const rig = begun('H1');
  rig.enter('add', { joint: 'A2', item: 'joint', length: '2.22 m' });
  assert.equal(asked(rig.now(), 'length', '2.24', 'ft', { item: 'joint' }), '2.24 m');
  assert.equal(asked(rig.now(), 'length', '15', 'm', { item: 'shoe' }), '15 cm');
});

test('what the string sets: stick-up, sediment, water and cable between the collar and the shoe', () => {
  // string 3.12, stick-up 0.35, sounded at 1.02, water outside 1.65 (fixtures/crew.ts)
  const now = begun('H1').now();
  const at = (column: string, text: string, unit: PadUnit) => asked(now, column, text, unit);
  // 1.02 m is 3 ft 4 1/4 in
  assert.equal(at('to_sediment', '3.35', 'm'), '3.35 ft');
  assert.equal(at('to_sediment', '1.02', 'ft'), '1.02 m');
  assert.equal(at('to_sediment', '102', 'm'), '102 cm');
  assert.equal(at('to_sediment', '3.1', 'm'), null);
  assert.equal(at('to_sediment', '3 ft 4', 'ft'), null);
  assert.equal(at('stick_up_start', '35', 'm'), '35 cm');
  assert.equal(at('stick_up_start', '0.35', 'm'), null);
  assert.equal(at('stick_up_end', '0.2', 'm'), null);
  assert.equal(at('stick_up_end', '20', 'm'), '20 cm');
  assert.equal(at('to_water_inside', '10', 'm'), '10 cm');
  assert.equal(at('water_outside', '5.4', 'm'), '5.4 ft');
  assert.equal(at('water_outside', '2.4', 'm'), null);
  assert.equal(at('start_mark', '1.02', 'ft'), '1.02 m');
  assert.equal(at('end_mark', '7', 'm'), '7 ft');
  assert.equal(at('end_mark', '2.2', 'm'), null);
  assert.equal(at('ground_below_reference', '27', 'm'), '27 cm');
  assert.equal(at('stop', '281', 'm'), '281 cm');
});

test('the first stick-up is what of the string does not go below the ground', () => {
  const rig = crewAt('H1');
  rig.enter('ground', { ground_below_reference: '0.27 m' });
  rig.enter('add', { joint: 'A1', item: 'joint', length: '3.12 m' });
  // 3.12 − 0.27 = 2.85 m
  assert.equal(asked(rig.now(), 'stick_up_start', '2.85', 'ft'), '2.85 m');
  assert.equal(asked(rig.now(), 'stick_up_start', '2.85', 'm'), null);
});

test('recovered: no more than a tenth over what went in, and named in the unit of the crew', () => {
  const now = begun('H1').now();
  const push = { from: 0, to: 1.5 };
  const core = (text: string, unit: PadUnit) => asked(now, 'recovered', text, unit, {}, push);
  assert.equal(core('138', 'm'), '138 cm');
  assert.equal(core('4.5', 'm'), '4.5 ft');
  assert.equal(core('1.38', 'm'), null);
  // little came up: that happens
  assert.equal(core('0.2', 'm'), null);
  // 1.5 × 1.1 + 0.05 = 1.70
  assert.equal(doubtOf('recovered', 1.69, now, push), null);
  assert.equal(
    doubtOf('recovered', 1.75, now, push)?.words,
    '1.75 m recovered of a push of 1.50 m. Check both.',
  );
  const feet = { ...now, units: { ...now.units, core: 'ft' as const } };
  assert.match(
    doubtOf('recovered', 1.8288, feet, push)?.words ?? '',
    /^6 ft.* recovered of a push of 4 ft 11 in/,
  );
});

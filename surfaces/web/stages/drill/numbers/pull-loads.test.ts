/** The line against what is marked on the gear: parts of line, a read load, and marks that nobody has read. */

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { pullLoads } from '@stillstand/campaign/holes';
import { crewAt, lookedAt, near } from '../fixtures/crew.ts';
import { formFor } from '../forms/forms.ts';
import { textDoubt } from '../forms/plausible.ts';
import { atRisk } from './at-risk.ts';

function driven() {
  const rig = crewAt('H1');
  rig.store.editRow('pipes', 'p1', { outside_diameter_mm: '88.9', wall_mm: '5.49' });
  rig.enter('ground', { ground_below_reference: '0 m' });
  rig.enter('add', { joint: 'A1', item: 'joint', length: '3.00 m' });
  rig.enter('add', { joint: 'A2', item: 'joint', length: '3.00 m' });
  rig.enter('drive', { stick_up_start: '5.97 m', stick_up_end: '1.97 m' });
  return rig;
}

test('nothing said of the gear: one part of line, no rating read, both shown as assumed', () => {
  const { now } = driven();
  assert.deepEqual(
    pullLoads(now()).basis.map((b) => [b.says, b.assumed]),
    [
      ['1 part of line', true],
      ['no load rating read', true],
    ],
  );
  const plate = atRisk(now(), lookedAt(now()), true);
  assert.equal(plate.name, 'Line pull');
  assert.equal(plate.level, 'normal');
  assert.equal(plate.say, 'Nobody under the load.');
  // the whole of it in the ground: friction π·0.0889·4²/2·(0.15·4 … 0.60·11)
  near(pullLoads(now()).estimate!.friction_kn.low, ((Math.PI * 0.0889 * 16) / 2) * 0.6);
  near(pullLoads(now()).estimate!.friction_kn.high, ((Math.PI * 0.0889 * 16) / 2) * 6.6);
});

test('four parts of line ease the winch, and a rating that could be exceeded is a caution before anything is pulled', () => {
  const { now, enter, store } = driven();
  const straight = pullLoads(now()).estimate!.still.fast_line_kn.high;
  // as an older campaign has it: the least of rope and winch
  store.setSetting('rated_line_kn', '3');
  enter('gear', { line_parts: '4', line_bearing: 'plain' });
  const { estimate, against, basis } = pullLoads(now());
  // (1.09⁴ − 1)/(1.09⁴·4·0.09), against 1 part over 1 sheave: 1/1.09
  const k4 = 1.09 ** 4;
  near(estimate!.still.fast_line_kn.high, straight / 1.09 / (4 * ((k4 - 1) / (k4 * 4 * 0.09))));
  assert.deepEqual(
    against.map((a) => [a.part, a.verdict, a.by]),
    [['line', 'could exceed', 'estimate']],
  );
  // 3 kN against the highest estimate, never shown larger than it is
  const ratio = Math.floor((30 / estimate!.still.fast_line_kn.high) * (1 + 1e-9)) / 10;
  assert.deepEqual(
    basis.map((b) => [b.says, b.assumed]),
    [
      ['4 parts of line', false],
      ['not read: sheave block, hook and 3 more', true],
      [`weakest: line, rated ${ratio.toFixed(1)} × its highest estimate`, false],
    ],
  );
  assert.deepEqual(
    [atRisk(now(), lookedAt(now()), true).level, atRisk(now(), lookedAt(now()), true).word],
    ['caution', 'Could exceed'],
  );
  assert.equal(
    atRisk(now(), lookedAt(now()), true).say,
    'The highest estimate exceeds the line’s 3 kN (305 kg).',
  );
});

test('a load that was read decides, on line, hook and tripod alike', () => {
  const { now, enter, store } = driven();
  store.setSetting('rated_line_kn', '10');
  store.setSetting('rated_head_kn', '40');
  enter('gear', { line_parts: '4', line_bearing: 'plain' });
  enter('pull', { action: 'pull', line_load_kn: '9.1' });
  const { read, against } = pullLoads(now());
  const k4 = 1.09 ** 4;
  const hook = (9.1 * (k4 - 1)) / (k4 * 0.09);
  near(read!.hook_kn, hook);
  near(read!.head_kn, hook + 9.1 + 9.1 / k4);
  // 9.1 is within the line's 10; tripod 45 is over its 40
  assert.deepEqual(
    against.map((a) => [a.part, a.verdict, a.by]),
    [['tripod or mast', 'exceeds', 'reading']],
  );
  assert.deepEqual(
    [
      atRisk(now(), lookedAt(now())).level,
      atRisk(now(), lookedAt(now())).word,
      atRisk(now(), lookedAt(now())).say,
    ],
    ['danger', 'Stop', 'Reduce pull now: load exceeds the tripod or mast’s 40 kN (4.07 t).'],
  );
});

test('each part against the load it carries, the weakest first, as its marking reads', () => {
  const { now, enter } = driven();
  enter('gear', { line_parts: '2', line_bearing: 'roller' });
  const rate = (part: string, load: string, unit: string) => enter('rating', { part, load, unit });
  rate('rope', '2', 't');
  rate('shackle', '1500', 'kg');
  rate('mast or tripod', '60', 'kN');
  rate('sheave block', '3', 'ton');
  enter('pull', { action: 'pull', line_load_kn: '12' });
  const { read, parts, weakest, against } = pullLoads(now());
  // two parts on two roller sheaves: hook = 12·(1.04² − 1)/(1.04²·0.04) = 22.6331, dead 12/1.04² = 11.0947
  near(read!.hook_kn, (12 * (1.04 ** 2 - 1)) / (1.04 ** 2 * 0.04));
  near(read!.head_kn, read!.hook_kn! + 12 + 12 / 1.04 ** 2);
  // both ends of the line on one sheave, 12 + 12/1.04 = 23.5385, are more than the hook
  near(read!.block_kn, 12 + 12 / 1.04);
  // rope 19.6133 carries 12; shackle 14.70998 of the hook’s 22.6; mast 60 of 45.7; block 3 short tons 26.69 of 23.5
  assert.deepEqual(
    against.map((a) => [a.part, a.verdict]),
    [['shackle', 'exceeds']],
  );
  assert.equal(weakest!.part, 'shackle');
  near(weakest!.rated_kn / weakest!.load_kn, (1.5 * 9.80665) / read!.hook_kn!);
  assert.match(parts.find((p) => p.part === 'sheave block')!.doubt!, /short/);
  assert.deepEqual(
    parts.filter((p) => p.rated_kn === null).map((p) => p.part),
    ['winch', 'hook', 'anchor'],
  );
  const plate = atRisk(now(), lookedAt(now()));
  assert.equal(plate.say, 'Reduce pull now: load exceeds the shackle’s 14.7 kN (1.50 t).');
  // 12 kN is 1223.7 kg, never shown smaller
  assert.deepEqual([plate.value, plate.unit], ['12', 'kN']);
  assert.match(plate.sum, /^1\.3 t; by estimate hook [\d.]+–[\d.]+ kN \(/);
  // a mark that was read again replaces the first
  rate('shackle', '3', 't');
  assert.deepEqual(pullLoads(now()).against, []);
  assert.equal(pullLoads(now()).parts.filter((p) => p.part === 'shackle').length, 1);
});

test('gear that cannot be used: doubted while typed, kept as typed, and no load from it, neither within nor over', () => {
  const { now, enter, store } = driven();
  const doubt = (form: 'gear' | 'pull', column: string, typed: string) => {
    const field = formFor(form, now(), store).fields.find((f) => f.column === column)!;
    return textDoubt(field, typed, {})?.words ?? null;
  };
  const heavy = 'Suspended gear 15000 kg is out of range 0 to 10000';
  assert.equal(doubt('gear', 'hanging_kg', '15000'), `${heavy}: no load is computed.`);
  assert.equal(doubt('gear', 'hanging_kg', '250'), null);
  assert.equal(doubt('gear', 'hanging_kg', ''), null);
  assert.equal(
    doubt('gear', 'line_parts', '0'),
    'Parts of line 0 is out of range 1 to 32: no load is computed.',
  );
  assert.match(doubt('gear', 'line_sheaves', '2.5')!, /^Sheaves 2\.5 is not a whole number/);
  enter('gear', { line_parts: '2', hanging_kg: '15000' });
  const field = formFor('gear', now(), store).fields.find((f) => f.column === 'hanging_kg')!;
  assert.equal(field.initial, '15000');
  const pull = pullLoads(now());
  assert.deepEqual([pull.estimate, pull.against, pull.weakest, pull.unusable], [null, [], null, [heavy]]);
  const plate = atRisk(now(), lookedAt(now()), true);
  assert.deepEqual(
    [plate.value, plate.level, plate.say],
    [null, 'caution', `${heavy}: no load is computed.`],
  );
  // a load that was read is what was read, whatever hangs there
  enter('rating', { part: 'rope', load: '300', unit: 'kg' });
  enter('pull', { action: 'pull', line_load_kn: '12' });
  assert.match(atRisk(now(), lookedAt(now())).say, /^Reduce pull now: load exceeds the rope’s 2\.9 kN/);
  enter('gear', { hanging_kg: '150', line_parts: '1e9' });
  // of the parts above the line nothing is known by such a reeving
  assert.deepEqual([pullLoads(now()).read!.line_kn, pullLoads(now()).read!.hook_kn], [12, null]);
});

test('a line load above a mark is doubted while it is typed, by the part that bears the least of it', () => {
  const { now, enter, store } = driven();
  enter('gear', { line_parts: '2', line_bearing: 'roller' });
  enter('rating', { part: 'rope', load: '300', unit: 'kg' });
  enter('rating', { part: 'shackle', load: '1500', unit: 'kg' });
  const doubt = (typed: string) => {
    const field = formFor('pull', now(), store).fields.find((f) => f.column === 'line_load_kn')!;
    return textDoubt(field, typed, {})?.words ?? null;
  };
  // 300 kg is 2.94 kN
  assert.equal(doubt('12'), '12 kN exceeds the rope’s 2.9 kN (300 kg). Reduce pull now.');
  assert.equal(doubt('2.9'), null);
  enter('rating', { part: 'rope', load: '20', unit: 'kN' });
  // 12·(1.04² − 1)/(1.04²·0.04) = 22.63 on the shackle
  assert.equal(
    doubt('12'),
    '12 kN on the line is 23 kN on the shackle, above its 14.7 kN (1.50 t). Reduce pull now.',
  );
});

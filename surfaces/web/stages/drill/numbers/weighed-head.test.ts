/** The head weighed: fresh against sea by hand, and what is assumed said so until the crew says it. */

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { fastestLift, weighedHead } from '@stillstand/campaign/holes';
import { begun, lookedAt, near } from '../fixtures/crew.ts';
import { atRisk } from './at-risk.ts';

test('fresh water inside, sea outside: the level head less 2.5 % of the column inside', () => {
  const { store, now, enter } = begun('H1');
  // filled with sea water: the levels alone, 1.65 + 0.35 − 0.10
  near(weighedHead(now())!.head_m, 1.9);
  assert.deepEqual(
    weighedHead(now())!.basis.map((b) => [b.says, b.assumed]),
    [
      ['sea water outside', true],
      ['sea inside', false],
      ['organic plug', true],
    ],
  );
  enter('waters', { water_outside: 'sea', water_inside: 'fresh', plug_kind: 'sand' });
  assert.equal(now().water.kind, 'fresh');
  // (1000/1025)(1.02 − 0.10) − (1.02 − 2.00)
  near(weighedHead(now())!.head_m, (1000 / 1025) * 0.92 + 0.98);
  const plate = atRisk(now(), lookedAt(now()));
  assert.equal(plate.value, '+1.87');
  assert.equal(plate.sum, 'levels +1.90 − 0.03 for fresh water inside');
  assert.ok(plate.basis?.of.every((b) => !b.assumed));
  // the same fold as in the campaign's results
  enter('water', { to_water_inside: '0.10 m', water_outside: '1.65 m' });
  near(now().last?.pressure_head_m ?? null, (1000 / 1025) * 0.92 + 0.98);
  store.setSetting('water_outside', 'fresh');
  near(weighedHead(now())!.head_m, 1.9);
});

test('levels that hold by themselves, and fresh water that weighs too little: turned, and told why', () => {
  const { now, enter } = begun('H1');
  enter('waters', { water_outside: 'sea', water_inside: 'fresh', plug_kind: 'organic' });
  // level +0.01: inside 1.99, outside 2.00 below the collar; sediment at 3.02 after a deep sounding
  enter('sound', {
    to_sediment: '3.02 m',
    to_water_inside: '1.99 m',
    water_outside: '1.65 m',
    purpose: 'other',
  });
  near(weighedHead(now())!.level_m, 0.01);
  near(weighedHead(now())!.head_m, (1000 / 1025) * 1.03 - 1.02);
  const plate = atRisk(now(), lookedAt(now()));
  // 0.015 m over a plug of 0.10 m: 0.15, above the critical 0.10
  assert.deepEqual([plate.value, plate.level, plate.word], ['−0.02', 'danger', 'Boils']);
});

test('what the plug is decides between turned and boiling', () => {
  const { now, enter } = begun('H1');
  enter('water', { to_water_inside: '2.50 m', water_outside: '1.65 m' });
  assert.equal(atRisk(now(), lookedAt(now())).word, 'Boils');
  // 0.50 ÷ 2.10 = 0.24, far below the critical 1.00 of sand
  enter('waters', { water_outside: 'sea', water_inside: 'sea', plug_kind: 'sand' });
  assert.deepEqual(
    [atRisk(now(), lookedAt(now())).word, atRisk(now(), lookedAt(now())).level],
    ['Head reversed', 'caution'],
  );
  assert.equal(now().settings.plug_kind, 'sand');
});

test('the lift is as slow as the head left after the run asks for, and says that it rests on what is assumed', () => {
  const { store, now, enter } = begun('H1');
  store.editRow('pipes', 'p1', { outside_diameter_mm: '88.9', wall_mm: '5.49' });
  store.editRow('samplers', 'v1', { outside_mm: '60', bore_mm: '52' });
  enter('mark', {});
  enter('run', { start_mark: '1.02 m' });
  const before = fastestLift(now())!;
  enter('cable', { end_mark: '2.30 m' });
  const after = fastestLift(now())!;
  assert.ok(after.speed_m_s < before.speed_m_s, `${after.speed_m_s} is not below ${before.speed_m_s}`);
  assert.ok(after.assumed);
  enter('waters', { water_outside: 'sea', water_inside: 'sea', plug_kind: 'sand' });
  assert.equal(fastestLift(now())!.assumed, false);
});

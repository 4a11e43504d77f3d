/** The line against what is marked on the gear: parts of line, a read load, and marks that nobody has read. */

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { pullLoads } from '@stillstand/campaign/holes';
import { crewAt, lookedAt, near } from '../fixtures/crew.ts';
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

test('four parts of line ease the winch, and a rating that may be exceeded is a caution before anything is pulled', () => {
  const { now, enter } = driven();
  const straight = pullLoads(now()).estimate!.still.fast_line_kn.high;
  enter('gear', { line_parts: '4', rated_line_kn: '3', line_bearing: 'plain' });
  const { estimate, against, basis } = pullLoads(now());
  // (1.09⁴ − 1)/(1.09⁴·4·0.09), against 1 part over 1 sheave: 1/1.09
  const k4 = 1.09 ** 4;
  near(estimate!.still.fast_line_kn.high, straight / 1.09 / (4 * ((k4 - 1) / (k4 * 4 * 0.09))));
  assert.deepEqual(
    against.map((a) => [a.part, a.verdict, a.by]),
    [['line', 'may exceed', 'estimate']],
  );
  assert.ok(basis.every((b) => !b.assumed));
  assert.deepEqual(
    [atRisk(now(), lookedAt(now()), true).level, atRisk(now(), lookedAt(now()), true).word],
    ['caution', 'May exceed'],
  );
  assert.equal(atRisk(now(), lookedAt(now()), true).say, 'The highest estimate exceeds the line’s 3 kN.');
});

test('a load that was read decides, on line, hook and tripod alike', () => {
  const { now, enter } = driven();
  enter('gear', { line_parts: '4', rated_line_kn: '10', rated_head_kn: '40', line_bearing: 'plain' });
  enter('pull', { action: 'pull', line_load_kn: '9.1' });
  const { read, against } = pullLoads(now());
  const k4 = 1.09 ** 4;
  const hook = (9.1 * (k4 - 1)) / (k4 * 0.09);
  near(read!.hook_kn, hook);
  near(read!.head_kn, hook + 9.1 + 9.1 / k4);
  // 9.1 is within the line's 10; tripod 45 is over its 40
  assert.deepEqual(
    against.map((a) => [a.part, a.verdict, a.by]),
    [['tripod', 'exceeds', 'reading']],
  );
  assert.deepEqual(
    [
      atRisk(now(), lookedAt(now())).level,
      atRisk(now(), lookedAt(now())).word,
      atRisk(now(), lookedAt(now())).say,
    ],
    ['danger', 'Stop', 'Reduce pull now: load exceeds the tripod’s 40 kN.'],
  );
});

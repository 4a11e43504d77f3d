/** Every number of the screen that a crew acts on, for random holes, in every unit: never on its unsafe side. */

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { type CrewUnit, fastestLift, pullLoads, weighedHead } from '@stillstand/campaign/holes';
import { parseLength } from '@stillstand/campaign/tables';
import { randomStream } from '@stillstand/science/base';
import { reconcile } from '@stillstand/science/rig';
import { crewAt, lookedAt } from '../fixtures/crew.ts';
import { roomForRun, tapes } from '../tape/cable.ts';
import { atRisk } from './at-risk.ts';
import { plugLength } from './numbers.ts';

/** Noise of binary numbers. */
const NOISE = 1e-9;
const metres = (words: string): number => {
  const read = parseLength(words.replace('−', '-'));
  assert.ok(read.ok, words);
  return read.metres;
};
const plain = (value: string): number => Number(value.replace('−', '-').replace('+', ''));

test('clearance, tape, plug, head, lift, pull and pipe left: seed 61', () => {
  const stream = randomStream(61);
  const between = (low: number, high: number): number => low + (high - low) * stream.uniform();
  const seen = { tape: 0, feet: 0, clearance: 0, lift: 0, left: 0 };
  for (let i = 0; i < 24; i++) {
    const unit = (['m', 'cm', 'ft'] as CrewUnit[])[i % 3]!;
    // typed finer than a tape is read, so that rounding has something to do
    const mm = (m: number): string =>
      unit === 'ft'
        ? `${(m / 0.3048).toFixed(3)} ft`
        : unit === 'cm'
          ? `${(m * 100).toFixed(1)} cm`
          : `${m.toFixed(3)} m`;
    const rig = crewAt('H1');
    rig.store.setSetting('length_unit', unit);
    rig.store.editRow('pipes', 'p1', {
      outside_diameter_mm: '88.9',
      wall_mm: '5.49',
      makeup_loss: mm(between(0.02, 0.05)),
    });
    rig.store.editRow('samplers', 'v1', { outside_mm: '60', bore_mm: '50' });
    rig.enter('ground', { ground_below_reference: mm(between(0, 0.4)) });
    const joints = 1 + Math.floor(between(0, 4));
    for (let j = 0; j < joints; j++)
      rig.enter('add', { joint: `A${j}`, item: 'joint', length: mm(between(2.5, 3.5)) });
    const shoe = rig.now().fold.collar_to_shoe_m!;
    const stickUp = between(0.3, 1);
    rig.enter('drive', { stick_up_start: mm(shoe), stick_up_end: mm(stickUp) });
    const sediment = metres(mm(Math.max(0.2, shoe - between(0.2, 2))));
    rig.enter('sound', { to_sediment: mm(sediment) });
    rig.enter('water', { to_water_inside: mm(between(0, 1)), water_outside: mm(between(0, 2)) });

    const now = rig.now();
    const plug = plugLength(now, lookedAt(now));
    assert.ok(plain(plug.value!) <= shoe - sediment + NOISE, plug.value!);
    if (plug.crew !== null) assert.ok(metres(plug.crew) <= shoe - sediment + NOISE, plug.crew);
    const water = weighedHead(now)!;
    assert.ok(
      plain(atRisk(now, lookedAt(now)).value!) <= water.head_m + NOISE,
      `${atRisk(now, lookedAt(now)).value} ${water.head_m}`,
    );
    if (atRisk(now, lookedAt(now)).crew !== null)
      assert.ok(metres(atRisk(now, lookedAt(now)).crew!) <= water.head_m + NOISE);
    for (const tape of tapes(now)) {
      assert.ok(metres(tape.said) <= tape.tip_m + NOISE, `${tape.label} ${tape.said} ${tape.tip_m}`);
      seen.tape++;
      if (tape.said.endsWith(' in')) seen.feet++;
    }
    const says = rig.next();
    const room = /^([\d.]+) m (?:left to sample|to the stop mark)/.exec(says.why)?.[1];
    if (room !== undefined) assert.ok(Number(room) <= roomForRun(now)! + NOISE, says.why);
    const low = /water inside ([\d.]+) m low/.exec(says.why)?.[1];
    if (low !== undefined) assert.ok(Number(low) >= -water.head_m - NOISE, says.why);

    rig.enter('run', { start_mark: mm(sediment) });
    for (const share of [0.3, 0.7, 0.95, 1.1]) {
      rig.enter('cable', { end_mark: mm(sediment + share * (shoe - sediment)) });
      const run = rig.now();
      const plate = atRisk(run, lookedAt(run));
      assert.ok(plain(plate.value!) <= run.clearance!.clearance_m + NOISE, `${plate.value}`);
      assert.ok(plain(plate.spread!) >= 2 * run.clearance!.sigma_m - NOISE);
      const left = /^([−\d.]+) m to the stop mark/.exec(plate.say)?.[1];
      if (left !== undefined)
        assert.ok(plain(left) <= run.clearance!.clearance_m - run.clearance!.margin_m + NOISE, plate.say);
      seen.clearance++;
      const lift = fastestLift(run);
      const shown = /lift at ([\d.]+) m\/s or slower/.exec(rig.next().then)?.[1];
      if (shown !== undefined) {
        assert.ok(Number(shown) <= lift!.speed_m_s + NOISE);
        seen.lift++;
      }
    }
    rig.enter('lay_out', { recovered: '0 m', outcome: 'empty' });
    rig.enter('pull', { action: i % 2 === 0 ? 'lost' : 'pull', line_load_kn: between(1, 30).toFixed(3) });
    const after = rig.now();
    const read = pullLoads(after).read;
    if (after.string.length > 0)
      assert.ok(plain(atRisk(after, lookedAt(after)).value!) >= read!.line_kn - NOISE);
    else if (i % 2 === 0) {
      const left = reconcile(after.fold.account).in_ground_made_up_m;
      // made up: all joints were lost together, so it is the string as it was
      assert.ok(Math.abs(left - shoe) < 1e-9);
      assert.ok(
        plain(atRisk(after, lookedAt(after)).value!) >= left - NOISE &&
          plain(atRisk(after, lookedAt(after)).value!) < left + 0.01 + NOISE,
      );
      seen.left++;
    }
  }
  assert.ok(seen.tape > 40 && seen.feet > 10 && seen.clearance === 96 && seen.left > 0, JSON.stringify(seen));
});

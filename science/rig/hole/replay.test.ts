import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { RigReading } from '../reading.ts';
import { reduceHole } from './hole.ts';
import { linkHoles } from './replacement.ts';
import { replayHole } from './replay.ts';

const readings: RigReading[] = [
  { kind: 'ground', row_id: 'a', seq: 1, ground_below_reference_m: 0.2 },
  {
    kind: 'joint',
    row_id: 'b',
    seq: 2,
    action: 'add',
    item: 'joint',
    label: 'J1',
    length_m: 6,
    tight: true,
  },
  {
    kind: 'drive',
    row_id: 'c',
    seq: 3,
    stick_up_start_m: 5.8,
    stick_up_end_m: 1,
    duration_s: 120,
    ended_by: 'length',
    frequency_hz: 170,
  },
  {
    kind: 'run',
    row_id: 'd',
    seq: 4,
    run: 'R1',
    start_mark_m: 2,
    end_mark_m: 5.8,
    strokes: 30,
    recovered_m: 1,
    fall_in_m: null,
    loss_position: 'base',
    outcome: null,
  },
];

test('each step has the state of the readings up to it; what was unsafe stands beside the reading', () => {
  const { steps, fold } = replayHole(readings);
  steps.forEach((step, i) => {
    assert.deepEqual(step.state, reduceHole(readings.slice(0, i + 1)).states.at(-1));
  });
  assert.equal(steps.flatMap((s) => s.findings).length, fold.findings.length);
  assert.equal(
    steps[2]!.did,
    'driven from stick-up 5.80 m to 1.00 m, 4.80 m deeper, 2.40 m/min, vibrator 170 Hz, ended by length',
  );
  assert.deepEqual(
    steps[2]!.changed.map((c) => c.what),
    ['stick-up', 'penetration', 'plug', 'entered'],
  );
  assert.ok(steps[3]!.findings.some((f) => f.code === 'sampler-inside-margin' && f.severity === 'danger'));
  // without the last reading nothing of it is left: that is what withdrawing does
  assert.deepEqual(replayHole(readings.slice(0, 3)).fold, reduceHole(readings.slice(0, 3)));
});

test('a hole beside a lost one: followed back, its offset held against the positions, circles named', () => {
  const at = (
    hole: string,
    replaces: string | null,
    distance_to_replaced_m: number | null,
    east_m: number,
  ) => ({
    hole,
    replaces,
    distance_to_replaced_m,
    state: replaces === null ? 'lost' : 'open',
    latitude_deg: 0,
    longitude_deg: east_m / 111_319.49,
  });
  const good = linkHoles([at('A', null, null, 0), at('B', 'A', 3, 3)]);
  assert.deepEqual(good[1]!.before, [{ hole: 'A', distance_to_replaced_m: 3 }]);
  assert.deepEqual(good[0]!.after, [{ hole: 'B', distance_to_replaced_m: 3 }]);
  assert.deepEqual([...good[0]!.doubts, ...good[1]!.doubts], []);
  assert.match(linkHoles([at('A', null, null, 0), at('B', 'A', 3, 60)])[1]!.doubts[0]!, /60\.0 m by their/);
  assert.match(linkHoles([at('A', null, null, 0)])[0]!.doubts[0]!, /has no replacement hole/);
  assert.match(linkHoles([at('B', 'A', 3, 3)])[0]!.doubts[0]!, /not a hole of this campaign/);
  const circle = linkHoles([at('A', 'B', 1, 0), at('B', 'A', 1, 1)]);
  assert.ok(circle.every((l) => l.doubts.some((d) => /in turn/.test(d))));
});

/** What stands in a hole now: the run in hand, levels with what moved them, the sediment as far as it is known. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { inHole, type RigReading, rigDefaults } from './index.ts';

const settings = { ...rigDefaults, makeup_loss_m: 0.03 };
type Given<K extends RigReading['kind']> = Partial<Extract<RigReading, { kind: K }>>;

/** A hole read line by line; `seq` counts up. */
function hole() {
  const readings: RigReading[] = [];
  const put = (reading: object): void => {
    readings.push({ row_id: `r${readings.length + 1}`, seq: readings.length + 1, ...reading } as RigReading);
  };
  const joint = (item: 'shoe' | 'joint' | 'drive_head', length_m: number | null, label: string) =>
    put({ kind: 'joint', action: 'add', item, label, length_m, tight: true });
  const drive = (from: number | null, to: number) =>
    put({
      kind: 'drive',
      stick_up_start_m: from,
      stick_up_end_m: to,
      duration_s: 60,
      ended_by: 'length',
      frequency_hz: null,
    });
  const sound = (of: Given<'sounding'>) =>
    put({
      kind: 'sounding',
      purpose: null,
      to_sediment_m: null,
      to_water_inside_m: null,
      water_outside_m: null,
      collar_to_shoe_m: null,
      stick_up_m: null,
      sigma_m: null,
      ...of,
    });
  const run = (of: Given<'run'>) =>
    put({
      kind: 'run',
      run: 'R1',
      start_mark_m: 1.02,
      end_mark_m: null,
      strokes: null,
      recovered_m: null,
      fall_in_m: null,
      loss_position: null,
      outcome: null,
      ...of,
    });
  const water = (of: Given<'water'>) =>
    put({
      kind: 'water',
      volume_l: null,
      water: null,
      to_water_before_m: null,
      to_water_after_m: null,
      ...of,
    });
  return { readings, put, joint, drive, sound, run, water, now: () => inHole(readings, settings) };
}

function begun() {
  const rig = hole();
  rig.put({ kind: 'ground', ground_below_reference_m: 0.27 });
  rig.joint('joint', 3, 'A1');
  rig.joint('shoe', 0.15, 'S');
  rig.joint('drive_head', 0.4, 'D');
  rig.drive(2.85, 0.35);
  rig.water({ to_water_after_m: 0.1, water: 'sea' });
  rig.sound({ to_sediment_m: 1.02, water_outside_m: 1.65 });
  return rig;
}
const near = (a: number | null | undefined, b: number) =>
  assert.ok(a != null && Math.abs(a - b) < 1e-9, `${a} is not ${b}`);

test('the string from the shoe up, whenever the shoe was added; a drive head is no part of it', () => {
  const { now } = begun();
  assert.deepEqual(
    now().string.map((i) => i.label),
    ['S', 'A1'],
  );
  near(now().fold.collar_to_shoe_m, 3.12);
  near(now().ground_m, 0.27);
});

test('water inside goes with the pipe: after a drive or a run it is known as it was read, not as it stands', () => {
  const rig = begun();
  // 0.10 below the collar, the collar 0.35 above the reference
  near(rig.now().water.inside_m, -0.25);
  near(rig.now().water.head_m, 1.65 + 0.25);
  rig.run({});
  near(rig.now().water.inside_m, -0.25);
  rig.run({ run: 'R2', recovered_m: 1, end_mark_m: 2 });
  const after = rig.now().water;
  assert.deepEqual(
    [after.inside_m, after.head_m, after.inside?.moved_by, after.inside?.seq],
    [null, null, 'run', 6],
  );
  near(after.inside?.below_reference_m, -0.25);
  near(after.outside_m, 1.65);
  rig.drive(0.35, 0.25);
  assert.equal(rig.now().water.inside?.moved_by, 'run', 'what moved it first');
  rig.sound({ to_water_inside_m: 0.4 });
  assert.equal(rig.now().water.inside?.moved_by, null);
  near(rig.now().water.inside_m, 0.4 - 0.25);
});

test('fresh as soon as any fresh water went in; nobody said is not sea', () => {
  const rig = hole();
  assert.equal(rig.now().water.kind, null);
  rig.water({ water: 'fresh' });
  rig.water({ water: 'sea' });
  assert.equal(rig.now().water.kind, 'fresh');
  const topped = hole();
  topped.water({ water: 'sea' });
  topped.water({ water: 'fresh' });
  assert.equal(topped.now().water.kind, 'fresh');
});

test('with the string out there is no head, however the levels were read', () => {
  const rig = begun();
  rig.put({ kind: 'joint', action: 'pull', item: 'joint', label: 'A1', length_m: null, tight: null });
  assert.notEqual(rig.now().water.head_m, null);
  rig.put({ kind: 'joint', action: 'pull', item: 'shoe', label: 'S', length_m: null, tight: null });
  assert.deepEqual([rig.now().water.head_m, rig.now().string], [null, []]);
});

test('what is done to the string with the sampler in it: it hangs there still, and its clearance is not known', () => {
  for (const kind of ['drive', 'string'] as const) {
    const rig = begun();
    rig.run({ end_mark_m: 2 });
    near(rig.now().clearance?.clearance_m, 1.12);
    if (kind === 'drive') rig.drive(0.35, 0.25);
    else rig.joint('joint', 3, 'A2');
    const { run, run_moved_by, clearance, tip_m } = rig.now();
    assert.deepEqual([run?.run, run_moved_by, clearance, tip_m], ['R1', kind, null, 2]);
  }
  // the string comes out: what hung in it was out before
  const pulled = begun();
  pulled.run({ end_mark_m: 2 });
  pulled.put({ kind: 'joint', action: 'pull', item: 'joint', label: 'A1', length_m: null, tight: null });
  assert.equal(pulled.now().run, null);
});

test('the run in hand and its clearance; lifted, followed by a sounding or a drive it is in hand no more', () => {
  const rig = begun();
  assert.equal(rig.now().run, null);
  rig.run({ end_mark_m: 2.7 });
  near(rig.now().clearance?.clearance_m, 0.42);
  assert.equal(rig.now().clearance?.verdict, 'near stop');
  near(rig.now().stop_m, 3.12 - settings.margin_m);
  near(rig.now().sediment.sounded_m, 1.02);
  // water and a zero check do not lift it
  rig.sound({ purpose: 'zero_check', to_sediment_m: null, cable_at_collar_m: 0 });
  rig.sound({ to_water_inside_m: 0.3 });
  assert.equal(rig.now().run?.run, 'R1');
  rig.sound({ to_sediment_m: 2.5 });
  assert.equal(rig.now().run, null);
});

test('the sediment is not known once a joint, a drive or a run has changed it, and each is named', () => {
  const rig = begun();
  rig.run({ recovered_m: 1, end_mark_m: 2 });
  rig.joint('joint', null, 'A2');
  const { sounded_m, since } = rig.now().sediment;
  assert.equal(sounded_m, null);
  assert.deepEqual(
    since.map((r) => r.kind),
    ['run', 'joint'],
  );
  // a joint without a length: nothing is said of clearance or stop mark
  assert.deepEqual(
    [rig.now().clearance, rig.now().stop_m, rig.now().fold.collar_to_shoe_m],
    [null, null, null],
  );
});

test('a ground that was not read leaves the last that was', () => {
  const rig = begun();
  rig.put({ kind: 'ground', ground_below_reference_m: null });
  rig.put({ kind: 'ground', ground_below_reference_m: Number.NaN });
  near(rig.now().ground_m, 0.27);
});

test('nothing at all is an empty hole', () => {
  const now = inHole([], settings);
  assert.deepEqual([now.last, now.string, now.run, now.tip_m, now.clearance], [null, [], null, null, null]);
  assert.deepEqual(now.water, {
    inside: null,
    outside: null,
    inside_m: null,
    outside_m: null,
    head_m: null,
    kind: null,
  });
});

/** The sampler on its cable, worked by hand (common practice, no source). */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { FOOT_M } from '@stillstand/science/base';
import { cableMarks, clearanceOf } from '@stillstand/science/rig';

const settings = { margin_m: 0.3, mark_sigma_m: 0.02, joint_sigma_m: 0.002 };

test('tape on the cable: sediment at 6.10 m, shoe at 9.14 m, marks each foot, stop 0.30 m above the shoe', () => {
  const marks = cableMarks(20 * FOOT_M, 30 * FOOT_M, 3, FOOT_M, settings);
  assert.equal(marks[0]!.is, 'sediment');
  const last = marks[marks.length - 1]!;
  assert.equal(last.is, 'stop');
  assert.ok(Math.abs(last.tip_m - (30 * FOOT_M - 0.3)) < 1e-12);
  // ten feet of sediment less the margin: nine marks between, the first at 21 ft
  assert.equal(marks.length, 11);
  assert.ok(Math.abs(marks[1]!.tip_m - 21 * FOOT_M) < 1e-12);
  for (const m of marks) assert.notEqual(clearanceOf(m.tip_m, 30 * FOOT_M, 3, settings).verdict, 'past shoe');
  assert.deepEqual(cableMarks(8.9, 9, 3, 1, settings), []);
});

test('the margin is two sigma of the clearance where that is more', () => {
  const loose = clearanceOf(8.5, 9, 3, { ...settings, mark_sigma_m: 0.2 });
  assert.ok(Math.abs(loose.margin_m - 2 * Math.sqrt(0.04 + 3 * 0.002 ** 2)) < 1e-12);
  assert.equal(loose.verdict, 'near stop');
  assert.equal(clearanceOf(8.75, 9, 3, settings).verdict, 'stop');
  assert.equal(clearanceOf(9.01, 9, 3, settings).verdict, 'past shoe');
});

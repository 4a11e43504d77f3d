/** What stopped the last drive: of the last one alone, and where that one stopped. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { drive, holeTold, joint } from './fixtures/told.ts';
import { lastResponse, stoppedDrive } from './stopped-drive.ts';

const JOINT = joint('A1', '6 m');
const OBSTRUCTION = { ended_by: 'obstruction' };
const near = (a: number | null, b: number) =>
  assert.ok(Math.abs((a ?? Number.NaN) - b) < 1e-9, `${a} is not ${b}`);

test('where it stopped is where this drive stopped, not the deepest the shoe has been', () => {
  // 6 − 2 = 4 m deep; lifted by half a metre, it stops at 6 − 2.3 = 3.7 m
  const told = [JOINT, drive('6 m', '2 m'), drive('2.5 m', '2.3 m', '', OBSTRUCTION)];
  near(stoppedDrive(holeTold(told))!.at_m, 3.7);
});

test('a drive that lacks a stick-up cannot be used, but what ended it is known; its depth is not the one before', () => {
  const stopped = (more: Record<string, string>) =>
    stoppedDrive(holeTold([JOINT, drive('6 m', '2 m'), drive('', '1.9 m', '', more)]));
  assert.deepEqual(stopped({ ended_by: 'refusal' }), { by: 'refusal', response: null, at_m: null });
  assert.equal(stopped({ ...OBSTRUCTION, obstruction_response: 'moved' })!.response, 'moved');
  // what cannot be read is not made up
  assert.equal(stopped({ ended_by: 'bored' }), null);
});

test('what was done after an earlier drive is no answer for the last', () => {
  const first = drive('6 m', '2 m', '', { ...OBSTRUCTION, obstruction_response: 'lifted_and_retried' });
  const again = holeTold([JOINT, first, drive('2.3 m', '1.9 m', '', OBSTRUCTION)]);
  assert.equal(stoppedDrive(again)!.response, null);
  assert.equal(lastResponse(again), null);
  // one that went on as it should ends the matter
  assert.equal(stoppedDrive(holeTold([JOINT, first, drive('2.3 m', '1 m')])), null);
});

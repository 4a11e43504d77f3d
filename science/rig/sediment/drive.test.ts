/** One drive: its rate by hand, ground that is driven again, and what cannot be a rate. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { reduceHole } from '../hole/hole.ts';
import type { DriveReading, RigReading } from '../reading.ts';

/** A joint of 6 m, then drives from one stick-up to another. */
function driven(
  ...drives: [from: number | null, to: number, duration_s: number | null, more?: Partial<DriveReading>][]
) {
  const joint: RigReading = {
    kind: 'joint',
    row_id: 'j',
    seq: 0,
    action: 'add',
    item: 'joint',
    label: 'A1',
    length_m: 6,
    tight: true,
  };
  return reduceHole([
    joint,
    ...drives.map(
      ([stick_up_start_m, stick_up_end_m, duration_s, more], i): RigReading => ({
        kind: 'drive',
        row_id: `d${i}`,
        seq: i + 1,
        stick_up_start_m,
        stick_up_end_m,
        duration_s,
        ended_by: null,
        frequency_hz: null,
        ...more,
      }),
    ),
  ]);
}
const near = (a: number | null | undefined, b: number) =>
  assert.ok(a != null && Math.abs(a - b) < 1e-9, `${a} is not ${b}`);
const codes = (fold: ReturnType<typeof driven>) => fold.findings.map((f) => f.code);

test('no time is no rate: neither none written nor 0 s', () => {
  for (const duration_s of [null, 0]) {
    const { drives } = driven([6, 2, duration_s]);
    assert.deepEqual([drives[0]!.rate_m_per_min, drives[0]!.pace], [null, null]);
  }
});

test('lifted and driven again, but not as deep as before: nothing is gained, and the deepest stays', () => {
  // 4.00 m deep; lifted to 3.50, driven to 3.70 in 10 s
  const lifted = { obstruction_response: 'lifted_and_retried' } as const;
  const fold = driven([6, 2, 60, lifted], [2.5, 2.3, 10]);
  assert.deepEqual([fold.drives[1]!.rate_m_per_min, fold.drives[1]!.pace], [0, 'refusal']);
  near(fold.deepest_m, 4);
  // the next is new from 4.00 m on: 3.70 to 4.60 m in 60 s
  near(driven([6, 2, 60, lifted], [2.5, 2.3, 10, lifted], [2.3, 1.4, 60]).drives[2]!.rate_m_per_min, 0.6);
});

test('a string that rebounded by a centimetre was not lifted', () => {
  near(driven([6, 2, 60], [2.01, 1.51, 60]).drives[1]!.rate_m_per_min, 0.5);
});

test('only a lift explains a collar that stands higher', () => {
  const after = (obstruction_response: DriveReading['obstruction_response'] & string) =>
    codes(driven([6, 2, 60, { obstruction_response }], [2.4, 1.9, null])).includes('stick-up-jump');
  assert.deepEqual([after('lifted_and_retried'), after('moved'), after('ended')], [false, true, true]);
});

test('a slow drive with a slow vibrator is laid to the vibrator first', () => {
  const fix = (frequency_hz: number) =>
    driven([6, 4, 60, { frequency_hz: 30 }], [4, 3.5, 60, { frequency_hz }]).findings.find(
      (f) => f.code === 'drive-slowing',
    )!.fix;
  assert.match(fix(26), /^The vibrator ran slower than usual/);
  assert.match(fix(27), /^Stop the vibrator/);
});

test('without the stick-up before it, a drive leaves the collar where it was read after it', () => {
  const fold = driven([6, 2, 60], [null, 1.5, 60]);
  assert.deepEqual([fold.drives.length, fold.states.at(-1)!.stick_up_m], [1, 1.5]);
  near(fold.deepest_m, 4.5);
});

test('stick-ups the wrong way round are no refusal; a rebound of a centimetre at the end of one is', () => {
  const swapped = driven([6, 4, 60], [2, 4, 60]);
  assert.ok(codes(swapped).includes('drive-rises'));
  assert.deepEqual([swapped.drives[1]!.rate_m_per_min, swapped.drives[1]!.pace], [null, null]);
  const stuck = driven([6, 4, 60], [4, 4.01, 60]);
  assert.deepEqual([stuck.drives[1]!.rate_m_per_min, stuck.drives[1]!.pace], [0, 'refusal']);
});

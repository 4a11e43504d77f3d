/** Offsets of instruments: what they would mean, and the errors they widen, each by a sum done by hand. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import type { TableName } from '@stillstand/campaign/tables';
import { holeState, instrumentProblems } from './index.ts';

const HOLE: Partial<Record<TableName, Record<string, string>[]>> = {
  holes: [{ hole: 'H1', method: 'string' }],
  string_items: [1, 2, 3, 4].map((i) => ({
    hole: 'H1',
    seq: `${i}`,
    action: 'add',
    item: 'joint',
    joint: `J${i}`,
    length: '3.5 m',
    tight: 'yes',
  })),
  drives: [{ hole: 'H1', seq: '5', stick_up_start: '3 m', stick_up_end: '0.4 m' }],
  soundings: [{ hole: 'H1', seq: '6', to_sediment: '13.55 m', purpose: 'after_drive' }],
  runs: [{ hole: 'H1', seq: '7', run: 'R1', start_mark: '12 m', end_mark: '13 m', recovered: '0.9 m' }],
};

/** The hole with these checks, and `more` rows behind its own. */
function campaignWith(checks: Record<string, string>[], more: typeof HOLE = {}) {
  let document = newDocument('checks');
  for (const [table, of] of Object.entries({ ...HOLE, instrument_checks: checks })) {
    const rows = [...of, ...(more[table as TableName] ?? [])];
    if (rows.length > 0) document = withRows(document, table as TableName, rows);
  }
  const { campaign, problems } = parseCampaign(document);
  assert.deepEqual(
    problems.filter((p) => p.severity === 'error'),
    [],
  );
  return campaign;
}

const near = (a: number, b: number) => assert.ok(Math.abs(a - b) < 1e-9, `${a} is not ${b}`);
const tape = (observed: string, more: Record<string, string> = {}) => ({
  date: '2024-06-11',
  seq: '1',
  instrument: 'T1',
  kind: 'tape',
  known: '10 m',
  observed,
  ...more,
});

test('a tape that reads short is named with what it means, and widens what was read with it', () => {
  const campaign = campaignWith([tape('9.988 m')]);
  const [found, ...others] = instrumentProblems(campaign);
  assert.deepEqual(others, []);
  // 1.2 cm in 10 m; 13.55 × 0.0012 = 1.626 cm
  assert.equal(found!.found, 'tape T1 reads 1.2 cm short in 10 m: a depth of 13.55 m is 1.6 cm off');
  assert.equal(found!.expected, 'within 0.6 cm, 2σ of reading it');
  const { settings } = holeState(campaign, 'H1')!;
  const bare = holeState(campaignWith([]), 'H1')!.settings;
  near(settings.sounding_sigma_m, Math.hypot(bare.sounding_sigma_m, 0.01626 / Math.sqrt(3)));
  // never less than was found: of a stick-up of 3 m still 1.2 cm
  near(settings.stick_up_sigma_m, Math.hypot(bare.stick_up_sigma_m, 0.012 / Math.sqrt(3)));
  // the string of 14 m is 1.68 cm off as a whole; four joints of independent errors
  near(2 * settings.joint_sigma_m, Math.hypot(2 * bare.joint_sigma_m, 0.0168 / Math.sqrt(3)));
  assert.equal(settings.mark_sigma_m, bare.mark_sigma_m);
});

test('within its reading error, withdrawn, or of another instrument: nothing changes', () => {
  const bare = holeState(campaignWith([]), 'H1')!.settings;
  const withdrawn = [
    tape('9.9 m', { row_id: 'a' }),
    { ...tape('9.9 m'), row_id: 'b', amends: 'a', amend_kind: 'withdraw' },
  ];
  for (const checks of [[tape('9.995 m')], [tape('10.006 m')], withdrawn]) {
    const campaign = campaignWith(checks);
    assert.deepEqual(instrumentProblems(campaign), []);
    assert.deepEqual(holeState(campaign, 'H1')!.settings, bare);
  }
  const receiver = campaignWith([tape('4.45 m', { kind: 'receiver', instrument: 'rover', known: '4.40 m' })]);
  assert.match(
    instrumentProblems(receiver)[0]!.found,
    /receiver rover reads 5\.0 cm high .*heights by it are 5\.0 cm off/,
  );
  assert.deepEqual(holeState(receiver, 'H1')!.settings, bare);
});

test('a cable widens its marks, and the largest of several checks counts', () => {
  const cable = (observed: string, seq: string) => tape(observed, { kind: 'cable', instrument: 'C', seq });
  const { settings } = holeState(campaignWith([cable('10.03 m', '1'), cable('9.95 m', '2')]), 'H1')!;
  const bare = holeState(campaignWith([]), 'H1')!.settings;
  // 5 cm in 10 m, at 13 m 6.5 cm; a run of 1 m is off by no less than the 5 cm that were found
  near(settings.mark_sigma_m, Math.hypot(bare.mark_sigma_m, 0.065 / Math.sqrt(3)));
  near(settings.cable_mark_sigma_m, Math.hypot(bare.cable_mark_sigma_m, 0.05 / Math.sqrt(3)));
  assert.equal(settings.sounding_sigma_m, bare.sounding_sigma_m);
});

test('the largest offset counts, in whatever order the checks were made; a known length of nothing is no factor', () => {
  const bare = holeState(campaignWith([]), 'H1')!.settings;
  const cable = (known: string, observed: string, seq: string) =>
    tape(observed, { kind: 'cable', instrument: 'C', known, seq });
  const first = holeState(campaignWith([cable('10 m', '9.95 m', '1'), cable('10 m', '10.03 m', '2')]), 'H1')!;
  near(first.settings.mark_sigma_m, Math.hypot(bare.mark_sigma_m, 0.065 / Math.sqrt(3)));
  // against the collar: 5 cm, whatever the depth
  const zero = holeState(campaignWith([cable('0 m', '0.05 m', '1')]), 'H1')!;
  near(zero.settings.mark_sigma_m, Math.hypot(bare.mark_sigma_m, 0.05 / Math.sqrt(3)));
});

test('the lengths are those of this hole: both stick-ups, joints that were added, the advance of a run', () => {
  const more = {
    holes: [{ hole: 'H2', method: 'string' }],
    soundings: [{ hole: 'H2', seq: '1', to_sediment: '30 m', purpose: 'after_drive' }],
    drives: [{ hole: 'H1', seq: '8', stick_up_start: '15 m', stick_up_end: '0.4 m' }],
    string_items: [{ hole: 'H1', seq: '9', action: 'cut', item: 'joint', joint: 'J4', length: '1 m' }],
    // without its first mark its advance is not known: no less than the offset itself
    runs: [{ hole: 'H1', seq: '10', run: 'R2', end_mark: '12 m' }],
  };
  const bare = holeState(campaignWith([], more), 'H1')!.settings;
  const cable = tape('9.95 m', { kind: 'cable', instrument: 'C', seq: '2' });
  const { settings } = holeState(campaignWith([tape('9.988 m'), cable], more), 'H1')!;
  const wide = (sigma: number, offset_m: number) => Math.hypot(sigma, offset_m / Math.sqrt(3));
  // 1.2 cm in 10 m: 13.55 m of H1, not 30 m of H2; 15 m of stick-up; 14 m of four joints
  near(settings.sounding_sigma_m, wide(bare.sounding_sigma_m, 0.01626));
  near(settings.stick_up_sigma_m, wide(bare.stick_up_sigma_m, 0.018));
  near(2 * settings.joint_sigma_m, wide(2 * bare.joint_sigma_m, 0.0168));
  near(settings.cable_mark_sigma_m, wide(bare.cable_mark_sigma_m, 0.05));
});

test('a staff is of height differences, not of the depth of a hole', () => {
  const staff = campaignWith([tape('3.01 m', { kind: 'staff', instrument: 'S', known: '3 m' })]);
  assert.equal(
    instrumentProblems(staff)[0]!.found,
    'staff S reads 1.0 cm long in 3 m: a height difference of 3.00 m is 1.0 cm off',
  );
  assert.deepEqual(holeState(staff, 'H1')!.settings, holeState(campaignWith([]), 'H1')!.settings);
});

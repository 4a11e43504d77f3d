import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import type { TableName } from '@stillstand/campaign/tables';
import { cableSaid, marksOf } from './cable-marks.ts';

type Cells = Record<string, string>;
/** As version 1 kept them. */
const NOTE = 'cable marks: sediment 1.02 m; +0.5 m 1.52 m; stop 2.82 m';

/** Readings of H1 in their order, each "table" with its cells. */
function said(
  readings: readonly (readonly [TableName, Cells])[],
  stop_m: number | null = 2.82,
  inHand: string | null = null,
) {
  let document = withRows(newDocument('cable'), 'holes', [{ row_id: 'h', hole: 'H1', method: 'string' }]);
  for (const table of ['string_items', 'drives', 'soundings', 'runs', 'cable_marks'] as const) {
    const rows = readings.flatMap(([of, cells], i) =>
      of === table
        ? [
            {
              row_id: `r${i}`,
              hole: 'H1',
              seq: String(i + 1),
              by: 'DK',
              time: '2024-03-05T08:00:00+08:00',
              ...cells,
            },
          ]
        : [],
    );
    if (rows.length > 0) document = withRows(document, table, rows);
  }
  return cableSaid(parseCampaign(document).campaign, 'H1', stop_m, inHand);
}

const joint = ['string_items', { action: 'add', item: 'joint', joint: 'A1', length: '3.12 m' }] as const;
const drive = ['drives', { stick_up_start: '3 m', stick_up_end: '1 m' }] as const;
const sounding = ['soundings', { purpose: 'after_drive', to_sediment: '1.02 m' }] as const;
const outside = ['soundings', { purpose: 'other', water_outside: '1.65 m' }] as const;
const taped = ['cable_marks', { sediment: '1.02 m', interval: '0.5 m', stop: '2.82 m' }] as const;
const zeroed = ['soundings', { purpose: 'zero_check', cable_at_collar: '0 m' }] as const;
const run = ['runs', { run: 'R1', start_mark: '1.02 m' }] as const;

test('marks are read as they were put on, in metres and feet', () => {
  const tips = (marks: ReturnType<typeof marksOf>) => marks.map((m) => [m.label, m.tip_m.toFixed(4)]);
  assert.deepEqual(tips(marksOf({ sediment_m: 1.02, interval_m: 0.5, full_m: 2.3, stop_m: 2.82 })), [
    ['sediment', '1.0200'],
    ['+0.5 m', '1.5200'],
    ['+1.0 m', '2.0200'],
    ['full', '2.3000'],
    ['+1.5 m', '2.5200'],
    ['stop', '2.8200'],
  ]);
  assert.deepEqual(tips(marksOf({ sediment_m: 1.016, interval_m: 0.3048, full_m: null, stop_m: 1.7 })), [
    ['sediment', '1.0160'],
    ['+1 ft', '1.3208'],
    ['+2 ft', '1.6256'],
    ['stop', '1.7000'],
  ]);
  // an interval mistyped as nothing never makes marks without end
  assert.equal(marksOf({ sediment_m: 1, interval_m: 0, full_m: null, stop_m: 3 }).length, 2);
});

test('marks in the note of a sounding, as version 1 kept them, count; other words do not', () => {
  const noted = (note: string) =>
    said([joint, drive, sounding, outside, ['soundings', { purpose: 'zero_check', note }]], 2.9).marks?.made;
  assert.deepEqual(noted(NOTE), [
    { label: 'sediment', tip_m: 1.02 },
    { label: '+0.5 m', tip_m: 1.52 },
    { label: 'stop', tip_m: 2.82 },
  ]);
  // of before they had a name of their own, and in feet
  assert.deepEqual(
    noted('sediment 3 ft 4 in; +1 ft 4 ft 4 in; stop 9 ft 3 in')?.map((m) => m.tip_m.toFixed(4)),
    ['1.0160', '1.3208', '2.8194'],
  );
  assert.equal(noted('stopped for lunch; sediment soft'), undefined);
});

test('each of marks, zero and outside water that was not said is named; none where all were', () => {
  assert.deepEqual(said([joint, drive, sounding]).missing, [
    'Cable marks not confirmed',
    'Zero of the cable not checked',
    'Water outside not read',
  ]);
  const all = said([joint, drive, sounding, outside, taped, zeroed]);
  assert.deepEqual(all.missing, []);
  assert.equal(all.marks?.by, 'DK');
  assert.deepEqual(said([joint, drive, sounding, outside, zeroed]).missing, ['Cable marks not confirmed']);
  assert.deepEqual(said([joint, drive, sounding, outside, taped]).missing, ['Zero of the cable not checked']);
  assert.deepEqual(said([joint, outside, drive, sounding, taped, zeroed]).missing, [
    'Water outside not read since the last drive',
  ]);
});

test('marks no longer count once the string, the sediment or the stop is another; the run in hand keeps its own', () => {
  const stale = (more: (readonly [TableName, Cells])[], stop_m = 2.82) =>
    said([joint, drive, sounding, outside, taped, zeroed, ...more], stop_m).stale;
  assert.equal(stale([]), null);
  assert.match(stale([joint])!, /string has changed/);
  assert.match(stale([sounding])!, /sounded since/);
  assert.equal(stale([zeroed]), null, 'a zero check is no sounding of the sediment');
  const zeroOf1 = ['soundings', { purpose: 'zero_check', to_sediment: '0.02 m' }] as const;
  assert.equal(stale([zeroOf1]), null, 'nor is one of version 1');
  assert.match(stale([run])!, /a run was made/);
  // a joint amended to be shorter: the stop mark would let the sampler pass the margin
  assert.match(stale([], 2.5)!, /too deep/);
  assert.equal(stale([], 2.83), null);
  assert.equal(said([joint, drive, sounding, outside, taped, zeroed, run], 2.82, 'r6').stale, null);
  assert.deepEqual(said([joint, drive, sounding, outside, taped, zeroed, run], 2.82, 'r6').missing, []);
});

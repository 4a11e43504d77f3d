import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import type { TableName } from '@stillstand/campaign/tables';
import { cableSaid, marksIn, marksNote } from './cable-marks.ts';

type Cells = Record<string, string>;
const NOTE = marksNote([
  { label: 'sediment', said: '1.02 m' },
  { label: '+0.5 m', said: '1.52 m' },
  { label: 'stop', said: '2.82 m' },
]);

/** Readings of H1 in their order, each "table" with its cells. */
function said(
  readings: readonly (readonly [TableName, Cells])[],
  stop_m: number | null = 2.82,
  inHand: string | null = null,
) {
  let document = withRows(newDocument('cable'), 'holes', [{ row_id: 'h', hole: 'H1', method: 'string' }]);
  for (const table of ['string_items', 'drives', 'soundings', 'runs'] as const) {
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
const marked = ['soundings', { purpose: 'zero_check', note: NOTE }] as const;
const run = ['runs', { run: 'R1', start_mark: '1.02 m' }] as const;

test('marks are written and read back as they were put on', () => {
  assert.deepEqual(marksIn(NOTE), [
    { label: 'sediment', tip_m: 1.02 },
    { label: '+0.5 m', tip_m: 1.52 },
    { label: 'stop', tip_m: 2.82 },
  ]);
  // of before they had a name of their own, and in feet
  assert.deepEqual(
    marksIn('sediment 3 ft 4 in; +1 ft 4 ft 4 in; stop 9 ft 3 in').map((m) => m.tip_m.toFixed(4)),
    ['1.0160', '1.3208', '2.8194'],
  );
  assert.deepEqual(marksIn('stopped for lunch; sediment soft'), []);
});

test('each of marks, zero and outside water that was not said is named; none where all were', () => {
  assert.deepEqual(said([joint, drive, sounding]).missing, [
    'Cable marks not confirmed',
    'Zero of the cable not checked',
    'Water outside not read',
  ]);
  const all = said([joint, drive, sounding, outside, marked]);
  assert.deepEqual(all.missing, []);
  assert.equal(all.marks?.by, 'DK');
  assert.deepEqual(
    said([joint, drive, sounding, outside, ['soundings', { purpose: 'zero_check' }]]).missing,
    ['Cable marks not confirmed'],
  );
  assert.deepEqual(
    said([joint, drive, sounding, outside, ['soundings', { purpose: 'other', note: NOTE }]]).missing,
    ['Zero of the cable not checked'],
  );
  assert.deepEqual(said([joint, outside, drive, sounding, marked]).missing, [
    'Water outside not read since the last drive',
  ]);
});

test('marks no longer count once the string, the sediment or the stop is another; the run in hand keeps its own', () => {
  const stale = (more: (readonly [TableName, Cells])[], stop_m = 2.82) =>
    said([joint, drive, sounding, outside, marked, ...more], stop_m).stale;
  assert.equal(stale([]), null);
  assert.match(stale([joint])!, /string has changed/);
  assert.match(stale([sounding])!, /sounded since/);
  assert.match(stale([run])!, /a run was made/);
  // a joint amended to be shorter: the stop mark would let the sampler pass the margin
  assert.match(stale([], 2.5)!, /too deep/);
  assert.equal(stale([], 2.83), null);
  assert.equal(said([joint, drive, sounding, outside, marked, run], 2.82, 'r5').stale, null);
  assert.deepEqual(said([joint, drive, sounding, outside, marked, run], 2.82, 'r5').missing, []);
});

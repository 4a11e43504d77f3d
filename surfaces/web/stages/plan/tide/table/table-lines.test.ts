/** What is recorded of a tide table, changed, added and withdrawn: with the clock and the zero it was typed for. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { readTableLines } from '../../../../days/index.ts';
import {
  clockOf,
  factsOf,
  linesOf,
  NO_DRAFT,
  recordedWaters,
  replacedWaters,
  type TableDraft,
  toWrite,
  typedIn,
} from './table-lines.ts';
import { latOf } from './table-zero.ts';

const reading = (row_id: string, time: string, height_m: string, cells: Record<string, string> = {}) => ({
  row_id,
  cells: { gauge: 'Tide table', time, height_m, flag: 'tide table: high', ...cells },
});
const ROWS = [
  reading('a', '2024-03-05T03:10:00-07:00', '2.5'),
  reading('b', '2024-03-05T09:20:00-07:00', '0.4'),
  reading('other', '2024-03-05T09:00:00-07:00', '9', { gauge: 'Tide table 2' }),
  reading('pole', '2024-03-05T09:00:00-07:00', '9', { flag: '' }),
  reading('far', '2024-03-09T09:00:00-07:00', '9'),
  reading('gone', '2024-03-05T12:00:00-07:00', '9'),
  reading('w', '', '', { amends: 'gone', amend_kind: 'withdraw' }),
];
const recorded = recordedWaters(ROWS, '2024-03-05', -480);
const written = (
  draft: TableDraft,
  gauge = 'Tide table',
  facts = factsOf(recorded, '-08:00', draft.facts),
) => {
  const lines = linesOf(recorded, draft, 'blank');
  const clock = clockOf(facts)!;
  const read = readTableLines(
    lines.map(({ cells }) => cells),
    { date: '2024-03-05', offset_min: clock, unit: 'm' },
  );
  return toWrite(lines, read, gauge, clock);
};

test('a day shows the waters of its own table, by the clock they were recorded with', () => {
  assert.deepEqual(
    linesOf(recorded, NO_DRAFT, 'blank').map(({ key, cells }) => [key, cells.date, cells.time, cells.height]),
    [
      ['a', '2024-03-05', '03:10', '2.5'],
      ['b', '2024-03-05', '09:20', '0.4'],
      ['blank', '', '', ''],
    ],
  );
  assert.deepEqual(factsOf(recorded, '-08:00', {}).clock, '-07:00');
  assert.equal(factsOf(recorded, '-08:00', {}).zero, 'gauge:Tide table');
  // Nothing is recorded: the campaign's clock, and no zero until it is chosen.
  assert.deepEqual([factsOf([], '-08:00', {}).clock, factsOf([], '-08:00', {}).zero], ['-08:00', '']);
  assert.deepEqual(written(NO_DRAFT), { added: [], amended: [], withdrawn: [] });
});

test('only what differs is written: a corrected height amends, a line emptied is withdrawn, a new one is added', () => {
  const lines = linesOf(recorded, NO_DRAFT, 'blank');
  let draft = typedIn(NO_DRAFT, lines[0]!, { height: '2.6' });
  draft = typedIn(draft, lines[1]!, { date: '', time: '', height: '' });
  draft = typedIn(draft, lines[2]!, { time: '15:30', height: '8 ft' });
  draft = typedIn(
    draft,
    { key: 'bad', recorded: null, cells: { date: '', time: '', height: '' } },
    { time: 'noon' },
  );
  const write = written(draft);
  assert.deepEqual(
    write.amended.map(({ row_id, cells }) => [row_id, cells['height_m'], cells['time']]),
    [['a', '2.6', '2024-03-05T03:10:00-07:00']],
  );
  assert.deepEqual(write.withdrawn, ['b']);
  // 8 ft are 2.4384 m; what cannot be read is not written.
  assert.deepEqual(
    write.added.map(({ key, cells }) => [key, cells['height_m'], cells['time']]),
    [['blank', '2.438', '2024-03-05T15:30:00-07:00']],
  );
});

test('another clock or another zero for a recorded table amends all its lines', () => {
  const summer = written({ ...NO_DRAFT, facts: { clock: '-08:00', summer: '' } });
  assert.deepEqual(
    summer.amended.map(({ cells }) => cells['time']),
    ['2024-03-05T03:10:00-08:00', '2024-03-05T09:20:00-08:00'],
  );
  assert.deepEqual(
    written(NO_DRAFT, 'Tide table 3').amended.map(({ cells }) => cells['gauge']),
    ['Tide table 3', 'Tide table 3'],
  );
  assert.equal(clockOf({ ...factsOf([], '+01:00', {}), summer: 'yes' }), 120);
  assert.equal(clockOf({ ...factsOf([], '', {}), clock: 'noon' }), null);
});

test('several days pasted over days recorded before: what was there in that time gives way, other sites keep theirs', () => {
  let draft = NO_DRAFT;
  for (const [key, date] of [
    ['x', '2024-03-05'],
    ['y', '2024-03-10'],
  ] as const)
    draft = typedIn(
      draft,
      { key, recorded: null, cells: { date: '', time: '', height: '' } },
      { date, time: '06:00', height: '1' },
    );
  const lines = linesOf(recorded, draft, 'blank');
  const gone = (gauges: string[]) => replacedWaters(ROWS, lines, written(draft), new Set(gauges));
  // Of the day itself the lines are shown and changed in place; "other" is of the same hours, "far" of a day between.
  assert.deepEqual(gone(['Tide table', 'Tide table 2']), ['other', 'far']);
  assert.deepEqual(gone(['Tide table']), ['far']);
  assert.deepEqual(
    replacedWaters(ROWS, lines, { added: [], amended: [], withdrawn: [] }, new Set(['Tide table'])),
    [],
  );
});

test('the LAT that a zero is compared with is that of the site, on the campaign datum', () => {
  const level = (site: string, elevation_m: string, cells: Record<string, string> = {}) => ({
    row_id: `${site} ${elevation_m}`,
    cells: { site, level: 'LAT', elevation_m, ...cells },
  });
  const rows = [
    level('North', '-2.10'),
    level('South', '-0.40', { datum: 'chart' }),
    level('South', '−1,60', { datum: 'MSL' }),
    level('South', '1.80', { level: 'HAT' }),
  ];
  assert.equal(latOf(rows, 'South', 'MSL'), -1.6);
  assert.equal(latOf(rows, 'North', 'MSL'), -2.1);
  assert.equal(latOf(rows, 'East', 'MSL'), null);
});

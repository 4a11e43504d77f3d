import assert from 'node:assert/strict';
import { test } from 'node:test';
import { actWords, type CellsOf, dayWords } from './act-words.ts';
import type { Act, ActChange } from './acts.ts';

const ROWS: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  b: { amends: 'a', amend_kind: 'withdraw' },
  u: { hole: 'T1', unit: '4' },
  s: { hole: 'T2', time: '2026-03-04T10:42:00+01:00' },
  r: { amends: 's', amend_kind: 'replace', hole: 'T2', sediment: '9.8 m', by: 'recorder' },
  a: { amends: 's', amend_kind: 'withdraw', time: '2026-03-04T15:00:00+01:00' },
};
const cellsOf: CellsOf = (_, row_id) => ROWS[row_id] ?? {};

const act = (of: Partial<Act>, ...changes: ActChange[]): Act => ({
  id: 'x',
  time: '2026-03-04T14:38:00+01:00',
  by: 'recorder',
  device: 'tablet A',
  how: 'done',
  ...of,
  changes,
});
const cell = { before: '', after: '1 m', known: [] };
const edit: ActChange = { kind: 'edit', table: 'units', row_id: 'u', cells: { top: cell, base: cell } };

test('an act says who, with what, when, and what was done to which row', () => {
  assert.equal(actWords(act({}, edit), cellsOf), 'recorder, tablet A, 14:38: edit unit 4 of T1 (top, base)');
  assert.equal(
    actWords(act({ by: '', device: '', how: 'undone' }, edit), cellsOf),
    'name not given, 14:38: undo: edit unit 4 of T1 (top, base)',
  );
  const add: ActChange = { kind: 'add', table: 'soundings', row_id: 's' };
  assert.equal(actWords(act({ by: '' }, add), cellsOf), 'tablet A, 14:38: add sounding at 10:42 of T2');
  assert.equal(
    actWords(act({}, { ...add, row_id: 'a' }), cellsOf),
    'recorder, tablet A, 14:38: withdraw sounding at 10:42 of T2',
  );
  assert.equal(
    actWords(act({}, { ...add, row_id: 'r' }), cellsOf),
    'recorder, tablet A, 14:38: amend sounding at 10:42 of T2 (sediment)',
  );
  assert.equal(
    actWords(act({}, { ...add, row_id: 'b' }), cellsOf),
    'recorder, tablet A, 14:38: restore sounding at 10:42 of T2',
  );
  assert.equal(
    actWords(act({}, edit, { kind: 'delete', table: 'units', row_id: 'gone' }), cellsOf),
    'recorder, tablet A, 14:38: edit unit 4 of T1 and 1 more change',
  );
});

test('a day in words', () => {
  assert.deepEqual([dayWords('2026-03-04T14:38:00+01:00'), dayWords('soon')], ['4 March 2026', '']);
});

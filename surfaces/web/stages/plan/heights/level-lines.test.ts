/** Lines as they are typed, inserted, deleted, pasted and kept, and what is written of them. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { hasLines, hasUnrecorded, keptBook, valuesOf } from './level-kept.ts';
import {
  BLANK,
  type BookDraft,
  deleted,
  inserted,
  linesOf,
  loopsIn,
  NO_DRAFT,
  readingsOfLoop,
  toWrite,
  typed,
} from './level-lines.ts';
import { pastedLines } from './level-paste.ts';

const row = (row_id: string, seq: string, cells: Record<string, string>) => ({
  row_id,
  cells: { loop: 'L', seq, row_id, ...cells },
});
const ROWS = [
  row('a', '1', { point: 'BM', backsight_m: '1.5' }),
  row('b', '2', { point: 'T', foresight_m: '1.2', backsight_m: '1.0' }),
  row('c', '3', { point: 'BM', foresight_m: '1.3' }),
];
const points = (draft: BookDraft, rows = ROWS): string[] =>
  linesOf(readingsOfLoop(rows, 'L'), draft, 'blank').map(({ cells }) => cells.point);

test('recorded lines in their order, and a blank one behind them', () => {
  assert.deepEqual(loopsIn([...ROWS, row('d', '1', { loop: 'other', point: 'X' })]), ['L', 'other']);
  assert.deepEqual(points(NO_DRAFT, [ROWS[2]!, ROWS[0]!, ROWS[1]!]), ['BM', 'T', 'BM', '']);
});

test('a forgotten line is inserted between two, and written between them in the order', () => {
  let draft = inserted(NO_DRAFT, { row_id: 'c', at: null }, 'n1');
  draft = typed(draft, { key: 'n1', row_id: null, at: 0 }, null, { point: 'CP', foresight_m: ' 0.9 ' });
  draft = typed(draft, { key: 'n2', row_id: null, at: 1 }, null, { point: 'end' });
  assert.deepEqual(points(draft), ['BM', 'T', 'CP', 'BM', 'end', '']);
  const { added, amended } = toWrite(linesOf(readingsOfLoop(ROWS, 'L'), draft, 'blank'), draft);
  assert.deepEqual(amended, []);
  assert.deepEqual(
    added.map(({ row_id, point, foresight_m, seq }) => [row_id, point, foresight_m, seq]),
    [
      ['n1', 'CP', '0.9', '2.5'],
      ['n2', 'end', '', '4'],
    ],
  );
  assert.deepEqual(points(deleted(draft, 0)), ['BM', 'T', 'BM', 'end', '']);
  // Recorded, and the page lost before the draft was: it is there once.
  assert.deepEqual(points(draft, [...ROWS, row('n1', '2.5', { point: 'CP' })]), [
    'BM',
    'T',
    'CP',
    'BM',
    'end',
    '',
  ]);
});

test('a new loop is numbered from 1, blank lines left out', () => {
  let draft: BookDraft = NO_DRAFT;
  for (const [i, point] of ['BM', '', 'A'].entries())
    draft = typed(draft, { key: `n${i}`, row_id: null, at: i }, null, { point });
  const { added } = toWrite(linesOf([], draft, 'blank'), draft);
  assert.deepEqual(
    added.map(({ point, seq }) => [point, seq]),
    [
      ['BM', '1'],
      ['A', '2'],
    ],
  );
});

test('a changed cell is an amendment of that cell alone; what it said before is shown', () => {
  const later = { ...row('b2', '2', { point: 'T', foresight_m: '1.21', backsight_m: '1.0' }) };
  const rows = [...ROWS, { ...later, cells: { ...later.cells, amends: 'b', amend_kind: 'replace' } }];
  const at = linesOf(readingsOfLoop(rows, 'L'), NO_DRAFT, 'blank')[1]!;
  assert.deepEqual([at.key, at.state, at.cells.foresight_m], ['b', 'replaced', '1.21']);
  assert.deepEqual(at.was, [{ entry: 'foresight_m', text: '1.2' }]);
  const draft = typed(NO_DRAFT, at, at.cells, { backsight_m: '1.1' });
  const lines = linesOf(readingsOfLoop(rows, 'L'), draft, 'blank');
  assert.deepEqual(toWrite(lines, draft).amended, [{ row_id: 'b', cells: { backsight_m: '1.1' } }]);
  assert.deepEqual(lines[1]!.was, [
    { entry: 'backsight_m', text: '1.0' },
    { entry: 'foresight_m', text: '1.2' },
  ]);
});

test('kept and found again; what cannot be read of it is nothing', () => {
  const draft = typed(NO_DRAFT, { key: 'n', row_id: null, at: 0 }, null, { point: 'BM' });
  const kept = (values: Record<string, string>) => ({ values, units: {}, at: null, time: '', seen: 0 });
  const again = kept({ ...valuesOf(draft, { loop: 'new' }) });
  assert.deepEqual(keptBook(again), { draft, facts: { loop: 'new' } });
  assert.deepEqual(
    [hasLines(again, []), hasLines(again, [{ row_id: 'n' }]), hasLines(null, [])],
    [true, false, false],
  );
  for (const broken of [kept({ edits: '{' }), kept({ added: '7' }), kept({}), null])
    assert.deepEqual(keptBook(broken), { draft: NO_DRAFT, facts: {} });
});

test('a change typed over a recorded loop is as unrecorded as a new line', () => {
  const rows = [{ row_id: 'a', cells: { loop: 'L', point: 'BM', backsight_m: '1.0' } }];
  const draft = { added: [], edits: { a: { backsight_m: '1.1' } } };
  const kept = { values: valuesOf(draft, {}), units: {}, at: null, time: '', seen: 1 };
  const of = (loop: string | null) => ({
    read: ({ hole }: { hole: string }) => (hole === loop ? kept : null),
  });
  assert.equal(hasUnrecorded(of(null), rows), false);
  assert.equal(hasUnrecorded(of('L'), rows), true);
  // A new loop has no recorded line that could be typed over.
  assert.equal(hasUnrecorded(of(''), rows), false);
});

test('a pasted block: by its headings, else by place from the cell it is pasted into', () => {
  assert.equal(pastedLines('1.482', 'backsight_m'), null);
  assert.equal(pastedLines('1.482\r\n', 'backsight_m'), null);
  assert.deepEqual(pastedLines('BM\t1.5\t\t\nA\t\t0.9\t\n', 'point'), [
    { point: 'BM', backsight_m: '1.5', intermediate_m: '', foresight_m: '' },
    { point: 'A', backsight_m: '', intermediate_m: '0.9', foresight_m: '' },
  ]);
  assert.deepEqual(pastedLines('1.5\r\n1.4\r\n', 'backsight_m'), [
    { backsight_m: '1.5' },
    { backsight_m: '1.4' },
  ]);
  assert.deepEqual(
    pastedLines('Station\tBS\tIS\tFS\tRise\tFall\tRL\tRemarks\nBM\t1.5\t\t\t\t\t2.000\tbolt', 'foresight_m'),
    [{ point: 'BM', backsight_m: '1.5', intermediate_m: '', foresight_m: '', note: 'bolt' }],
  );
  assert.deepEqual({ ...BLANK, ...pastedLines('a\tb', 'note')![0] }, { ...BLANK, note: 'a' });
});

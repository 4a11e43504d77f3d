import assert from 'node:assert/strict';
import { test } from 'node:test';
import { newDocument, parseCampaign, withRows } from '@stillstand/campaign/document';
import fc from 'fast-check';
import { amending } from './amending.ts';
import type { DocRow } from './content.ts';
import { nextSeq, timeWithOffset } from './reading.ts';

const doc = (rows: readonly DocRow[]) =>
  withRows(
    withRows(newDocument('x'), 'holes', [{ row_id: 'h', hole: 'H1', method: 'string' }]),
    'soundings',
    rows.map(({ cells }) => ({ ...cells })),
  );

/** Appends to a book what a screen would: a reading, an amendment of what stands, or a withdrawal. */
function write(book: DocRow[], act: 'read' | 'amend' | 'withdraw', which: number): void {
  const add = (cells: Record<string, string>): void => {
    const row_id = `r${book.length}`;
    book.push({ row_id, line: book.length + 2, cells: { hole: 'H1', purpose: 'other', ...cells, row_id } });
  };
  const readings = book.filter((row) => (row.cells['amends'] ?? '') === '');
  const chosen = readings[which % Math.max(1, readings.length)];
  if (act === 'read' || chosen === undefined) {
    add({ seq: String(readings.length + 1), to_sediment: `${readings.length + 1} m` });
    return;
  }
  const at = amending(book);
  const standing = at.standing(chosen.row_id);
  if (standing === null) return;
  if (act === 'amend') {
    const { seq } = standing.cells;
    add({ seq: seq!, to_sediment: `${book.length + 20} m`, amends: standing.row_id, amend_kind: 'replace' });
  } else {
    for (const target of at.toWithdraw(chosen.row_id)) {
      add({ seq: target.cells['seq']!, amends: target.row_id, amend_kind: 'withdraw' });
    }
  }
}

test('what a screen takes to stand is what parsing takes (seed 31)', () => {
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.constantFrom('read', 'amend', 'amend', 'withdraw'), fc.nat(30)), {
        maxLength: 25,
      }),
      (acts) => {
        const book: DocRow[] = [];
        for (const [act, which] of acts) write(book, act as 'read', which);
        const { campaign, problems } = parseCampaign(doc(book));
        assert.deepEqual(
          problems.filter((p) => p.severity !== 'note'),
          [],
        );
        const at = amending(book);
        const standing = book
          .filter((row) => (row.cells['amends'] ?? '') === '')
          .flatMap((row) => at.standing(row.row_id)?.row_id ?? []);
        assert.deepEqual(
          campaign.rows.soundings.map((row) => row.row_id),
          standing,
        );
      },
    ),
    { seed: 31, numRuns: 300 },
  );
});

test('the next seq counts over all tables of a hole, and stands apart for loops and days', () => {
  const rows: Record<string, DocRow[]> = {
    joints: [{ row_id: 'a', line: 2, cells: { hole: 'H1', seq: '4' } }],
    drives: [
      { row_id: 'b', line: 2, cells: { hole: 'H1', seq: '7.5' } },
      { row_id: 'c', line: 3, cells: { hole: 'H2', seq: '99' } },
    ],
    levelling: [{ row_id: 'd', line: 2, cells: { loop: 'H1', seq: '30' } }],
    checks: [
      { row_id: 'e', line: 2, cells: { hole: 'H1', date: '2024-03-05', seq: '6' } },
      { row_id: 'f', line: 3, cells: { date: '2024-03-06', seq: '3' } },
    ],
  };
  const of = (table: string): DocRow[] => rows[table] ?? [];
  assert.equal(nextSeq({ hole: 'H1' }, of), '8');
  assert.equal(nextSeq({ hole: 'H3' }, of), '1');
  assert.equal(nextSeq({ loop: 'H1' }, of), '31');
  assert.equal(nextSeq({ date: '2024-03-06' }, of), '4');
});

test('times carry the offset of the device', () => {
  const text = timeWithOffset(new Date(Date.UTC(2024, 2, 5, 6, 30, 9)));
  assert.match(text, /^2024-03-0[456]T\d\d:\d\d:09[+-]\d\d:\d\d$/);
  assert.equal(new Date(text).getTime(), Date.UTC(2024, 2, 5, 6, 30, 9));
});

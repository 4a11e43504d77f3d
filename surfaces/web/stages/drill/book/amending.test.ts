/** What a screen takes to be in force is what the computation takes, after any history of amendments. */

import assert from 'node:assert/strict';
import { test } from 'node:test';
import {
  choicesOf,
  newDocument,
  parseCampaign,
  readingOf,
  type TypedRow,
  toAmend,
  toDecide,
  toMove,
  toRestore,
  toWithdraw,
  withRows,
} from '@stillstand/campaign/document';
import { holeReader, readHole } from '@stillstand/campaign/holes';
import { type DocRow, nextSeq } from '@stillstand/campaign/replica';
import fc from 'fast-check';
import { timeWithOffset } from '../../../store/crew.ts';
import { bookOf } from './book.ts';

const HOLES = [
  { row_id: 'h1', hole: 'H1', method: 'string' },
  { row_id: 'h2', hole: 'H2', method: 'string' },
];

const documentOf = (book: readonly TypedRow[]) =>
  withRows(
    withRows(newDocument('x'), 'holes', HOLES),
    'string_items',
    book.map(({ cells }) => ({ ...cells })),
  );

type Act = readonly [kind: string, which: number, value: number];

/**
 * Appends to a book what people write: readings, amendments, withdrawals and decisions as the app makes them, and rows
 * another device or a spreadsheet made without knowing of them. A row may name any row, itself and none.
 */
function write(book: TypedRow[], [kind, which, value]: Act): void {
  const add = (cells: Record<string, string>): void => {
    const row_id = `r${book.length}`;
    book.push({
      row_id,
      cells: { hole: 'H1', action: 'add', item: 'joint', amends: '', amend_kind: '', ...cells, row_id },
    });
  };
  const row = book[which % Math.max(1, book.length)];
  const length = `${1 + (value % 3)} m`;
  if (kind === 'read' || row === undefined) {
    add({ seq: String(book.length + 1), joint: `J${book.length}`, length });
    return;
  }
  const { row_id, cells } = row;
  const hole = value % 5 === 0 ? 'H2' : 'H1';
  const like = { seq: cells['seq']!, joint: cells['joint'] ?? '', hole };
  const blind: Record<string, Record<string, string>> = {
    'blind replace': { length, amends: row_id, amend_kind: 'replace' },
    'blind withdraw': { amends: row_id, amend_kind: 'Withdraw ' },
    astray: { length, amends: `r${value}`, amend_kind: 'replace' },
    'blind move': { seq: `${value % 9}.5`, amends: row_id, amend_kind: 'move' },
  };
  if (blind[kind] !== undefined) {
    add({ ...like, ...blind[kind] });
    return;
  }
  const reading = readingOf('string_items', [...book], row_id)!;
  const written =
    reading.state === 'astray'
      ? []
      : kind === 'move'
        ? toMove('string_items', reading, `${value % 7}.25`)
        : kind === 'withdraw'
          ? toWithdraw(reading)
          : reading.state === 'conflict'
            ? toDecide(
                reading,
                value % 4 === 0 ? null : (reading.between[value % reading.between.length] ?? null),
              )
            : kind === 'restore'
              ? reading.state === 'withdrawn'
                ? toRestore(reading)
                : []
              : toAmend('string_items', reading, { length })!;
  for (const each of written)
    add({ time: `2024-03-05T10:00:${String(book.length % 60).padStart(2, '0')}Z`, ...each });
}

const acts = fc.array(
  fc.tuple(
    fc.constantFrom(
      'read',
      'read',
      'amend',
      'withdraw',
      'restore',
      'blind replace',
      'blind replace',
      'blind withdraw',
      'blind move',
      'move',
      'astray',
    ),
    fc.nat(30),
    fc.nat(30),
  ),
  { maxLength: 16 },
);

test('the computation, the row dialog, the book and the hole on the rig agree on any history (seed 31)', () => {
  let moved = 0;
  const seen = { written: 0, replaced: 0, withdrawn: 0, conflict: 0, astray: 0 };
  fc.assert(
    fc.property(acts, (history) => {
      const book: TypedRow[] = [];
      for (const act of history) write(book, act);
      const { campaign } = parseCampaign(documentOf(book));
      const source = {
        rows: (table: string): TypedRow[] =>
          table === 'holes'
            ? HOLES.map((cells) => ({ row_id: cells.row_id, cells }))
            : table === 'string_items'
              ? book
              : [],
      };
      const conflicts = new Map(campaign.conflicts.map((each) => [each.row_id, each.between]));
      const applied = new Set(campaign.amendments.map(({ row_id }) => row_id));
      const used = new Set(campaign.rows.string_items.map((row) => row.row_id));
      const unused = new Set(campaign.skipped_rows.map((row) => row.row_id));

      for (const { row_id } of book) {
        const reading = readingOf('string_items', book, row_id)!;
        seen[reading.state] += 1;
        const { first, now, between } = reading;
        if (now !== null) assert.ok(used.has(now.row_id), `${now.row_id} is in force and computed with`);
        for (const row of reading.rows)
          if (row !== now) assert.ok(!used.has(row.row_id), `${row.row_id} is not in force`);
        assert.equal(conflicts.has(first.row_id), reading.state === 'conflict');
        if (reading.state === 'conflict') {
          assert.deepEqual(
            conflicts.get(first.row_id),
            between.map((row) => row?.row_id ?? null),
          );
          assert.ok(unused.has(first.row_id), 'it happened, without numbers');
        }
        if (reading.state === 'withdrawn') assert.ok(applied.has(first.row_id) && !unused.has(first.row_id));
        if (reading.state === 'astray') assert.ok(unused.has(first.row_id));
      }

      for (const hole of ['H1', 'H2']) {
        const at = readHole(source, hole)!;
        assert.deepEqual(
          at.entries.map(({ reading }) => `${reading.row_id} ${reading.seq}`).sort(),
          [
            ...campaign.rows.string_items.filter((row) => row.hole === hole),
            ...campaign.skipped_rows.filter((row) => row.hole === hole),
          ]
            .map((row) => `${row.row_id} ${row.seq}`)
            .sort(),
        );
        for (const line of bookOf(source, at)) {
          const reading = readingOf('string_items', book, line.root_id)!;
          if (line.state === 'standing' || line.state === 'amended') {
            assert.equal(line.row_id, reading.now!.row_id);
            const entry = at.entries.find((e) => e.reading.row_id === line.row_id)!;
            assert.equal(line.seq, entry.reading.seq);
            if (reading.place.by.cells['amend_kind'] === 'move') moved += 1;
          } else if (line.state === 'moved') assert.notEqual(reading.now!.cells['hole'], hole);
          else assert.equal(line.state, reading.state);
          assert.equal(line.choices.length > 0, reading.state === 'conflict');
        }
      }
    }),
    { seed: 31, numRuns: 1500 },
  );
  assert.ok(moved > 200, `${moved} moved`);
  for (const [state, count] of Object.entries(seen)) assert.ok(count > 200, `${state} ${count} times`);
});

test('each act leaves what it says: amended, withdrawn, restored as it was, decided (seed 32)', () => {
  let decided = 0;
  fc.assert(
    fc.property(acts, fc.nat(30), fc.nat(30), (history, which, value) => {
      const book: TypedRow[] = [];
      for (const act of history) write(book, act);
      if (book.length === 0) return;
      const before = readingOf('string_items', book, book[which % book.length]!.row_id)!;
      if (before.state === 'astray') return;
      const { row_id } = before.first;
      const after = (rows: readonly Record<string, string>[], time: string) => {
        const next = [
          ...book,
          ...rows.map((cells, i) => ({
            row_id: `new${book.length}${i}${time}`,
            cells: { time, ...cells, row_id: '' },
          })),
        ];
        return { next, reading: readingOf('string_items', next, row_id)! };
      };
      const length = (row: TypedRow | null | undefined): string | undefined => row?.cells['length'];
      if (before.state === 'conflict') {
        const choices = choicesOf('string_items', before);
        assert.ok(choices.length > 1);
        for (const { row_id: id } of choices) {
          const choice = before.rows.find((row) => row.row_id === id) ?? null;
          const { reading } = after(toDecide(before, choice), '2024-03-06T10:00:00Z');
          assert.equal(reading.state, choice === null ? 'withdrawn' : 'replaced');
          assert.equal(length(reading.now), length(choice) ?? (choice === null ? undefined : ''));
          decided += 1;
        }
        return;
      }
      const amended = after(toAmend('string_items', before, { length: '9 m' })!, '2024-03-06T10:00:00Z');
      assert.equal(amended.reading.state, 'replaced');
      assert.equal(length(amended.reading.now), '9 m');
      if (before.state === 'withdrawn') return;
      const withdrawn = after(toWithdraw(before), '2024-03-06T10:00:00Z');
      assert.equal(withdrawn.reading.state, 'withdrawn');
      book.splice(0, book.length, ...withdrawn.next);
      const { reading } = after(
        toRestore(withdrawn.reading),
        `2024-03-06T11:00:${String(value % 60).padStart(2, '0')}Z`,
      );
      assert.equal(length(reading.now), length(before.now), 'corrected before, corrected again');
    }),
    { seed: 32, numRuns: 1500 },
  );
  assert.ok(decided > 300, `${decided} decided`);
});

test('two people who decide one conflict differently have a conflict again; who decide alike have none', () => {
  const row = (row_id: string, length: string, amends = ''): TypedRow => ({
    row_id,
    cells: { row_id, hole: 'H1', seq: '1', length, amends, amend_kind: amends === '' ? '' : 'replace' },
  });
  const book = [row('a', '1 m'), row('b', '2 m', 'a'), row('c', '3 m', 'a')];
  const before = readingOf('string_items', book, 'a')!;
  assert.equal(before.state, 'conflict');
  const decision = (by: string, choice: TypedRow): TypedRow[] =>
    toDecide(before, choice).map((cells, i) => ({
      row_id: `${by}${i}`,
      cells: { ...cells, by, row_id: `${by}${i}` },
    }));
  const [one, other, same] = [
    decision('one', book[1]!),
    decision('other', book[2]!),
    decision('same', book[1]!),
  ];
  const apart = readingOf('string_items', [...book, ...one, ...other], 'a')!;
  assert.equal(apart.state, 'conflict');
  assert.deepEqual(apart.between.map((each) => each?.cells['length']).sort(), ['2 m', '3 m']);
  const alike = readingOf('string_items', [...book, ...one, ...same], 'a')!;
  assert.deepEqual([alike.state, alike.now?.cells['length']], ['replaced', '2 m']);
  // Who ended the others, and when, is kept.
  assert.ok(one.some(({ cells }) => cells['amend_kind'] === 'withdraw' && cells['by'] === 'one'));
});

test('a reading amended to another hole is in that hole’s book and rig, and marked in the one it left', () => {
  const book: TypedRow[] = [];
  write(book, ['read', 0, 0]);
  const moved = toAmend('string_items', readingOf('string_items', [...book], 'r0')!, {
    hole: 'H2',
    seq: '7',
  })!;
  book.push({ row_id: 'm', cells: { ...moved[0], row_id: 'm' } });
  const source = {
    rows: (table: string): TypedRow[] =>
      table === 'holes'
        ? HOLES.map((cells) => ({ row_id: cells.row_id, cells }))
        : table === 'string_items'
          ? book
          : [],
  };
  const [from, to] = [readHole(source, 'H1')!, readHole(source, 'H2')!];
  assert.deepEqual(from.readings, []);
  assert.deepEqual(
    bookOf(source, from).map((line) => line.state),
    ['moved'],
  );
  assert.deepEqual(
    to.readings.map((reading) => [reading.row_id, reading.seq]),
    [['m', 7]],
  );
  assert.deepEqual(
    bookOf(source, to).map((line) => [line.state, line.seq]),
    [['standing', 7]],
  );
  // One more reading is read the quick way: the answer is the same.
  const read = holeReader();
  read(source, 'H2');
  write(book, ['read', 0, 1]);
  const grown = {
    rows: (table: string): TypedRow[] => (table === 'string_items' ? [...book] : source.rows(table)),
  };
  assert.deepEqual(read(grown, 'H2'), readHole(grown, 'H2'));
});

test('the next seq counts over all tables of a hole, and stands apart for loops and days', () => {
  const rows: Record<string, DocRow[]> = {
    string_items: [{ row_id: 'a', line: 2, cells: { hole: 'H1', seq: '4' } }],
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

import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import { type Csv, readCsv as readAny, writeCsv } from './csv.ts';
import { PLAIN_DIALECT } from './document.ts';

const SEED = 4180;
function readCsv(text: string): Csv {
  const csv = readAny(text);
  assert.ok(csv !== null);
  return csv;
}
const cells = (text: string): string[][] => {
  const { columns, rows } = readCsv(text);
  return [columns, ...rows.map((row) => [...row.cells])];
};

test('commas, semicolons and tabs are told from the heading, quotations left out', () => {
  assert.equal(readCsv('a,b\n1;2,3').delimiter, ',');
  assert.equal(readCsv('a;b\n1,5;3').delimiter, ';');
  assert.equal(readCsv('a\tb\n1,5\t3').delimiter, '\t');
  assert.equal(readCsv('"a,b,c";d\n').delimiter, ';');
  assert.equal(readCsv('\n\n;;\na;b\n').delimiter, ';');
  assert.equal(readCsv('one\n1;2').delimiter, ',');
  assert.deepEqual(cells('sep=;\na;b\n1,5;2'), [
    ['a', 'b'],
    ['1,5', '2'],
  ]);
});

test('line ends of every kind, inside quotations and out', () => {
  for (const [text, line_end] of [
    ['a,b\r\n1,"x\r\ny"\r\n', '\r\n'],
    ['a,b\n1,"x\r\ny"\n', '\n'],
    ['a,b\r1,"x\r\ny"\r', '\r'],
    ['a,b\n1,"x\r\ny"', '\n'],
  ] as const) {
    assert.deepEqual(cells(text), [
      ['a', 'b'],
      ['1', 'x\r\ny'],
    ]);
    assert.equal(readCsv(text).line_end, line_end);
  }
});

test('blank rows are skipped, and lines still count as in a spreadsheet', () => {
  const { rows } = readCsv('a,b\n,\n1,"two\nlines"\n\n3,4\n,,,\n\n');
  assert.deepEqual(
    rows.map(({ cells, line }) => [line, ...cells]),
    [
      [3, '1', 'two\nlines'],
      [5, '3', '4'],
    ],
  );
});

test('quotation marks inside a cell that does not begin with one are ordinary characters', () => {
  assert.deepEqual(cells('a,b\n9\' 11 1/2",5" pipe')[1], ['9\' 11 1/2"', '5" pipe']);
});

test('a quotation that never closes takes nothing along, and says where it opened', () => {
  const csv = readCsv('a,b\n1,"x\n2,y\n3,"z"\n5,"""\n');
  // The mark of line 2 closes at the first lone mark, in line 4: what follows it is stray.
  assert.equal(csv.rows[0]!.stray_quote, true);
  const open = readCsv('a,b\n1,"x\n2,y\n3,z\n');
  assert.equal(open.unclosed_line, 2);
  assert.deepEqual(
    open.rows.map((row) => row.cells),
    [
      ['1', '"x'],
      ['2', 'y'],
      ['3', 'z'],
    ],
  );
});

/** The slow way: one character after another, as RFC 4180 spells it, with the leniencies named in csv.ts. */
function characterByCharacter(text: string, delimiter: string): string[][] {
  let literalFrom = Number.POSITIVE_INFINITY;
  for (;;) {
    const rows: string[][] = [[]];
    let cell = '';
    let state: 'start' | 'plain' | 'quoted' | 'closed' = 'start';
    let opened = -1;
    const endCell = (): void => {
      rows.at(-1)!.push(cell);
      cell = '';
      state = 'start';
    };
    for (let i = 0; i < text.length; i++) {
      const c = text[i]!;
      if (state === 'quoted') {
        if (c !== '"') cell += c;
        else if (text[i + 1] === '"') {
          cell += '"';
          i++;
        } else state = 'closed';
      } else if (c === delimiter) endCell();
      else if (c === '\n' || c === '\r') {
        if (c === '\r' && text[i + 1] === '\n') i++;
        endCell();
        rows.push([]);
      } else if (c === '"' && state === 'start' && i < literalFrom) {
        state = 'quoted';
        opened = i;
      } else {
        cell += c;
        if (state === 'start') state = 'plain';
      }
    }
    if (state === 'quoted') {
      literalFrom = opened;
      continue;
    }
    endCell();
    return rows.filter((row) => row.some((each) => each.trim() !== ''));
  }
}

test(`twin: the same cells as character by character (seed ${SEED})`, () => {
  const text = fc.string({
    unit: fc.constantFrom('a', '1', '"', '"', ',', ';', '\t', '\n', '\r', ' '),
    maxLength: 40,
  });
  fc.assert(
    fc.property(text, (noise) => {
      const csv = readCsv(`x,y\n${noise}`);
      assert.equal(csv.delimiter, ',');
      assert.deepEqual(
        [csv.columns, ...csv.rows.map((row) => row.cells)],
        characterByCharacter(`x,y\n${noise}`, ','),
      );
    }),
    { seed: SEED, numRuns: 3000 },
  );
});

test(`what is written is read again, in every dialect (seed ${SEED})`, () => {
  const cell = fc.string({
    unit: fc.constantFrom('a', 'é', '"', ',', ';', '\t', '\n', '\r', ' ', '=', 'sep', '\ufeff', '3,05'),
    maxLength: 6,
  });
  const row = fc
    .array(cell, { minLength: 1, maxLength: 4 })
    .filter((all) => all.some((each) => each.trim() !== ''));
  fc.assert(
    fc.property(
      row,
      fc.array(row, { maxLength: 5 }),
      fc.record({
        delimiter: fc.constantFrom(',' as const, ';' as const, '\t' as const),
        line_end: fc.constantFrom('\n' as const, '\r\n' as const, '\r' as const),
        sep_line: fc.boolean(),
      }),
      (columns, rows, dialect) => {
        const text = writeCsv(
          columns,
          rows.map((cells) => ({ cells })),
          { ...PLAIN_DIALECT, ...dialect },
        );
        const csv = readCsv(text);
        assert.deepEqual([csv.columns, ...csv.rows.map((each) => each.cells)], [columns, ...rows]);
        assert.equal(csv.line_end, dialect.line_end);
        assert.equal(csv.unclosed_line, null);
      },
    ),
    { seed: SEED, numRuns: 2000 },
  );
});

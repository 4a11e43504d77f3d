import assert from 'node:assert/strict';
import { test } from 'node:test';
import { readCells } from './cells.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const codes = (read: ReturnType<typeof readCells>): string[] => read.problems.map(({ code }) => code);
const TABLE = 'hole;to_sediment\nH1;3,05 m\nHö;2,5 m\n';
const CELLS = [
  ['H1', '3,05 m'],
  ['Hö', '2,5 m'],
];

test('encodings: UTF-8 with and without mark, UTF-16 of both orders, Windows-1252', () => {
  const sixteen = (text: string, little: boolean): Uint8Array => {
    const out = new Uint8Array(text.length * 2);
    for (let i = 0; i < text.length; i++)
      new DataView(out.buffer).setUint16(i * 2, text.charCodeAt(i), little);
    return out;
  };
  const western = Uint8Array.from(TABLE, (c) => c.charCodeAt(0));
  for (const [file, expected] of [
    [bytes(TABLE), []],
    [bytes(`\ufeff${TABLE}`), []],
    [sixteen(`\ufeff${TABLE}`, true), []],
    [sixteen(`\ufeff${TABLE}`, false), []],
    [sixteen(TABLE, true), []],
    [sixteen(TABLE, false), []],
    [western, ['not-utf-8']],
  ] as const) {
    const read = readCells('soundings', file);
    assert.deepEqual(
      read.cells.rows.map((row) => row.cells),
      CELLS,
    );
    assert.deepEqual(read.cells.columns, ['hole', 'to_sediment']);
    assert.deepEqual(codes(read), expected);
  }
});

test('Windows-1252 as the Unicode Consortium maps it (CP1252.TXT)', () => {
  // 0x80 EURO SIGN, 0x96 EN DASH, 0x92 RIGHT SINGLE QUOTATION MARK, 0xBD VULGAR FRACTION ONE HALF
  const { cells } = readCells('x', Uint8Array.of(0x61, 0x0a, 0x80, 0x96, 0x92, 0xbd, 0x0a));
  assert.deepEqual(cells.rows[0]?.cells, ['€–’½']);
});

test('decimal commas: only where the delimiter leaves the comma free and no number has a point', () => {
  const dialect = (text: string): boolean => readCells('soundings', bytes(text)).cells.dialect.decimal_comma;
  assert.equal(dialect('hole;to_sediment\nH1;3,05 m'), true);
  assert.equal(dialect('hole;to_sediment\nH1;3.05 m'), false);
  assert.equal(dialect('hole;to_sediment\nH1;3,05 m\nH1;3.05 m'), false);
  assert.equal(dialect('hole;to_sediment\nH1;1,234 m'), true);
  assert.equal(dialect('hole\tto_sediment\nH1\t1,234 m'), false);
  assert.equal(dialect('hole\tto_sediment\nH1\t0,234 m'), true);
  assert.equal(dialect('hole,to_sediment\nH1,"3,05 m"'), false);
  // Notes and dates are no numbers.
  assert.equal(dialect('hole\tto_sediment\tnote\nH1\t3 m\t1,5'), false);
  assert.equal(dialect('hole;to_sediment\nH1;03.05.2019\nH1;3,05 m'), true);
});

test('rows whose cells may have slipped are named', () => {
  const read = readCells('x', bytes('a,b\n1,2,\n1,2,3\n1\n"1"2,3\n'));
  assert.deepEqual(codes(read), ['too-many-cells', 'too-few-cells', 'stray-quote']);
  assert.deepEqual(
    read.problems.map(({ line }) => line),
    [3, 4, 5],
  );
});

test('what is no table is refused', () => {
  assert.deepEqual(codes(readCells('x', Uint8Array.of(1, 0, 2, 3))), ['not-a-table']);
  assert.deepEqual(codes(readCells('x', bytes('a'.repeat(10_000)))), ['not-a-table']);
  assert.deepEqual(codes(readCells('x', bytes(','.repeat(5000).concat('a')))), ['not-a-table']);
  assert.deepEqual(codes(readCells('x', Uint8Array.of(0xff, 0xfe, 0x61))), ['not-a-table']);
  assert.deepEqual(readCells('x', new Uint8Array()).cells.columns, []);
});

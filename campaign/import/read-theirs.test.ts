/** Files as they are met: text of every kind, workbooks, and what is neither. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import { zipSync } from 'fflate';
import { readTheirs } from './read-theirs.ts';
import { readWorkbook } from './workbook.ts';

const fixture = (name: string) => new Uint8Array(readFileSync(join(import.meta.dirname, 'fixtures', name)));
const bytes = (text: string) => new TextEncoder().encode(text);

test('a workbook of a general-purpose writer: letter above, dates, marks', () => {
  const letter = readWorkbook(fixture('letter-above.xlsx'));
  assert.equal(letter.fault, null);
  assert.deepEqual(
    letter.sheets.map((s) => s.name),
    ['Results & notes'],
  );
  const lines = letter.sheets[0]!.lines;
  assert.deepEqual(
    lines.map((l) => l.line),
    [1, 2, 4, 5, 6, 7],
  );
  assert.deepEqual(lines[1]!.cells, ['Reported', '2024-03-05']);
  assert.deepEqual(lines[4]!.cells, [
    'INV-3002',
    'T2-04',
    'twig <2 yr>',
    '-27.25',
    '> 45000',
    '35',
    '0.0021',
    '2024-03-06',
  ]);
  assert.equal(lines[5]!.cells[3], '0.3');
  assert.equal(lines[5]!.cells[8], '"worn", & drilled');
});

test('what is no table says so and brings nothing', async () => {
  const broken = fixture('plain.xlsx').slice(0, 3000);
  for (const [content, code] of [
    [broken, 'not-a-spreadsheet'],
    [Uint8Array.from([0x50, 0x4b, 3, 4, 0, 0]), 'not-a-spreadsheet'],
    [Uint8Array.from([0xd0, 0xcf, 0x11, 0xe0]), 'old-spreadsheet'],
    [new Uint8Array(20_000_001), 'table-too-large'],
  ] as const) {
    const table = await readTheirs('x', content);
    assert.deepEqual([table.sheets.length, table.problems[0]?.code], [0, code]);
  }
  const empty = await readTheirs('x', bytes(''));
  assert.equal(empty.sheets.length, 0);
});

test('a small workbook that unpacks to very much is not unpacked', () => {
  const sheet = new Uint8Array(50_000_000);
  const names = ['workbook.xml', 'worksheets/1.xml', 'worksheets/2.xml'];
  const bomb = zipSync(Object.fromEntries(names.map((name) => [`xl/${name}`, sheet])), { level: 1 });
  assert.ok(bomb.length < 2_000_000);
  assert.match(readWorkbook(bomb).fault ?? '', /it unpacks to more than 120 MB/);
});

test('no bytes make the reader of workbooks throw or hang', () => {
  const whole = fixture('letter-above.xlsx');
  for (let i = 0; i < 200; i++) {
    const broken = whole.slice();
    for (let j = 0; j < 8; j++) broken[(i * 7919 + j * 104_729) % broken.length]! ^= 1 << (j % 8);
    readWorkbook(broken);
  }
});

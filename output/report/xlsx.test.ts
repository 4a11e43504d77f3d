/** The workbook of a table: read back by our reader of spreadsheets, cell for cell; no formula in it, whatever the text. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { readZip } from '@stillstand/campaign/document';
import { readTheirs } from '@stillstand/campaign/import';
import { xlsx } from '@stillstand/output/spreadsheet';
import fc from 'fast-check';
import { tinyResults } from './fixtures/results.ts';
import { pointsWorkbook, resultTables } from './tables.ts';

const SEED = 20261129;

async function readBack(bytes: Uint8Array): Promise<string[][]> {
  const { sheets, problems } = await readTheirs('points.xlsx', bytes);
  assert.deepEqual(problems, []);
  return sheets[0]!.lines.map(({ cells }) => [...cells]);
}

const partOf = (bytes: Uint8Array, path: string): string =>
  new TextDecoder('utf-8', { ignoreBOM: true }).decode(readZip(bytes).document.files.get(path)!);
const sheetOf = (bytes: Uint8Array): string => partOf(bytes, 'xl/worksheets/sheet1.xml');

/** Without quotation marks around cells, as the fixture’s texts need some. */
const csvCells = (text: string): string[][] =>
  text
    .trimEnd()
    .split('\n')
    .map((line) =>
      [...line.matchAll(/(?:^|,)(?:"((?:[^"]|"")*)"|([^,]*))/g)].map(([, quoted, plain]) =>
        quoted === undefined ? plain! : quoted.replaceAll('""', '"'),
      ),
    );

test('points.xlsx has the cells of points.csv, numbers as numbers, text as text', async () => {
  const [name, bytes] = pointsWorkbook(tinyResults());
  assert.equal(name, 'points.xlsx');
  const expected = csvCells(resultTables(tinyResults()).get('points.csv')!);
  const found = await readBack(bytes);
  assert.equal(found.length, expected.length);
  const sheet = sheetOf(bytes);
  let numbers = 0;
  for (const [i, row] of expected.entries()) {
    for (const [j, cell] of row.entries()) {
      const back = found[i]![j] ?? '';
      const isNumber = new RegExp(`<c r="${letters(j)}${i + 1}" s="\\d"><v>`).test(sheet);
      if (isNumber) numbers++;
      // A number has lost the noughts at its end, which its format shows.
      assert.equal(
        isNumber ? Number(back) : back,
        isNumber ? Number(cell) : cell,
        `${expected[0]![j]}, row ${i}`,
      );
      assert.ok(
        !/_m$|_deg_wgs84$|_2sigma$/.test(expected[0]![j]!) || i === 0 || cell === '' || isNumber,
        expected[0]![j],
      );
    }
  }
  assert.ok(numbers > 20, `${numbers}`);
});

const letters = (i: number): string =>
  i < 26
    ? String.fromCharCode(65 + i)
    : `${String.fromCharCode(64 + Math.floor(i / 26))}${String.fromCharCode(65 + (i % 26))}`;

test('a number is shown with the decimals it is written with', () => {
  const sheet = sheetOf(xlsx('t', [{ heading: 'x', isNumber: true }], [['-3.40'], ['8500'], ['0.123']]));
  const styles = partOf(xlsx('t', [], []), 'xl/styles.xml');
  const formats = [...styles.matchAll(/numFmtId="(\d+)" formatCode="([^"]*)"/g)];
  const cellFormats = [...styles.split('<cellXfs')[1]!.matchAll(/<xf numFmtId="(\d+)"/g)].map(([, id]) => id);
  const shown = [...sheet.matchAll(/s="(\d+)"><v>([^<]*)/g)].map(
    ([, s, v]) => `${v} ${formats.find(([, id]) => id === cellFormats[Number(s)])![2]}`,
  );
  assert.deepEqual(shown, ['-3.40 0.00', '8500 0', '0.123 0.000']);
});

test(`any text comes back as it was, in XML without formulas (seed ${SEED})`, async () => {
  const hostile = [
    '=1+1',
    '<f>1</f>',
    ']]>',
    '&amp;',
    '_x0041_',
    'a_x000D_b',
    'tab\tline\nend\r',
    '\u0000\u0007',
    '\uffff',
  ];
  const texts = [
    ...hostile,
    ...fc.sample(fc.string({ unit: 'binary', minLength: 1 }), { seed: SEED, numRuns: 400 }),
  ].filter((text) => text.trim() !== '');
  const bytes = xlsx(
    't',
    [{ heading: 'text', isNumber: false }],
    texts.map((text) => [text]),
  );
  const xml = sheetOf(bytes);
  assert.doesNotMatch(xml, /<f[\s>]/);
  // Characters that XML 1.0 (2.2) allows.
  assert.match(xml, /^[\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]*$/u);
  const back = (await readBack(bytes)).slice(1).map(([cell]) => cell);
  assert.deepEqual(
    back,
    texts.map((text) => text.toWellFormed()),
  );
});

test('the same table gives the same bytes', () => {
  assert.deepEqual(pointsWorkbook(tinyResults())[1], pointsWorkbook(tinyResults())[1]);
});

/** No text of a campaign is run by a spreadsheet, whichever separator it takes; numbers keep their sign. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { noFormula } from '@stillstand/output/spreadsheet';
import fc from 'fast-check';
import { tinyResults } from './fixtures/results.ts';
import { resultTables } from './tables.ts';

const SEED = 20260411;
/** What a spreadsheet takes for the beginning of a formula (OWASP, CSV injection), blanks before it or not. */
const RUN = /^[ \u00a0]*[=+\-@\t\r＝＋－＠]/u;
const NUMBER = /^-?\d[\d.,]*$/;

/** Cells as a spreadsheet finds them that separates by this character, quotations only at the beginning of a cell. */
function cells(csv: string, separator: string): string[] {
  const found: string[] = [];
  let cell = '';
  let isQuoted = false;
  let isFirst = true;
  const end = (): void => {
    found.push(cell);
    cell = '';
    isFirst = true;
  };
  for (let i = 0; i < csv.length; i++) {
    const c = csv[i]!;
    if (isQuoted) {
      if (c !== '"') cell += c;
      else if (csv[i + 1] === '"') {
        cell += c;
        i++;
      } else isQuoted = false;
    } else if (c === '"' && isFirst) isQuoted = true;
    else if (c === separator || c === '\n') {
      end();
      continue;
    } else cell += c;
    isFirst = false;
  }
  return [...found, cell];
}

const hostile = fc.array(
  fc.oneof(
    fc.constantFrom(
      '=',
      '+',
      '-',
      '@',
      '\t',
      '\r',
      '\n',
      ';',
      ',',
      '"',
      "'",
      ' ',
      '＝',
      '=cmd|calc!A0',
      '1',
      'a',
      '−',
    ),
    fc.string({ maxLength: 4, unit: 'grapheme' }),
  ),
  { maxLength: 8 },
);

test(`any text in every text cell: no cell that is run, with commas, semicolons or tabs (seed ${SEED})`, () => {
  let dangerous = 0;
  fc.assert(
    fc.property(hostile, (parts) => {
      const text = parts.join('');
      if (RUN.test(text)) dangerous++;
      for (const table of resultTables(withEveryText(text)).values()) {
        for (const separator of [',', ';', '\t']) {
          for (const cell of cells(table, separator)) {
            assert.ok(
              !RUN.test(cell) || NUMBER.test(cell),
              `${JSON.stringify(text)} gave ${JSON.stringify(cell)}`,
            );
          }
        }
      }
    }),
    { seed: SEED, numRuns: 1500 },
  );
  assert.ok(dangerous > 300, `only ${dangerous} texts were formulas`);
});

test(`a reader that takes one apostrophe off has the text again, where it has one line and no separator (seed ${SEED})`, () => {
  fc.assert(
    fc.property(hostile, (parts) => {
      const text = parts.join('').replace(/[;\t\r\n]/g, '');
      const back = noFormula(text).replace(/^'(?=[ \u00a0'"]*[=+\-@＝＋－＠])/u, '');
      assert.equal(back, text);
    }),
    { seed: SEED, numRuns: 2000 },
  );
});

test('what is left as it is, and what is not', () => {
  for (const text of ['-30', '+5', '-1.5e3', '10YR 2/1', 'grey - brown', 'a=b', '−3 m', '', 'x; y', "it's"])
    assert.equal(noFormula(text), text);
  assert.equal(noFormula('=1+1'), "'=1+1");
  assert.equal(noFormula('-30 m'), "'-30 m");
  assert.equal(noFormula("'=1"), "''=1");
  assert.equal(noFormula('\t=1'), "'\t'=1");
  assert.equal(noFormula('clay\n- shells; =1'), "clay\n'- shells;' =1");
});

test('numbers keep their minus sign', () => {
  const points = resultTables(tinyResults()).get('points.csv')!;
  assert.match(points, /,-9\.43,/);
  assert.doesNotMatch(points, /'-9/);
});

/** The tiny results with one text in every property that is text. */
function withEveryText(text: string): ReturnType<typeof tinyResults> {
  const KEPT = new Set(['kind', 'severity', 'status', 'method', 'shape', 'format', 'state']);
  const walk = (value: unknown, name: string): unknown => {
    if (typeof value === 'string') return KEPT.has(name) ? value : text;
    if (Array.isArray(value)) return value.map((each) => walk(each, name));
    if (typeof value !== 'object' || value === null || value instanceof Float64Array) return value;
    return Object.fromEntries(Object.entries(value).map(([key, each]) => [key, walk(each, key)]));
  };
  return walk(tinyResults(), '') as ReturnType<typeof tinyResults>;
}

/** Numbers as people write them. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { atSigma } from './read-cell.ts';
import { decimalMarkOf, readTheirNumber } from './their-number.ts';
import { converted } from './units.ts';

const read = (text: string, comma = false) => {
  const number = readTheirNumber(text, comma);
  if (number.kind !== 'number') return number.kind;
  const { value, unit, qualifier, error, range } = number;
  return [value, unit, qualifier, error, range?.join(' to ') ?? null].map((part) => part ?? '').join('|');
};

test('units, limits, ranges, errors, thousands, marks: taken for what they are', () => {
  const cells: Record<string, string> = {
    '12.50': '12.50||||',
    '−3.2': '-3.2||||',
    '12 cm': '12|cm|||',
    '88.9%': '88.9|%|||',
    '48,000': '48000||||',
    '1,234,567.5': '1234567.5||||',
    '48 000': '48000||||',
    '> 48,000': '48000||greater_than||',
    '>48000 BP': '48000|BP|greater_than||',
    '<0.5': '0.5||less_than||',
    '≤ 3': '3||less_than||',
    'older than 43,500': '43500||greater_than||',
    ND: '||not_determined||',
    'n.d.': '||not_determined||',
    bdl: '||less_than||',
    '<LOD': '||less_than||',
    '12–14 cm': '13|cm|||12 to 14',
    '48-63': '55.5||||48 to 63',
    '180 to 170': '175||||180 to 170',
    '-10 to -20': '-15||||-10 to -20',
    '-10 m to -20 m': '-15|m|||-10 to -20',
    '12 cm-14 cm': '13|cm|||12 to 14',
    '0.3 g cm-3': '0.3|g cm-3|||',
    '1e-5': '1e-5||||',
    '5920 14C yr BP': '5920|yr BP|||',
    '5920 ± 25 BP': '5920|BP||25|',
    '5920±25': '5920|||25|',
    '5920 +30/−20': '5920|||30|',
    '5920 +/- 25': '5920|||25|',
    '1230*': '1230||||',
    '1230²': '1230||||',
    '~ 5': '5||||',
    'c. 30': '30||||',
    '1.2e3': '1.2e3||||',
    '.5': '0.5||||',
    '': 'blank',
    '-': 'blank',
    'n/a': 'blank',
    NaN: 'blank',
    '-9999': 'blank',
    Unknown: 'blank',
    '2019-03-05': 'date',
    '3-May': 'date',
    '05/03/2019': 'date',
    '#REF!': 'unreadable',
    '=A1*2': 'unreadable',
    'seven thousand': 'unreadable',
    '1,23': 'unreadable',
    '1.2.3': 'unreadable',
    '12-': 'unreadable',
  };
  for (const [cell, expected] of Object.entries(cells)) assert.equal(read(cell), expected, cell);
  assert.equal(read('1.234,5', true), '1234.5||||');
  assert.equal(read('12,5–14,5', true), '13.5||||12.5 to 14.5');
  assert.equal(read('3.05', true), 'unreadable');
});

test('which mark is the decimal one is told by the cells, or asked', () => {
  const of = (...cells: string[]) => {
    const { decimal_comma, asked } = decimalMarkOf(cells);
    return `${decimal_comma} ${asked}`;
  };
  assert.equal(of('12,5', '1.234'), 'true false');
  assert.equal(of('12.5', '1,234'), 'false false');
  assert.equal(of('0,417', '3'), 'true false');
  assert.equal(of('1,234', '2,345'), 'false true');
  assert.equal(of('1.234,50'), 'true false');
  assert.equal(of('Miller, 2009', 'A1'), 'false false');
});

test('converted exactly, to the digits that were stated', () => {
  assert.equal(converted('83.2', 'cm', 'm'), '0.832');
  assert.equal(converted('25.0', 'cm', 'm'), '0.250');
  assert.equal(converted('-7', 'mm', 'm'), '-0.007');
  // 10 ft = 3.048 m and 1 in = 25.4 mm, by definition.
  assert.equal(converted('10', 'ft', 'm'), '3.0480');
  assert.equal(converted('1', 'in', 'mm'), '25.4');
  assert.equal(converted('4.52', 'kyr', 'yr'), '4520.00');
  assert.equal(converted('30', '%', ''), '0.30');
  assert.equal(converted('30', 'g/cm3', 'm'), null);
  assert.equal(converted('12', null, 'm'), '12');
  assert.equal(atSigma('0.31', 2, 1), '0.155');
  assert.equal(atSigma('0.25', 1, 2), '0.50');
});

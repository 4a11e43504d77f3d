import assert from 'node:assert/strict';
import { test } from 'node:test';
import { readCell } from './cell.ts';
import { boolean, choice, date, length, number, text, tide, time } from './column.ts';

const code = (read: ReturnType<typeof readCell>): string | undefined => read.fault?.code;
const metres = number('a height', 'm', { min: -100, max: 100 });

test('numbers: plain, signed, with exponent, with the unit of their own column', () => {
  const read = (typed: string, decimal_comma = false) =>
    readCell('elevation_m', metres, typed, { decimal_comma });
  for (const [typed, value] of [
    ['3.05', 3.05],
    ['-0.5', -0.5],
    ['−0.5', -0.5],
    ['+7', 7],
    ['.5', 0.5],
    ['5.', 5],
    ['1E1', 10],
    ['3.05 m', 3.05],
    ['-0', 0],
  ] as const) {
    assert.deepEqual(read(typed), { value }, typed);
  }
  assert.deepEqual(read('3,05', true), { value: 3.05 });
});

test('numbers that are none, or not surely, are refused by name', () => {
  const read = (typed: string, decimal_comma = false) =>
    code(readCell('elevation_m', metres, typed, { decimal_comma }));
  assert.equal(read('3,05'), 'decimal-comma');
  assert.equal(read('1,234'), 'decimal-comma');
  assert.equal(read('1,234.5'), 'decimal-comma');
  assert.equal(read('1 234'), 'decimal-comma');
  assert.equal(read('3.05', true), 'decimal-point');
  assert.equal(read('1.234,5', true), 'decimal-point');
  assert.equal(read('3-May'), 'date-for-number');
  assert.equal(read('2019-03-05'), 'date-for-number');
  assert.equal(read('10 kg'), 'wrong-unit');
  assert.equal(read('10 ft'), 'wrong-unit');
  assert.equal(read('O.5'), 'not-a-number');
  assert.equal(read('<5'), 'not-a-number');
  assert.equal(read('4520±30'), 'not-a-number');
  assert.equal(read('#REF!'), 'not-a-number');
  assert.equal(read('NaN'), 'not-a-number');
  assert.equal(read('Infinity'), 'not-a-number');
  assert.equal(read('0x10'), 'wrong-unit');
  assert.equal(read('1e999'), 'out-of-range');
  assert.equal(read('101'), 'out-of-range');
  const feet = readCell('elevation_m', metres, '10 ft', {});
  assert.match(feet.fault?.fix ?? '', /write 3\.048/);
});

test('a negative error has its own name, and a count must be whole', () => {
  const error = number('1 sigma', 'yr', { min: 0 });
  assert.equal(code(readCell('error', error, '-30', {})), 'negative-error');
  assert.equal(code(readCell('sigma_m', error, '-0.3', {})), 'negative-error');
  assert.equal(code(readCell('distance_m', error, '-3', {})), 'out-of-range');
  const count = number('strokes', '', { integer: true });
  assert.equal(code(readCell('strokes', count, '2.5', {})), 'not-whole');
});

test('lengths keep to their range, in metres', () => {
  const column = length('a sounding', { min_m: 0, max_m: 200 });
  assert.deepEqual(readCell('to_sediment', column, '10 ft', {}), { value: 3.048 });
  assert.equal(code(readCell('to_sediment', column, '305 m', {})), 'out-of-range');
  assert.equal(code(readCell('to_sediment', column, '-1 m', {})), 'out-of-range');
  assert.equal(code(readCell('sigma', column, '-1 cm', {})), 'negative-error');
});

test('choices do not mind capitals, spaces and hyphens; a near one is named', () => {
  const purpose = choice('when', ['before_drive', 'after_drive']);
  assert.deepEqual(readCell('purpose', purpose, 'After drive', {}), { value: 'after_drive' });
  const read = readCell('purpose', purpose, 'after_drve', {});
  assert.equal(code(read), 'unknown-choice');
  assert.match(read.fault?.fix ?? '', /after drive/);
});

test('tide words: a level, an offset up or down', () => {
  const read = (typed: string) => readCell('lower', tide('a level'), typed, {});
  assert.deepEqual(read('MHW'), { value: { level: 'MHW', offset_m: 0 } });
  assert.deepEqual(read('MHW+0.1'), { value: { level: 'MHW', offset_m: 0.1 } });
  assert.deepEqual(read('mtl − 0.25 m'), { value: { level: 'MTL', offset_m: -0.25 } });
  assert.deepEqual(read('HAT+1 ft'), { value: { level: 'HAT', offset_m: 0.3048 } });
  for (const typed of ['MHQ', 'MHW+', 'MHW+-1', 'MHW 0.1', 'MHW+3-May', '0.1', 'MHW to HAT']) {
    assert.equal(code(read(typed)), 'unknown-tide-level', typed);
  }
});

test('times and dates are kept whatever they are, and named where they are not ISO 8601', () => {
  const read = (typed: string) => readCell('time', time('when'), typed, {});
  // RFC 3339 §5.8 has the first three as its examples.
  for (const typed of [
    '1985-04-12T23:20:50.52Z',
    '1996-12-19T16:39:57-08:00',
    '1990-12-31T23:59:60Z',
    '2024-03-05T14:30+08:00',
    '2024-03-05T14:30+0800',
    '2024-02-29 00:00Z',
  ]) {
    assert.deepEqual(read(typed), { value: typed });
  }
  for (const [typed, name] of [
    ['2024-03-05T14:30', 'time-without-offset'],
    ['05/03/2024 14:30', 'not-a-time'],
    ['2023-02-29T00:00Z', 'not-a-time'],
    ['2024-03-05T25:00Z', 'not-a-time'],
    ['yesterday', 'not-a-time'],
  ] as const) {
    assert.equal(read(typed).value, typed);
    assert.equal(code(read(typed)), name);
  }
  assert.deepEqual(readCell('date', date('day'), '2000-02-29', {}), { value: '2000-02-29' });
  assert.equal(code(readCell('date', date('day'), '1900-02-29', {})), 'not-a-date');
  assert.equal(readCell('date', date('day'), '5 March', {}).value, '5 March');
});

test('twin: the days that exist are those the language’s own calendar gives back', () => {
  for (let year = 1896; year <= 2104; year += 4) {
    for (let month = 0; month <= 13; month++) {
      for (const day of [0, 1, 28, 29, 30, 31, 32]) {
        const two = (n: number): string => String(n).padStart(2, '0');
        const typed = `${year}-${two(month)}-${two(day)}`;
        const back = new Date(Date.UTC(year, month - 1, day)).toISOString().slice(0, 10);
        assert.equal(code(readCell('date', date('day'), typed, {})) === undefined, back === typed, typed);
      }
    }
  }
});

test('yes and no, and text as it is', () => {
  assert.deepEqual(readCell('tight', boolean('tight'), 'YES', {}), { value: true });
  assert.deepEqual(readCell('tight', boolean('tight'), '0', {}), { value: false });
  assert.equal(code(readCell('tight', boolean('tight'), 'perhaps', {})), 'not-yes-or-no');
  assert.deepEqual(readCell('note', text('note'), '=1+1', {}), { value: '=1+1' });
});

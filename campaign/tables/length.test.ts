import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import { bareUnit, parseLength } from './length.ts';

const SEED = 20_240_301;

/** Metres to the last bit: what is typed is rounded once. */
const READ: [typed: string, metres: number, unit: string][] = [
  ['10 ft', 3.048, 'ft'],
  ['10ft', 3.048, 'ft'],
  ['10 Feet', 3.048, 'ft'],
  ["10'", 3.048, 'ft'],
  ['10′', 3.048, 'ft'],
  ['9 ft 11 1/2 in', 3.0353, 'ft'],
  ['9 ft 11-1/2 in', 3.0353, 'ft'],
  ['9 ft 11.5 in', 3.0353, 'ft'],
  [`9' 11 1/2"`, 3.0353, 'ft'],
  [`9'11½"`, 3.0353, 'ft'],
  ['9′ 11½″', 3.0353, 'ft'],
  ['9’ 11 ½”', 3.0353, 'ft'],
  [`9' 11 1⁄2''`, 3.0353, 'ft'],
  ['5 ft 9 1/4 in', 1.75895, 'ft'],
  ['9 1/2 ft', 2.8956, 'ft'],
  ['11 1/2 in', 0.2921, 'in'],
  ['1/2 in', 0.0127, 'in'],
  ['¾ in', 0.01905, 'in'],
  ['3.05 m', 3.05, 'm'],
  ['3.05m', 3.05, 'm'],
  ['  3.05\u00a0m ', 3.05, 'm'],
  ['.5 m', 0.5, 'm'],
  ['305 cm', 3.05, 'cm'],
  ['3050 mm', 3.05, 'mm'],
  ['-0.5 ft', -0.1524, 'ft'],
  ['−0.25 m', -0.25, 'm'],
  ['- 2 cm', -0.02, 'cm'],
  ['+2 cm', 0.02, 'cm'],
  ['-0 m', 0, 'm'],
];

for (const [typed, metres, unit] of READ) {
  test(`“${typed}” is ${metres} m`, () => {
    assert.deepEqual(parseLength(typed), { ok: true, metres, unit });
  });
}

const REFUSED: [typed: string, code: string][] = [
  ['', 'not-a-length'],
  ['ten feet', 'not-a-length'],
  ['m', 'not-a-length'],
  ['3', 'no-unit'],
  ['3.05', 'no-unit'],
  ['9 ft 11', 'no-unit'],
  ['10 kg', 'wrong-unit'],
  ['10 km', 'wrong-unit'],
  ['10 s', 'wrong-unit'],
  ['3,05 m', 'decimal-comma'],
  ['1,234.5 m', 'decimal-comma'],
  ['1 234 m', 'decimal-comma'],
  ['3-May', 'date-for-number'],
  ['5. Mrz', 'date-for-number'],
  ['May-05', 'date-for-number'],
  ['2019-03-05', 'date-for-number'],
  ['2019-03-05 00:00:00', 'date-for-number'],
  ['05/03/2019', 'date-for-number'],
  ['03.05.19', 'date-for-number'],
  ['3:05', 'date-for-number'],
  ['9 ft 12 in', 'not-a-length'],
  ['9.5 ft 3 in', 'not-a-length'],
  ['1/0 in', 'not-a-length'],
  ['3-5 m', 'not-a-length'],
  ['3..5 m', 'not-a-length'],
  ['--3 m', 'not-a-length'],
  [`${'9'.repeat(400)} m`, 'not-a-length'],
];

for (const [typed, code] of REFUSED) {
  test(`“${typed.slice(0, 30)}” is refused: ${code}`, () => {
    const read = parseLength(typed);
    assert.equal(read.ok, false);
    assert.equal(read.ok === false && read.code, code);
    assert.equal(read.ok === false && read.found, typed);
  });
}

test('a bare number has the unit it is told, and no other', () => {
  assert.deepEqual(parseLength('10', { unit: 'ft' }), { ok: true, metres: 3.048, unit: 'ft' });
  assert.deepEqual(parseLength('305', { unit: 'cm' }), { ok: true, metres: 3.05, unit: 'cm' });
  assert.deepEqual(parseLength('3.05 m', { unit: 'ft' }), { ok: true, metres: 3.05, unit: 'm' });
});

test('a comma is a decimal mark only where the table writes so, and then a point is not', () => {
  assert.deepEqual(parseLength('3,05 m', { decimal_comma: true }), { ok: true, metres: 3.05, unit: 'm' });
  assert.deepEqual(parseLength('9\' 11,5"', { decimal_comma: true }), {
    ok: true,
    metres: 3.0353,
    unit: 'ft',
  });
  const point = parseLength('3.05 m', { decimal_comma: true });
  assert.equal(point.ok === false && point.code, 'decimal-point');
});

test('twin: feet, inches and metres agree with exact integers to the last bit', () => {
  // The slow way: ten-thousandths of a millimetre as BigInt, decimal digits by hand, one conversion by the language.
  const exact = (tenthOfMicron: bigint): number => {
    const digits = tenthOfMicron.toString().padStart(8, '0');
    return Number(`${digits.slice(0, -7)}.${digits.slice(-7)}`);
  };
  for (let feet = 0; feet <= 120; feet++) {
    for (let eighths = 0; eighths < 96; eighths++) {
      const [inches, rest] = [Math.floor(eighths / 8), eighths % 8];
      const typed = `${feet} ft ${inches}${rest === 0 ? '' : ` ${rest}/8`} in`;
      const read = parseLength(typed);
      // 1/8 in = 3.175 mm = 31,750 tenths of a micron.
      assert.equal(read.ok && read.metres, exact(BigInt(feet * 96 + eighths) * 31_750n), typed);
    }
  }
  for (let cm = 0; cm <= 20_000; cm += 7) {
    const read = parseLength(`${cm} cm`);
    assert.equal(read.ok && read.metres, exact(BigInt(cm) * 100_000n));
  }
});

test(`whatever is typed is answered (seed ${SEED})`, () => {
  const piece = fc.constantFrom(
    '1',
    '9',
    '0',
    '.',
    ',',
    '/',
    ' ',
    '-',
    '−',
    'm',
    'ft',
    'in',
    "'",
    '"',
    '½',
    'kg',
    'May',
    '\n',
  );
  fc.assert(
    fc.property(fc.array(piece, { maxLength: 12 }), fc.boolean(), (pieces, decimal_comma) => {
      const typed = pieces.join('');
      const read = parseLength(typed, { decimal_comma, unit: 'm' });
      if (read.ok) assert.ok(Number.isFinite(read.metres));
      else assert.ok(read.found === typed && read.expected !== '' && read.fix !== '');
    }),
    { seed: SEED, numRuns: 2000 },
  );
});

test('the setting of lengths without a unit is read as the whole campaign reads it, in capitals too', () => {
  assert.deepEqual(['m', ' FT ', 'Cm', 'in', 'metres', '', null, undefined].map(bareUnit), [
    'm',
    'ft',
    'cm',
    null,
    null,
    null,
    null,
    null,
  ]);
});

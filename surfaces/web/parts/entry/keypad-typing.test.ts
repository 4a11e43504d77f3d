import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import {
  completeLength,
  emptied,
  faultWords,
  type PadKey,
  type PadUnit,
  pressKey,
  readTyping,
  type Typing,
} from './keypad-typing.ts';

const SEED = 20_240_611;

function type(keys: readonly PadKey[], unit: PadUnit = 'm'): Typing {
  return keys.reduce<Typing>((typing, key) => pressKey(typing, key), { text: '', unit });
}

test('a length is kept as a person would write it', () => {
  const cases: [PadKey[], PadUnit, string, number][] = [
    [['1', '1', '.', '7'], 'm', '11.7 m', 11.7],
    [['3', '8', 'ft', '4', 'in'], 'm', '38 ft 4 in', 38 * 0.3048 + 4 * 0.0254],
    [['3', '8', 'ft', '4'], 'm', '38 ft 4 in', 38 * 0.3048 + 4 * 0.0254],
    [['9', 'ft', '1', '1', '1/2'], 'ft', '9 ft 11 1/2 in', 9 * 0.3048 + 11.5 * 0.0254],
    [['1/2', 'in'], 'm', '1/2 in', 0.0127],
    [['7', '1/2'], 'in', '7 1/2 in', 7.5 * 0.0254],
    [['.', '5'], 'm', '0.5 m', 0.5],
    [['1', '5'], 'cm', '15 cm', 0.15],
    [['sign', '2', '0', 'cm'], 'm', '-20 cm', -0.2],
    [['2', '0', 'cm', 'sign'], 'm', '-20 cm', -0.2],
    [['1', '0', 'm', 'ft'], 'm', '10 ft', 3.048],
    [['1', '0', '.'], 'm', '10 m', 10],
  ];
  for (const [keys, unit, text, metres] of cases) {
    const typing = type(keys, unit);
    assert.equal(completeLength(typing), text);
    const read = readTyping(typing);
    assert.ok(read?.ok, text);
    assert.ok(Math.abs(read.metres - metres) < 1e-12, text);
  }
});

test('delete takes back a unit, a fraction or a digit at a time, down to nothing', () => {
  let typing = type(['9', 'ft', '1', '1', '1/2', 'in']);
  const seen: string[] = [];
  while (typing.text !== '') {
    typing = pressKey(typing, 'delete');
    seen.push(typing.text);
  }
  assert.deepEqual(seen, ['9 ft 11 1/2', '9 ft 11', '9 ft 1', '9 ft', '9', '']);
});

test('a number that is left, or comes instead, keeps the unit of the one before', () => {
  const feet = type(['1', '0', 'ft']);
  assert.equal(completeLength(pressKey(pressKey(feet, 'delete'), '1')), '101 ft');
  assert.equal(completeLength(pressKey(emptied(feet), '9')), '9 ft');
  assert.equal(completeLength(pressKey(emptied(type(['9', 'in'])), '8')), '8 in');
  assert.equal(completeLength(pressKey(emptied(type(['9'])), '8')), '8 m');
});

test('nothing can be added behind a unit but inches behind feet', () => {
  assert.equal(type(['3', 'm', '5']).text, '3 m');
  assert.equal(type(['3', 'ft', '5']).text, '3 ft 5');
  assert.equal(type(['3', 'ft', '5', 'm']).text, '3 ft 5');
});

test(`whatever is pressed, what is recorded is readable or says what is wrong (seed ${SEED})`, () => {
  const keys = fc.constantFrom<PadKey>(
    '0',
    '1',
    '7',
    '9',
    '.',
    '1/2',
    '1/8',
    'sign',
    'delete',
    'm',
    'cm',
    'ft',
    'in',
  );
  fc.assert(
    fc.property(
      fc.array(keys, { maxLength: 12 }),
      fc.constantFrom<PadUnit>('m', 'cm', 'ft', 'in'),
      (presses, unit) => {
        const typing = type(presses, unit);
        const read = readTyping(typing);
        if (read === null) assert.match(typing.text, /^-?\s*$/);
        else if (read.ok) assert.ok(Number.isFinite(read.metres));
        else assert.ok(read.fix.length > 0);
      },
    ),
    { seed: SEED, numRuns: 2000 },
  );
});

test('a length that cannot be read says what is expected', () => {
  const said = (text: string) => {
    const read = readTyping({ text, unit: 'm' });
    return read === null || read.ok ? null : faultWords(read);
  };
  assert.match(said('abc') ?? '', /^Expected a length with its unit, such as 3\.05 m/);
  assert.match(said('3 ft 14 in') ?? '', /^Expected less than 12 inches/);
  assert.match(said('3 kg') ?? '', /no unit of length/);
  assert.equal(said('1.2'), null);
});

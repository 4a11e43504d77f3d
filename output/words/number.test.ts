import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import { counted, decimalsDrawn, decimalsFor, printed, range, signed, written, yearRange } from './number.ts';

test('decimals show two digits of the uncertainty', () => {
  const cases: [number, number][] = [
    [123, 0],
    [12, 0],
    [9.96, 0], // rounds to 10
    [4.8, 1],
    [0.48, 2],
    [0.0996, 2], // rounds to 0.10
    [0.031, 3],
    [0.0031, 3], // millimetres are the finest
  ];
  for (const [uncertainty, decimals] of cases)
    assert.equal(decimalsFor(uncertainty), decimals, `${uncertainty}`);
  assert.equal(decimalsFor(4.8, 2), 2);
  assert.equal(decimalsFor(0), 3);
  assert.equal(decimalsFor(Number.NaN), 0);
  assert.equal(decimalsFor(null, 2), 2);
  assert.equal(decimalsFor(Number.POSITIVE_INFINITY), 0);
});

test('a drawing shows no less than a centimetre unless the uncertainty would vanish', () => {
  assert.deepEqual([0, 0.004, 0.03, 0.31, 2.5, 45].map(decimalsDrawn), [2, 3, 2, 2, 1, 0]);
});

test('numbers for people: true minus, comma at thousands, never a signed zero', () => {
  assert.equal(printed(-1234567.891, 2), '−1,234,567.89');
  assert.equal(printed(999.999, 2), '1,000.00');
  assert.equal(printed(-0.004, 2), '0.00');
  assert.equal(signed(4.25, 2), '+4.25');
  assert.equal(signed(-4.25, 1), '−4.3');
  assert.equal(signed(0.001, 2), '0.00');
  assert.equal(printed(null, 2), '–');
  assert.equal(printed(Number.NaN, 2), '–');
  assert.equal(range(-0.5, 1.25, 1), '−0.5 to +1.3');
  assert.equal(yearRange(160, -20), '160 to −20');
  assert.equal(yearRange(6381, 6029), '6,381–6,029');
  assert.equal(counted(1, 'hole'), '1 hole');
  assert.equal(counted(1200, 'date'), '1,200 dates');
});

test('numbers for tables are what a machine reads (seed 20260302)', () => {
  assert.equal(written(-1234.5, 2), '-1234.50');
  assert.equal(written(null, 2), '');
  assert.equal(written(Number.POSITIVE_INFINITY, 2), '');
  fc.assert(
    fc.property(
      fc.double({ min: -1e6, max: 1e6, noNaN: true }),
      fc.integer({ min: 0, max: 3 }),
      (value, decimals) => {
        const text = written(value, decimals);
        assert.match(text, /^-?\d+(\.\d+)?$/);
        assert.ok(Math.abs(Number(text) - value) <= 0.5000001 * 10 ** -decimals);
        assert.equal(Number(printed(value, decimals).replace('−', '-').replaceAll(',', '')), Number(text));
        assert.ok(!/^-0(\.0+)?$/.test(text));
      },
    ),
    { seed: 20260302 },
  );
});

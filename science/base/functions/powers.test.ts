import assert from 'node:assert/strict';
import { test } from 'node:test';
import { power, square } from './powers.ts';

test('powers of two are exact to the ends of the number range', () => {
  let doubled = 1;
  let halved = 1;
  for (let k = 0; k <= 1023; k++, doubled *= 2, halved /= 2) {
    assert.equal(power(2, k), doubled);
    assert.equal(power(2, -k), halved);
  }
});

test('powers of ten are the nearest doubles to 10^22', () => {
  for (let k = 0; k <= 22; k++) assert.equal(power(10, k), Number(`1e${k}`));
});

test('a power is the product written out, and 1 over it below 0', () => {
  assert.equal(power(1.1, 3), 1.1 * (1.1 * 1.1));
  assert.equal(power(-3, 5), -243);
  assert.equal(power(3, -2), 1 / 9);
  assert.equal(power(0, 0), 1);
  assert.equal(square(-1.5), 2.25);
  assert.throws(() => power(2, 0.5), RangeError);
});

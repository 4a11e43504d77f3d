import assert from 'node:assert/strict';
import { test } from 'node:test';
import { benchRig } from './index.ts';

test('a reading entered in a hole of 500 in under 5 ms; 100,000 readings in 1,000 holes in under 5 s, in a straight line', () => {
  const measured = benchRig();
  console.log(JSON.stringify(measured));
  assert.equal(measured.findings, 0);
  assert.ok(measured.entered_ms < 5, `${measured.entered_ms} ms`);
  const largest = measured.sizes.at(-1)!;
  assert.ok(largest.readings >= 100_000 && largest.holes === 1000);
  assert.ok(largest.parse_s + largest.fold_s < 5, `${largest.parse_s + largest.fold_s} s`);
  assert.ok(measured.growth < 2, `growth ${measured.growth}`);
});

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { benchDepth } from './index.ts';

test('a depth model of 24 soundings keeps a fifth of its draws different at the top', () => {
  const measured = benchDepth();
  console.log(JSON.stringify(measured));
  const { ancestors, sigma_spread } = measured.find((m) => m.pins === 24)!;
  assert.ok(ancestors > 0.2, `${ancestors}`);
  assert.ok(sigma_spread < 0.02, `${sigma_spread}`);
});

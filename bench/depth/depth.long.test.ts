import assert from 'node:assert/strict';
import { test } from 'node:test';
import { benchDepth } from './index.ts';

test('a depth model of 24 soundings in under 3 ms, a fifth of its draws still different at the top', () => {
  const measured = benchDepth();
  console.log(JSON.stringify(measured));
  const { model_ms, ancestors, sigma_spread } = measured.find((m) => m.pins === 24)!;
  assert.ok(model_ms < 3, `${model_ms} ms`);
  assert.ok(ancestors > 0.2, `${ancestors}`);
  assert.ok(sigma_spread < 0.02, `${sigma_spread}`);
});

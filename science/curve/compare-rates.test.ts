/** Which models of the rate are compared. */
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { isSameRate, ratesToChoose, ratesToCompare, settingsToCompare } from './compare-rates.ts';
import { DEFAULT_CURVE_SETTINGS, SMOOTH_RATE } from './problem/settings.ts';
import type { CurveSettings, RateModel } from './result/result.ts';

const having = (rate_model: RateModel): CurveSettings => ({ ...DEFAULT_CURVE_SETTINGS, rate_model });

test('whichever of the compared models is chosen, the comparison is the same', () => {
  const plain = having(SMOOTH_RATE);
  const compared = ratesToCompare(plain);
  assert.equal(compared.length, 7);
  for (const model of compared) assert.deepEqual(settingsToCompare(having(model)), plain);
});

test('a model of one’s own is chosen from, compared too, and keeps its own sizes', () => {
  const own: RateModel = { ...SMOOTH_RATE, kind: 'stepwise', changes: 3, jump_sd_m: 0.7 };
  assert.deepEqual(settingsToCompare(having(own)), having(own));
  for (const models of [ratesToCompare(having(own)), ratesToChoose(having(own))]) {
    assert.deepEqual(models.at(-1), own);
    assert.equal(models.filter((model) => isSameRate(model, own)).length, 1);
    assert.ok(models.every(({ jump_sd_m }) => jump_sd_m === 0 || jump_sd_m === 0.7));
  }
});
